"""The answers as data: keys, exact strings, floats, and whether both methods agree."""

from __future__ import annotations

import json
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from jsonschema import Draft202012Validator
from sympy import Rational

from builder.circuit.tree import Tree
from builder.lesson.answers import answers
from builder.problem.model import NestProblem
from builder.quantity.names import Name
from builder.solution import solve
from tests.lesson.telling import asking, parallel, series, taught_problems

CONTRACT = {
    "type": "object",
    "properties": {
        "problem": {"type": "string"},
        "agree": {"type": "boolean"},
        "answers": {
            "type": "array",
            "items": {
                "type": "object",
                "properties": {
                    "quantity": {
                        "enum": ["equivalent", "capacitance", "charge", "voltage", "energy",
                                 "resistance", "current", "power"]
                    },
                    "of": {"type": "string"},
                    "unit": {"enum": ["F", "C", "V", "J", "Ω", "A", "W"]},
                    "exact": {"type": "string", "pattern": r"^\d+(/\d+)?$"},
                    "value": {"type": "number"},
                    "shown": {"type": "string"},
                },
                "required": ["quantity", "of", "unit", "exact", "value", "shown"],
                "additionalProperties": False,
            },
        },
    },
    "required": ["problem", "agree", "answers"],
    "additionalProperties": False,
}  # fmt: skip
NEST = series("C1", parallel("C2", "C3"))
TYPED = {"C1": "10 uF", "C2": "22 uF", "C3": "8 uF"}


def _row(quantity: str, of: str, unit: str, exact: str, value: float, shown: str) -> dict[str, Any]:
    return {"quantity": quantity, "of": of, "unit": unit, "exact": exact, "value": value,
            "shown": shown}  # fmt: skip


def test_the_answers_of_a_nest() -> None:
    """10 µF behind 22 + 8 µF on 12 V: 7.5 µF, 90 µC, of which 22/30 sit on C2."""
    asked = ("capacitance:total", "charge:C2", "voltage:C1", "voltage:total", "energy:total",
             "capacitance:C1")  # fmt: skip
    assert answers(solve(asking(NEST, "12 V", *asked, values=TYPED))) == {
        "problem": "random-circuit",
        "agree": True,
        "answers": [
            _row("equivalent", "total", "F", "3/400000", 7.5e-06, "7.50 µF"),
            _row("charge", "C2", "C", "33/500000", 6.6e-05, "66.0 µC"),
            _row("voltage", "C1", "V", "9", 9.0, "9.00 V"),
            _row("voltage", "total", "V", "12", 12.0, "12 V"),
            _row("energy", "total", "J", "27/50000", 0.00054, "540 µJ"),
            _row("capacitance", "C1", "F", "1/100000", 1e-05, "10 µF"),
        ],
    }


# R1 = 10 Ω, R2 = 20 Ω side by side: 20/3 Ω; on 12 V 1.2 + 0.6 A and 21.6 W.
RESISTIVE = [
    (parallel("R1", "R2"), "12 V", "resistance:total",
     _row("equivalent", "total", "Ω", "20/3", 20 / 3, "6.67 Ω")),
    (parallel("R1", "R2"), "12 V", "current:total",
     _row("current", "total", "A", "9/5", 1.8, "1.80 A")),
    (parallel("R1", "R2"), "12 V", "power:R2",
     _row("power", "R2", "W", "36/5", 7.2, "7.20 W")),
    (parallel("R1", "R2"), "3 A", "voltage:total",
     _row("voltage", "total", "V", "20", 20.0, "20.0 V")),
    (parallel("R1", "R2"), None, "resistance:total",
     _row("equivalent", "total", "Ω", "20/3", 20 / 3, "6.67 Ω")),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "source", "asked", "row"), RESISTIVE)
def test_the_answers_of_resistors(
    tree: Tree, source: str | None, asked: str, row: dict[str, Any]
) -> None:
    """The same contract with other quantities; the shown digits are rounded, the rest is not."""
    assert answers(solve(asking(tree, source, asked)))["answers"] == [row]


def test_digits_change_only_what_is_shown() -> None:
    """Six digits of 20/3 Ω."""
    problem = asking(parallel("R1", "R2"), None, "resistance:total", digits=6)
    row = _row("equivalent", "total", "Ω", "20/3", 20 / 3, "6.66667 Ω")
    assert answers(solve(problem))["answers"] == [row]


@given(problem=taught_problems())
@settings(max_examples=60)
def test_the_contract_holds_for_any_problem(problem: NestProblem) -> None:
    """One row for each thing asked, in that order, exact as the nodal method finds it."""
    solution = solve(problem)
    data = answers(solution)
    Draft202012Validator(CONTRACT).validate(json.loads(json.dumps(data)))
    assert data["agree"] is True
    assert len(data["answers"]) == len(problem.find)
    for asked, row in zip(problem.find, data["answers"], strict=True):
        given_value = asked.quantity == problem.law.value and asked.of != "total"
        values = solution.values if given_value else solution.second
        assert Fraction(row["exact"]) == Fraction(str(values[asked]))
        assert row["value"] == float(Fraction(row["exact"]))
        assert (row["quantity"] == "equivalent") == (asked == Name(problem.law.value, "total"))


@pytest.mark.parametrize("wrong", [Name("charge", "C2"), Name("energy", "total")])
def test_disagreement_is_not_hidden(wrong: Name) -> None:
    """One value of the nodal method that is off by a trillionth makes ``agree`` false."""
    solution = solve(asking(NEST, "12 V", values=TYPED))
    assert answers(solution)["agree"] is True
    off = {**solution.second, wrong: solution.second[wrong] * Rational(10**12 + 1, 10**12)}
    assert answers(replace(solution, second=off))["agree"] is False
