"""Deliberately wrong steps: nothing that is wrong gets through."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from builder.errors import CheckFailed, Disagreement
from builder.problem.model import StagesProblem
from builder.quantity.formula import Formula, Negative, Num, Product, Quotient, Square, Sum
from builder.solution.check import hold_all
from builder.solution.stages.checks import checks_of
from builder.solution.stages.solve import solve_stages
from builder.solution.stages.story import Story, tell
from tests.solution.stages.building import solved, two_joined

PROBLEM = two_joined(charged={"C1": "12 V", "C2": "6 V"}, alike=False)


def _with(key: str, formula: Callable[[Formula], Formula]) -> Callable[[StagesProblem], Story]:
    """A double of the steps in which the line of one quantity has another formula."""

    def write(problem: StagesProblem) -> Story:
        story = tell(problem)
        steps = tuple(
            replace(
                step,
                lines=tuple(
                    replace(line, formula=formula(line.formula)) if line.name.key == key else line
                    for line in step.lines
                ),
            )
            for step in story.steps
        )
        return replace(story, steps=steps)

    return write


def _all_added(formula: Formula) -> Formula:
    assert isinstance(formula, Sum)
    return Sum(tuple(t.term if isinstance(t, Negative) else t for t in formula.terms))


def _halved(formula: Formula) -> Formula:
    return Product((Num(Fraction(1, 2)), formula))


def _without_half(formula: Formula) -> Formula:
    assert isinstance(formula, Product)
    return Product(formula.factors[1:])


def _averaged(formula: Formula) -> Formula:
    assert isinstance(formula, Quotient)
    return Quotient(formula.over, Product((Num(Fraction(2)), formula.under)))


WRONG = [
    ("charge:island@1", _all_added, "charge of C1 after stage 1"),
    ("voltage:island@1", _averaged, "charge of C1 after stage 1"),
    ("charge:C2@1", _halved, "charge of C2 after stage 1"),
    ("energy:C1@1", _without_half, "energy of C1 after stage 1"),
    ("energy:lost@1", _halved, "energy of lost after stage 1"),
]


@pytest.mark.parametrize(("key", "formula", "quantity"), WRONG)
def test_a_wrong_line_disagrees_with_the_second_method(
    key: str, formula: Callable[[Formula], Formula], quantity: str
) -> None:
    """The first quantity that comes out differently is named, and nothing is published."""
    with pytest.raises(Disagreement) as caught:
        solve_stages(PROBLEM, write=_with(key, formula))
    assert caught.value.quantity == quantity


def test_a_wrong_loss_fails_its_check_even_if_both_methods_had_it() -> None:
    """The heat is checked against the changes of voltage, which the account does not use."""
    solution = solved(PROBLEM)
    name = next(name for name in solution.values if name.key == "energy:lost@1")
    values = {**solution.values, name: solution.values[name] * 2}
    with pytest.raises(CheckFailed, match="lost energy"):
        hold_all(checks_of(PROBLEM, solution.story), values, "staged")


def test_the_closed_form_for_two_joined_capacitors_is_what_the_heat_is_checked_by() -> None:
    """½ · C₁C₂/(C₁ + C₂) · (V₁ + V₂)² for unlike plates."""
    (check,) = [c for c in solved(PROBLEM).checks if c.kind.value == "lost energy"]
    assert isinstance(check.right, Product)
    half, together, apart = check.right.factors
    assert half == Num(Fraction(1, 2))
    assert isinstance(together, Quotient)
    assert isinstance(apart, Square)
    assert isinstance(apart.base, Sum)
