"""Which pieces can be merged."""

from __future__ import annotations

from builder.circuit.law import PARALLEL, SERIES
from builder.solution.network.reductions.moves import Group, Merge
from builder.solution.network.reductions.state import Around, State


def next_merge(state: State, together: str = "") -> Merge | None:
    """The merge to do next: parallel before series, the problem's first elements first.

    Groups that are alike go together: as many members of the same values in the same connection.

    Args:
        state: without pieces that carry nothing.
        together: the connection of which all groups go together, alike or not.
    """
    connection = PARALLEL
    found = sorted(parallel_groups(state), key=lambda group: group.members)
    if not found:
        connection = SERIES
        found = sorted(_closing(series_groups(state), state), key=lambda g: min(g.members))
    if not found:
        return None
    if connection == together:
        return _numbered(found, state)
    first = _weights(found[0], state)
    return _numbered([group for group in found if _weights(group, state) == first], state)


def _closing(chains: list[Group], state: State) -> list[Group]:
    """Of chains those that will lie beside something once they are merged, if there are any.

    The others may grow: to merge them first would take two moves in place of one.
    """
    pairs = [frozenset(piece.ends) for piece in state.pieces.values()]
    pairs += [frozenset(chain.ends) for chain in chains]
    return [chain for chain in chains if pairs.count(frozenset(chain.ends)) > 1] or chains


def _weights(group: Group, state: State) -> dict[object, int]:
    counts: dict[object, int] = {}
    for member in group.members:
        weight = state.pieces[member].weight
        counts[weight] = counts.get(weight, 0) + 1
    return counts


def _numbered(found: list[Group], state: State) -> Merge:
    return Merge(
        tuple(
            Group(state.fresh + number, group.connection, group.members, group.ends, group.inner)
            for number, group in enumerate(found)
        )
    )


def parallel_groups(state: State) -> list[Group]:
    """Pieces that share both junctions; the equivalents have no ids yet."""
    between: dict[frozenset[str], list[int]] = {}
    for id, piece in state.pieces.items():
        between.setdefault(frozenset(piece.ends), []).append(id)
    return [
        Group(-1, PARALLEL, tuple(sorted(ids)), state.pieces[min(ids)].ends)
        for ids in between.values()
        if len(ids) > 1
    ]


def series_groups(state: State) -> list[Group]:
    """Whole chains of pieces with nothing else at the junctions between them."""
    around = state.around
    middles = [
        junction
        for junction, ids in around.items()
        if len(ids) == 2 and ids[0] != ids[1] and junction not in state.terminals
    ]
    waiting = dict.fromkeys(middles)
    chains = []
    while waiting:
        start = next(iter(waiting))
        chain = _chain_through(start, state, around, waiting)
        chains.append(chain)
    return chains


def _chain_through(middle: str, state: State, around: Around, waiting: dict[str, None]) -> Group:
    del waiting[middle]
    first, second = around[middle]
    members, inner = [first, second], [middle]
    ends = [state.pieces[first].other(middle), state.pieces[second].other(middle)]
    for side in (0, -1):
        while ends[side] in waiting:
            junction = ends[side]
            del waiting[junction]
            one, two = around[junction]
            step = two if one == members[side] else one
            place = 0 if side == 0 else len(members)
            members.insert(place, step)
            inner.insert(0 if side == 0 else len(inner), junction)
            ends[side] = state.pieces[step].other(junction)
    return Group(-1, SERIES, tuple(members), (ends[0], ends[1]), tuple(inner))
