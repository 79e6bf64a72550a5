"""Independent loops of a network: the windows of its drawing, or else those of a tree."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from builder.solution.network.chains import Branches, Chain

Way = tuple[tuple[Chain, bool], ...]
"""Chains in a row, each with whether it is passed from its start to its end."""


def independent_loops(branches: Branches) -> tuple[Way, ...]:
    """As many loops as are needed, through all chains without current sources.

    In a planar network they are the windows between the branches, all gone round the same way,
    so that two neighbours pass what they share against each other.

    Args:
        branches: of a network that is connected without its current sources.

    Returns:
        In the order of the first part that each passes; turned so that the first voltage source
        is passed from − to +.
    """
    chains = [chain for chain in branches.chains if branches.driver(chain) is None]
    if not chains:
        return ()
    found = _windows(chains)
    if found is None:
        found = _tree_loops(chains)
    if _first_source_is_passed_down(branches, found):
        found = [tuple((chain, not forward) for chain, forward in reversed(way)) for way in found]
    order = {id(chain): at for at, chain in enumerate(chains)}
    turned = [_started(way, order) for way in found]
    turned.sort(key=lambda way: sorted(order[id(chain)] for chain, _ in way))
    return tuple(turned)


def _started(way: Way, order: dict[int, int]) -> Way:
    """The same loop from its first chain on."""
    first = min(range(len(way)), key=lambda at: order[id(way[at][0])])
    return way[first:] + way[:first]


def _first_source_is_passed_down(branches: Branches, ways: Sequence[Way]) -> bool:
    for source in branches.network.sources:
        for way in ways:
            for chain, along in way:
                for name, forward in chain.parts:
                    if name == source.name:
                        return forward == along
    return False


def _windows(chains: list[Chain]) -> list[Way] | None:
    """The windows of a planar drawing but the outer one; None if it cannot be drawn so."""
    import networkx as nx

    graph = nx.Graph()
    for at, chain in enumerate(chains):
        # Points on the way keep chains between the same two junctions apart.
        own = ((at, 0), (at, 1)) if chain.start == chain.end else ((at, 0),)
        nx.add_path(graph, (chain.start, *own, chain.end))
    planar, embedding = nx.check_planarity(graph)
    if not planar:
        return None
    faces: list[Way] = []
    seen: set[tuple[Any, Any]] = set()
    for here, there in embedding.edges():
        if (here, there) not in seen:
            faces.append(_face(embedding.traverse_face(here, there, seen), chains))
    outer = max(faces, key=lambda way: _size(way, chains[0]))
    faces.remove(outer)
    return [_without_returns(way) for way in faces]


def _face(nodes: list[Any], chains: list[Chain]) -> Way:
    way: list[tuple[Chain, bool]] = []
    for before, node in zip([nodes[-1], *nodes], nodes, strict=False):
        if isinstance(node, tuple) and node[1] == 0:
            chain = chains[node[0]]
            along = before == chain.start if chain.start != chain.end else before != (node[0], 1)
            way.append((chain, along))
    return tuple(way)


def _size(way: Way, first: Chain) -> tuple[int, bool]:
    return sum(len(chain.parts) for chain, _ in way), any(chain is first for chain, _ in way)


def _without_returns(way: Way) -> Way:
    """A loop without what it passes there and back: a branch that joins two parts alone."""
    both = {id(chain) for chain, along in way for other, back in way
            if chain is other and along != back}  # fmt: skip
    return tuple(part for part in way if id(part[0]) not in both)


def _tree_loops(chains: list[Chain]) -> list[Way]:
    """Every chain outside a tree closes a loop through the tree."""
    root = chains[0].start
    came: dict[str, tuple[Chain, bool]] = {}
    waiting, reached, tree = [root], {root}, set()
    while waiting:
        here = waiting.pop(0)
        for chain in chains:
            for along, start, end in ((True, chain.start, chain.end),
                                      (False, chain.end, chain.start)):  # fmt: skip
                if start == here and end not in reached:
                    reached.add(end)
                    came[end] = (chain, along)
                    tree.add(id(chain))
                    waiting.append(end)
    return [_closed(chain, came) for chain in chains if id(chain) not in tree]


def _closed(chain: Chain, came: dict[str, tuple[Chain, bool]]) -> Way:
    """A chain, and the way back through the tree from its end to its start."""
    back, out = _up(chain.end, came), _up(chain.start, came)
    while back and out and back[-1][0] is out[-1][0]:
        back.pop()
        out.pop()
    home = [(part, not along) for part, along in back]
    return ((chain, True), *home, *reversed(out))


def _up(junction: str, came: dict[str, tuple[Chain, bool]]) -> list[tuple[Chain, bool]]:
    way: list[tuple[Chain, bool]] = []
    while junction in came:
        chain, along = came[junction]
        way.append((chain, along))
        junction = chain.start if along else chain.end
    return way


def way_back(branches: Branches, chain: Chain) -> Way:
    """The shortest way from the end of a chain to its start through no current source."""
    chains = [other for other in branches.chains if branches.driver(other) is None]
    came: dict[str, tuple[Chain, bool]] = {}
    waiting, reached = [chain.end], {chain.end}
    while waiting and chain.start not in reached:
        here = waiting.pop(0)
        for other in chains:
            for along, start, end in ((True, other.start, other.end),
                                      (False, other.end, other.start)):  # fmt: skip
                if start == here and end not in reached:
                    reached.add(end)
                    came[end] = (other, along)
                    waiting.append(end)
    return tuple(reversed(_up(chain.start, came)))
