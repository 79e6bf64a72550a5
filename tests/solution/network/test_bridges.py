"""Bridges by reductions: balanced ones are seen, the others take a triangle and a star."""

from __future__ import annotations

import pytest
from sympy import Rational

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from builder.quantity.names import TOTAL, Name
from builder.solution.network.reductions.route import route_by
from builder.solution.network.step import NetworkMove
from tests.solution.network.examples import (
    BALANCED,
    CAPACITOR_BRIDGE,
    UNBALANCED,
    network_of,
)
from tests.solution.network.solving import differences, found, the_route


def test_a_balanced_bridge_tells_why_and_what_carries_nothing() -> None:
    """The arms from + on, their ratio, and zero for the middle element at once."""
    way = the_route(BALANCED, RESISTORS)
    step = way.steps[0]
    assert step.balance is not None
    assert (step.balance.ends, step.balance.middle) == (("left", "right"), "R5")
    assert step.balance.outer == ("top", "bottom")
    assert step.balance.arms == (("R1", "R2"), ("R3", "R4"))
    assert step.dropped == ("R5",)
    assert step.telling == {"then": "drop", "ratio": "1/2"}
    assert found(BALANCED, RESISTORS, [step])[Name("current", "R5")] == 0
    assert [element.name for element in step.network.elements] == ["R1", "R2", "R3", "R4"]


@pytest.mark.parametrize(
    ("values", "balanced"),
    [((10, 20, 30, 60), True), ((10, 30, 20, 60), True), ((10, 20, 30, 61), False),
     ((7, 7, 7, 7), True), ((2500, 1600, 2500, 1600), True)],
)  # fmt: skip
@pytest.mark.parametrize("law", [RESISTORS, CAPACITORS], ids=lambda law: law.value)
def test_both_forms_of_the_condition_are_one(
    values: tuple[int, ...], balanced: bool, law: Law
) -> None:
    """R1/R2 = R3/R4 and R1/R3 = R2/R4 say the same; a near miss is no balance."""
    names = [f"{law.letter}{number}" for number in range(1, 6)]
    ends = [("a", "x"), ("x", "b"), ("a", "y"), ("y", "b"), ("x", "y")]
    rows = {n: (v, *e) for n, v, e in zip(names, (*values, 9), ends, strict=True)}
    way = the_route(network_of(rows, "a", "b"), law)
    assert (way.steps[0].kind is NetworkMove.BALANCE) == balanced


def test_a_balanced_bridge_inside_a_network_is_seen_after_merging() -> None:
    """Arms that are equivalents balance as well, and a middle that is one is opened to zeros."""
    rows = {
        "R1": (4, "p", "x"),
        "R2": (6, "x", "q"),
        "R3": (12, "p", "y"),
        "R4": (36, "y", "q"),
        "R5": (36, "y", "q"),
        "R6": (5, "x", "m"),
        "R7": (7, "m", "y"),
        "R8": (1, "q", "n"),
    }
    network = network_of(rows, "p", "n", ("voltage", 12))
    way = the_route(network, RESISTORS)
    assert [step.id for step in way.steps][:3] == ["merge-R45", "merge-R67", "balance-R67"]
    assert differences(network, RESISTORS, way) == {}
    assert found(network, RESISTORS, way.steps)[Name("current", "R6")] == 0


def test_the_published_unbalanced_bridge() -> None:
    """20 V in all gives 7/6, 1/2, 2/3, 2/3, 1/2 and 1/6 A, and 70/3 W.

    University Physics Volume 2 (OpenStax), chapter 10, fs-id1172101971117, prints 1.17, 0.50,
    0.67, 0.67, 0.50, 0.17 A (and 23.4 W from the rounded 1.17 A).
    """
    way = the_route(UNBALANCED, RESISTORS)
    values = found(UNBALANCED, RESISTORS, way.steps)
    flows = {name: values[Name("current", name)] for name in ("R6", "R1", "R2", "R3", "R4", "R5")}
    assert [str(flow) for flow in flows.values()] == ["7/6", "1/2", "2/3", "2/3", "1/2", "-1/6"]
    assert values[Name("current", TOTAL)] * 20 == Rational(70, 3)


def test_the_published_bridge_of_capacitors() -> None:
    """A star of 4C, 8C, 4C; 8C in series with C is 8C/9; in all 10C/7.

    Física Exe, electromagnetism, capacitors3_hs2 (read as far as 8/9 of C; 10/7 completes its
    steps).
    """
    rows = {"C1": (2, "A", "X"), "C2": (1, "A", "Y"), "C3": (2, "X", "Y"), "C4": (2, "Y", "B"),
            "C5": (1, "X", "B")}  # fmt: skip
    network = network_of(rows, "A", "B")
    way = route_by(network, CAPACITORS, "delta-star")
    assert way is not None
    values = found(network, CAPACITORS, way.steps)
    legs = [values[Name("capacitance", leg)] for leg in ("C_a", "C_b", "C_c")]
    assert sorted(legs) == [4, 4, 8]
    assert Rational(8, 9) in values.values()
    assert values[Name("capacitance", TOTAL)] == Rational(10, 7)
    assert the_route(CAPACITOR_BRIDGE, CAPACITORS).cost == 7
