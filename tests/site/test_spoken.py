"""Formulas in spoken English."""

from __future__ import annotations

import re
from fractions import Fraction
from html import unescape

import pytest

from builder.quantity.formula import (
    Formula,
    Num,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Square,
    Sum,
)
from builder.quantity.names import Name, Symbol
from builder.quantity.show import PREFIXES, Shown
from builder.site.spoken import spoken_formula, spoken_number, spoken_symbol, spoken_unit
from tests.site.pages import FLASHER, HEATER, html_of

A, B, C = (Ref(Name("resistance", name)) for name in "abc")
HALF = Num(Fraction(1, 2))


@pytest.mark.parametrize(
    ("symbol", "said"),
    [
        (Symbol("C", "23"), "C sub 23"),
        (Symbol("C", "eq"), "C sub eq"),
        (Symbol("R", "warm_lamp"), "R sub warm lamp"),
        (Symbol("C", "9,10"), "C sub 9 comma 10"),
        (Symbol("V"), "V"),
    ],
)
def test_symbols(symbol: Symbol, said: str) -> None:
    """A subscript is announced as one."""
    assert spoken_symbol(symbol) == said


@pytest.mark.parametrize(
    ("number", "unit", "said"),
    [
        ("22", "µF", "22 microfarads"),
        ("1", "µF", "1 microfarad"),
        ("1.00", "nF", "1.00 nanofarads"),
        ("0", "V", "0 volts"),
        ("1", "Ω", "1 ohm"),
        ("47", "Ω", "47 ohms"),
        ("4.7", "kΩ", "4.7 kilohms"),
        ("1", "MΩ", "1 megohm"),
        ("−3.50", "mV", "minus 3.50 millivolts"),
        ("20/3", "mA", "20 over 3 milliamperes"),
        ("120", "µC", "120 microcoulombs"),
        ("2.5", "kW", "2.5 kilowatts"),
        ("8.1", "pJ", "8.1 picojoules"),
        ("3", "s", "3 seconds"),
        ("1.5×10⁻³²", "F", "1.5 times 10 to the minus 32 farads"),
        ("2 × 10³³", "Ω", "2 times 10 to the 33 ohms"),
    ],
)
def test_numbers_with_units(number: str, unit: str, said: str) -> None:
    """A unit is said in words, one of it in the singular."""
    assert spoken_number(Shown(number, unit, exact=True)) == said


def test_every_prefix_has_a_word() -> None:
    """No unit that is shown is left as a symbol; a strange one is not guessed at."""
    words = [spoken_unit(prefix + "F") for prefix in PREFIXES.values()]
    assert len(set(words)) == len(PREFIXES)
    assert all(re.fullmatch(r"[a-z]*farads", word) for word in words)
    assert spoken_unit("xyz") == "xyz"


@pytest.mark.parametrize(
    ("formula", "said"),
    [
        (Sum((A, B, C)), "a plus b plus c"),
        (Product((A, B)), "a times b"),
        (Product((HALF, A, Square(B))), "one half times a times b squared"),
        (Quotient(A, B), "a over b"),
        (Quotient(Square(A), B), "a squared, over b"),
        (Quotient(A, Sum((B, C))), "a over the sum of b and c"),
        (Quotient(A, Product((B, C))), "a over the product of b and c"),
        (Product((A, Sum((A, B, C)))), "a times the sum of a, b and c"),
        (Product((A, Quotient(B, C))), "a times the fraction b over c"),
        (Square(Sum((A, B))), "the square of the sum of a and b"),
        (Sum((A, ReciprocalSum((B, C)))), "a plus 1 over the sum of 1 over b and 1 over c"),
        (Product((Num(Fraction(3)), A)), "3 times a"),
        (Num(Fraction(3, 8)), "3 over 8"),
    ],
)
def test_formulas_need_no_brackets(formula: Formula, said: str) -> None:
    """What brackets or a fraction's bar hold together is held together by words."""
    assert spoken_formula(formula, lambda name: name.of) == said


def test_a_number_is_squared_with_its_unit() -> None:
    """The square of a number cannot be taken for a squared unit."""
    said = spoken_formula(Quotient(Square(A), B), lambda name: f"{name.of} volts", numbers=True)
    assert said == "the square of a volts, over b volts"


def _labels(problem: str) -> list[str]:
    return [unescape(label) for label in re.findall(r'<math[^>]*? aria-label="([^"]*)"',
                                                    html_of(problem))]  # fmt: skip


FLASHER_SAID = [
    # 22 µF + 8 µF = 30 µF; 1/15 + 1/30 = 3/30; 10 µF · 12 V = 120 µC.
    "C sub 23 equals C sub 2 plus C sub 3, equals 22 microfarads plus 8 microfarads, equals "
    "30.0 microfarads.",
    "1 over C sub eq equals 1 over C sub 1 plus 1 over C sub 23, equals 1 over 15 microfarads plus "
    "1 over 30.0 microfarads, equals 3 over 30 microfarads. C sub eq equals 10.0 microfarads.",
    "Q equals C sub eq times V sub 0, equals 10.0 microfarads times 12 volts, equals "
    "120 microcoulombs.",
]


def test_the_formulas_of_a_page() -> None:
    """Every formula of a problem's page is said whole, in the order of its lines."""
    said = _labels(FLASHER)
    assert said[:3] == FLASHER_SAID
    assert len(said) == html_of(FLASHER).count("<math")


def test_rounded_numbers_and_checks() -> None:
    """A rounded number is said to be about right, and a check is said on both its lines."""
    said = _labels(HEATER)
    # 24 V / 9.3 Ω = 2.5806… A; R2 and R3 share it as 10 : 15.
    assert "I equals V sub 0 over R sub eq, equals 24 volts over 9.30 ohms, is about " \
           "2.58 amperes." in said  # fmt: skip
    assert "I sub 1 equals I sub 2 plus I sub 3. 2.58 amperes is about 1.03 amperes plus " \
           "1.55 amperes." in said  # fmt: skip


def test_a_prime_is_said() -> None:
    """A symbol after a change is told apart from the one before it."""
    assert spoken_symbol(Symbol("Q", "1", "′")) == "Q sub 1 prime"
