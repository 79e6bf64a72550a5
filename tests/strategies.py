"""Shared hypothesis strategies: typed values, trees and whole problems.

Importing this module loads the profile of the tests: the same examples in every run where the
environment has ``CI``, new ones otherwise.
"""

from __future__ import annotations

import os
from collections.abc import Mapping

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from builder.circuit.between import MINUS, PLUS, lay_between
from builder.circuit.law import CAPACITORS, PARALLEL, RESISTORS, SERIES, Law
from builder.circuit.naming import name_groups
from builder.circuit.network import Element, Network, Source
from builder.circuit.tree import Group, Leaf, Tree, leaves
from builder.problem.model import NestProblem
from builder.quantity.measure import read_measure
from builder.quantity.names import TOTAL, Name

settings.register_profile("local", deadline=None)
settings.register_profile(
    "ci",
    derandomize=True,
    deadline=None,
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("ci" if os.environ.get("CI") else "local")

UNITS = {"capacitance": "uF", "resistance": "ohm", "charge": "uC", "current": "A", "voltage": "V"}
SOURCE_NAMES = {"voltage": "V0", "current": "I0", "charge": "Q0"}
TERMINALS = (PLUS, MINUS)


@st.composite
def typed_numbers(draw: st.DrawFn) -> str:
    """A number from 1 to 1000 as an author types it: a messy decimal, now and then a fraction."""
    decimals = draw(st.integers(0, 4))
    if decimals == 4:
        under = draw(st.integers(2, 13))
        return f"{draw(st.integers(under, 200))}/{under}"
    digits = str(draw(st.integers(10**decimals, 10 ** (decimals + 3) - 1)))
    return f"{digits[:-decimals]}.{digits[-decimals:]}" if decimals else digits


@st.composite
def trees(draw: st.DrawFn, least: int = 2, most: int = 30, letter: str = "C") -> Tree:
    """A nest of ``least`` to ``most`` elements, numbered in any order, with unnamed groups."""
    size = draw(st.integers(least, most))
    numbers = draw(st.permutations(range(1, size + 1)))
    names = iter([f"{letter}{number}" for number in numbers])

    def grow(count: int, connection: str) -> Tree:
        if count == 1:
            return Leaf(next(names))
        parts = draw(st.integers(2, min(count, 5)))
        other = SERIES if connection == PARALLEL else PARALLEL
        grown: list[Tree] = []
        for waiting in range(parts - 1, 0, -1):
            share = draw(st.integers(1, count - waiting))
            grown.append(grow(share, other))
            count -= share
        grown.append(grow(count, other))
        return Group("", connection, tuple(grown))

    return grow(size, draw(st.sampled_from((SERIES, PARALLEL))))


def everything(law: Law, tree: Tree) -> tuple[Name, ...]:
    """All that can be asked of a driven circuit of that law."""
    of_elements = [Name(quantity, leaf) for leaf in leaves(tree) for quantity in law.quantities[1:]]
    return (*(Name(quantity, TOTAL) for quantity in law.quantities), *of_elements)


def problem_of(
    tree: Tree,
    law: Law,
    values: Mapping[str, str],
    source: str | None = "12 V",
    find: tuple[Name, ...] | None = None,
) -> NestProblem:
    """A problem without a file.

    Args:
        tree: its groups need no names.
        law: of the elements.
        values: what an author types for each element, in the author's order.
        source: the same for the source.
        find: what is asked; everything if None.
    """
    ends = lay_between(tree, *TERMINALS)
    elements = []
    for name, text in values.items():
        measure = read_measure(text)
        elements.append(Element(name, measure.value, measure.shown, ends[name]))
    driver = None
    if source is not None:
        given = read_measure(source)
        name = SOURCE_NAMES[given.kind]
        driver = Source(name, given.kind, given.value, given.shown, TERMINALS)
    named = name_groups(tree, law.letter)
    asked = everything(law, named) if driver is not None else (Name(law.value, TOTAL),)
    return NestProblem(
        slug="random-circuit",
        path="random-circuit.yml",
        title="A random circuit",
        level="core",
        objectives=(),
        scenario="",
        law=law,
        network=Network(tuple(elements), TERMINALS, (driver,) if driver else ()),
        tree=named,
        find=asked if find is None else find,
    )


@st.composite
def problems(
    draw: st.DrawFn,
    laws: tuple[Law, ...] = (CAPACITORS, RESISTORS),
    least: int = 2,
    most: int = 30,
) -> NestProblem:
    """A driven circuit of messy values, by a voltage or by a charge or current."""
    law = draw(st.sampled_from(laws))
    tree = draw(trees(least, most, law.letter))
    unit = UNITS[law.value]
    names = (f"{law.letter}{number}" for number in range(1, len(leaves(tree)) + 1))
    values = {name: f"{draw(typed_numbers())} {unit}" for name in names}
    driven_by = draw(st.sampled_from((law.drop, law.flow)))
    return problem_of(tree, law, values, f"{draw(typed_numbers())} {UNITS[driven_by]}")
