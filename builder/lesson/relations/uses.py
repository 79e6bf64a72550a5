"""What a problem of relations makes use of, for the reference pages."""

from __future__ import annotations

from builder.problem.relations.model import RelationsProblem


def uses(problem: RelationsProblem) -> frozenset[str]:
    """Words for all that occurs in a problem: ``relations``, and the kinds of quantity."""
    kinds = {stated.name.quantity for stated in problem.quantities}
    asked = {f"asked-{name.quantity}" for name in problem.find}
    return frozenset({"relations", *kinds, *asked})
