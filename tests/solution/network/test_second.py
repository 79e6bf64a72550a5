"""The independent second method: large grids, symbols, what two points see, and refusals."""

from __future__ import annotations

from fractions import Fraction

import pytest
from sympy import Integer, Rational, Symbol, simplify

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from builder.circuit.network import Element, Network, Source
from builder.quantity.exact import Exact, as_fraction
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown
from builder.solution.network.second import analyse, by_analysis
from builder.solution.network.second_values import seen_from
from tests.bench.grids import grid

BARE = Shown("", "", exact=True)


def element(name: str, value: Exact, first: str, second: str) -> Element:
    """An element of whatever value."""
    return Element(name, value, BARE, (first, second))


def emf(name: str, value: Exact, plus: str, minus: str) -> Source:
    """An ideal source of voltage."""
    return Source(name, "voltage", value, BARE, (plus, minus))


def test_a_grid_of_400_junctions_balances_exactly() -> None:
    """At every junction but the corners the rational currents add up to zero, exactly."""
    network = grid(20)
    potentials, flows = analyse(network, RESISTORS)
    assert len(potentials) == 400
    leaving = dict.fromkeys(network.junctions, Fraction(0))
    for one in network.elements:
        first, second = one.between
        flow = as_fraction((potentials[first] - potentials[second]) / one.value)
        leaving[first] += flow
        leaving[second] -= flow
    plus, minus = network.terminals
    assert leaving.pop(plus) == -leaving.pop(minus) == as_fraction(flows["V0"])
    assert set(leaving.values()) == {Fraction(0)}


def test_symbols_are_solved_as_rationals_are() -> None:
    """Two batteries E1 and E2 behind R each on a load R: the load has (E1 + E2)/3."""
    resistance, first, second = Symbol("R"), Symbol("E1"), Symbol("E2")
    network = Network(
        (
            element("R1", resistance, "a", "c"),
            element("R2", resistance, "b", "c"),
            element("R3", resistance, "c", "g"),
        ),
        ("a", "g"),
        (emf("V1", first, "a", "g"), emf("V2", second, "b", "g")),
    )
    found = by_analysis(network, RESISTORS)
    assert simplify(found[Name("voltage", "R3")] - (first + second) / 3) == 0


@pytest.mark.parametrize(("law", "value"), [(RESISTORS, Rational(5, 6)), (CAPACITORS, "6/5")])
def test_two_points_see_the_cube_as_one_element(law: Law, value: Exact) -> None:
    """Across the body diagonal twelve resistors r are 5r/6, and twelve capacitors C are 6C/5.

    Source: NCERT Physics XII part I, chapter 3, solved example (from memory); the second is its
    reciprocal.
    """
    corners = [f"{x}{y}{z}" for x in "01" for y in "01" for z in "01"]
    edges = [
        (a, b)
        for a in corners
        for b in corners
        if a < b and sum(p != q for p, q in zip(a, b, strict=True)) == 1
    ]
    elements = tuple(element(f"X{at}", Integer(1), *ends) for at, ends in enumerate(edges))
    network = Network(elements, ("000", "111"))
    assert seen_from(network, law, network.terminals) == Rational(value)


def test_sources_are_off_when_two_points_look_in() -> None:
    """A source of voltage counts as a wire and a source of current as a gap."""
    network = Network(
        (
            element("R1", Integer(6), "a", "b"),
            element("R2", Integer(3), "a", "g"),
            element("R3", Integer(5), "g", "c"),
        ),
        ("a", "g"),
        (emf("V1", Integer(9), "b", "g"), Source("J1", "current", Integer(1), BARE, ("c", "a"))),
    )
    assert seen_from(network, RESISTORS, ("a", "g")) == 2
    assert seen_from(network, RESISTORS, ("b", "g")) == 0


def test_points_that_nothing_joins_are_refused() -> None:
    """No resistance is made up where there is only a gap."""
    network = Network((element("R1", Integer(6), "a", "b"), element("R2", Integer(1), "g", "h")),
                      ("a", "g"))  # fmt: skip
    with pytest.raises(ZeroDivisionError):
        seen_from(network, RESISTORS, ("a", "g"))


def test_sources_in_a_loop_of_their_own_have_no_single_solution() -> None:
    """Two ideal sources side by side are an error, not a number."""
    network = Network(
        (element("R1", Integer(6), "a", "g"),),
        ("a", "g"),
        (emf("V1", Integer(9), "a", "g"), emf("V2", Integer(9), "a", "g")),
    )
    with pytest.raises(ZeroDivisionError):
        analyse(network, RESISTORS)


def test_a_source_that_is_charged_delivers_less_than_nothing() -> None:
    """12 V against 6 V through 3 Ω: 2 A, 24 W delivered, 12 W taken by the other, 12 W lost."""
    network = Network(
        (element("R1", Integer(3), "a", "b"),),
        ("a", "g"),
        (emf("V1", Integer(12), "a", "g"), emf("V2", Integer(6), "b", "g")),
    )
    found = by_analysis(network, RESISTORS)
    assert found[Name("power", "V1")] == 24
    assert found[Name("power", "V2")] == -12
    assert found[Name("current", "V2")] == -2
    assert found[Name("power", TOTAL)] == 12
