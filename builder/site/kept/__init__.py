"""Finished parts of problem pages: made by all processors, and kept for the next build."""

from builder.site.kept.pages import KeptPages
from builder.site.kept.store import Store

__all__ = ["KeptPages", "Store"]
