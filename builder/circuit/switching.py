"""Circuits whose switches open and close: what is joined by wire at a time.

All points joined by wires and closed switches are one *node*. Nodes that batteries join are one
*island*: no charge can leave it, for around it there are only the gaps of capacitors and of open
switches. Inside an island the batteries fix every voltage.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from builder.circuit.network import Element, Network, Source
from builder.quantity.exact import Exact
from builder.quantity.show import Shown


@dataclass(frozen=True)
class Switch:
    """A switch.

    Attributes:
        name: as the author wrote it.
        between: its two junctions.
        closed: how it stands at first.
    """

    name: str
    between: tuple[str, str]
    closed: bool


@dataclass(frozen=True)
class Stage:
    """What is done at once, after which the charges settle.

    Attributes:
        close, open: switches.
        turn: capacitors that are taken out and put back the other way round.
    """

    close: tuple[str, ...] = ()
    open: tuple[str, ...] = ()
    turn: tuple[str, ...] = ()


@dataclass(frozen=True)
class Charged:
    """What is stated of a capacitor that starts charged; the plate at its first junction is +.

    Attributes:
        quantity: ``voltage`` or ``charge``.
        value: in volts or coulombs, positive.
        shown: the value as the author wrote it.
    """

    quantity: str
    value: Exact
    shown: Shown


LOST = "lost"
"""What the energy belongs to that turns into heat."""


def moment(of: str, stage: int) -> str:
    """The name of something as it is after a stage: ``C1@2``; 0 is before the first stage.

    Of a battery, and of ``lost``, it means what happens in that stage.
    """
    return f"{of}@{stage}"


def split_moment(of: str) -> tuple[str, str]:
    """A name and its moment: ``C1`` and ``2``; an empty moment means the end, or all stages."""
    base, _, stage = of.partition("@")
    return base, stage


class BatteryLoop(Exception):
    """Raised when batteries alone close a loop, so that nothing limits what flows.

    Attributes:
        batteries: those of the loop; a single one is shorted.
        volts: what their voltages add up to round the loop.
    """

    def __init__(self, batteries: tuple[str, ...], volts: object) -> None:
        super().__init__(batteries, volts)
        self.batteries = batteries
        self.volts = volts

    def __str__(self) -> str:
        return f"{', '.join(self.batteries)} close a loop without a capacitor"


Heights = Mapping[str, int]
"""A voltage as a sum of batteries: each one's name with the sign that it counts with."""


@dataclass(frozen=True)
class Wiring:
    """What is joined while the switches stand in one way.

    Attributes:
        node: the node of each junction, by its first junction's name.
        island: the island of each node, by its first node's name.
        height: the voltage from an island's first node to each of its nodes, upwards.
    """

    node: Mapping[str, str]
    island: Mapping[str, str]
    height: Mapping[str, Heights]

    def ends(self, element: Element) -> tuple[str, str]:
        """The nodes of a capacitor."""
        return self.node[element.between[0]], self.node[element.between[1]]

    def islands_of(self, element: Element) -> tuple[str, str]:
        """The islands that a capacitor's first and second plate belong to."""
        first, second = self.ends(element)
        return self.island[first], self.island[second]

    def rise(self, start: str, end: str) -> Heights:
        """The voltage of ``start`` over ``end``, two nodes of one island."""
        return _difference(self.height[start], self.height[end])

    def junctions_at(self, nodes: Iterable[str]) -> frozenset[str]:
        """All junctions of some nodes."""
        wanted = set(nodes)
        return frozenset(name for name, node in self.node.items() if node in wanted)


def wire_up(network: Network, switches: Iterable[Switch], closed: frozenset[str]) -> Wiring:
    """What is joined while just the switches in ``closed`` are closed.

    Raises:
        BatteryLoop: if batteries and wires alone close a loop.
    """
    junctions = junctions_of(network, switches)
    joints = [switch.between for switch in switches if switch.name in closed]
    node = _joined(junctions, joints)
    height: dict[str, dict[str, int]] = {}
    island: dict[str, str] = {}
    for start in dict.fromkeys(node.values()):
        if start not in island:
            _climb(start, node, network.sources, island, height)
    return Wiring(node, island, height)


def junctions_of(network: Network, switches: Iterable[Switch]) -> tuple[str, ...]:
    """All junctions, those of switches too."""
    found = dict.fromkeys(network.junctions)
    for switch in switches:
        found.update(dict.fromkeys(switch.between))
    return tuple(found)


def _joined(junctions: Iterable[str], joints: Iterable[tuple[str, str]]) -> dict[str, str]:
    node = {junction: junction for junction in junctions}
    for first, second in joints:
        kept, gone = node[first], node[second]
        for junction, now in node.items():
            if now == gone:
                node[junction] = kept
    return node


def _climb(
    start: str,
    node: Mapping[str, str],
    batteries: Iterable[Source],
    island: dict[str, str],
    height: dict[str, dict[str, int]],
) -> None:
    """Walk from a node over all batteries, noting how high each node lies."""
    island[start], height[start] = start, {}
    waiting, passed = [start], set()
    while waiting:
        here = waiting.pop()
        for battery in batteries:
            plus, minus = (node[end] for end in battery.between)
            if battery.name in passed or here not in (plus, minus):
                continue
            passed.add(battery.name)
            there, sign = (plus, 1) if here == minus else (minus, -1)
            reached = _sum(height[here], {battery.name: sign})
            if there in height:
                raise _loop(_difference(reached, height[there]), batteries)
            island[there], height[there] = start, reached
            waiting.append(there)


def _loop(round_it: Heights, batteries: Iterable[Source]) -> BatteryLoop:
    volts = sum(round_it.get(battery.name, 0) * battery.value for battery in batteries)
    return BatteryLoop(tuple(b.name for b in batteries if b.name in round_it), volts)


def _sum(first: Heights, second: Heights) -> dict[str, int]:
    added = {name: first.get(name, 0) + second.get(name, 0) for name in (*first, *second)}
    return {name: sign for name, sign in added.items() if sign}


def _difference(first: Heights, second: Heights) -> dict[str, int]:
    return _sum(first, {name: -sign for name, sign in second.items()})


def blocks(wiring: Wiring, capacitors: Iterable[Element]) -> Iterator[tuple[Element, ...]]:
    """Capacitors that share a loop, each set in the author's order.

    Charge can move through a capacitor only round a loop. Sets that share no loop do not
    disturb each other, since in each of them as much charge arrives at an island as leaves it
    through the capacitors of the set. A capacitor on no loop stands in no set.
    """
    import networkx

    every = tuple(capacitors)
    loops = [element for element in every if len(set(wiring.islands_of(element))) == 1]
    yield from ((element,) for element in loops)
    sides: dict[frozenset[str], list[Element]] = {}
    for element in every:
        if element not in loops:
            sides.setdefault(frozenset(wiring.islands_of(element)), []).append(element)
    shape = networkx.Graph([tuple(sorted(pair)) for pair in sides])
    for component in networkx.biconnected_component_edges(shape):
        members = {element.name for pair in component for element in sides[frozenset(pair)]}
        if len(members) > 1:
            yield tuple(element for element in every if element.name in members)
