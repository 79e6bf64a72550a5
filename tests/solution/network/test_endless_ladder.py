"""The ladder without an end against its published closed forms."""

from __future__ import annotations

from itertools import pairwise

import pytest
from sympy import Expr, GoldenRatio, Integer, Rational, expand_func, fibonacci, simplify, sqrt

from builder.circuit.law import CAPACITORS, PARALLEL, RESISTORS, SERIES, Law
from builder.quantity.exact import Exact
from builder.quantity.formula import evaluate
from builder.quantity.names import TOTAL, Name
from builder.solution.network.reductions.ladder import (
    Ladder,
    LadderMove,
    finite,
    ladder_steps,
)
from builder.solution.network.reductions.route import route
from builder.solution.program import run
from tests.solution.network.examples import ladder as finite_ladder

ONE_RAIL, TWO_RAILS = ("R1",), ("R1", "R3")
CLOSED = [
    # law, rails, rung, first, value
    (RESISTORS, {"R1": 1}, {"R2": 1}, SERIES, (1 + sqrt(5)) / 2),  # φR, standard
    (RESISTORS, {"R1": 1}, {"R2": 1}, PARALLEL, (sqrt(5) - 1) / 2),  # standard
    # University Physics Volume 2 (OpenStax), chapter 10, fs-id1172102054924
    (RESISTORS, {"R1": 1, "R3": 1}, {"R2": 1}, PARALLEL, sqrt(3) - 1),
    (RESISTORS, {"R1": 1, "R3": 1}, {"R2": 1}, SERIES, sqrt(3) + 1),  # follows from it
    (RESISTORS, {"R1": 4}, {"R2": 3}, SERIES, Integer(6)),  # Irodov, part 3, from memory
    # several stored exam pages; Irodov, part 3
    (CAPACITORS, {"C1": 1}, {"C2": 1}, SERIES, (sqrt(5) - 1) / 2),
]


def _solved(
    law: Law, rails: dict[str, int], rung: dict[str, int], first: str, sections: int = 4
) -> tuple[Ladder, dict[Name, Exact]]:
    (between,) = rung
    endless = Ladder(law, tuple(rails), between, first)
    givens = {Name(law.value, of): Integer(value) for of, value in (rails | rung).items()}
    return endless, run(ladder_steps(endless, sections), givens)


@pytest.mark.parametrize(("law", "rails", "rung", "first", "value"), CLOSED)
def test_closed_forms(
    law: Law, rails: dict[str, int], rung: dict[str, int], first: str, value: Expr
) -> None:
    """The positive root is kept exactly, roots and all."""
    _, values = _solved(law, rails, rung, first)
    assert simplify(values[Name(law.value, TOTAL)] - value) == 0


def test_the_golden_ratio() -> None:
    """Equal resistors, rail first, make the golden ratio of one of them."""
    _, values = _solved(RESISTORS, {"R1": 1}, {"R2": 1}, SERIES)
    assert values[Name("resistance", TOTAL)] == expand_func(GoldenRatio.rewrite(sqrt))


@pytest.mark.parametrize("law", [RESISTORS, CAPACITORS], ids=lambda law: str(law.value))
@pytest.mark.parametrize("first", [SERIES, PARALLEL])
@pytest.mark.parametrize("rails", [{"1": 4}, {"1": 2, "3": 5}])
def test_its_equations_hold(law: Law, first: str, rails: dict[str, int]) -> None:
    """Both sides of what is written down are equal for the root that is found."""
    named = {law.letter + index: value for index, value in rails.items()}
    endless, values = _solved(law, named, {f"{law.letter}2": 3}, first)
    statements = [one for step in ladder_steps(endless) for one in step.statements]
    assert len(statements) == 2
    for one in statements:
        assert simplify(evaluate(one.left, values) - evaluate(one.right, values)) == 0
    assert values[Name(law.value, TOTAL)].is_positive


@pytest.mark.parametrize("law", [RESISTORS, CAPACITORS], ids=lambda law: str(law.value))
@pytest.mark.parametrize("first", [SERIES, PARALLEL])
def test_finite_ladders_come_nearer_and_nearer(law: Law, first: str) -> None:
    """Each is nearer to the endless one than the one before, and stays on its side of it."""
    _, values = _solved(law, {f"{law.letter}1": 4}, {f"{law.letter}2": 3}, first, sections=8)
    whole = values[Name(law.value, TOTAL)]
    gaps = [values[Name(law.value, finite(n))] - whole for n in range(1, 9)]
    assert all(abs(later) < abs(sooner) for sooner, later in pairwise(gaps))
    assert len({gap.is_positive for gap in gaps}) == 1
    assert float(abs(gaps[-1] / whole)) < 1e-2


def test_finite_ladders_are_those_that_reductions_solve() -> None:
    """F(2n + 1)/F(2n) of R for n sections, and the same by merging the whole network."""
    _, values = _solved(RESISTORS, {"R1": 1}, {"R2": 1}, SERIES, sections=5)
    for sections in range(1, 6):
        value = values[Name("resistance", finite(sections))]
        assert value == Rational(int(fibonacci(2 * sections + 1)), int(fibonacci(2 * sections)))
        way = route(finite_ladder(sections), RESISTORS)
        assert way is not None
        network = finite_ladder(sections)
        givens = {Name("resistance", e.name): e.value for e in network.elements}
        assert run(way.steps, givens)[Name("resistance", TOTAL)] == value


def test_two_rails_are_merged_first() -> None:
    """One move more: the elements in the rails of one section carry the same current."""
    kinds = [step.kind for step in ladder_steps(Ladder(RESISTORS, TWO_RAILS, "R2"))]
    assert kinds == [LadderMove.SECTION, LadderMove.REPEAT, LadderMove.ROOT, LadderMove.FINITE]
    kinds = [step.kind for step in ladder_steps(Ladder(RESISTORS, ONE_RAIL, "R2"))]
    assert kinds == [LadderMove.REPEAT, LadderMove.ROOT, LadderMove.FINITE]
