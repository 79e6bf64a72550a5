"""What is odd about a problem: allowed, and hardly what its author meant.

Each module finds oddities of one sort; a finder is a function of a ``Look``, and ``FINDERS`` lists
them all.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from builder.errors import Oddity
from builder.lesson.odd.asked import asked_though_given, asked_twice
from builder.lesson.odd.looking import Look
from builder.lesson.odd.magnitudes import far_apart, far_from_usual
from builder.lesson.odd.meeting import met_by_mistakes
from builder.lesson.odd.own_questions import (
    alike_options,
    answers_given_away,
    longest_is_right,
    repeated_questions,
)
from builder.lesson.odd.spelled_out import spelled_out
from builder.lesson.odd.unused import unused_quantities
from builder.solution import Solution

Finder = Callable[[Look], Iterable[Oddity]]

FINDERS: tuple[Finder, ...] = (
    far_from_usual,
    far_apart,
    spelled_out,
    asked_twice,
    asked_though_given,
    unused_quantities,
    met_by_mistakes,
    alike_options,
    longest_is_right,
    answers_given_away,
    repeated_questions,
)
"""Everything that can be odd about one problem."""

__all__ = ["FINDERS", "Finder", "Look", "odd_about"]


def odd_about(solution: Solution) -> tuple[Oddity, ...]:
    """What is odd about a solved problem, in the order of its file; nothing without a file."""
    if not solution.problem.text:
        return ()
    look = Look(solution)
    return tuple(sorted(oddity for find in FINDERS for oddity in find(look)))
