"""What must hold of the results: both sides of every relation come to the same."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from builder.problem.relations.model import Relation
from builder.quantity.exact import Exact
from builder.quantity.formula import evaluate
from builder.quantity.names import Name
from builder.quantity.symbolic import same
from builder.solution.check import Check


class RelationCheckKind(StrEnum):
    """What a check is about."""

    RELATION = "relation"
    """Both sides of a relation with the results put in."""


@dataclass(frozen=True)
class RelationCheck(Check):
    """A relation with the results put in.

    Attributes:
        of: the relation.
    """

    of: Relation

    def holds(self, values: Mapping[Name, Exact]) -> bool:
        """Whether both sides come to the same, by algebra where they are no rationals."""
        return same(evaluate(self.left, values), evaluate(self.right, values))


def checks_of(relations: tuple[Relation, ...]) -> tuple[RelationCheck, ...]:
    """A check for each relation."""
    return tuple(
        RelationCheck(RelationCheckKind.RELATION, (r.written,), r.left, "=", r.right, r)
        for r in relations
    )
