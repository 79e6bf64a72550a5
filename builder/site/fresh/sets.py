"""The sets of other values that a problem's page can be given."""

from __future__ import annotations

from dataclasses import dataclass

from builder.lesson import Lesson
from builder.problem.model import Unit

MOST_SETS = 24


@dataclass(frozen=True)
class FreshLesson:
    """A problem with other values, solved and taught anew.

    Attributes:
        number: of the set, from 1 on; 0 is the problem as it is written.
        lesson: the lesson with these values.
    """

    number: int
    lesson: Lesson


def fresh_lessons(lesson: Lesson, unit: Unit) -> tuple[FreshLesson, ...]:
    """The sets that a problem's page offers, in order.

    Args:
        lesson: the problem as it is written.
        unit: the unit that it belongs to.

    Returns:
        At most ``MOST_SETS``; none where no other values fit.
    """
    return ()
