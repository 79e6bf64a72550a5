"""Any number of distinct problems of all the kinds that the unit has, each with its own numbers."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from itertools import cycle, islice
from pathlib import Path

import numpy as np

from builder.problem import read_problem
from builder.problem.fresh import rewritten, stated_values, with_followers
from builder.problem.model import Problem
from builder.quantity.symbolic import is_symbolic
from builder.solution import solve
from builder.solution.fresh.grid import grid_of
from builder.solution.fresh.pool import generator_for, pool_of
from builder.solution.fresh.stream import MOST_SETS
from builder.solution.fresh.wanted import wanted_of

CONTENT = Path(__file__).parent.parent.parent / "content"
_TITLE = re.compile(r"^title:.*$", re.MULTILINE)


def distinct_problems(count: int) -> dict[str, str]:
    """The texts of distinct problems by their slugs: the unit's own in turn, with other numbers.

    A problem without numbers, or with few that it can have, comes again under another name.
    """
    streams = [_texts_of(path) for path in sorted((CONTENT / "problems").glob("*.yml"))]
    found = dict(islice((next(stream) for stream in cycle(streams)), count))
    assert len(found) == len(set(found.values())) == count
    return found


def unit_text() -> str:
    """The text of ``unit.yml`` for such problems: the unit's own without its path."""
    whole = (CONTENT / "unit.yml").read_text(encoding="utf-8")
    return re.sub(r"^path:.*\n(?:[ #-].*\n)*", "", whole, flags=re.MULTILINE)


def _texts_of(path: Path) -> Iterator[tuple[str, str]]:
    """Endlessly many texts like that of a file, each with its slug."""
    problem = read_problem(path)
    for number, text in enumerate(cycle([problem.text, *_with_others(problem)]), start=1):
        yield f"{problem.slug}-{number}", _retitled(text, f"{problem.title}, bench {number}")


def _retitled(text: str, title: str) -> str:
    return _TITLE.sub(lambda _: f"title: {json.dumps(title, ensure_ascii=False)}", text, count=1)


def _with_others(problem: Problem) -> Iterator[str]:
    """The text of a problem with each set of other numbers that it can have."""
    solution = solve(problem)
    if any(map(is_symbolic, solution.values.values())):
        return
    wanted = wanted_of(problem)
    grid = grid_of(problem, wanted.choices)
    pool = pool_of(solution, grid, wanted, MOST_SETS) if grid.axes else None
    if pool is None:
        return
    stated = stated_values(problem)
    for row in generator_for(problem).permutation(np.unique(pool.places, axis=0)):
        yield rewritten(problem.text, stated, with_followers(problem, grid.typed(row)))
