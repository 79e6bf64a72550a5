"""A network: elements between junctions, and the source that drives it."""

from __future__ import annotations

from dataclasses import dataclass

from builder.quantity.exact import Exact
from builder.quantity.show import Shown


@dataclass(frozen=True)
class Element:
    """A capacitor or a resistor.

    Attributes:
        name: as the author wrote it, unique in its network.
        value: capacitance in farads or resistance in ohms, positive.
        shown: the value as the author wrote it.
        between: the two junctions; the first is nearer to the source's + terminal
            where that is known.
    """

    name: str
    value: Exact
    shown: Shown
    between: tuple[str, str]


@dataclass(frozen=True)
class Source:
    """What drives a network: a known voltage, or a known current or charge.

    Attributes:
        name: as the author wrote it, or ``V0``, ``I0``, ``Q0``.
        quantity: ``voltage``, ``current`` or ``charge``.
        value: in volts, amperes or coulombs, positive.
        shown: the value as the author wrote it.
        between: the + and the − terminal; a current leaves at the +.
    """

    name: str
    quantity: str
    value: Exact
    shown: Shown
    between: tuple[str, str]


@dataclass(frozen=True)
class Network:
    """Elements of one kind between junctions.

    Attributes:
        elements: in the author's order.
        terminals: the + and the − point at which the network is looked into or driven; those
            of the first source where there are several.
        sources: what drives it, in the author's order; none if only the equivalent is asked for.
    """

    elements: tuple[Element, ...]
    terminals: tuple[str, str]
    sources: tuple[Source, ...] = ()

    @property
    def source(self) -> Source | None:
        """The only source, or None without one.

        Raises:
            ValueError: if there are several.
        """
        if len(self.sources) > 1:
            raise ValueError("the network has several sources")
        return self.sources[0] if self.sources else None

    def element(self, name: str) -> Element:
        """The element of that name.

        Raises:
            KeyError: if there is none.
        """
        for element in self.elements:
            if element.name == name:
                return element
        raise KeyError(name)

    @property
    def junctions(self) -> tuple[str, ...]:
        """All junctions, in the order in which the elements meet them, + terminal first."""
        seen = dict.fromkeys((self.terminals[0],))
        for element in self.elements:
            seen.update(dict.fromkeys(element.between))
        for source in self.sources:
            seen.update(dict.fromkeys(source.between))
        seen.update(dict.fromkeys((self.terminals[1],)))
        return tuple(seen)
