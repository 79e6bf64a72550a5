"""Fresh numbers: a problem's page with other values, without being built again."""

from builder.site.fresh.renumbering import FreshPage
from builder.site.fresh.sets import FreshLesson, fresh_lessons

__all__ = ["FreshLesson", "FreshPage", "fresh_lessons"]
