"""Smaller networks that a solution speaks of: one source alone, no source, no load."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from builder.circuit.law import Law
from builder.circuit.network import Element, Network, Source


@dataclass(frozen=True)
class Part:
    """A network of which something is turned off or taken out.

    Attributes:
        network: what is left and carries something; None if nothing does.
        idle: the elements that carry nothing, which ``network`` does not hold.
        at: the junction that each junction of the whole network has become.
    """

    network: Network | None
    idle: tuple[str, ...]
    at: Mapping[str, str]

    @property
    def joined(self) -> dict[str, tuple[str, ...]]:
        """The sets of junctions that have become one, by the name that each keeps."""
        sets: dict[str, list[str]] = {}
        for junction, now in self.at.items():
            sets.setdefault(now, []).append(junction)
        return {now: tuple(members) for now, members in sets.items() if len(members) > 1}


def turned_off(network: Network, law: Law, acting: str) -> Part:
    """The network with one source acting: others become wires (voltage) or gaps (current)."""
    off = [source for source in network.sources if source.name != acting]
    at = _joined(network, [source for source in off if source.quantity == law.drop])
    source = next(source for source in network.sources if source.name == acting)
    between = (at[source.between[0]], at[source.between[1]])
    if between[0] == between[1]:
        return Part(None, tuple(element.name for element in network.elements), at)
    kept = replace(source, between=between)
    return _driven(_moved(network.elements, at), between, (kept,), at)


def without_sources(network: Network, law: Law, points: tuple[str, str], load: str | None) -> Part:
    """What is seen from two points with all sources off and the load taken out."""
    at = _joined(network, [source for source in network.sources if source.quantity == law.drop])
    between = (at[points[0]], at[points[1]])
    elements = [element for element in network.elements if element.name != load]
    if between[0] == between[1]:
        return Part(None, tuple(element.name for element in elements), at)
    return _driven(_moved(elements, at), between, (), at)


def without_load(network: Network, load: str | None) -> Part:
    """The network without a load, and without elements that then hang loose."""
    elements = [element for element in network.elements if element.name != load]
    idle: list[str] = []
    while True:
        pairs = [part.between for part in elements] + [part.between for part in network.sources]
        ends = Counter(end for pair in pairs for end in pair)
        loose = [e.name for e in elements if 1 in (ends[e.between[0]], ends[e.between[1]])]
        if not loose:
            break
        idle += loose
        elements = [element for element in elements if element.name not in loose]
    at = {junction: junction for junction in network.junctions}
    if not elements:
        return Part(None, tuple(idle), at)
    left = Network(tuple(elements), network.sources[0].between, network.sources)
    return Part(left, tuple(idle), at)


def _joined(network: Network, wires: Collection[Source]) -> dict[str, str]:
    at = {junction: junction for junction in network.junctions}
    for wire in wires:
        keep, gone = at[wire.between[0]], at[wire.between[1]]
        at = {junction: keep if now == gone else now for junction, now in at.items()}
    return at


def _moved(elements: Collection[Element], at: Mapping[str, str]) -> list[Element]:
    return [
        replace(element, between=(at[element.between[0]], at[element.between[1]]))
        for element in elements
    ]


def _driven(
    elements: Collection[Element],
    terminals: tuple[str, str],
    sources: tuple[Source, ...],
    at: Mapping[str, str],
) -> Part:
    """What lies in one block with a source (with the terminals, if there is none)."""
    import networkx as nx

    graph = nx.Graph()
    for element in elements:
        graph.add_edge(*element.between)
    driven = [source.between for source in sources] or [terminals]
    graph.add_edges_from(driven)
    blocks = [
        {frozenset(edge) for edge in edges} for edges in nx.biconnected_component_edges(graph)
    ]
    live = [block for block in blocks if any(frozenset(pair) in block for pair in driven)]
    alive = [
        element
        for element in elements
        if any(frozenset(element.between) in block for block in live)
    ]
    idle = tuple(element.name for element in elements if element not in alive)
    return Part(Network(tuple(alive), terminals, sources) if alive else None, idle, at)
