"""Rearranging one equation for one unknown."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sympy import Rational

from builder.quantity.expression import parse_equation
from builder.quantity.formula import evaluate
from builder.quantity.letters import LETTER
from builder.quantity.names import Name
from builder.site.formulas.text import plain_formula
from builder.solution.relations.algebra import rearranged
from builder.solution.relations.writing import tidied


@pytest.mark.parametrize(
    ("equation", "unknown", "formulas"),
    [
        ("U = 1/2*C*V^2", "V", ("√((2 · U) / C)", "−√((2 · U) / C)")),
        ("U = 1/2*C*V^2", "C", ("(2 · U) / V²",)),
        ("C = k*A/d", "d", ("(k · A) / C",)),
        ("C = k*A/d", "A", ("(C · d) / k",)),
        ("V = E - r*I", "r", ("(E − V) / I",)),
        ("V = E - r*I", "E", ("V + r · I",)),
        ("R*I + r*I = E", "I", ("E / (R + r)",)),
        ("a/b = c/d", "c", ("(a · d) / b",)),
        ("a/b = c/d", "d", ("(c · b) / a",)),
        ("R = a*b/(a+b)", "b", ("(R · a) / (a − R)",)),
        ("v = u*exp(0-t/T)", "t", ("−ln(v / u) · T",)),
        ("x^2 + 3*x = c", "x", ("(√(9 + 4 · c) − 3) / 2", "(−3 − √(9 + 4 · c)) / 2")),
        ("s = sqrt(a*b)", "b", ("s² / a",)),
        ("P = E^2*R/(R+r)^2", "r", ("√((E² · R) / P) − R", "−√((E² · R) / P) − R")),
        ("a = b", "b", ("a",)),
    ],
)
def test_an_equation_is_solved_for_its_unknown(
    equation: str, unknown: str, formulas: tuple[str, ...]
) -> None:
    """What is done to the unknown is undone from the outside in, written as a person would."""
    typed = parse_equation(equation)
    solved = rearranged(typed.left.formula, typed.right.formula, Name(LETTER, unknown))
    assert solved is not None
    assert tuple(plain_formula(f, lambda name: name.of) for f in solved.formulas) == formulas


def test_an_unknown_that_no_rule_isolates_is_told_apart() -> None:
    """An unknown inside and outside an exponential is given up, not guessed."""
    typed = parse_equation("a = x*exp(x)")
    assert rearranged(typed.left.formula, typed.right.formula, Name(LETTER, "x")) is None


EQUATIONS = (
    "A = (x+d)^2*k",
    "U = 1/2*C*V^2", "C = k*A/d", "V = E - r*I", "R*I + r*I = E", "a/b = c/d", "R = a*b/(a+b)",
    "P = E^2*R/(R+r)^2", "a*x + b = c*x + d", "1/f = 1/a + 1/b",
)  # fmt: skip


@given(
    equation=st.sampled_from(EQUATIONS),
    numbers=st.lists(st.fractions(min_value=Fraction(1, 9), max_value=9), min_size=6, max_size=6),
    pick=st.integers(0, 5),
)
def test_what_a_rearranged_formula_gives_satisfies_the_equation(
    equation: str, numbers: list[Fraction], pick: int
) -> None:
    """Put back, every formula makes both sides equal, whatever the other values are."""
    typed = parse_equation(equation)
    letters = list(dict.fromkeys([*typed.left.letters, *typed.right.letters]))
    unknown = Name(LETTER, letters[pick % len(letters)])
    values = {
        Name(LETTER, letter): Rational(n.numerator, n.denominator)
        for letter, n in zip(letters, numbers, strict=False)
    }
    solved = rearranged(typed.left.formula, typed.right.formula, unknown)
    assert solved is not None
    for formula in solved.formulas:
        try:
            found = evaluate(formula, values)
            sides = [
                evaluate(side.formula, {**values, unknown: found})
                for side in (typed.left, typed.right)
            ]
        except (ZeroDivisionError, ValueError):
            continue
        assert (sides[0] - sides[1]).equals(0)


@pytest.mark.parametrize(
    ("text", "tidy"),
    [
        ("(s-b)*b/(s-b+b)", "((s − b) · b) / s"),
        ("2*b + b", "3 · b"),
        ("a*b/(a*c)", "b / c"),
        ("(a/b)^2", "a² / b²"),
        ("a/(b/c)", "(a · c) / b"),
        ("a - a + b", "b"),
    ],
)
def test_formulas_are_put_together_as_a_person_writes_them(text: str, tidy: str) -> None:
    """Like terms are added, and what stands on both sides of a bar is left out."""
    formula = parse_equation(f"x = {text}").right.formula
    assert plain_formula(tidied(formula), lambda name: name.of) == tidy
