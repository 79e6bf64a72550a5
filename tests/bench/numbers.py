"""How fast other numbers are found: in floating point, and confirmed exactly."""

from __future__ import annotations

import statistics
import time
from collections.abc import Iterator
from pathlib import Path

from builder.problem import read_problem, read_problem_text
from builder.quantity.symbolic import is_symbolic
from builder.solution import Solution, solve
from builder.solution.fresh import MOST_SETS, fresh_solutions
from builder.solution.fresh.best import best_numbers, hunt_for
from builder.solution.fresh.grid import grid_of
from builder.solution.fresh.pool import pool_of
from builder.solution.fresh.wanted import wanted_of

FIVE = (
    "title: Five resistors\ncircuit:\n  source: {V0: 9 V}\n  series: [R1: 100 ohm, parallel: "
    "[R2: 220 ohm, series: [R3: 150 ohm, R4: 330 ohm]], R5: 470 ohm]\n"
    "find: [equivalent, current: all, voltage: all]\n"
    "vary: {R1: E12, R2: E12, R3: E12, R4: E12, R5: E12, V0: 5 V to 14 V step 1 V}\n"
)


def measure_numbers() -> Iterator[str]:
    """Processor time for the sets of each page of the unit, and for two million sets."""
    searches: list[float] = []
    confirming: list[float] = []
    for path in sorted(Path("content/problems").glob("*.yml")):
        solution = solve(read_problem(path))
        if any(map(is_symbolic, solution.values.values())):
            continue
        searches.append(_search(solution))
        start = time.process_time()
        found = sum(1 for _ in fresh_solutions(solution))
        took = time.process_time() - start - searches[-1]
        confirming.append(1000 * took / max(1, found))
    yield (
        f"other numbers for {len(searches)} problems: the search takes "
        f"{1000 * statistics.median(searches):.0f} ms (at most {1000 * max(searches):.0f}), each "
        f"exact solution {statistics.median(confirming):.0f} ms (at most {max(confirming):.0f})"
    )
    solution = solve(read_problem_text(FIVE, "five.yml"))
    hunt = hunt_for(solution, wanted_of(solution.problem))
    start = time.process_time()
    catch = best_numbers(hunt, best=10)
    yield (
        f"the best of {catch.looked} sets of values: {time.process_time() - start:.2f} s, "
        f"{catch.seemed} of them clean"
    )


def _search(solution: Solution) -> float:
    """The seconds that it takes to find the sets of a page, before they are solved."""
    start = time.process_time()
    wanted = wanted_of(solution.problem)
    pool_of(solution, grid_of(solution.problem, wanted.choices), wanted, MOST_SETS)
    return time.process_time() - start
