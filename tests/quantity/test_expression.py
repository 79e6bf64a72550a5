"""Expressions as they are typed: understood exactly, or refused with a reason."""

from __future__ import annotations

import time

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from sympy import Rational, exp, log, pi, sqrt

from builder.quantity.expression import parse_equation, parse_expression, to_exact
from builder.quantity.formula import Amount, Product, Quotient
from builder.quantity.letters import CONSTANTS, letter, symbol_of
from builder.quantity.tokens import ExpressionError
from builder.quantity.units import read_unit

NAMES = ("C", "V", "C1", "R", "τ")
C, V, C1, R = (symbol_of(name) for name in NAMES[:4])
EPS0 = CONSTANTS["eps0"]

UNDERSTOOD = [
    ("2*C", 2 * C),
    ("C/2", C / 2),
    ("3*R/2", 3 * R / 2),
    ("2CV/3", 2 * C * V / 3),
    ("2 C V / 3", 2 * C * V / 3),
    ("2·C×V", 2 * C * V),
    ("CV²", C * V**2),
    ("CV^2", C * V**2),
    ("(CV)^2", C**2 * V**2),
    ("CC1", C * C1),
    ("C₁", C1),
    ("½CV²", C * V**2 / 2),
    ("1/2 C V^2", C * V**2 / 2),
    ("V/RC", V / (R * C)),
    ("C/2/3", C / 6),
    ("C - V - R", C - V - R),
    ("C − (V − R)", C - V + R),
    ("-C^2", -(C**2)),
    ("2*-C", -2 * C),
    ("C/-2", -C / 2),
    ("C**3", C**3),
    ("C^-1", 1 / C),
    ("C^(1/2)", sqrt(C)),
    ("C⁻²", C**-2),
    ("10^-12", Rational(1, 10**12)),
    ("6.6×10^-5 C", Rational("0.000066") * C),
    ("6.6·10⁻⁵", Rational("0.000066")),
    ("2*10-5", Rational(15)),
    ("2.5e-3C", C / 400),
    (".5 C", C / 2),
    ("sqrt(2)*R", sqrt(2) * R),
    ("√2 R", sqrt(2) * R),
    ("exp(-1/2)", exp(Rational(-1, 2))),
    ("R ln(2)", R * log(2)),
    ("pi*R^2", pi * R**2),
    ("π R²", pi * R**2),
    ("eps0 R", EPS0 * R),
    ("C 2 ²", 4 * C),
    ("[C + V]/2", (C + V) / 2),
    ("  C  ", C),
]


@pytest.mark.parametrize(("text", "value"), UNDERSTOOD)
def test_expressions_are_read_exactly(text: str, value: object) -> None:
    """What a person types has the value that a person means."""
    read = parse_expression(text, NAMES)
    assert to_exact(read, {name: symbol_of(name) for name in read.letters}) == value


KNOWN = "a name that is known here: C, C1, R, V, τ"
REFUSED = [
    ("", 1, "the end", "a number, a name or a bracket"),
    ("C +", 4, "the end", "a number, a name or a bracket"),
    ("* C", 1, '"*"', "a number, a name or a bracket"),
    ("((C", 4, "the end", '")" for the "(" in column 2'),
    ("C)", 2, '")"', "an opening bracket before it"),
    ("C/2R", 4, '"R" after a division, without a sign', "one meaning"),
    ("C/2 R", 5, '"R" after a division, without a sign', "one meaning"),
    ("1/2CV", 4, '"CV" after a division, without a sign', "one meaning"),
    ("X", 1, '"X"', KNOWN),
    ("C = V", 3, '"="', "no equals sign here"),
    ("ε₀R", 1, '"ε0R"', KNOWN),
    ("C^V", 3, '"V"', "a number as exponent"),
    ("C^(V)", 3, '"("', "a number as exponent"),
    ("9**9**9", 5, '"**"', "one exponent"),
    ("2*C^0", 3, "a power of 0", "an exponent other than 0"),
    ("V⁰", 1, "a power of 0", "an exponent other than 0"),
    ("V^(2-2)", 1, "a power of 0", "an exponent other than 0"),
    ("(9^9)^9", 1, "a power that is too large", "exponents up to 9"),
    ("((C^9)^9)^9", 2, "a power that is too large", "exponents up to 9"),
    ("C^99", 1, "a power that is too large", "exponents up to 9"),
    ("C^(1/99)", 1, "a power that is too large", "exponents up to 9"),
    ("C/0", 3, "a division by zero", "something else than zero"),
    ("C/(2-2)", 3, "a division by zero", "something else than zero"),
    ("1/(sqrt(3+2*sqrt(2))-1-sqrt(2))", 3, "a division by zero", "something else than zero"),
    ("0^-1", 1, "something that has no value", "a real number"),
    ("sqrt(-1)", 1, "something that has no value", "a real number"),
    ("(-8)^(1/3)", 1, "something that has no value", "a real number"),
    ("ln(0)", 1, "something that has no value", "a real number"),
    ("exp(999)", 1, "a power of e beyond all measure", "at most exp(700)"),
    ("exp C", 5, '"C"', '"(" after exp'),
    ("2,5*C", 1, '"2,5"', "a number with a decimal point"),
    ("1e99", 1, '"1e99"', "a power of ten from −30 to 30"),
    ("1" * 41, 1, "a number of 41 characters", "at most 40"),
    ("C" * 201, 1, "an expression of 201 characters", "at most 200"),
    ("(" * 21 + "C" + ")" * 21, 21, "brackets or signs 21 deep", "at most 20"),
    ("-" * 21 + "C", 21, "brackets or signs 21 deep", "at most 20"),
    ("√" * 21 + "C", 21, "brackets or signs 21 deep", "at most 20"),
    ("__import__('os')", 1, '"_"', "numbers, names, + − * / ^ and brackets"),
    ("C;V", 2, '";"', "numbers, names, + − * / ^ and brackets"),
    ("C\x00", 2, "a sign that cannot be seen", "numbers, names, + − * / ^ and brackets"),
    ("lambda", 1, '"lambda"', KNOWN),
    ("0x1F", 2, '"x1F"', KNOWN),
    ("²C", 1, '"²"', "a number, a name or a bracket"),
]


@pytest.mark.parametrize(("text", "column", "found", "expected"), REFUSED)
def test_what_is_not_understood_is_told(text: str, column: int, found: str, expected: str) -> None:
    """A refusal says where, what stands there and what should."""
    with pytest.raises(ExpressionError) as error:
        parse_expression(text, NAMES)
    assert (error.value.column, error.value.found) == (column, found)
    assert error.value.expected == expected
    assert error.value.advice.endswith((".", "?"))
    assert str(error.value).startswith(f"{column}: found {found}; expected ")


def test_a_run_of_letters_with_two_meanings_is_refused() -> None:
    """Where known names can be cut out of a run in two ways, both are offered."""
    with pytest.raises(ExpressionError, match=r"Write ab \* c or a \* bc\.|a \* bc or ab \* c"):
        parse_expression("abc", ("a", "ab", "bc", "c"))


def test_without_a_list_of_names_each_run_is_one_name() -> None:
    """Where names are not known beforehand, a word is a name, told with its first column."""
    read = parse_expression("2 R_load + C1/R_load")
    assert read.columns == (("R_load", 3), ("C1", 12))


@pytest.mark.parametrize(
    ("text", "left", "right"),
    [
        ("Q = C V", letter("Q"), Product((letter("C"), letter("V")))),
        ("V/R = 3 mA", Quotient(letter("V"), letter("R")), Amount(Rational(3, 1000), "current")),
        ("C = 4.7 uF", letter("C"), Amount(Rational("0.0000047"), "capacitance")),
        ("R = 12 V/3 A", letter("R"),
         Quotient(Amount(Rational(12), "voltage"), Amount(Rational(3), "current"))),
    ],
)  # fmt: skip
def test_equations_with_units(text: str, left: object, right: object) -> None:
    """Both sides of an equation are read, with numbers that carry units."""
    read = parse_equation(text, unit_of=read_unit)
    assert (read.left.formula, read.right.formula) == (left, right)


def test_a_name_goes_before_a_unit_of_the_same_letter() -> None:
    """Where V is a quantity of the problem, 2 V is twice it, and not two volts."""
    read = parse_equation("E = 2 V", ("E", "V"), unit_of=read_unit)
    assert read.right.letters == ("V",)


@pytest.mark.parametrize(
    ("text", "column", "expected"),
    [
        ("C", 2, '"="'),
        ("C = V = R", 7, "no equals sign here"),
        ("= V", 1, "a number, a name or a bracket"),
        ("C = ", 5, "a number, a name or a bracket"),
        ("C == V", 4, "a number, a name or a bracket"),
    ],
)
def test_what_is_no_equation(text: str, column: int, expected: str) -> None:
    """An equation has one equals sign and two sides."""
    with pytest.raises(ExpressionError) as error:
        parse_equation(text, unit_of=read_unit)
    assert (error.value.column, error.value.expected) == (column, expected)


PIECES = st.sampled_from(
    ["C", "V", "C1", "CV", "x", "2", "0", "9", "1.5", "1e9", "e", "10", "1/2", "½", "²", "⁻", "^",
     "**", "*", "/", "+", "-", "−", "(", ")", "[", "]", " ", "sqrt", "exp", "ln", "√", "pi", "π",
     "eps0", "ε₀", "uF", "V/A", "=", "==", ",", ".", "_", "×10^", "e-", "\t", "\n", "0x", "∞",
     "__class__", "lambda", "'", ";", "١", "𝟚", "²³", "₁"]
)  # fmt: skip
TEXTS = st.one_of(st.text(max_size=60), st.lists(PIECES, max_size=40).map("".join))
SLOWEST_S = 0.05


def refusal(text: str, names: tuple[str, ...] | None) -> ExpressionError | None:
    """The refusal of a text, if it is refused, whichever way it is read."""
    try:
        parse_expression(text, names, unit_of=read_unit)
        parse_equation(text, names, unit_of=read_unit)
    except ExpressionError as error:
        return error
    return None


@settings(max_examples=400, deadline=None)
@example("(((((((9^9)+1)^3+C)/exp(-700)+ln(9^9))^2")
@example("sqrt(sqrt(sqrt(1e30+1)+1)+1)/sqrt(sqrt(1e30-1)-1)")
@example("exp(exp(exp(1)))-ln(ln(ln(9e9)))+sqrt(pi)^9")
@given(TEXTS)
def test_any_text_is_understood_or_refused(text: str) -> None:
    """Whatever is typed, nothing but a refusal is raised, and it has a place and says enough."""
    for names in (NAMES, None):
        error = refusal(text, names)
        if error is not None:
            assert 1 <= error.column <= len(text) + 1
            assert all((error.found, error.expected, error.advice))


def seconds(text: str) -> float:
    """How long a text takes to be understood or refused."""
    start = time.process_time()
    refusal(text, NAMES)
    return time.process_time() - start


@settings(max_examples=200, deadline=None)
@example("+".join(["sqrt(1e30-7)^9"] * 14))
@example("/".join(["(C-1e30)"] * 22))
@example("ln(" * 20 + "9e9" + "+3)" * 20)
@given(st.lists(PIECES, min_size=20, max_size=80).map("".join))
def test_no_text_takes_long(text: str) -> None:
    """A long text of parts that belong together is done in no time; measured again if unlucky."""
    read_unit("F")  # the first unit loads the table of units
    assert min(seconds(text), seconds(text)) < SLOWEST_S
