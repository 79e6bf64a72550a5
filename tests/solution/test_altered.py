"""The steps of a solution run again with something altered."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from sympy import Integer, Rational

from builder.problem import read_problem_text
from builder.problem.model import NestProblem
from builder.quantity.formula import Quotient, Ref
from builder.quantity.names import TOTAL, Name
from builder.solution import Solution, solve
from builder.solution.altered import rerun, rerun_rounded
from builder.solution.nest.solve import solve_nest
from tests.strategies import problems

PAIR = """\
title: Pair
circuit:
  source: 10 V
  series: [R1: 3 ohm, R2: 4 ohm]
find: [current: total, voltage: all, power: all]
"""
CURRENT = Name("current", TOTAL)


def solved(text: str = PAIR) -> Solution:
    """A solved problem."""
    return solve(read_problem_text(text, "pair.yml"))


@given(problem=problems(most=8))
@settings(max_examples=50)
def test_with_nothing_altered_everything_is_as_it_was(problem: NestProblem) -> None:
    """The givens and the steps define every value that the steps find."""
    solution = solve_nest(problem)
    values = rerun(solution, {})
    assert values == {name: solution.values[name] for name in values}
    assert {name for step in solution.steps for name in step.found} <= set(values)


def test_another_given_changes_all_that_follows() -> None:
    """With 2 Ω for 4 Ω: 10 V over 5 Ω are 2 A, so 6 V and 4 V."""
    values = rerun(solved(), {Name("resistance", "R2"): Integer(2)})
    assert (values[CURRENT], values[Name("voltage", "R1")]) == (2, 6)


def test_another_value_or_formula_stands_for_a_line() -> None:
    """What a step finds is replaced; what was found before it stays as it was."""
    by_value = rerun(solved(), {CURRENT: Integer(1)})
    assert (by_value[CURRENT], by_value[Name("voltage", "R2")]) == (1, 4)
    upside_down = Quotient(Ref(Name("resistance", TOTAL)), Ref(Name("voltage", "V0")))
    by_formula = rerun(solved(), {CURRENT: upside_down})
    assert by_formula[Name("voltage", "R2")] == Rational(28, 10)
    assert by_formula[Name("resistance", TOTAL)] == 7


def test_what_can_no_longer_be_computed_is_left_out() -> None:
    """Without any resistance there is no current, and nothing that needs it."""
    nothing = {Name("resistance", "R1"): Integer(0), Name("resistance", "R2"): Integer(0)}
    values = rerun(solved(), nothing)
    assert values[Name("resistance", TOTAL)] == 0
    assert CURRENT not in values
    assert Name("voltage", "R1") not in values


def test_results_are_rounded_before_they_are_used() -> None:
    """10/7 = 1.428… A stays as found, and goes on as 1.4 A: 4.2 V and 5.6 V, then 5.88 W."""
    values = rerun_rounded(solved(), 2)
    assert values[CURRENT] == Rational(10, 7)
    assert values[Name("voltage", "R1")] == Rational(42, 10)
    assert values[Name("power", "R1")] == Rational(588, 100)


def test_what_is_taken_over_is_the_same_result() -> None:
    """The current of a member is that of the chain, and no less exact."""
    assert rerun_rounded(solved(), 2)[Name("current", "R1")] == Rational(10, 7)


@pytest.mark.parametrize(("over", "kept"), [("14.5", "15"), ("14.4", "14"), ("99.6", "100")])
def test_halves_are_rounded_up(over: str, kept: str) -> None:
    """As shown results are: one source over 1 Ω."""
    text = PAIR.replace("10 V", f"{over} V").replace("R1: 3 ohm, R2: 4 ohm",
                                                     "R1: 0.5 ohm, R2: 0.5 ohm")  # fmt: skip
    found = rerun_rounded(solved(text), 2)[Name("voltage", "R1")]
    assert Fraction(int(found.p), int(found.q)) == Fraction(kept) / 2
