"""Circuits that charge and discharge give what textbooks print for them."""

from __future__ import annotations

import pytest
from sympy import Integer, Rational, Symbol, exp, integrate, oo

from builder.problem import read_problem_text
from builder.problem.model import TransientProblem
from builder.problem.transient.moments import CONSTANT, END, START, at
from builder.quantity.exact import near_fraction
from builder.quantity.names import Name
from builder.solution.transient.solve import TransientSolution, solve_transient
from tests.published.row import rounded_as
from tests.published.transients import ROWS, TransientRow, charging


def _solved(text: str) -> TransientSolution:
    problem = read_problem_text(text, "as-printed.yml")
    assert isinstance(problem, TransientProblem)
    return solve_transient(problem)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_the_printed_answers_come_out(row: TransientRow) -> None:
    """Each exact value, rounded to the digits that were printed, is what was printed."""
    solution = _solved(row.text)
    for printed in row.printed:
        value = solution.values[Name(printed.quantity, printed.of)]
        ours, theirs = rounded_as(printed, near_fraction(value))
        assert ours == theirs, printed


def test_the_flash_rate_of_the_book_comes_out() -> None:
    """T02 prints the rate too: one flash in 8.13 s is 0.123 Hz."""
    row = next(row for row in ROWS if row.id == "T02")
    time = _solved(row.text).values[Name("time", "C1>1")]
    assert round(1 / float(time), 3) == 0.123


@pytest.mark.parametrize("resistance", ["1 ohm", "470 ohm", "3.3 Mohm"])
def test_half_of_what_the_battery_gives_turns_into_heat(resistance: str) -> None:
    """The battery gives CE² whatever the resistor: half is stored, half is heat.

    Source: University Physics Volume 2 (OpenStax), chapter 10, fs-id1172099414258.
    """
    row = TransientRow("", "", charging("12 V", resistance, "50 uF"),
                       "[{energy: C1}, {charge: C1}, {current: {R1: start}}, time-constant]",
                       ())  # fmt: skip
    values = _solved(row.text).values
    time, constant = Symbol("t", positive=True), values[CONSTANT]
    current = values[at("current", "R1", START)] * exp(-time / constant)
    heat = integrate(current**2 * values[Name("resistance", "R1")], (time, 0, oo))
    given = values[at("charge", "C1", END)] * 12
    assert given == Rational(50, 10**6) * Integer(12) ** 2
    assert heat == given / 2 == values[at("energy", "C1", END)]
