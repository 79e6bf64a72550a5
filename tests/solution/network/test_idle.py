"""Pieces that carry nothing, against the blocks that the graph library finds."""

from __future__ import annotations

import networkx
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy import QQ

from builder.solution.network.reductions.idle import idle
from builder.solution.network.reductions.state import Piece, State

MOST_JUNCTIONS = 9
ENDS = st.tuples(st.integers(0, MOST_JUNCTIONS - 1), st.integers(0, MOST_JUNCTIONS - 1))


def _state(pairs: list[tuple[int, int]]) -> State:
    pieces = {id: Piece((str(a), str(b)), QQ(1)) for id, (a, b) in enumerate(pairs)}
    return State(pieces, ("0", "1"), len(pieces), tuple(map(str, range(MOST_JUNCTIONS))))


@settings(max_examples=500)
@given(st.lists(ENDS.filter(lambda ends: ends[0] != ends[1]), max_size=16))
def test_what_lies_in_no_block_with_both_terminals_is_loose(pairs: list[tuple[int, int]]) -> None:
    """500 networks, connected or not: pieces outside the block of a piece from + to − are told."""
    graph = networkx.Graph([*pairs, (0, 1)])
    block = next(one for one in networkx.biconnected_components(graph) if {0, 1} <= one)
    loose = tuple(id for id, ends in enumerate(pairs) if not set(ends) <= block)
    drop = idle(_state(pairs))
    assert (drop.gone if drop else ()) == loose


def test_pieces_that_end_where_they_begin_are_told_first() -> None:
    """They are loops; what hangs loose comes after them."""
    state = _state([(0, 1), (1, 1), (1, 2)])
    loops = idle(state)
    assert loops is not None
    assert (loops.gone, loops.because) == ((1,), "loop")
    loose = idle(loops.apply(state))
    assert loose is not None
    assert (loose.gone, loose.because) == ((2,), "loose")
    assert idle(loose.apply(loops.apply(state))) is None
