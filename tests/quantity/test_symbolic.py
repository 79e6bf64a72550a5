"""Values with symbols: one form, proved signs, exact limits, and how a person writes them."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sympy import Integer, Rational, exp, oo, sqrt

from builder.quantity.brackets import Binding
from builder.quantity.compact import compact
from builder.quantity.expression import parse_expression, to_exact
from builder.quantity.formula import Amount, Formula, Ln, Negative, Num, Product, Square, every_part
from builder.quantity.letters import kind_of, letter, letter_of, letter_symbol, symbol_of
from builder.quantity.names import Symbol
from builder.quantity.personal import as_formula
from builder.quantity.show import Shown, ShownExpression, show, show_in
from builder.quantity.symbolic import (
    is_symbolic,
    letters_in,
    limit,
    plain,
    ratios,
    same,
    sign_of,
    tidied,
)

C, C1, C2, C3 = (symbol_of(name, "capacitance") for name in ("C", "C1", "C2", "C3"))
R, R1, R2, LOAD = (symbol_of(name, "resistance") for name in ("R", "R1", "R2", "R_load"))
V, FLOW = symbol_of("V", "voltage"), symbol_of("I", "current")


def test_a_symbol_carries_its_letter_and_its_kind() -> None:
    """The letter is what is printed; the kind tells the units of what stands beside it."""
    assert (letter_of(C1), kind_of(C1)) == ("C1", "capacitance")
    assert (letter_of(symbol_of("x")), kind_of(symbol_of("x"))) == ("x", "")
    assert letter_symbol("C1") == Symbol("C", "1")
    assert letter_symbol("R_load") == Symbol("R", "load")
    assert str(plain(C1 * V / 2)) == "C1*V/2"
    assert plain(Rational(3, 2)) == Rational(3, 2)


def test_equal_values_have_one_form() -> None:
    """Two in series are the same by reciprocals and by product over sum."""
    assert tidied(1 / (1 / C1 + 1 / C2)) == tidied(C1 * C2 / (C1 + C2))
    assert same(1 / (1 / C1 + 1 / C2), C1 * C2 / (C1 + C2))
    assert not same(C1, C2)
    assert same(Rational(1, 2), Rational(2, 4))
    assert same(oo, oo)
    assert not same(oo, C1)
    assert not same(C1, oo)
    assert tidied(sqrt(2)) == sqrt(2)
    assert [is_symbolic(value) for value in (C, sqrt(2), Integer(1))] == [True, False, False]


@pytest.mark.parametrize(
    ("value", "sign"),
    [
        (C1 - C1 * C2 / (C1 + C2), 1),
        (C1 * C2 / (C1 + C2) - C1, -1),
        (C - C, 0),
        (C1 - C2, None),
        (C1**2 - C1 * C2 + C2**2, None),
        (Rational(-3), -1),
        (Integer(0), 0),
        (1 / (C1 - C2), None),
        (-2 * R, -1),
    ],
)
def test_a_sign_is_told_where_it_is_proved(value: Any, sign: int | None) -> None:
    """Coefficients of one sign prove it; what merely happens to be positive is left open."""
    assert sign_of(value) == sign


@pytest.mark.parametrize(
    ("value", "sign"),
    [
        (sqrt(35) - 6, -1),
        ((24 - 134 * sqrt(35) / 35) / (6 * sqrt(35) / 5 - Rational(67, 10)) - 4 * sqrt(35) / 7, 0),
        (sqrt(5 + 2 * sqrt(6)) - sqrt(2) - sqrt(3), 0),
        (exp(Rational(1, 3)) ** 3 - exp(1), 0),
        (sqrt(10**80 + 1) - 10**40, 1),
        (10**40 - sqrt(10**80 + 1), -1),
        (exp(-200) - exp(-200) * (1 + Rational(1, 10**40)), -1),
    ],
)  # fmt: skip
def test_the_sign_of_a_number_with_roots_is_proved(value: Any, sign: int) -> None:
    """What cancels out is nothing, however it is written; what is nearly nothing has a sign."""
    assert sign_of(value) == sign


def test_values_are_compared_by_their_ratios() -> None:
    """Multiples of one symbol can be compared, different symbols cannot."""
    assert ratios([2 * C, C, C / 3]) == [1, Rational(1, 2), Rational(1, 6)]
    assert ratios([Rational(5), Rational(3)]) == [5, 3]
    assert ratios([C1, C2]) is None
    assert ratios([R, Rational(100)]) is None


@pytest.mark.parametrize(
    ("value", "symbol", "large", "becomes"),
    [
        (C1 * C2 / (C1 + C2), C2, True, C1),
        (C1 * C2 / (C1 + C2), C2, False, 0),
        (C1 + C2, C2, True, oo),
        (C1 + C2, C2, False, C1),
        (V * R2 / (R1 + R2), R2, True, V),
        (V * R2 / (R1 + R2), R1, True, 0),
        (V / R, R, False, oo),
        (3 * R2**2 / (2 * R2**2 + R1**2), R2, True, Rational(3, 2)),
        (C1, C2, True, C1),
        (Integer(0), C2, True, 0),
        (12 * R / (R + 100), R, True, 12),
    ],
)
def test_limits_compare_degrees(value: Any, symbol: Any, large: bool, becomes: Any) -> None:
    """A symbol that grows or shrinks leaves the quotient of the deciding coefficients."""
    assert limit(value, symbol, large=large) == becomes


WRITTEN = [
    (2 * C * V / 3, "charge", "2CV/3", Binding.QUOTIENT),
    (3 * C / 4, "capacitance", "3C/4", Binding.QUOTIENT),
    (1 / (1 / C1 + 1 / C2), "capacitance", "C₁C₂/(C₁ + C₂)", Binding.QUOTIENT),
    (1 / (1 / C1 + 1 / (C2 + C3)), "capacitance", "C₁(C₂ + C₃)/(C₁ + C₂ + C₃)", Binding.QUOTIENT),
    (C1 + C2, "capacitance", "C₁ + C₂", Binding.SUM),
    (2 * C1 + 2 * C2, "capacitance", "2(C₁ + C₂)", Binding.PRODUCT),
    (C1 / 2 + C2 / 2, "capacitance", "(C₁ + C₂)/2", Binding.QUOTIENT),
    (C * V**2 / 2, "energy", "CV²/2", Binding.QUOTIENT),
    (V**2 / (4 * R), "power", "V²/(4R)", Binding.QUOTIENT),
    (R * FLOW, "voltage", "RI", Binding.PRODUCT),
    (R1 - R2, "resistance", "R₁ − R₂", Binding.SUM),
    (-V / 2, "voltage", "−V/2", Binding.NEGATIVE),
    (C, "capacitance", "C", Binding.WHOLE),
    (R * LOAD / (R + LOAD), "resistance", "R · R_load/(R + R_load)", Binding.QUOTIENT),
    ((R1 + R2) ** 2 / R, "resistance", "(R₁ + R₂)²/R", Binding.QUOTIENT),
    (R1**3 / (R * R2), "resistance", "R₁³/(RR₂)", Binding.QUOTIENT),
    # Numbers among symbols carry units.
    (R + 100, "resistance", "R + 100 Ω", Binding.SUM),
    (12 / (R + 100), "current", "(12 V)/(R + 100 Ω)", Binding.QUOTIENT),
    (12 * R / (R + 100), "voltage", "12 V · R/(R + 100 Ω)", Binding.QUOTIENT),
    (144 * R / (R + 100) ** 2, "power", "(12 V)² · R/(R + 100 Ω)²", Binding.QUOTIENT),
    (72 * C, "energy", "72 V² · C", Binding.PRODUCT),
    (C / (C * 10**5 + 1) * Rational(1), "capacitance", "10 µF · C/(C + 10 µF)", Binding.QUOTIENT),
    (100 / (3 * R + 70), "current", "(100 V)/(3R + 70 Ω)", Binding.QUOTIENT),
    (200 / (R + 100), "voltage", "(200 V·Ω)/(R + 100 Ω)", Binding.QUOTIENT),
    (100 * C / 3, "charge", "100 V · C/3", Binding.QUOTIENT),
    (V - 5, "voltage", "V − 5 V", Binding.SUM),
]  # fmt: skip


@pytest.mark.parametrize(("value", "kind", "text", "bound"), WRITTEN)
def test_a_value_is_written_as_a_person_would(
    value: Any, kind: str, text: str, bound: Binding
) -> None:
    """One fraction, its number first; numbers among symbols carry the units that fit."""
    shown = show(value, kind)
    assert isinstance(shown, ShownExpression)
    assert (shown.text, shown.sign, shown.binding) == (text, "=", bound)
    assert show_in(value, kind, "µF") == shown


def test_without_a_kind_no_number_has_a_unit() -> None:
    """A reciprocal on its way to the answer is written with letters and bare numbers."""
    assert compact(as_formula(3 / (2 * C))) == "3/(2C)"
    assert not any(isinstance(part, Amount) for part in every_part(as_formula(12 / (R + 1))))


@pytest.mark.parametrize(
    ("formula", "text"),
    [
        (Product((letter("C"), Num(Fraction(2)))), "C · 2"),
        (Product((Num(Fraction(1, 2)), letter("C"), Square(letter("V")))), "(1/2)CV²"),
        (Product((letter("C"), Negative(letter("V")))), "C(−V)"),
    ],
)
def test_factors_that_could_be_misread_stand_apart(formula: Formula, text: str) -> None:
    """Letters run together; a number behind a letter gets a sign, a fraction brackets."""
    assert compact(formula) == text


def test_a_logarithm_is_no_value_with_symbols() -> None:
    """What such values never hold is refused rather than written wrongly."""
    with pytest.raises(TypeError, match="Ln is no part of a value with symbols"):
        compact(Ln(letter("C")))


def test_letters_come_in_the_order_of_the_trade() -> None:
    """Values of elements, then currents, then voltages; numbered ones by their numbers."""
    ten = symbol_of("C10", "capacitance")
    assert letters_in(V * FLOW * ten * C2 * R * C) == (C, C2, ten, R, FLOW, V)


def test_a_number_is_shown_as_before() -> None:
    """A value without symbols keeps digits, unit and prefix."""
    assert show(Rational(3, 2), "voltage") == Shown("1.50", "V", exact=True)
    assert show(Rational(-3, 2), "voltage").binding is Binding.NEGATIVE
    assert show(Rational(3, 2), "voltage").binding is Binding.PRODUCT


POWERS = st.integers(0, 2)


@settings(max_examples=100, deadline=None)
@given(
    terms=st.lists(st.tuples(st.integers(-9, 9), POWERS, POWERS, POWERS), min_size=1, max_size=3),
    below=st.lists(st.tuples(st.integers(1, 9), POWERS, POWERS), min_size=1, max_size=3),
)
def test_what_is_written_reads_back(
    terms: list[tuple[int, int, int, int]], below: list[tuple[int, int, int]]
) -> None:
    """The text of a value, read by the parser of expressions, is the very value."""
    names = {"C": symbol_of("C"), "V": symbol_of("V"), "R2": symbol_of("R2")}
    c, v, r = names.values()
    over = sum((n * c**p * v**q * r**s for n, p, q, s in terms), Integer(0))
    value = over / sum((n * c**p * v**q for n, p, q in below), Integer(0))
    text = compact(as_formula(value))
    assert same(to_exact(parse_expression(text, names), names), value), text
    assert re.fullmatch(r"[CVR0-9₂²³⁴+−/()· ]+", text)
