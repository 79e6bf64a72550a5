"""Pieces that carry nothing: what hangs at one junction only, and what begins where it ends.

A piece carries something only if it lies on a way from + to − that passes no junction twice: if
it belongs to the block of an extra piece straight from + to −. Blocks are found by one search in
depth (Hopcroft and Tarjan, Communications of the ACM 16, 372, 1973, from memory).
"""

from __future__ import annotations

from builder.solution.network.reductions.moves import Drop
from builder.solution.network.reductions.state import State

EXTRA = -1
"""The id of the extra piece."""


def idle(state: State) -> Drop | None:
    """The pieces that no flow can reach and leave again, if there are any."""
    loops = tuple(id for id, piece in state.pieces.items() if piece.ends[0] == piece.ends[1])
    if loops:
        return Drop(loops, "loop")
    found, live = _search(state)
    loose = tuple(
        id
        for id, piece in sorted(state.pieces.items())
        if piece.ends[0] not in found or max(piece.ends, key=found.__getitem__) not in live
    )
    return Drop(loose, "loose") if loose else None


def _search(state: State) -> tuple[dict[str, int], set[str]]:
    """When each junction is found from +, and which are found by a piece of the wanted block.

    The extra piece is gone along first. A piece to a junction further on is of the same block as
    the one before it if from there on a way leads back to before that one.
    """
    plus, minus = state.terminals
    around = state.around
    found, lowest = {plus: 0, minus: 1}, {plus: 0, minus: 0}
    by, order = {plus: EXTRA, minus: EXTRA}, [plus, minus]
    before = {minus: plus}
    for start in (minus, plus):
        way = [(start, iter(around.get(start, ())))]
        while way:
            here, pieces = way[-1]
            id = next(pieces, None)
            if id is None:
                way.pop()
                if way:
                    last = way[-1][0]
                    lowest[last] = min(lowest[last], lowest[here])
                continue
            there = state.pieces[id].other(here)
            if there not in found:
                found[there] = lowest[there] = len(found)
                by[there], before[there] = id, here
                order.append(there)
                way.append((there, iter(around[there])))
            elif id != by[here]:
                lowest[here] = min(lowest[here], found[there])
    live = {plus, minus}
    for junction in order[2:]:
        last = before[junction]
        if last in live and last != plus and lowest[junction] < found[last]:
            live.add(junction)
    return found, live
