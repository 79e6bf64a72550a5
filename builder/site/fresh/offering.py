"""Which sets a problem's page offers: those that fit it, as many as are not too heavy together."""

from __future__ import annotations

from collections.abc import Iterable

from builder.lesson import Lesson
from builder.problem.model import Unit
from builder.site.fresh.sets import FreshLesson, Sets, sets_of, solutions_for
from builder.site.fresh.weighing import light_enough
from builder.site.page import ProblemPage
from builder.solution import Solution


def fresh_lessons(lesson: Lesson, unit: Unit) -> tuple[FreshLesson, ...]:
    """The sets that a problem's page offers, in order.

    Args:
        lesson: the problem as it is written.
        unit: the unit that it belongs to.

    Returns:
        At most ``sets.MOST_SETS``; none where no other values fit.
    """
    return offered(ProblemPage(lesson, unit, lesson.solution.problem.slug)).lessons


def offered(page: ProblemPage, solutions: Iterable[Solution] | None = None) -> Sets:
    """The sets of a page, with what each changes.

    Args:
        page: as it is written.
        solutions: the same problem with other values; by default those found for it.
    """
    found = solutions_for(page.lesson) if solutions is None else solutions
    return light_enough(sets_of(page, found))
