"""What a problem of relations makes use of, for the reference pages."""

from __future__ import annotations

from builder.problem.relations.model import RelationsProblem


def uses(problem: RelationsProblem) -> frozenset[str]:
    """Words for all that occurs in a problem.

    ``relations``, the kinds of quantity, and of plates ``plates``, ``filling`` and ``strength``.
    """
    kinds = {stated.name.quantity for stated in problem.quantities}
    asked = {f"asked-{name.quantity}" for name in problem.find}
    plates = problem.plates
    about = set() if plates is None else {"plates", "capacitor"}
    if plates is not None and plates.arrangement not in ("empty", "metal"):
        about.add("filling")
        about |= {"strength"} if any(part.strength for part in plates.parts) else set()
    return frozenset({"relations", *kinds, *asked, *about})
