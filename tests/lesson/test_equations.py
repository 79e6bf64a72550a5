"""Formula, values and result of a step, with = where a line tells all and ≈ where it rounds."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings

from builder.circuit.tree import Tree
from builder.lesson.equations import (
    MOST_TERMS,
    Equation,
    InLetters,
    Reciprocal,
    Result,
    Side,
    Symbols,
    Values,
)
from builder.lesson.lesson import TaughtStep
from builder.lesson.nest.display import NestDisplay
from builder.problem.model import NestProblem
from builder.quantity.exact import as_fraction
from builder.quantity.formula import (
    Formula,
    Num,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Square,
    Sum,
    names_in,
)
from builder.quantity.measure import read_measure
from tests.lesson.telling import asking, lesson_of, parallel, series, taught_problems


def _lines(problem: NestProblem, step: str) -> list[str]:
    lesson = lesson_of(problem)
    (taught,) = (each for each in lesson.steps if each.step.id == step)
    return [line for equation in _found(taught) for line in _rows(equation, lesson.display)]


def _found(taught: TaughtStep) -> list[Equation]:
    """The equations of a step, none of which a nest has to set up first."""
    found = [each for each in taught.equations if isinstance(each, Equation)]
    assert len(found) == len(taught.equations)
    return found


def _rows(equation: Equation, display: NestDisplay) -> list[str]:
    left = " = ".join(display.symbol(name).text for name in equation.names)
    left = f"1/{left}" if equation.reciprocal else left
    return [
        f"{'' if position else left} {row.relation} {_side(row.side, display)}".strip()
        for position, row in enumerate(equation.rows)
    ]


def _side(side: Side, display: NestDisplay) -> str:
    match side:
        case Symbols(formula):
            return _formula(formula, display, numbers=False)
        case Values(formula):
            return _formula(formula, display, numbers=True)
        case Result(name):
            return display.shown(name).text
        case Reciprocal(over, under, unit):
            return f"{over}/({under} {unit})"
        case InLetters(formula):
            return _formula(formula, display, numbers=False)


def _formula(formula: Formula, display: NestDisplay, *, numbers: bool) -> str:
    def inner(part: Formula) -> str:
        return _formula(part, display, numbers=numbers)

    match formula:
        case Ref(name):
            return f"({display.shown(name).text})" if numbers else display.symbol(name).text
        case Num(value):
            return str(value)
        case Sum(terms):
            return " + ".join(map(inner, terms))
        case Product(factors):
            return "·".join(map(inner, factors))
        case Quotient(over, under):
            return f"{inner(over)}/[{inner(under)}]"
        case Square(base):
            return f"{inner(base)}²"
        case ReciprocalSum(terms):
            return " + ".join(f"1/{inner(term)}" for term in terms)
        case _:
            raise AssertionError(f"no step of a nest has {formula}")


C_NEST = series("C1", parallel("C2", "C3"))
LADDER = parallel("R4", series("R3", parallel("R1", "R2")))
TWELVE = [f"C{number}" for number in range(1, 13)]
Row = tuple[Tree | str, str | None, tuple[str, ...], dict[str, str] | None, str, list[str]]
WRITTEN: list[Row] = [
    # 3/30 + 1/30 = 4/30 of a microfarad's reciprocal: 7.5 µF.
    (series("C1", "C3"), "12 V", (), None, "merge-total",
     ["1/C_eq = 1/C₁ + 1/C₃", "= 1/(10 µF) + 1/(30 µF)", "= 4/(30 µF)", "C_eq = 7.50 µF"]),
    # 6/60 + 3/60 + 2/60 = 11/60: 60/11 = 5.4545… Ω.
    (parallel("R1", "R2", "R3"), "12 V", (), None, "merge-total",
     ["1/R_eq = 1/R₁ + 1/R₂ + 1/R₃", "= 1/(10 Ω) + 1/(20 Ω) + 1/(30 Ω)", "= 11/(60 Ω)",
      "R_eq ≈ 5.45 Ω"]),
    # Not whole in their unit, or in two units: no single fraction.
    (series("C1", "C2"), "12 V", (), {"C1": "1.5 uF", "C2": "3 uF"}, "merge-total",
     ["1/C_eq = 1/C₁ + 1/C₂", "= 1/(1.5 µF) + 1/(3 µF)", "C_eq = 1.00 µF"]),
    (parallel("R1", "R2"), "12 V", (), {"R1": "1 kohm", "R2": "500 ohm"}, "merge-total",
     ["1/R_eq = 1/R₁ + 1/R₂", "= 1/(1 kΩ) + 1/(500 Ω)", "R_eq ≈ 333 Ω"]),
    # 997 and 991 are prime: their product has six digits.
    (series("C1", "C2"), "12 V", (), {"C1": "997 uF", "C2": "991 uF"}, "merge-total",
     ["1/C_eq = 1/C₁ + 1/C₂", "= 1/(997 µF) + 1/(991 µF)", "C_eq ≈ 497 µF"]),
    # 10 · 20/30 = 6.67 Ω is rounded, so what is computed with it is: 36.67 Ω, then
    # 40 · 36.67/76.67 = 19.13 Ω, without a single fraction.
    (LADDER, "12 V", (), None, "merge-R123",
     ["R₁₂₃ = R₃ + R₁₂", "≈ (30 Ω) + (6.67 Ω)", "≈ 36.7 Ω"]),
    (LADDER, "12 V", (), None, "merge-total",
     ["1/R_eq = 1/R₄ + 1/R₁₂₃", "≈ 1/(40 Ω) + 1/(36.7 Ω)", "R_eq ≈ 19.1 Ω"]),
    (parallel("C1", "C2"), "12 V", (), None, "merge-total",
     ["C_eq = C₁ + C₂", "= (10 µF) + (20 µF)", "= 30.0 µF"]),
    (C_NEST, "12 V", (), None, "merge-total",
     ["1/C_eq = 1/C₁ + 1/C₂₃", "= 1/(10 µF) + 1/(50.0 µF)", "= 6/(50 µF)", "C_eq ≈ 8.33 µF"]),
    # 25/3 µF · 12 V is 100 µC exactly, though 8.33 is rounded.
    (C_NEST, "12 V", (), None, "charge",
     ["Q = C_eq·V₀", "≈ (8.33 µF)·(12 V)", "= 100 µC"]),
    # Values carried over stand in one chain, and what follows from them below it.
    (C_NEST, "12 V", (), None, "open-total",
     ["Q₁ = Q₂₃ = Q = 100 µC",
      "V₁ = Q₁/[C₁]", "= (100 µC)/[(10 µF)]", "= 10.0 V",
      "V₂₃ = Q₂₃/[C₂₃]", "= (100 µC)/[(50.0 µF)]", "= 2.00 V"]),
    (C_NEST, "12 V", ("voltage:C1",), None, "open-total",
     ["Q₁ = Q = 100 µC", "V₁ = Q₁/[C₁]", "= (100 µC)/[(10 µF)]", "= 10.0 V"]),
    # 12/60 A = 200 mA; 12 V over 35 Ω = 342.857 mA: rounded, and so is what is carried over.
    (series("R1", "R2"), "12 V", ("voltage:R1",), {"R1": "15 ohm", "R2": "20 ohm"}, "open-total",
     ["I₁ = I ≈ 343 mA", "V₁ = R₁·I₁", "≈ (15 Ω)·(343 mA)", "≈ 5.14 V"]),
    ("C1", "12 V", ("charge:C1",), None, "charge",
     ["V₁ = V₀ = 12 V", "Q₁ = C₁·V₁", "= (10 µF)·(12.0 V)", "= 120 µC"]),
    (C_NEST, "12 V", (), None, "energy",
     ["U₁ = 1/2·Q₁·V₁", "= 1/2·(100 µC)·(10.0 V)", "= 500 µJ",
      "U₂ = 1/2·Q₂·V₂", "= 1/2·(40.0 µC)·(2.00 V)", "= 40.0 µJ",
      "U₃ = 1/2·Q₃·V₃", "= 1/2·(60.0 µC)·(2.00 V)", "= 60.0 µJ"]),
    (parallel("R1", "R2"), "12 V", ("power:R1",), None, "power",
     ["P₁ = V₁²/[R₁]", "= (12.0 V)²/[(10 Ω)]", "= 14.4 W"]),
    # 1/10 + … + 1/120 of 12 terms: 10/(1 + 1/2 + … + 1/12) = 3.2225 µF.
    (series(*TWELVE), None, (), None, "merge-total",
     ["1/C_eq = " + " + ".join(f"1/C{n}" for n in "₁ ₂ ₃ ₄ ₅ ₆ ₇ ₈ ₉ ₁₀ ₁₁ ₁₂".split()),
      "C_eq ≈ 3.22 µF"]),
    # 10 · (1 + 2 + … + 12) = 780.
    (parallel(*TWELVE), None, (), None, "merge-total",
     ["C_eq = " + " + ".join(f"C{n}" for n in "₁ ₂ ₃ ₄ ₅ ₆ ₇ ₈ ₉ ₁₀ ₁₁ ₁₂".split()),
      "= 780 µF"]),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "source", "asked", "typed", "step", "lines"), WRITTEN)
def test_a_step_is_written_out(
    tree: Tree | str,
    source: str | None,
    asked: tuple[str, ...],
    typed: dict[str, str] | None,
    step: str,
    lines: list[str],
) -> None:
    """Formula, the same with values, a single fraction where that is short, the result."""
    assert _lines(asking(tree, source, *asked, values=typed), step) == lines


@given(problem=taught_problems())
@settings(max_examples=80)
def test_equal_is_said_only_of_what_is_exact(problem: NestProblem) -> None:
    """Read back as numbers, every side after = is the whole value, every one after ≈ is not."""
    lesson = lesson_of(problem)
    display, values = lesson.display, lesson.solution.values
    for taught in lesson.steps:
        for equation in _found(taught):
            target = as_fraction(values[equation.names[-1]])
            for row in equation.rows:
                match row.side:
                    case Result(name):
                        told = as_fraction(read_measure(display.shown(name).text).value)
                        assert (row.relation == "=") == (told == target)
                    case Reciprocal(over, under, unit):
                        told = as_fraction(read_measure(f"{under} {unit}").value) / over
                        assert row.relation == "="
                        assert told == target
                    case Values(formula):
                        numbers = [display.shown(name).text for name in names_in(formula)]
                        used = [values[name] for name in names_in(formula)]
                        whole = all(
                            as_fraction(read_measure(number).value) == as_fraction(value)
                            for number, value in zip(numbers, used, strict=True)
                        )
                        assert (row.relation == "=") == whole
                        assert len(numbers) <= MOST_TERMS
                    case Symbols():
                        assert row.relation == "="
                    case InLetters():
                        pytest.fail("a circuit of numbers has no letters")


@given(problem=taught_problems())
@settings(max_examples=60)
def test_every_quantity_of_a_step_is_written_with_its_result(problem: NestProblem) -> None:
    """None is left out, and what is carried over equals where it comes from."""
    lesson = lesson_of(problem)
    values = lesson.solution.values
    for taught in lesson.steps:
        resulting = [e for e in _found(taught) if isinstance(e.rows[-1].side, Result)]
        assert {name for e in resulting for name in e.names} >= set(taught.step.found)
        for equation in _found(taught):
            assert len({Fraction(str(values[name])) for name in equation.names}) == 1
