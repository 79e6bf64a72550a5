"""Balanced bridges: two junctions that divide the same voltages in the same ratio.

If the arms of two junctions lead to the same outer junctions and their weights are in
proportion, each potential is the same weighted mean, and an element between the two carries
nothing.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from builder.solution.network.reductions.moves import Balance, Bridge, Join
from builder.solution.network.reductions.state import State

FEW = 3


def balances(state: State) -> Iterator[Balance | Join]:
    """The uses of the first few balanced bridges; where there are more, symmetry does better.

    Args:
        state: in which nothing can be merged, so that two junctions share one piece at most.
    """
    for bridge in islice(bridges(state), FEW):
        if bridge.middle is not None:
            yield Balance(bridge)
        gone = () if bridge.middle is None else (bridge.middle,)
        yield Join((bridge.ends,), gone, "ratio", bridge=bridge)


def bridges(state: State) -> Iterator[Bridge]:
    """All balanced bridges, in the order in which the problem names their junctions."""
    to: dict[str, dict[str, int]] = {
        junction: {state.pieces[id].other(junction): id for id in ids}
        for junction, ids in state.around.items()
    }
    inner = [point for point in state.points if point in to and point not in state.terminals]
    for place, first in enumerate(inner):
        for second in inner[place + 1 :]:
            here = {end: id for end, id in to[first].items() if end != second}
            there = {end: id for end, id in to[second].items() if end != first}
            if len(here) < 2 or here.keys() != there.keys():
                continue
            outer = tuple(point for point in state.points if point in here)
            arms = tuple(here[end] for end in outer), tuple(there[end] for end in outer)
            if _in_proportion(arms, state):
                yield Bridge((first, second), to[first].get(second), outer, arms)


def _in_proportion(arms: tuple[tuple[int, ...], tuple[int, ...]], state: State) -> bool:
    one, other = ([state.pieces[id].weight for id in side] for side in arms)
    return all(
        one[0] * there == other[0] * here for here, there in zip(one[1:], other[1:], strict=True)
    )
