"""Fresh numbers: a problem's page with other values, without being built again."""

from builder.site.fresh.offering import fresh_lessons
from builder.site.fresh.renumbering import FreshPage
from builder.site.fresh.sets import FreshLesson

__all__ = ["FreshLesson", "FreshPage", "fresh_lessons"]
