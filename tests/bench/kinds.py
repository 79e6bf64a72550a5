"""How long the unit's own problems take to be solved and taught, kind by kind."""

from __future__ import annotations

import time
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

from builder.lesson import write_lesson
from builder.problem import read_problem
from builder.problem.model import Problem
from builder.solution import solve

PROBLEMS = Path(__file__).parent.parent.parent / "content" / "problems"


def measure_kinds() -> Iterator[str]:
    """Time each of the unit's problems from its file to its lesson; the middle and the slowest."""
    seconds: dict[type[Problem], dict[str, float]] = defaultdict(dict)
    paths = sorted(PROBLEMS.glob("*.yml"))
    # The first file ever read pays for the table of units.
    write_lesson(solve(read_problem(paths[0])))
    for path in paths:
        start = time.perf_counter()
        problem = read_problem(path)
        write_lesson(solve(problem))
        seconds[type(problem)][path.stem] = time.perf_counter() - start
    for kind, times in seconds.items():
        slowest = max(times, key=lambda slug: times[slug])
        middle = sorted(times.values())[len(times) // 2]
        name = kind.__name__.removesuffix("Problem").lower()
        yield (
            f"{name}: {len(times)} of the unit's problems from file to lesson, {middle * 1000:.0f} "
            f"ms each (median), the slowest {times[slowest] * 1000:.0f} ms ({slowest})"
        )
