"""Checks: each kind holds of right results and fails of wrong ones."""

from __future__ import annotations

import pytest
from sympy import Rational

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.circuit.tree import Leaf, in_parallel, in_series
from builder.problem.model import NestProblem
from builder.quantity.formula import names_in
from builder.solution.check import Check
from builder.solution.nest.checks import CheckKind, checks_of
from builder.solution.nest.solve import solve_nest
from tests.solution.written import written
from tests.strategies import problem_of

MIXED = problem_of(
    in_series("", Leaf("C1"), in_parallel("", Leaf("C2"), Leaf("C3"))),
    CAPACITORS,
    {"C1": "12 uF", "C2": "2 uF", "C3": "4 uF"},
    "12 V",
)
LAMPS = problem_of(
    in_parallel("", Leaf("R1"), in_series("", Leaf("R2"), in_parallel("", Leaf("R3"), Leaf("R4")))),
    RESISTORS,
    {"R1": "10 ohm", "R2": "20 ohm", "R3": "30 ohm", "R4": "40 ohm"},
    "2 A",
)


def _as_text(check: Check) -> str:
    return f"{check.kind}: {written(check.left)} {check.relation} {written(check.right)}"


def test_all_checks_of_a_mixed_circuit() -> None:
    """Bounds of each equivalent, the sum at +, each junction, each loop, and the energies."""
    assert [_as_text(check) for check in solve_nest(MIXED).checks] == [
        "bound: C(C23) > C(C3)",
        "bound: C(total) < C(C23)",
        "equivalent: C(total)·V(V0) = Q(C1)",
        "junction: Q(C1) = Q(C2) + Q(C3)",
        "loop: V(V0) = V(C1) + V(C2)",
        "loop: V(V0) = V(C1) + V(C3)",
        "work: U(C1) + U(C2) + U(C3) = ½·Q(total)·V(V0)",
    ]


def test_all_checks_of_a_nested_resistor_circuit() -> None:
    """With a current given, the voltage of the whole is the one that was found."""
    assert [_as_text(check) for check in solve_nest(LAMPS).checks] == [
        "bound: R(R34) < R(R3)",
        "bound: R(R234) > R(R2)",
        "bound: R(total) < R(R1)",
        "equivalent: V(total)/R(total) = I(R1) + I(R2)",
        "junction: I(R2) = I(R3) + I(R4)",
        "loop: V(total) = V(R1)",
        "loop: V(total) = V(R2) + V(R3)",
        "loop: V(total) = V(R2) + V(R4)",
        "work: P(R1) + P(R2) + P(R3) + P(R4) = V(total)·I(I0)",
    ]


@pytest.mark.parametrize("problem", [MIXED, LAMPS], ids=["capacitors", "resistors"])
@pytest.mark.parametrize("kind", list(CheckKind))
def test_each_kind_of_check_fails_of_wrong_values(kind: CheckKind, problem: NestProblem) -> None:
    """A check holds of the results, and no longer when any one quantity in it is changed."""
    solution = solve_nest(problem)
    checks = [check for check in solution.checks if check.kind is kind]
    assert checks
    for check in checks:
        assert check.holds(solution.values)
        spoiling = {"=": Rational(2), "<": Rational(1, 10**4), ">": Rational(10**4)}[check.relation]
        right = set(names_in(check.right))
        for name in {*names_in(check.left), *right}:
            factor = spoiling if name in right else 1 / spoiling
            changed = {**solution.values, name: solution.values[name] * factor}
            assert not check.holds(changed), (check, name)


def test_without_a_source_only_equivalents_can_be_checked() -> None:
    """An undriven network has bounds and nothing else to check."""
    bare = problem_of(
        in_series("", Leaf("C1"), Leaf("C2")), CAPACITORS, {"C1": "1 uF", "C2": "2 uF"}, None
    )
    assert [check.kind for check in solve_nest(bare).checks] == [CheckKind.BOUND]


def test_a_single_element_has_nothing_to_add_up() -> None:
    """One capacitor on a battery needs no check of sums."""
    alone = problem_of(Leaf("C1"), CAPACITORS, {"C1": "1 uF"}, "12 V")
    assert checks_of(alone, solve_nest(alone).values) == ()
