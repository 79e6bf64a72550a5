"""Small mends of the theme's markup where it leaves people out.

Each is one attribute in a partial of the theme. Overriding the partial would mean to copy it whole
and to keep the copy up with the theme; a mend that no longer fits is noticed by a test.
"""

from __future__ import annotations

import re
from html import escape

MENDS = (
    # A dialog without a name is announced as nothing but "dialog".
    (
        'data-md-component="search" role="dialog"',
        'data-md-component="search" role="dialog" aria-label="Search"',
    ),
    # What can have the focus must say what it is.
    (
        'class="md-search__scrollwrap" tabindex="0"',
        'class="md-search__scrollwrap" tabindex="0" role="region" aria-label="Search results"',
    ),
)
"""What the theme writes, and what stands there instead."""


_TITLE = re.compile(r"<title>([^\n]*)</title>(?=\n)")
"""The theme takes the tags out of a title and then writes it as it stands, so that what was
written as characters would be markup again: all of the line is the title."""


def mended(html: str) -> str:
    """A page with the theme's markup mended."""
    for found, instead in MENDS:
        html = html.replace(found, instead, 1)
    return _TITLE.sub(lambda title: f"<title>{escape(title[1], quote=False)}</title>", html, 1)
