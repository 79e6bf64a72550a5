"""Other numbers for a solved problem, best first."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from builder.quantity.symbolic import is_symbolic
from builder.solution.fresh.confirming import confirmed
from builder.solution.fresh.exchanging import same_exchange
from builder.solution.fresh.grid import grid_of
from builder.solution.fresh.pool import pool_of
from builder.solution.fresh.wanted import Wanted, wanted_of
from builder.solution.solution import Solution
from builder.solution.spelled import spelled_results

MOST_SETS = 24
_TRIES_FOR_EACH = 4
"""So many sets are solved exactly at most for each that is wanted."""


def fresh_solutions(
    solution: Solution,
    *,
    most: int = MOST_SETS,
    tells: Callable[[Solution], bool] | None = None,
) -> Iterator[Solution]:
    """The same problem with other numbers, solved by the same moves; the best ones first.

    Best is what is as clean as the problem's own numbers: answers first, then all numbers of its
    steps. Of these the stream takes what differs most from what came before. Each set is solved
    exactly by both methods before it is handed out. The same problem gets the same stream always.
    It is empty where an own text of the author tells a result and no ``vary:`` says that it may.

    Args:
        solution: with the problem's own values.
        most: after how many the stream ends at the latest.
        tells: what else a set has to be good for, such as wrong rules that have to lead to
            numbers of their own; None if nothing.

    Raises:
        Disagreement: if the two methods differ in any quantity of a set.
        CheckFailed: if a check does not hold of a set.
    """
    if solution.problem.vary is None and spelled_results(solution):
        return
    yield from solutions_with(solution, wanted_of(solution.problem, tells), most=most)


def solutions_with(solution: Solution, wanted: Wanted, *, most: int) -> Iterator[Solution]:
    """The same stream for other wishes than the author's; see ``fresh_solutions``."""
    if any(map(is_symbolic, solution.values.values())):
        return
    grid = grid_of(solution.problem, wanted.choices)
    if not grid.axes:
        return
    pool = pool_of(solution, grid, wanted, most)
    if pool is None:
        return
    variety = pool.variety(solution)
    tries = _TRIES_FOR_EACH * most
    alike = same_exchange(solution)
    while most and tries and (row := variety.best()) is not None:
        places = pool.places[row - 1]
        if not alike(grid.exact(places)):
            variety.leave(row)
            continue
        tries -= 1
        other = confirmed(solution, grid.typed(places), pool.digits_of(row - 1), wanted)
        if other is None:
            variety.leave(row)
        else:
            variety.take(row)
            most -= 1
            yield other
