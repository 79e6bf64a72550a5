"""What may be changed in a circuit, and the circuit that this makes of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum

from sympy import Integer

from builder.circuit.law import PARALLEL, Law
from builder.circuit.network import Element, Network, Source
from builder.lesson.generated.view import View
from builder.lesson.network.what_if import without
from builder.lesson.prose import Prose, say


class How(Enum):
    """A way of changing an element."""

    DOUBLED = "doubled"
    HALVED = "halved"
    TAKEN_OUT = "taken out"
    WIRE = "wire"
    BESIDE = "beside"
    BEHIND = "behind"


@dataclass(frozen=True)
class Change:
    """One element changed.

    Attributes:
        how: what is done.
        of: the element.
    """

    how: How
    of: str

    def more(self, law: Law) -> bool:
        """Whether the place of the element then has more of its value, such as resistance."""
        resistive = law.adds_in != PARALLEL
        eases = {How.TAKEN_OUT: False, How.WIRE: True, How.BESIDE: True, How.BEHIND: False}
        if self.how in eases:
            return eases[self.how] != resistive
        return self.how is How.DOUBLED

    def eases(self, law: Law) -> bool:
        """Whether more then flows there at the same voltage."""
        return self.more(law) == (law.adds_in == PARALLEL)


def changed(network: Network, law: Law, change: Change) -> Network:
    """The circuit with the change."""
    if change.how is How.TAKEN_OUT:
        return without(network, change.of)
    element = network.element(change.of)
    if change.how is How.WIRE:
        wire = Source(f"wire across {change.of}", law.drop, Integer(0), element.shown,
                      element.between)  # fmt: skip
        return replace(network, sources=(*network.sources, wire))
    twice = change.more(law)
    value = element.value * 2 if twice else element.value / 2
    other = Element(element.name, value, element.shown, element.between)
    elements = tuple(other if one is element else one for one in network.elements)
    return replace(network, elements=elements)


def supposed(change: Change, view: View) -> Prose:
    """The change as a sentence to imagine."""
    told = {
        How.DOUBLED: "Suppose {one} were twice as large.",
        How.HALVED: "Suppose {one} were half as large.",
        How.TAKEN_OUT: "Suppose {one} were left out and its place stayed open.",
        How.WIRE: "Suppose a plain wire were put across {one}.",
        How.BESIDE: "Suppose another {noun} just like {one} were put beside it, in parallel.",
        How.BEHIND: "Suppose another {noun} just like {one} were put behind it, in series.",
    }[change.how]
    return say(told, one=view.element(change.of), noun=view.display.one)
