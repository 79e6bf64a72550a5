"""The laws of capacitors and resistors."""

from __future__ import annotations

import pytest
from sympy import Rational

from builder.circuit.law import CAPACITORS, LAWS, PARALLEL, RESISTORS, SERIES, Law
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Ref, evaluate
from builder.quantity.names import Name

VALUE, FLOW, DROP = Name("capacitance", "x"), Name("charge", "x"), Name("voltage", "x")
VALUES: dict[Name, Exact] = {VALUE: Rational(4), FLOW: Rational(6), DROP: Rational(3)}


def _of(formula: Formula) -> Exact:
    return evaluate(formula, VALUES)


def test_both_laws_are_known_by_the_quantity_of_their_elements() -> None:
    """One engine serves two laws, each with its own names."""
    assert {name: law.quantities for name, law in LAWS.items()} == {
        "capacitance": ("capacitance", "charge", "voltage", "energy"),
        "resistance": ("resistance", "current", "voltage", "power"),
    }
    assert (CAPACITORS.letter, RESISTORS.letter) == ("C", "R")


@pytest.mark.parametrize(
    ("law", "connection", "value"),
    [
        (CAPACITORS, PARALLEL, "7"),
        (CAPACITORS, SERIES, "12/7"),
        (RESISTORS, SERIES, "7"),
        (RESISTORS, PARALLEL, "12/7"),
    ],
)
def test_values_add_one_way_and_reciprocals_the_other(
    law: Law, connection: str, value: str
) -> None:
    """3 and 4 make 7 where values add and 12/7 where reciprocals do.

    Source: University Physics Volume 2 (OpenStax), sections 8.2 and 10.2.
    """
    merged = law.merged(connection, (Ref(DROP), Ref(VALUE)))
    assert _of(merged) == Rational(value)


@pytest.mark.parametrize(("law", "weight"), [(CAPACITORS, "4"), (RESISTORS, "1/4")])
def test_the_weight_of_an_element_is_its_flow_per_volt(law: Law, weight: str) -> None:
    """A capacitor of 4 F holds 4 C per volt; a resistor of 4 Ω carries a quarter ampere."""
    assert law.weight(Rational(4)) == Rational(weight)


@pytest.mark.parametrize(
    ("law", "flow", "drop"), [(CAPACITORS, "12", "3/2"), (RESISTORS, "3/4", "24")]
)
def test_flow_and_drop_follow_from_each_other(law: Law, flow: str, drop: str) -> None:
    """Q = CV and V = Q/C; I = V/R and V = RI."""
    assert _of(law.flow_from(Ref(VALUE), Ref(DROP))) == Rational(flow)
    assert _of(law.drop_from(Ref(VALUE), Ref(FLOW))) == Rational(drop)


@pytest.mark.parametrize(
    ("law", "by_both", "by_drop", "by_flow"),
    [(CAPACITORS, "9", "18", "9/2"), (RESISTORS, "18", "9/4", "144")],
)
def test_work_has_three_formulas(law: Law, by_both: str, by_drop: str, by_flow: str) -> None:
    """½QV, ½CV², Q²/2C; VI, V²/R, RI².

    Source: University Physics Volume 2 (OpenStax), sections 8.3 and 9.5.
    """
    assert _of(law.work_from_flow_and_drop(Ref(FLOW), Ref(DROP))) == Rational(by_both)
    assert _of(law.work_from_drop(Ref(VALUE), Ref(DROP))) == Rational(by_drop)
    assert _of(law.work_from_flow(Ref(VALUE), Ref(FLOW))) == Rational(by_flow)
