"""A bridge in a network: two arms side by side, and an element between their middles."""

from __future__ import annotations

from dataclasses import dataclass

from builder.circuit.network import Element, Network


@dataclass(frozen=True)
class Bridge:
    """A bridge.

    Attributes:
        middle: the element between the two inner junctions.
        ends: these junctions, in the order of the element.
        arms: for each end the element to the + side and the element to the − side.
    """

    middle: str
    ends: tuple[str, str]
    arms: tuple[tuple[str, str], tuple[str, str]]

    def arms_at(self, end: str) -> tuple[str, str]:
        """The two arms that meet at one end of the middle."""
        return self.arms[self.ends.index(end)]


def bridge_of(network: Network) -> Bridge | None:
    """The bridge of a network with one source or two terminals, if it is one.

    Its inner junctions are joined by a single element, and each by a single element to the same
    two outer junctions.
    """
    if len(network.sources) > 1:
        return None
    for middle in network.elements:
        bridge = _with_middle(middle, network)
        if bridge is not None:
            return bridge
    return None


def _with_middle(middle: Element, network: Network) -> Bridge | None:
    if set(middle.between) & set(network.terminals):
        return None
    found: list[dict[str, str]] = []
    for end in middle.between:
        arms = [one for one in network.elements if end in one.between and one is not middle]
        if len(arms) != 2:
            return None
        found.append({_other(arm, end): arm.name for arm in arms})
    first, second = found
    if len(first) != 2 or set(first) != set(second):
        return None
    plus, minus = _ordered(tuple(first), network)
    return Bridge(middle.name, middle.between,
                  ((first[plus], first[minus]), (second[plus], second[minus])))  # fmt: skip


def _ordered(outer: tuple[str, ...], network: Network) -> tuple[str, str]:
    """The outer junctions, the one that is or is nearer to + first."""
    one, other = outer
    if other == network.terminals[0] or one == network.terminals[1]:
        return other, one
    return one, other


def _other(element: Element, end: str) -> str:
    return element.between[1] if element.between[0] == end else element.between[0]
