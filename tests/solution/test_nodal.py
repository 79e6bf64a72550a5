"""The nodal method on raw networks, bridges included, against published results."""

from __future__ import annotations

import pytest
from sympy import Rational
from sympy.polys.matrices.exceptions import DMNonInvertibleMatrixError

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from builder.circuit.network import Element, Network, Source
from builder.quantity.measure import read_measure
from builder.quantity.names import TOTAL, Name
from builder.solution.nodal import by_nodes, potentials


def _network(
    branches: dict[str, tuple[str, str, str]], terminals: tuple[str, str], volts: str | None = None
) -> Network:
    elements = []
    for name, (text, start, end) in branches.items():
        measure = read_measure(text)
        elements.append(Element(name, measure.value, measure.shown, (start, end)))
    source = None
    if volts is not None:
        given = read_measure(volts)
        source = Source("V0", given.kind, given.value, given.shown, terminals)
    return Network(tuple(elements), terminals, (source,) if source else ())


BRIDGE = {
    "r": ("5 ohm", "+", "a"),
    "Rx": ("15 ohm", "a", "x"),
    "Ry": ("10 ohm", "a", "y"),
    "Sx": ("10 ohm", "x", "−"),
    "Sy": ("15 ohm", "y", "−"),
    "B": ("5 ohm", "y", "x"),
}


@pytest.mark.parametrize(
    ("of", "amperes"),
    [("r", "7/6"), ("Rx", "1/2"), ("Ry", "2/3"), ("Sx", "2/3"), ("Sy", "1/2"), ("B", "1/6")],
)
def test_an_unbalanced_bridge_has_its_published_currents(of: str, amperes: str) -> None:
    """1.17, 0.50, 0.67, 0.67, 0.50 and 0.17 A on 20 V.

    Source: University Physics Volume 2 (OpenStax), chapter 10, additional problem
    fs-id1172101971117.
    """
    found = by_nodes(_network(BRIDGE, ("+", "−"), "20 V"), RESISTORS)
    assert found[Name("current", of)] == Rational(amperes)


@pytest.mark.parametrize(("law", "unit"), [(CAPACITORS, "F"), (RESISTORS, "ohm")])
def test_an_antisymmetric_bridge_has_the_same_form_for_both_laws(law: Law, unit: str) -> None:
    """Arms (2, 1) over (1, 2) with a bridge of 2 make 10/7 of the unit for capacitors.

    Source: fisicaexe.com.br, electromagnetism, capacitors 3, exercise with a delta-to-star step
    (10/7); for resistors [2·R1·R2 + R3·(R1 + R2)]/(R1 + R2 + 2·R3) = 10/7 too, from memory of
    Irodov, Problems in General Physics, part 3.
    """
    ax, ay, xy, xb, yb = (f"{arm} {unit}" for arm in (2, 1, 2, 1, 2))
    network = _network(
        {
            "AX": (ax, "A", "X"),
            "AY": (ay, "A", "Y"),
            "XY": (xy, "X", "Y"),
            "XB": (xb, "X", "B"),
            "YB": (yb, "Y", "B"),
        },
        ("A", "B"),
    )
    assert by_nodes(network, law)[Name(law.value, TOTAL)] == Rational(10, 7)


def test_potentials_run_from_one_to_zero() -> None:
    """With 1 V across the terminals a chain of 1, 2 and 3 ohms has 5/6 V and 1/2 V inside."""
    network = _network(
        {"R1": ("1 ohm", "+", "a"), "R2": ("2 ohm", "b", "a"), "R3": ("3 ohm", "b", "−")},
        ("+", "−"),
    )
    assert potentials(network, RESISTORS) == {
        "+": 1,
        "−": 0,
        "a": Rational(5, 6),
        "b": Rational(1, 2),
    }


def test_drops_count_from_the_first_junction_to_the_second() -> None:
    """An element written against the current has a negative current and voltage."""
    network = _network({"R1": ("1 ohm", "+", "a"), "R2": ("2 ohm", "−", "a")}, ("+", "−"), "6 V")
    found = by_nodes(network, RESISTORS)
    assert (found[Name("voltage", "R1")], found[Name("voltage", "R2")]) == (2, -4)
    assert found[Name("current", "R2")] == -2
    assert found[Name("power", "R2")] == 8


def test_a_junction_that_hangs_in_the_air_has_no_potential() -> None:
    """Elements that no terminal reaches make the equations unsolvable, not silently zero."""
    network = _network({"R1": ("1 ohm", "+", "−"), "R2": ("2 ohm", "x", "y")}, ("+", "−"))
    with pytest.raises(DMNonInvertibleMatrixError):
        potentials(network, RESISTORS)


@pytest.mark.parametrize("driven", ["12 V", "2 A"])
def test_a_part_of_a_network_has_its_own_equivalent(driven: str) -> None:
    """The nodal method tells value, current and voltage of elements that stand together."""
    network = _network(
        {
            "R1": ("3 ohm", "+", "a"),
            "R2": ("4 ohm", "a", "b"),
            "R3": ("2 ohm", "b", "−"),
            "R4": ("6 ohm", "a", "−"),
        },
        ("+", "−"),
        driven,
    )
    found = by_nodes(network, RESISTORS, {"R23": ("R2", "R3"), "R234": ("R2", "R3", "R4")})
    assert found[Name("resistance", "R23")] == 6
    assert found[Name("resistance", "R234")] == 3
    assert found[Name("voltage", "R23")] == found[Name("voltage", "R234")] == 6
    assert found[Name("current", "R23")] == 1
    assert found[Name("current", "R234")] == 2
