"""Small networks that many tests use, and the families of graphs with published results."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import combinations

import networkx
from sympy import Rational

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from builder.circuit.network import Element, Network, Source
from builder.quantity.exact import Exact
from builder.quantity.show import Shown

Rows = Mapping[str, tuple[int | str | Exact, str, str]]


def network_of(
    rows: Rows, plus: str, minus: str, source: tuple[str, int | str] | None = None
) -> Network:
    """A network from rows of value, first junction, second junction, by the element's name.

    Args:
        rows: values in farads or ohms; a string such as ``3/2`` is a rational.
        plus: the + terminal.
        minus: the − terminal.
        source: the kind of quantity that the source gives, and how much of it, in SI units.
    """
    elements = tuple(
        Element(name, _exact(value), Shown(str(value), "", exact=True), (first, second))
        for name, (value, first, second) in rows.items()
    )
    if source is None:
        return Network(elements, (plus, minus))
    quantity, amount = source
    name = {"voltage": "V0", "current": "I0", "charge": "Q0"}[quantity]
    shown = Shown(str(amount), "", exact=True)
    driven = Source(name, quantity, _exact(amount), shown, (plus, minus))
    return Network(elements, (plus, minus), (driven,))


def _exact(value: int | str | Exact) -> Exact:
    return Rational(value) if isinstance(value, (int, str)) else value


def of_graph(
    edges: Iterable[tuple[object, object]], plus: object, minus: object, law: Law = RESISTORS,
    source: tuple[str, int | str] | None = None,
) -> Network:  # fmt: skip
    """A network of equal elements of 1 Ω or 1 F along the edges of a graph.

    Junctions are named by what the graph calls its vertices; elements R1, R2, … in the order
    of the edges.
    """
    rows: Rows = {
        f"{law.letter}{number}": (1, str(first), str(second))
        for number, (first, second) in enumerate(edges, start=1)
    }
    return network_of(rows, str(plus), str(minus), source)


def cube(minus: str, law: Law = RESISTORS, source: tuple[str, int | str] | None = None) -> Network:
    """Twelve equal elements along the edges of a cube, + at corner A.

    Args:
        minus: B for an edge, C for the diagonal of a face, G for the diagonal of the body.
        law: of the elements.
        source: as for ``network_of``.
    """
    edges = [pair.split("-") for pair in CUBE_EDGES.split()]
    return of_graph([(a, b) for a, b in edges], "A", minus, law, source)


CUBE_EDGES = "A-B B-C C-D D-A A-E B-F C-G D-H E-F F-G G-H H-E"
"""Corners A, B, C, D round the upper face, E, F, G, H below them."""


def complete(junctions: int, source: tuple[str, int | str] | None = None) -> Network:
    """K_n with equal resistors, seen from two of its junctions."""
    return of_graph(combinations("abcdefghijkl"[:junctions], 2), "a", "b", source=source)


def cycle(junctions: int, apart: int) -> Network:
    """C_n with equal resistors, seen from two junctions that are so many elements apart."""
    return of_graph(networkx.cycle_graph(junctions).edges, 0, apart)


def ladder(sections: int, series: int | str = 1, shunt: int | str = 1) -> Network:
    """A ladder of resistors with one rail plain wire, series element first, far end open."""
    rows: dict[str, tuple[int | str, str, str]] = {}
    for section in range(1, sections + 1):
        before = "plus" if section == 1 else f"a{section - 1}"
        rows[f"R{2 * section - 1}"] = (series, before, f"a{section}")
        rows[f"R{2 * section}"] = (shunt, f"a{section}", "minus")
    return network_of(rows, "plus", "minus")


BALANCED = network_of(
    {"R1": (100, "top", "left"), "R2": (200, "left", "bottom"), "R3": (150, "top", "right"),
     "R4": (300, "right", "bottom"), "R5": (50, "left", "right")},
    "top", "bottom", ("voltage", 9),
)  # fmt: skip
"""A bridge whose middle element carries nothing: 100/200 = 150/300."""

UNBALANCED = network_of(
    {"R1": (15, "a", "x"), "R2": (10, "a", "y"), "R3": (10, "x", "g"), "R4": (15, "y", "g"),
     "R5": (5, "x", "y"), "R6": (5, "p", "a")},
    "p", "g", ("voltage", 20),
)  # fmt: skip
"""University Physics Volume 2 (OpenStax), chapter 10, fs-id1172101971117: 7/6 A in all."""

CAPACITOR_BRIDGE = network_of(
    {"C1": (2, "A", "X"), "C2": (1, "A", "Y"), "C3": (2, "X", "Y"), "C4": (1, "X", "B"),
     "C5": (2, "Y", "B")},
    "A", "B", ("voltage", 7),
)  # fmt: skip
"""Física Exe, electromagnetism, capacitors3_hs2: 10/7 of C."""

BALANCED_CAPACITORS = network_of(
    {"C1": (2, "top", "left"), "C2": (4, "left", "bottom"), "C3": (3, "top", "right"),
     "C4": (6, "right", "bottom"), "C5": (5, "left", "right")},
    "top", "bottom", ("voltage", 6),
)  # fmt: skip

NEST = network_of(
    {"R1": (4, "p", "m"), "R2": (6, "m", "n"), "R3": (3, "m", "n")}, "p", "n", ("voltage", 12)
)
"""A plain nest, written as a network: R1 before R2 beside R3."""

LOOSE = network_of(
    {"R1": (4, "p", "m"), "R2": (6, "m", "n"), "R3": (3, "m", "x"), "R4": (5, "x", "y"),
     "R5": (7, "y", "m")},
    "p", "n", ("voltage", 10),
)  # fmt: skip
"""R3, R4 and R5 hang at one junction only and carry nothing."""

MADE_BY_CURRENT = network_of(
    {"R1": (1, "a", "x"), "R2": (2, "a", "y"), "R3": (3, "x", "b"), "R4": (4, "y", "b"),
     "R5": (5, "x", "y")},
    "a", "b", ("current", 2),
)  # fmt: skip
"""An unbalanced bridge that a known current goes through."""

EXAMPLES: dict[str, tuple[Network, Law]] = {
    "balanced": (BALANCED, RESISTORS),
    "unbalanced": (UNBALANCED, RESISTORS),
    "capacitor-bridge": (CAPACITOR_BRIDGE, CAPACITORS),
    "balanced-capacitors": (BALANCED_CAPACITORS, CAPACITORS),
    "nest": (NEST, RESISTORS),
    "loose": (LOOSE, RESISTORS),
    "by-current": (MADE_BY_CURRENT, RESISTORS),
    "cube-edge": (cube("B", source=("voltage", 7)), RESISTORS),
    "cube-face": (cube("C", source=("voltage", 3)), RESISTORS),
    "cube-body": (cube("G", source=("voltage", 10)), RESISTORS),
    "cube-body-capacitors": (cube("G", CAPACITORS, ("voltage", 10)), CAPACITORS),
    "K4": (complete(4, ("voltage", 6)), RESISTORS),
    "K5": (complete(5), RESISTORS),
    "ladder-3": (ladder(3), RESISTORS),
    "bare-bridge": (network_of(
        {"R1": (1, "a", "x"), "R2": (2, "a", "y"), "R3": (2, "x", "b"), "R4": (1, "y", "b"),
         "R5": (3, "x", "y")}, "a", "b"), RESISTORS),
}  # fmt: skip
"""Networks by name, each with its law; all but ``K5``, ``ladder-3`` and ``bare-bridge`` driven."""
