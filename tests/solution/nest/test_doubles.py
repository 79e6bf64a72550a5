"""Deliberately wrong steps: nothing that is wrong gets through."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from importlib import import_module

import pytest

from builder.circuit.law import CAPACITORS, RESISTORS, SERIES, Law
from builder.circuit.tree import Leaf, Tree, in_parallel, in_series
from builder.errors import CheckFailed, Disagreement, StepwellError
from builder.problem.model import NestProblem
from builder.quantity.formula import (
    Formula,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Sum,
)
from builder.quantity.names import Name
from builder.solution import Line
from builder.solution.nest.solve import solve_nest
from builder.solution.nest.step import NestStep, StepKind
from builder.solution.nest.stepwise import all_steps
from tests.strategies import problem_of

WriteSteps = Callable[[NestProblem], tuple[NestStep, ...]]
TREE: Tree = in_series("", Leaf("C1"), in_parallel("", Leaf("C2"), Leaf("C3")))
MIXED = problem_of(TREE, CAPACITORS, {"C1": "12 uF", "C2": "2 uF", "C3": "4 uF"}, "12 V")


def _with(key: str, formula: Callable[[Formula], Formula]) -> WriteSteps:
    """A double of the steps in which the line of one quantity has another formula."""

    def write(problem: NestProblem) -> tuple[NestStep, ...]:
        steps = []
        for step in all_steps(problem):
            lines = tuple(
                replace(line, formula=formula(line.formula)) if line.name.key == key else line
                for line in step.lines
            )
            steps.append(replace(step, lines=lines))
        return tuple(steps)

    return write


def _added(formula: Formula) -> Formula:
    assert isinstance(formula, ReciprocalSum)
    return Sum(formula.terms)


def _twice(formula: Formula) -> Formula:
    return Sum((formula, formula))


def _adding_series_capacitors(problem: NestProblem) -> tuple[NestStep, ...]:
    """The wrong rule that capacitors in series add up, like resistors."""

    def wrong(step: NestStep) -> NestStep:
        if step.kind is StepKind.MERGE and step.group and step.group.connection == SERIES:
            (line,) = step.lines
            return replace(step, lines=(Line(line.name, _added(line.formula)),))
        return step

    return tuple(map(wrong, all_steps(problem)))


REPORT = "; nothing was published. This is a fault in Stepwell, not in the file: please report it "


def test_adding_series_capacitors_is_caught() -> None:
    """The message names the problem, the quantity and both values."""
    with pytest.raises(Disagreement) as caught:
        solve_nest(MIXED, write_steps=_adding_series_capacitors)
    assert str(caught.value) == (
        "random-circuit: the capacitance of the whole circuit is 9/500000 F by the steps but "
        "1/250000 F by the nodal method" + REPORT + "with the file."
    )
    assert isinstance(caught.value, StepwellError)
    assert (caught.value.problem, caught.value.quantity) == (
        "random-circuit",
        "capacitance of the whole circuit",
    )
    assert (caught.value.by_steps, caught.value.by_nodes) == ("9/500000 F", "1/250000 F")


WRONG = [
    ("capacitance:C23", "capacitance of C23", "3/250000 F", "3/500000 F"),
    ("capacitance:total", "capacitance of the whole circuit", "1/125000 F", "1/250000 F"),
    ("charge:total", "charge of the whole circuit", "3/31250 C", "3/62500 C"),
    ("charge:C1", "charge of C1", "3/31250 C", "3/62500 C"),
    ("voltage:C1", "voltage of C1", "8 V", "4 V"),
    ("charge:C23", "charge of C23", "3/31250 C", "3/62500 C"),
    ("voltage:C23", "voltage of C23", "16 V", "8 V"),
    ("voltage:C2", "voltage of C2", "16 V", "8 V"),
    ("voltage:C3", "voltage of C3", "16 V", "8 V"),
    ("charge:C2", "charge of C2", "1/31250 C", "1/62500 C"),
    ("charge:C3", "charge of C3", "2/31250 C", "1/31250 C"),
    ("energy:C1", "energy of C1", "3/15625 J", "3/31250 J"),
    ("energy:C2", "energy of C2", "2/15625 J", "1/15625 J"),
    ("energy:C3", "energy of C3", "4/15625 J", "2/15625 J"),
    ("energy:total", "energy of the whole circuit", "9/15625 J", "9/31250 J"),
]


@pytest.mark.parametrize(("key", "quantity", "by_steps", "by_nodes"), WRONG)
def test_any_line_that_is_wrong_is_caught_where_it_went_wrong(
    key: str, quantity: str, by_steps: str, by_nodes: str
) -> None:
    """Whichever quantity is doubled, an equivalent's own included, it is the one named."""
    with pytest.raises(Disagreement) as caught:
        solve_nest(MIXED, write_steps=_with(key, _twice))
    value, unit = by_steps.split()
    assert (caught.value.problem, caught.value.quantity) == ("random-circuit", quantity)
    assert caught.value.by_steps == f"{Fraction(value)} {unit}"
    assert caught.value.by_nodes == by_nodes


def test_the_table_of_wrong_lines_is_complete() -> None:
    """Every quantity that the steps of the mixed circuit find was made wrong once."""
    lines = {line.name.key for step in all_steps(MIXED) for line in step.lines}
    assert {key for key, *_ in WRONG} == lines


def test_a_quantity_that_the_steps_forget_is_caught() -> None:
    """A missing value is a disagreement too."""

    def forgetful(problem: NestProblem) -> tuple[NestStep, ...]:
        return tuple(step for step in all_steps(problem) if step.kind is not StepKind.WORK)

    summed = replace(MIXED, find=(Name("energy", "total"),))
    with pytest.raises(Disagreement) as caught:
        solve_nest(summed, write_steps=forgetful)
    assert str(caught.value).startswith(
        "random-circuit: the energy of C1 is missing by the steps but 3/31250 J by the nodal "
    )


def _flow_over_drop(formula: Formula) -> Formula:
    match formula:
        case Product((first, second)):
            return Quotient(first, second)
        case _:
            raise AssertionError(formula)


@pytest.mark.parametrize(
    ("law", "key", "change", "quantity"),
    [
        (RESISTORS, "resistance:total", lambda f: ReciprocalSum(f.terms), "resistance of"),
        (RESISTORS, "voltage:R1", _flow_over_drop, "voltage of R1"),
        (RESISTORS, "current:R1", lambda f: Quotient(f, Sum((f, f))), "current of R1"),
    ],
)
def test_wrong_resistor_steps_are_caught(
    law: Law, key: str, change: Callable[[Formula], Formula], quantity: str
) -> None:
    """The same guard stands over resistors."""
    tree = in_series("", Leaf("R1"), in_parallel("", Leaf("R2"), Leaf("R3")))
    problem = problem_of(tree, law, {"R1": "7 ohm", "R2": "6 ohm", "R3": "4 ohm"}, "12 V")
    with pytest.raises(Disagreement, match=quantity):
        solve_nest(problem, write_steps=_with(key, change))


CHECKED = [
    ("capacitance:total", "bound total, C1, C23", "1/125000 against 3/500000"),
    ("charge:C1", "equivalent C1", "3/62500 against 3/31250"),
    ("charge:C2", "junction a, C1, C2, C3", "3/62500 against 1/15625"),
    ("voltage:C2", "junction a, C1, C2, C3", "3/62500 against 1/15625"),
    ("voltage:C1", "loop C1, C2", "12 against 16"),
    ("energy:C3", "work C1, C2, C3", "13/31250 against 9/31250"),
]


@pytest.mark.parametrize(("key", "check", "values"), CHECKED)
def test_the_checks_alone_catch_it_too(
    key: str, check: str, values: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With the nodal method out of action, a check still stops what is wrong, and names it."""
    monkeypatch.setattr(import_module("builder.solution.nest.solve"), "by_nodes", lambda *_: {})
    with pytest.raises(CheckFailed) as caught:
        solve_nest(MIXED, write_steps=_with(key, _twice))
    assert str(caught.value) == (
        f"random-circuit: the check of {check} fails: {values}" + REPORT + "with the file."
    )


def test_the_network_is_what_the_steps_are_held_against() -> None:
    """A tree that is not that of the network is caught, though it is consistent in itself."""
    other = in_parallel("total", Leaf("C1"), in_series("C23", Leaf("C2"), Leaf("C3")))
    with pytest.raises(Disagreement, match="capacitance of C23"):
        solve_nest(replace(MIXED, tree=other))


def test_a_member_that_carries_anothers_value_is_caught() -> None:
    """Charge carried to C2 from its group, as if the group were in series, is caught."""
    wrong = _with("charge:C2", lambda _: Ref(Name("charge", "C23")))
    with pytest.raises(Disagreement, match="the charge of C2 is 3/62500 C by the steps but 1/6"):
        solve_nest(MIXED, write_steps=wrong)
