"""Questions that a lesson gets without its author writing them, beside the self-check's own."""

from builder.lesson.generated.makers import MAKERS, Maker, with_generated

__all__ = ["MAKERS", "Maker", "with_generated"]
