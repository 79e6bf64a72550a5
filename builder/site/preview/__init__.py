"""A preview: what is wrong is shown in place of what it spoils, and the rest is built."""

from builder.site.preview.panels import FaultPages
from builder.site.preview.reading import Preview

__all__ = ["FaultPages", "Preview"]
