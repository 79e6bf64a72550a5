"""The best numbers for a problem out of every combination of its choices."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from builder.quantity.clean import UNCLEAN, digits_of
from builder.quantity.names import Name
from builder.solution.fresh.confirming import confirmed
from builder.solution.fresh.course import Course, course_of, never_clean, numbers_of
from builder.solution.fresh.exchanging import same_exchange
from builder.solution.fresh.grid import Grid, Places, grid_of
from builder.solution.fresh.growing import Growing
from builder.solution.fresh.roots import roots_of
from builder.solution.fresh.sieve import Mesh, Sifted
from builder.solution.fresh.wanted import Wanted, asked_of
from builder.solution.solution import Solution

_BASE = 1 << 16


@dataclass(frozen=True)
class Numbers:
    """A set of values that was solved exactly by both methods.

    Attributes:
        solution: with these values.
        varied: the values that vary, those that follow others included.
        digits: how many significant digits tell each number of the steps whole.
        worst: how many the worst of those needs that can be clean.
    """

    solution: Solution
    varied: frozenset[Name]
    digits: Mapping[Name, int]
    worst: int


@dataclass(frozen=True)
class Hunt:
    """What has to be looked through for one problem.

    Attributes:
        first: the solution with the problem's own values.
        wanted: what other values have to keep to.
        grid: all sets of values.
        course: what is computed, and has to hold.
        limits: how many digits may tell each number of the steps; ``UNCLEAN`` where none can.
    """

    first: Solution
    wanted: Wanted
    grid: Grid
    course: Course
    limits: Mapping[Name, int]

    @property
    def unclean(self) -> tuple[Name, ...]:
        """The numbers that no values make clean, such as those with an exponential."""
        return tuple(name for name, limit in self.limits.items() if limit == UNCLEAN)


@dataclass(frozen=True)
class Catch:
    """What was found.

    Attributes:
        numbers: the best sets, best first, each confirmed.
        looked: how many sets were looked at.
        seemed: how many of them seemed good in floating point.
    """

    numbers: tuple[Numbers, ...]
    looked: int
    seemed: int


def hunt_for(solution: Solution, wanted: Wanted) -> Hunt:
    """What has to be looked through for a solved problem.

    Args:
        solution: with the problem's own values, which are numbers.
        wanted: what other values have to keep to; ``digits`` is the most that a number may need.
    """
    grid = grid_of(solution.problem, wanted.choices)
    never = never_clean(solution, grid)
    limits = {
        name: UNCLEAN
        if name in never and digits_of(solution.values[name]) == UNCLEAN
        else wanted.digits
        for name in numbers_of(solution)
    }
    return Hunt(solution, wanted, grid, course_of(solution, grid, wanted), limits)


def best_numbers(hunt: Hunt, *, best: int, seen: Callable[[int], None] = lambda _: None) -> Catch:
    """The best sets of values: those whose worst number needs the fewest digits come first.

    Among these come first those with few digits in the answers, then in all numbers of the
    steps, then smaller values. Each is solved exactly by both methods.

    Args:
        hunt: what is looked through, whole.
        best: how many sets are wanted at most.
        seen: is told how many more sets were looked at, now and then.

    Raises:
        Disagreement: if the two methods differ in any quantity of a set.
        CheckFailed: if a check does not hold of a set.
    """
    room = 100 + 40 * best
    seemed = 0
    kept = np.empty((0, len(hunt.grid.axes)), np.int16)
    ranks = np.empty(0, np.int64)
    for found in Growing(hunt.grid, hunt.course, Mesh(hunt.limits), seen=seen).found():
        seemed += found.count
        kept = np.concatenate([kept, found.places])
        ranks = np.concatenate([ranks, _ranks(found, hunt)])
        rows = np.lexsort((hunt.grid.positions(kept), ranks))[:room]
        kept, ranks = kept[rows], ranks[rows]
    alike = same_exchange(hunt.first)
    hopeful = (row for row in kept if alike(hunt.grid.exact(row)))
    sure = (one for row in hopeful if (one := _confirmed(hunt, row)))
    return Catch(tuple(islice(sure, best)), hunt.grid.size, seemed)


def _ranks(found: Sifted, hunt: Hunt) -> NDArray[np.int64]:
    """One number for each set, smaller being better."""
    worst, answers, all_digits = np.zeros((3, found.count), np.int64)
    roots = roots_of(hunt.first, asked_of(hunt.first))
    for name, digits in found.digits.items():
        if hunt.limits[name] < UNCLEAN:
            worst = np.maximum(worst, digits)
        if name in roots:
            answers += digits
        all_digits += digits
    return np.asarray((worst * _BASE + answers) * _BASE + all_digits)


def _confirmed(hunt: Hunt, row: Places) -> Numbers | None:
    typed = hunt.grid.typed(row)
    other = confirmed(hunt.first, typed, {}, hunt.wanted)
    if other is None:
        return None
    digits = {name: digits_of(other.values[name]) for name in hunt.limits}
    counted = [count for name, count in digits.items() if hunt.limits[name] < UNCLEAN]
    worst = max(counted, default=1)
    return Numbers(other, hunt.grid.varied, digits, worst) if worst <= hunt.wanted.digits else None
