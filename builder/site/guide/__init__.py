"""The guide as part of a site: for students, for authors, and for whoever publishes.

Its Markdown lies in ``text``. Each problem in it stands as YAML, and what comes of it is made from
that very text when the site is built.
"""

from builder.site.guide.pages import AUDIENCES, Guide

__all__ = ["AUDIENCES", "Guide"]
