"""Branches of a network as a teacher sees them: chains between the junctions that matter."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from functools import cached_property

from builder.circuit.law import Law
from builder.circuit.network import Element, Network, Source

Part = Element | Source
"""What a network consists of."""


@dataclass(frozen=True)
class Chain:
    """Elements and sources one after the other, so that one flow goes through all of them.

    Attributes:
        parts: each with whether it is passed from its first to its second junction.
        points: the junctions that are passed, one more than there are parts.
    """

    parts: tuple[tuple[str, bool], ...]
    points: tuple[str, ...]

    @property
    def start(self) -> str:
        """Where it starts."""
        return self.points[0]

    @property
    def end(self) -> str:
        """Where it ends."""
        return self.points[-1]

    @property
    def turned(self) -> Chain:
        """The same chain from its other end."""
        parts = tuple((name, not forward) for name, forward in reversed(self.parts))
        return Chain(parts, self.points[::-1])


@dataclass(frozen=True)
class Branches:
    """A network as chains.

    Attributes:
        network: with the law ``law``.
        law: of its elements.
        chains: each in the direction of its first element (of its first source without one), in
            the author's order.
        kept: the junctions at which chains end, in the order of the network.
    """

    network: Network
    law: Law
    chains: tuple[Chain, ...]
    kept: tuple[str, ...]

    @cached_property
    def sources(self) -> dict[str, Source]:
        """By name."""
        return {source.name: source for source in self.network.sources}

    def elements_of(self, chain: Chain) -> tuple[tuple[str, bool], ...]:
        """The elements of a chain with their directions."""
        sources = self.sources
        return tuple(part for part in chain.parts if part[0] not in sources)

    def driver(self, chain: Chain) -> tuple[str, bool] | None:
        """The current source that forces a chain's flow, with its direction, or None."""
        sources = self.sources
        for name, forward in chain.parts:
            if name in sources and sources[name].quantity == self.law.flow:
                return name, forward
        return None

    @cached_property
    def ties(self) -> tuple[Chain, ...]:
        """The chains of voltage sources alone."""
        return tuple(
            chain
            for chain in self.chains
            if not self.elements_of(chain) and self.driver(chain) is None
        )

    def lifts(self, chain: Chain) -> tuple[tuple[str, bool], ...]:
        """The voltage sources of a chain with their directions (True is from + to −)."""
        sources = self.sources
        return tuple(
            part
            for part in chain.parts
            if part[0] in sources and sources[part[0]].quantity == self.law.drop
        )


def branches_of(network: Network, law: Law, keep: Collection[str]) -> Branches:
    """The chains of a connected network.

    A junction where only two meet is passed over, but not between two capacitors: the plates
    that meet there have an equation of their own.

    Args:
        network: whose chains are wanted.
        law: of its elements.
        keep: junctions at which chains have to end in any case; at least one.
    """
    around: dict[str, list[Part]] = defaultdict(list)
    every: tuple[Part, ...] = (*network.elements, *network.sources)
    for part in every:
        for end in part.between:
            around[end].append(part)
    passed = {
        junction
        for junction, here in around.items()
        if len(here) == 2 and junction not in keep and _one_flow(here, law)
    }
    chains: list[Chain] = []
    used: set[str] = set()
    for part in every:
        if part.name not in used:
            chain = _grown(part, around, passed, law)
            used.update(name for name, _ in chain.parts)
            chains.append(chain)
    kept = tuple(junction for junction in network.junctions if junction not in passed)
    return Branches(network, law, tuple(chains), kept)


def _one_flow(here: list[Part], law: Law) -> bool:
    capacitors = law.work == "energy" and all(isinstance(part, Element) for part in here)
    return not capacitors and here[0] is not here[1]


def _grown(part: Part, around: dict[str, list[Part]], passed: set[str], law: Law) -> Chain:
    """The chain through a part, in the part's own direction; ``passed`` loses where it stops."""
    parts: list[tuple[Part, bool]] = [(part, True)]
    points = list(part.between)
    while points[-1] in passed:
        last = _other(around[points[-1]], parts[-1][0])
        if _second_capacitor(last, parts, law):
            passed.discard(points[-1])
            break
        forward = last.between[0] == points[-1]
        parts.append((last, forward))
        points.append(last.between[1] if forward else last.between[0])
    while points[0] in passed:
        last = _other(around[points[0]], parts[0][0])
        if _second_capacitor(last, parts, law):
            passed.discard(points[0])
            break
        forward = last.between[1] == points[0]
        parts.insert(0, (last, forward))
        points.insert(0, last.between[0] if forward else last.between[1])
    return Chain(tuple((one.name, forward) for one, forward in parts), tuple(points))


def _second_capacitor(part: Part, parts: list[tuple[Part, bool]], law: Law) -> bool:
    """Whether a chain would get another capacitor: that one has a charge of its own to find."""
    several = isinstance(part, Element) and any(isinstance(one, Element) for one, _ in parts)
    return law.work == "energy" and several


def _other(here: list[Part], part: Part) -> Part:
    return here[0] if here[1] is part else here[1]
