"""Quantities that a problem states and that none of its relations speaks of."""

from __future__ import annotations

from collections.abc import Iterator

from builder.errors import Oddity
from builder.lesson.odd.looking import Look
from builder.problem.relations.model import RelationsProblem
from builder.quantity.formula import names_in

UNUSED_QUANTITY = "unused-quantity"


def unused_quantities(look: Look) -> Iterator[Oddity]:
    """Each quantity that stands in no relation, so that nothing can hang on it."""
    problem = look.problem
    if not isinstance(problem, RelationsProblem) or problem.plates is not None:
        return
    used = {
        name
        for relation in problem.relations
        for side in (relation.left, relation.right)
        for name in names_in(side)
    }
    for stated in problem.quantities:
        if stated.name not in used and not stated.source:
            seen = f"{stated.name.of} stands in no relation."
            yield look.oddity(stated.at, UNUSED_QUANTITY, seen, "Write it into one, or delete it.")
