"""Capacitors on several loops: island and loop equations for their voltages, solved together."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from builder.circuit.network import Element
from builder.quantity.formula import Formula, Negative, Num, Product, Ref, Solved, Sum, System
from builder.quantity.names import Name
from builder.solution.program import Line, Statement
from builder.solution.stages.moves import Moment, added, emf_terms, signed
from builder.solution.stages.step import StagesMove, StagesStep

Row = dict[str, list[Formula]]
"""An equation: the coefficients of each unknown voltage, by the capacitor that it is told of."""
Equation = tuple[Row, Formula, str]
"""A row, what it adds up to, and what it is told of."""


def together(members: tuple[Element, ...], now: Moment) -> Iterator[StagesStep]:
    """The equations, then the charges."""
    leaders = _leaders(members, now)
    unknowns = list(dict.fromkeys(leader.name for leader, _ in leaders.values()))
    by_name = {e.name: e for e in members}
    equations = [*_islands(members, leaders, now), *_loops(members, leaders, now)]
    system = System(
        tuple(tuple(_coefficient(row.get(name, [])) for name in unknowns)
              for row, _, _ in equations),
        tuple(right for _, right, _ in equations),
    )  # fmt: skip
    lines = [Line(now.voltage(by_name[name]), Solved(system, position))
             for position, name in enumerate(unknowns)]  # fmt: skip
    lines += [Line(now.voltage(e), signed(Ref(now.voltage(leaders[e.name][0])), leaders[e.name][1]))
              for e in members if leaders[e.name][0] is not e]  # fmt: skip
    statements = tuple(
        Statement(_left(row, now, by_name), right, about=about) for row, right, about in equations
    )
    names = tuple(e.name for e in members)
    turned = tuple(name for name in names if name in now.turned)
    told: dict[str, Any] = {"members": names, "turned": turned}
    yield StagesStep(now.id("equations"), StagesMove.EQUATIONS, tuple(lines), now.stage,
                     statements=statements, **told)  # fmt: skip
    charges = tuple(
        Line(now.charge(e), Product((Ref(Name("capacitance", e.name)), Ref(now.voltage(e)))))
        for e in members
    )
    yield StagesStep(now.id("charges"), StagesMove.CHARGES, charges, now.stage, **told)


Leaders = dict[str, tuple[Element, int]]


def _leaders(members: tuple[Element, ...], now: Moment) -> Leaders:
    """Of each capacitor, the first one between the same two nodes, and whether it points alike."""
    first: dict[frozenset[str], Element] = {}
    leaders: Leaders = {}
    for element in members:
        ends = now.wiring.ends(element)
        leader = first.setdefault(frozenset(ends), element)
        leaders[element.name] = (leader, 1 if now.wiring.ends(leader) == ends else -1)
    return leaders


def _islands(members: tuple[Element, ...], leaders: Leaders, now: Moment) -> Iterator[Equation]:
    """The charge of each island but one, which follows from the others."""
    islands = list(dict.fromkeys(i for e in members for i in now.wiring.islands_of(e)))
    # An island with a battery in it is the hardest to count, so it is left out if there is one.
    spare = max(islands, key=lambda i: sum(other == i for other in now.wiring.island.values()))
    for island in islands:
        if island == spare:
            continue
        row: Row = {}
        before: list[Formula] = []
        for element in members:
            for end, sign in zip(now.wiring.islands_of(element), (1, -1), strict=True):
                if end != island:
                    continue
                leader, alike = leaders[element.name]
                value = Ref(Name("capacitance", element.name))
                row.setdefault(leader.name, []).append(signed(value, sign * alike))
                if now.holds(element):
                    before.append(now.before(element, "charge", sign))
        if isinstance(next(iter(row.values()))[0], Negative):
            row = {name: [signed(part, -1) for part in parts] for name, parts in row.items()}
            before = [signed(part, -1) for part in before]
        yield row, added(before, "charge"), island


def _loops(members: tuple[Element, ...], leaders: Leaders, now: Moment) -> Iterator[Equation]:
    """One loop for each unknown that closes one, by the shortest way back."""
    edges = list(dict.fromkeys(leader.name for leader, _ in leaders.values()))
    by_name = {e.name: e for e in members}
    tree: list[Element] = []
    for name in edges:
        element = by_name[name]
        start, end = now.wiring.islands_of(element)
        way = _way(end, start, tree, now)
        if way is None:
            tree.append(element)
            continue
        yield _loop(element, way, [e.name for e in members], now)


def _way(
    start: str, end: str, tree: list[Element], now: Moment
) -> list[tuple[Element, int]] | None:
    """The capacitors of a tree passed from one island to another, or None if none leads there."""
    ways: dict[str, list[tuple[Element, int]]] = {start: []}
    waiting = [start]
    for here in waiting:
        for element in tree:
            first, second = now.wiring.islands_of(element)
            for enter, leave, sign in ((first, second, 1), (second, first, -1)):
                if enter == here and leave not in ways:
                    ways[leave] = [*ways[here], (element, sign)]
                    waiting.append(leave)
    return ways.get(end)


def _loop(
    closing: Element, way: list[tuple[Element, int]], names: list[str], now: Moment
) -> Equation:
    row: Row = {}
    rise: dict[str, int] = {}
    passed = [(closing, 1), *way]
    for (element, sign), (onward, next_sign) in zip(passed, [*way, passed[0]], strict=True):
        row.setdefault(element.name, []).append(signed(Num(Fraction(1)), sign))
        left = now.wiring.ends(element)[1 if sign > 0 else 0]
        entered = now.wiring.ends(onward)[0 if next_sign > 0 else 1]
        for name, count in now.wiring.rise(entered, left).items():
            rise[name] = rise.get(name, 0) + count
    first = min(row, key=names.index)
    if isinstance(row[first][0], Negative):
        row = {name: [signed(part, -1) for part in parts] for name, parts in row.items()}
        rise = {name: -sign for name, sign in rise.items()}
    row = {name: row[name] for name in names if name in row}
    right = added(emf_terms({name: sign for name, sign in rise.items() if sign}), "voltage")
    return row, right, ""


def _coefficient(parts: list[Formula]) -> Formula:
    return Num(Fraction(0)) if not parts else parts[0] if len(parts) == 1 else Sum(tuple(parts))


def _left(row: Row, now: Moment, by_name: dict[str, Element]) -> Formula:
    terms: list[Formula] = []
    for name, parts in row.items():
        unknown = Ref(now.voltage(by_name[name]))
        for part in parts:
            inner, sign = (part.term, -1) if isinstance(part, Negative) else (part, 1)
            plain = unknown if isinstance(inner, Num) else Product((inner, unknown))
            terms.append(signed(plain, sign))
    return added(terms, "voltage")
