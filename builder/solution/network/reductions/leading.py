"""Moves that find nothing themselves, and that later ones cannot do without."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from builder.quantity.names import Name
from builder.solution.network.step import NetworkMove, NetworkStep

TO_EQUIVALENT = frozenset({
    NetworkMove.MERGE, NetworkMove.DROP, NetworkMove.BALANCE, NetworkMove.JOIN,
    NetworkMove.STAR, NetworkMove.TRIANGLE,
})  # fmt: skip
"""The moves from a network to one element."""


def leading_moves(steps: Sequence[NetworkStep], needed: Collection[Name]) -> frozenset[str]:
    """The ids of the moves to the equivalent that come before one of which a line is needed.

    A junction that is joined, or an element that is taken out, changes what is merged afterwards.

    Args:
        steps: all of them, in order.
        needed: the quantities without which what is asked cannot be computed.
    """
    places = [
        place
        for place, step in enumerate(steps)
        if step.kind in TO_EQUIVALENT and any(name in needed for name in step.found)
    ]
    last = max(places, default=-1)
    return frozenset(step.id for step in steps[: last + 1] if step.kind in TO_EQUIVALENT)
