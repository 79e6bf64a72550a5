"""The moves from what is given to what is asked."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from builder.problem.relations.model import Relation, RelationsProblem
from builder.quantity.names import Name
from builder.solution.program import Step


class RelationMove(StrEnum):
    """The moves of a solution."""

    GIVES = "gives"
    """A relation tells the unknown outright."""
    REARRANGE = "rearrange"
    """A relation with one unknown left is solved for it."""
    QUADRATIC = "quadratic"
    """A relation in which the unknown and its square occur."""
    TOGETHER = "together"
    """Linear relations that share their unknowns are solved together."""
    POWERS = "powers"
    """Relations of products and powers are solved together by multiplying and dividing them."""
    SUBSTITUTE = "substitute"
    """One relation is put into another, until one unknown is left."""


def step_id(name: Name, problem: RelationsProblem) -> str:
    """What an author calls the step that finds a quantity: ``find-C``, ``find-charge-C2``."""
    alone = sum(1 for stated in problem.quantities if stated.name.of == name.of) == 1
    return f"find-{name.of}" if alone else f"find-{name.quantity}-{name.of}"


@dataclass(frozen=True)
class Choice:
    """How one of two values was chosen.

    Attributes:
        name: what was chosen.
        both: the names of the two values where both are computed; empty for a root of either sign.
        why: ``only-positive`` if the other cannot be, ``sign`` if the sign of the other only
            tells a direction, ``larger`` or ``smaller`` if the author chose.
    """

    name: Name
    both: tuple[Name, ...]
    why: str


@dataclass(frozen=True)
class RelationStep(Step):
    """One move.

    Attributes:
        relations: the relations that are used.
        undone: how the unknown came to stand alone.
        choice: how one of two values was chosen, if there were two.
        solved_for: the unknowns of the move.
    """

    relations: tuple[Relation, ...]
    undone: tuple[str, ...] = ()
    choice: Choice | None = None
    solved_for: tuple[Name, ...] = field(default=(), kw_only=True)
