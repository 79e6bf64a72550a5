"""What comes out of a solution when something in its problem is altered."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from builder.errors import StepwellError
from builder.lesson.relations.display import RelationsDisplay
from builder.problem.relations.model import Relation
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.program import run
from builder.solution.relations.walk import walk


def values_with(display: RelationsDisplay, other: Mapping[Name, Exact]) -> dict[Name, Exact]:
    """All values if some givens were others; empty if that leads to nothing."""
    solution = display.solution
    known = {s.name: s.value for s in solution.problem.quantities if s.known}
    try:
        return run(solution.every_step, {**known, **other})
    except (ValueError, ZeroDivisionError):
        return {}


def values_by(
    display: RelationsDisplay, alter: Callable[[Relation], Relation]
) -> dict[Name, Exact]:
    """All values if the relations were others; empty if those have no single solution."""
    problem = display.solution.problem
    try:
        return walk(replace(problem, relations=tuple(map(alter, problem.relations)))).known
    except StepwellError:
        return {}
