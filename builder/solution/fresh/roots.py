"""Where a value that is carried from quantity to quantity comes from."""

from __future__ import annotations

from collections.abc import Iterable

from builder.quantity.formula import Ref
from builder.quantity.names import Name
from builder.solution.solution import Solution


def roots_of(solution: Solution, names: Iterable[Name]) -> frozenset[Name]:
    """The quantities that these have their values from: what is computed, or given."""
    lines = {line.name: line.formula for step in solution.every_step for line in step.lines}

    def root(name: Name) -> Name:
        formula = lines.get(name)
        return root(formula.name) if isinstance(formula, Ref) else name

    return frozenset(map(root, names))
