"""How many digits tell a number whole: exactly, and for many numbers at once."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from sympy import Rational, Symbol, exp, sqrt

from builder.quantity.clean import UNCLEAN, digits_of, digits_of_each, rounded

NUMBERS = [
    ("0", 1), ("3000", 1), ("0.0047", 2), ("-12.5", 3), ("1/8", 3), ("100.001", 6),
    ("999999", 6), ("1234567", UNCLEAN), ("1/3", UNCLEAN), ("1e-12", 1), ("4.7e18", 2),
    ("1/1024", UNCLEAN), ("1/64", 5),
]  # fmt: skip


@pytest.mark.parametrize(("number", "digits"), NUMBERS)
def test_the_digits_of_a_number(number: str, digits: int) -> None:
    """Zeros at the end and at the start do not count; what never ends is unclean."""
    value = Rational(number)
    assert digits_of(value) == digits
    assert digits_of_each(np.array([float(value)])).tolist() == [digits]


def test_what_is_no_rational_is_unclean() -> None:
    """Roots, exponentials and symbols are never told whole."""
    assert {digits_of(value) for value in (sqrt(2), exp(-1), 2 * Symbol("R"))} == {UNCLEAN}
    strange = np.array([np.nan, 1e300, 1e-300, 2**0.5])
    assert set(digits_of_each(strange).tolist()) <= {1, UNCLEAN}
    assert digits_of_each(strange)[0] == digits_of_each(strange)[3] == UNCLEAN


@given(st.fractions(max_denominator=10**5), st.integers(-12, 9))
def test_floating_point_counts_the_same_digits_as_exact_rationals(
    number: Fraction, order: int
) -> None:
    """Short of numbers whose digits first differ beyond the eleventh, both counts are one."""
    value = number * Fraction(10) ** order
    exact = digits_of(Rational(value.numerator, value.denominator))
    # Numerator and denominator of up to five digits: no such number hides behind eleven zeros.
    assert digits_of_each(np.array([float(value)])).tolist() == [exact]


@given(st.integers(1, 999_999), st.integers(-12, 9))
def test_a_clean_number_is_known_in_spite_of_rounding(whole: int, order: int) -> None:
    """A few hundred roundings, as of a long computation, hide no clean number."""
    value = whole * 10.0**order
    for off in (1 - 1e-13, 1, 1 + 1e-13):
        assert digits_of_each(np.array([value * off])).tolist() == [digits_of(Rational(whole))]


def test_numbers_are_rounded_to_significant_digits() -> None:
    """Small and large ones alike, of either sign."""
    values = np.array([0.0, 1234.5, -0.0012345, 9.999, np.nan])
    assert rounded(values, 3).tolist()[:4] == pytest.approx([0, 1230, -0.00123, 10.0])
