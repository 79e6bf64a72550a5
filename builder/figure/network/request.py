"""What a figure of a general network is asked to show."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from builder.figure.request import Label, ValueText
from builder.quantity.names import Symbol

VOLTAGE_SOURCE, CURRENT_SOURCE = "voltage-source", "current-source"
SOURCES = frozenset({VOLTAGE_SOURCE, CURRENT_SOURCE})
KINDS = SOURCES | {
    "capacitor",
    "resistor",
    "switch-open",
    "switch-closed",
    "wire",
    "gap",
    "ammeter",
    "voltmeter",
}
"""The kinds of branches: ``wire`` is a plain line, ``gap`` an open place."""


@dataclass(frozen=True)
class Arrow:
    """A current arrow on the wire of a branch.

    Attributes:
        forward: whether it points from the branch's first junction to its second.
        symbol: what stands beside it: I₁; None for nothing.
        text: a value beside it; its own ``symbol`` is printed before it if it has one.
    """

    forward: bool
    symbol: Symbol | None = None
    text: ValueText | None = None


@dataclass(frozen=True)
class Branch:
    """One element or source between two junctions.

    Attributes:
        id: the name of the element or source, unique in the drawing.
        kind: one of ``KINDS``.
        between: its junctions; for a source the + junction first (a current source drives its
            current out at the first).
        label: the text beside it; None for nothing.
        marked: whether it is marked, by colour and by thicker lines in a dashed frame.
        arrow: a current arrow on its wire.
        polarity: whether + and − are written at its ends, + at the first junction.
        plates: what is written at a capacitor's two plates: ``+24 µC`` and ``−24 µC``.
    """

    id: str
    kind: str
    between: tuple[str, str]
    label: Label | None
    marked: bool = False
    arrow: Arrow | None = None
    polarity: bool = False
    plates: tuple[ValueText, ValueText] | None = None


@dataclass(frozen=True)
class LoopArrow:
    """A curved arrow inside a loop.

    Attributes:
        name: what is written in it: I_a.
        junctions: the junctions of the loop in order; where two branches join the same pair,
            names of branches may stand between them to tell which is meant.
        clockwise_as_listed: whether the arrow runs through the junctions as they are listed
            (else against the list). The figure decides which way that turns on paper.
    """

    name: Symbol
    junctions: tuple[str, ...]
    clockwise_as_listed: bool = True


@dataclass(frozen=True)
class NetworkDrawing:
    """A figure of a network.

    Attributes:
        branches: in the author's order; the first source stands at the left.
        terminals: drawn as open terminals with + and −, + first.
        junction_names: what is written beside a junction.
        levels: potentials, written after the names of their junctions.
        grounded: the junction that carries the ground symbol (0 V).
        joined: sets of junctions of equal potential; the wires of each set are traced alike.
        loops: curved arrows inside loops.
        place: where the author wants junctions, (column, row), rows counted upwards.
        hint: where a former figure had its junctions, as ``places_of`` gave them.
        symbols: ``iec`` (IEC 60617) or ``ieee`` (IEEE 315: zigzag resistors).
    """

    branches: tuple[Branch, ...]
    terminals: tuple[str, str] | None = None
    junction_names: Mapping[str, Symbol | str] = field(default_factory=dict)
    levels: Mapping[str, ValueText] = field(default_factory=dict)
    grounded: str | None = None
    joined: tuple[frozenset[str], ...] = ()
    loops: tuple[LoopArrow, ...] = ()
    place: Mapping[str, tuple[Fraction, Fraction]] = field(default_factory=dict)
    hint: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    symbols: str = "iec"
