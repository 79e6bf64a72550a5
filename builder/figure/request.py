"""What a figure is asked to show."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from builder.circuit.tree import Tree
from builder.quantity.formula import Formula
from builder.quantity.names import Symbol


class Slot(NamedTuple):
    """Says that a number may be replaced by others.

    Attributes:
        mark: tells it apart from the other numbers of its figure.
        rooms: the room to keep for its sign and for each piece after it, in user units without
            slack, so that no other number will need more.
    """

    mark: int
    rooms: tuple[float, ...]


@dataclass(frozen=True)
class ValueText:
    """One number beside an element.

    Attributes:
        text: the number with its unit: ``66.0 µC``.
        symbol: what stands before it: Q₂ gives ``Q₂ = 66.0 µC``; None prints the text alone,
            or ``≈ 6.67 µF`` if it was rounded.
        sign: ``=`` or ``≈``, printed after the symbol.
        key: the key of the quantity, carried as ``data-q`` by the number; empty if none.
        expression: what ``text`` says as a formula of letters, if the value holds symbols.
        slot: where it is to be replaced in the finished figure; None if it stays.
    """

    text: str
    symbol: Symbol | None = None
    sign: str = "="
    key: str = ""
    expression: Formula | None = None
    slot: Slot | None = None


@dataclass(frozen=True)
class Label:
    """The text beside an element.

    Attributes:
        symbol: its name: C₂, C₂₃, C_eq.
        values: its own value first (one without a symbol), then values found so far.
    """

    symbol: Symbol
    values: tuple[ValueText, ...] = ()


@dataclass(frozen=True)
class Drawing:
    """A figure of a series-parallel circuit.

    Attributes:
        tree: the circuit, possibly with groups already merged to single leaves.
        element: ``capacitor`` or ``resistor``.
        labels: the text of each leaf, by its id; a leaf without one shows its id.
        source: the source's text.
        source_quantity: ``voltage`` draws a battery, ``current`` a current source; ``charge`` or
            None draw two open terminals.
        marked: ids of leaves to mark, by colour and by thicker lines in a dashed frame.
        symbols: ``iec`` (IEC 60617) or ``ieee`` (IEEE 315: zigzag resistors).
    """

    tree: Tree
    element: str
    labels: Mapping[str, Label]
    source: Label | None = None
    source_quantity: str | None = None
    marked: frozenset[str] = frozenset()
    symbols: str = "iec"
