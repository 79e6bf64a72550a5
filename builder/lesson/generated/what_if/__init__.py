"""What if something were changed: would a quantity become larger or smaller, or stay the same?"""

from builder.lesson.generated.what_if.asking import what_if_of

__all__ = ["what_if_of"]
