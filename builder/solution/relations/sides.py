"""What kind of quantity the sides of a relation are."""

from __future__ import annotations

from builder.problem.relations.model import Relation
from builder.quantity.dimension import dimension_of, kind_of


def kind_of_sides(relation: Relation) -> str:
    """The kind of both sides, whose units agree; a pure number if no kind has their unit."""
    return kind_of(dimension_of(relation.left)) or "ratio"
