"""Formulas: evaluated exactly, listed by name, and shipped as plain data."""

from __future__ import annotations

from fractions import Fraction
from math import prod

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sympy import Rational, Symbol, exp, log, simplify, sqrt

from builder.quantity.exact import as_fraction
from builder.quantity.formula import (
    Amount,
    Exp,
    Formula,
    Ln,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Root,
    Solved,
    Square,
    Sum,
    System,
    evaluate,
    names_in,
    parts_of,
)
from builder.quantity.names import Name

A, B, C = (Name("capacitance", name) for name in ("C1", "C2", "C3"))
VALUES = {A: Rational(2), B: Rational(3), C: Rational(6)}
HALF = Num(Fraction(1, 2))

EVALUATED: list[tuple[Formula, str, list[Name]]] = [
    (Ref(A), "2", [A]),
    (HALF, "1/2", []),
    (Sum((Ref(A), Ref(B), Ref(C))), "11", [A, B, C]),
    (Product((HALF, Ref(B), Square(Ref(A)))), "6", [B, A]),
    (Quotient(Ref(A), Ref(B)), "2/3", [A, B]),
    (ReciprocalSum((Ref(A), Ref(B), Ref(C))), "1", [A, B, C]),
    (Sum((Ref(A), Ref(A))), "4", [A, A]),
    (Sum((Amount(Rational(24), "voltage"), Negative(Ref(A)))), "22", [A]),
    (Power(Ref(A), Fraction(-3)), "1/8", [A]),
    (Power(Product((Ref(A), Ref(A))), Fraction(3, 2)), "8", [A, A]),
    (Root(Product((Ref(A), Ref(B), Ref(C)))), "6", [A, B, C]),
    (Exp(Sum((Ref(A), Negative(Ref(A))))), "1", [A, A]),
    (Ln(Quotient(Ref(A), Ref(A))), "0", [A, A]),
]  # fmt: skip


@pytest.mark.parametrize(("formula", "value", "names"), EVALUATED)
def test_a_formula_has_a_value_and_its_names(
    formula: Formula, value: str, names: list[Name]
) -> None:
    """One definition is evaluated exactly and tells what it uses."""
    assert evaluate(formula, VALUES) == Rational(value)
    assert list(names_in(formula)) == names


@pytest.mark.parametrize(
    "formula",
    [
        Quotient(Ref(A), Ref(B)),
        ReciprocalSum((Ref(A), Ref(B))),
        ReciprocalSum((Ref(A), Ref(C))),
    ],
)
def test_nothing_is_divided_by_zero(formula: Formula) -> None:
    """A zero below a fraction line stops the computation, also where reciprocals cancel."""
    values = {A: Rational(5), B: Rational(0), C: Rational(-5)}
    with pytest.raises(ZeroDivisionError, match="a quantity that is divided by is zero"):
        evaluate(formula, values)


ONE, ZERO = Num(Fraction(1)), Num(Fraction(0))
# x + y = 6 and 2x − 3y = −3: x = 3, y = 3, by adding three times the first to the second.
SYSTEM = System(((ONE, ONE), (Ref(A), Negative(Ref(B)))), (Ref(C), Num(Fraction(-3))))


@pytest.mark.parametrize("position", [0, 1])
def test_an_unknown_of_linear_equations(position: int) -> None:
    """An unknown of a system is solved for exactly."""
    formula = Solved(SYSTEM, position)
    assert evaluate(formula, VALUES) == 3
    assert list(names_in(formula)) == [C, A, B]


def test_linear_equations_of_symbols_and_of_roots() -> None:
    """Coefficients may be symbols or roots; the unknowns stay exact and are cancelled."""
    r, s = Symbol("R", positive=True), Symbol("S", positive=True)
    # (R + S) x + S y = R + 2S and S x + S y = 2S: subtracting gives x = 1, hence y = 1.
    system = System(
        ((Sum((Ref(A), Ref(B))), Ref(B)), (Ref(B), Ref(B))),
        (Sum((Ref(A), Ref(B), Ref(B))), Sum((Ref(B), Ref(B)))),
    )
    for values in ({A: r, B: s}, {A: sqrt(2), B: Rational(3)}):
        assert [evaluate(Solved(system, place), values) for place in (0, 1)] == [1, 1]


@pytest.mark.parametrize("right", [ZERO, ONE])
def test_linear_equations_without_one_solution(right: Formula) -> None:
    """Equations that say the same twice, or contradict each other, are not solved."""
    formula = Solved(System(((ONE, ONE), (ONE, ONE)), (ZERO, right)), 0)
    with pytest.raises(ZeroDivisionError, match="no single solution"):
        evaluate(formula, VALUES)


def test_linear_equations_of_what_no_algebra_decides() -> None:
    """Coefficients for which nobody can tell a zero are refused rather than guessed at."""
    system = System(((Exp(Ref(A)), ONE), (ONE, Exp(Ref(B)))), (ONE, ONE))
    with pytest.raises(TypeError, match="not solved"):
        evaluate(Solved(system, 0), VALUES)


def test_values_that_are_no_rationals_stay_exact() -> None:
    """Roots, exponentials and logarithms keep their form; nothing turns into a float."""
    assert evaluate(Root(Ref(A)), VALUES) == sqrt(2)
    assert evaluate(Exp(Negative(Quotient(Ref(A), Ref(B)))), VALUES) == exp(Rational(-2, 3))
    assert evaluate(Ln(Ref(B)), VALUES) == log(3)
    c = Symbol("C", positive=True)
    assert evaluate(Root(Square(Ref(A))), {A: c}) == c


@pytest.mark.parametrize(
    ("formula", "error"),
    [
        (Root(Negative(Ref(A))), ValueError),
        (Power(Negative(Ref(A)), Fraction(1, 3)), ValueError),
        (Power(Sum((Ref(A), Negative(Ref(A)))), Fraction(-1)), ZeroDivisionError),
        (Ln(Sum((Ref(A), Negative(Ref(A))))), ValueError),
        (Ln(Negative(Ref(A))), ValueError),
    ],
)
def test_what_has_no_real_value(formula: Formula, error: type[Exception]) -> None:
    """Roots and logarithms of what has none stop the computation."""
    with pytest.raises(error):
        evaluate(formula, VALUES)


def test_a_quantity_without_a_value_is_named() -> None:
    """A formula of something not yet known says what is missing."""
    with pytest.raises(KeyError, match="C2"):
        evaluate(Sum((Ref(A), Ref(B))), {A: Rational(1)})


def test_symbols_go_through_formulas_like_numbers() -> None:
    """Two equal capacitors C in series make C/2."""
    c = Symbol("C", positive=True)
    merged = evaluate(ReciprocalSum((Ref(A), Ref(B))), {A: c, B: c})
    assert simplify(merged - c / 2) == 0


def _formulas() -> st.SearchStrategy[Formula]:
    leaves: st.SearchStrategy[Formula] = st.one_of(
        st.sampled_from([Ref(A), Ref(B), Ref(C)]),
        st.builds(Num, st.fractions(min_value=Fraction(1, 9), max_value=9, max_denominator=9)),
    )

    def grown(parts: st.SearchStrategy[Formula]) -> st.SearchStrategy[Formula]:
        several = st.lists(parts, min_size=2, max_size=4).map(tuple)
        return st.one_of(
            st.builds(Sum, several),
            st.builds(Product, several),
            st.builds(ReciprocalSum, several),
            st.builds(Quotient, parts, parts),
            st.builds(Square, parts),
            st.builds(Negative, parts),
            st.builds(Power, leaves, st.integers(0, 3).map(Fraction)),
        )

    return st.recursive(leaves, grown, max_leaves=12)


def _plainly(formula: Formula, values: dict[Name, Fraction]) -> Fraction:
    """A formula's value in plain fractions."""
    match formula:
        case Ref(name):
            return values[name]
        case Num(value):
            return value
        case Power(base, exponent):
            return Fraction(_plainly(base, values) ** int(exponent))
    numbers = [_plainly(part, values) for part in parts_of(formula)]
    return {
        Sum: lambda: sum(numbers, Fraction(0)),
        Product: lambda: Fraction(prod(numbers)),
        ReciprocalSum: lambda: 1 / sum((1 / number for number in numbers), Fraction(0)),
        Quotient: lambda: numbers[0] / numbers[1],
        Square: lambda: numbers[0] ** 2,
        Negative: lambda: -numbers[0],
    }[type(formula)]()


@given(formula=_formulas(), sizes=st.tuples(*[st.fractions(Fraction(1, 99), 99)] * 3))
def test_plain_fractions_give_the_same(formula: Formula, sizes: tuple[Fraction, ...]) -> None:
    """The value of any formula is that which arithmetic with fractions gives."""
    plain = dict(zip((A, B, C), sizes, strict=True))
    exact = {name: Rational(size.numerator, size.denominator) for name, size in plain.items()}
    try:
        value = evaluate(formula, exact)
    except ZeroDivisionError:  # negative terms can add up to nothing
        with pytest.raises(ZeroDivisionError):
            _plainly(formula, plain)
        return
    assert _plainly(formula, plain) == as_fraction(value)
