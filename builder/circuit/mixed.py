"""Circuits of resistors, capacitors, sources and switches, and how they look at one instant.

At one instant a capacitor is no more than a source of the voltage that it holds (a wire if it
holds none), and long after every change it is a gap: a network of resistors is left either way.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from builder.circuit.network import Element, Network, Source
from builder.circuit.switching import Switch


@dataclass(frozen=True)
class MixedCircuit:
    """Resistors, capacitors, sources and switches between junctions.

    Attributes:
        resistors: at least one.
        capacitors: at least one.
        sources: of voltage or of current; none where a charged capacitor is alone.
        switches: as they stand before the change.
        flipped: the switches that change at t = 0.
    """

    resistors: tuple[Element, ...]
    capacitors: tuple[Element, ...]
    sources: tuple[Source, ...] = ()
    switches: tuple[Switch, ...] = ()
    flipped: frozenset[str] = frozenset()

    def closed(self, *, after: bool) -> tuple[Switch, ...]:
        """The switches that are closed before or after the change."""
        return tuple(
            switch
            for switch in self.switches
            if switch.closed != (after and switch.name in self.flipped)
        )

    def element(self, name: str) -> Element:
        """The resistor or capacitor of that name.

        Raises:
            KeyError: if there is none.
        """
        for element in (*self.resistors, *self.capacitors):
            if element.name == name:
                return element
        raise KeyError(name)

    @property
    def junctions(self) -> tuple[str, ...]:
        """All junctions, in the order in which the parts meet them."""
        seen: dict[str, None] = {}
        for between in self._betweens():
            seen.update(dict.fromkeys(between))
        return tuple(seen)

    def _betweens(self) -> Iterable[tuple[str, str]]:
        yield from (source.between for source in self.sources)
        yield from (element.between for element in (*self.resistors, *self.capacitors))
        yield from (switch.between for switch in self.switches)


@dataclass(frozen=True)
class Instant:
    """The network of resistors that a mixed circuit is at one instant.

    Attributes:
        node: the point of each junction, all points joined by wire being one.
        blocks: the parts in which something flows, each a network of its own with its sources.
        idle: resistors that carry nothing, and are no short circuit themselves.
        shorted: resistors with both ends at one point.
    """

    node: Mapping[str, str]
    blocks: tuple[Network, ...]
    idle: tuple[Element, ...]
    shorted: tuple[Element, ...]


def at_instant(
    circuit: MixedCircuit, *, after: bool, held: Mapping[str, Source | None] | None = None
) -> Instant:
    """A mixed circuit at one instant.

    Args:
        circuit: what is looked at.
        after: whether the switches stand as after the change.
        held: what stands for each capacitor: a source of its voltage, or None for a wire; those
            that are not named are gaps.
    """
    held = held or {}
    wires = [switch.between for switch in circuit.closed(after=after)]
    wires += [c.between for c in circuit.capacitors if c.name in held and held[c.name] is None]
    node = joined(circuit.junctions, wires)
    sources = [*circuit.sources, *(source for source in held.values() if source is not None)]
    return _parted(node, circuit.resistors, sources)


def joined(junctions: Iterable[str], wires: Iterable[tuple[str, str]]) -> dict[str, str]:
    """The point of each junction: the first junction of those that wires join with it."""
    import networkx

    order = tuple(junctions)
    graph = networkx.Graph()
    graph.add_nodes_from(order)
    graph.add_edges_from(wires)
    node: dict[str, str] = {}
    for junction in order:
        if junction not in node:
            for other in networkx.node_connected_component(graph, junction):
                node[other] = junction
    return node


def moved(element: Element, node: Mapping[str, str]) -> Element:
    """An element between points instead of junctions."""
    ends = (node[element.between[0]], node[element.between[1]])
    return Element(element.name, element.value, element.shown, ends)


def _parted(
    node: Mapping[str, str], resistors: Iterable[Element], sources: Iterable[Source]
) -> Instant:
    """What flows and what does not: current runs only where a loop holds a source."""
    import networkx

    placed = [moved(element, node) for element in resistors]
    shorted = tuple(element for element in placed if element.between[0] == element.between[1])
    live = [element for element in placed if element not in shorted]
    # What a source drives straight round through a wire goes nowhere else.
    driving = [
        Source(s.name, s.quantity, s.value, s.shown, (node[s.between[0]], node[s.between[1]]))
        for s in sources
        if node[s.between[0]] != node[s.between[1]]
    ]
    graph = networkx.Graph()
    graph.add_edges_from(element.between for element in live)
    graph.add_edges_from(source.between for source in driving)
    blocks: list[Network] = []
    used: set[str] = set()
    for edges in networkx.biconnected_component_edges(graph):
        pairs = {frozenset(edge) for edge in edges}
        inside = tuple(e for e in live if frozenset(e.between) in pairs)
        drives = tuple(s for s in driving if frozenset(s.between) in pairs)
        if drives and len(inside) + len(drives) > 1:
            blocks.append(Network(inside, drives[0].between, drives))
            used.update(element.name for element in inside)
    idle = tuple(element for element in live if element.name not in used)
    return Instant(node, tuple(blocks), idle, shorted)


def seen_from(
    circuit: MixedCircuit, ends: tuple[str, str], *, after: bool = True
) -> tuple[tuple[str, str], tuple[Element, ...]]:
    """The resistors that two points see with every source replaced.

    A source of voltage becomes a wire, a source of current and every capacitor a gap.

    Args:
        circuit: what is looked at.
        ends: the two points.
        after: whether the switches stand as after the change.

    Returns:
        The two points after joining, and the resistors on any way between them.
    """
    import networkx

    wires = [switch.between for switch in circuit.closed(after=after)]
    wires += [source.between for source in circuit.sources if source.quantity == "voltage"]
    node = joined(circuit.junctions, wires)
    first, second = node[ends[0]], node[ends[1]]
    placed = [moved(element, node) for element in circuit.resistors]
    live = [element for element in placed if element.between[0] != element.between[1]]
    graph = networkx.Graph()
    graph.add_edges_from(element.between for element in live)
    graph.add_edge(first, second)
    for edges in networkx.biconnected_component_edges(graph):
        pairs = {frozenset(edge) for edge in edges}
        if frozenset((first, second)) in pairs and first != second:
            inside = tuple(e for e in live if frozenset(e.between) in pairs)
            return (first, second), inside
    return (first, second), ()
