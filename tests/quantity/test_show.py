"""Showing values: prefixes, digits, and whether they are exact."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sympy import Rational, exp, sqrt

from builder.quantity.exact import as_fraction
from builder.quantity.kinds import KINDS
from builder.quantity.measure import read_measure
from builder.quantity.show import PREFIXES, Shown, last_digit, show, show_in
from tests.strategies import typed_numbers

PREFIXED = sorted(kind.name for kind in KINDS.values() if kind.typed and kind.prefix_power == 1)

SHOWN = [
    ("1/1000", "capacitance", 3, "1.00 mF", "="),
    ("33/500000", "charge", 3, "66.0 µC", "="),
    ("66/1000000", "charge", 2, "66 µC", "="),
    ("1/3", "voltage", 3, "333 mV", "≈"),
    ("2/3", "voltage", 3, "667 mV", "≈"),
    ("1/3", "voltage", 5, "333.33 mV", "≈"),
    ("12", "voltage", 3, "12.0 V", "="),
    ("120", "voltage", 3, "120 V", "="),
    ("1200", "voltage", 3, "1.20 kV", "="),
    ("1234", "voltage", 3, "1.23 kV", "≈"),
    ("1234", "voltage", 4, "1.234 kV", "="),
    ("123", "voltage", 2, "120 V", "≈"),
    ("47", "resistance", 1, "50 Ω", "≈"),
    ("4700", "resistance", 3, "4.70 kΩ", "="),
    ("2200000", "resistance", 2, "2.2 MΩ", "="),
    ("9994/10", "resistance", 3, "999 Ω", "≈"),
    ("9995/10", "resistance", 3, "1.00 kΩ", "≈"),
    ("9996/10", "resistance", 3, "1.00 kΩ", "≈"),
    ("9996/10", "resistance", 4, "999.6 Ω", "="),
    ("2345/1000", "current", 3, "2.35 A", "≈"),
    ("-2345/1000", "current", 3, "−2.35 A", "≈"),
    ("-1/50", "current", 3, "−20.0 mA", "="),
    ("0", "power", 3, "0 W", "="),
    ("1/1000000000000", "capacitance", 3, "1.00 pF", "="),
    ("8854/1000000000000000000", "capacitance", 3, "8.85 fF", "≈"),
    ("48000", "energy", 3, "48.0 kJ", "="),
    (f"1/{10**30}", "charge", 3, "1.00 qC", "="),
    (f"{10**32}", "charge", 3, "100 QC", "="),
    (f"123{'0' * 31}", "charge", 3, "1.23 × 10³³ C", "="),
    (f"1234/{10**34}", "charge", 3, "1.23 × 10⁻³¹ C", "≈"),
]


@pytest.mark.parametrize(("value", "kind", "digits", "text", "sign"), SHOWN)
def test_values_are_shown_as_the_trade_writes_them(
    value: str, kind: str, digits: int, text: str, sign: str
) -> None:
    """Prefix, digits, trailing zeros and the relation follow from value and digits alone."""
    shown = show(Rational(value), kind, digits)
    assert (shown.text, shown.sign) == (text, sign)


def test_the_authors_prefix_stays_but_a_computed_value_gets_its_own() -> None:
    """Typed 1000 uF stays 1000 µF while the same value as a result is 1.00 mF."""
    measure = read_measure("1000 uF")
    assert measure.shown.text == "1000 µF"
    assert show(measure.value, "capacitance").text == "1.00 mF"


@given(number=typed_numbers(), kind=st.sampled_from(PREFIXED))
def test_what_an_author_typed_is_shown_without_loss(number: str, kind: str) -> None:
    """An author's value is always shown exactly and reads back as itself."""
    measure = read_measure(f"{number} {KINDS[kind].unit}")
    again = read_measure(measure.shown.text)
    assert measure.shown.exact
    assert again.value == measure.value


VALUES = st.builds(
    lambda over, under, order: Fraction(over, under) * Fraction(10) ** order,
    st.integers(1, 10**7),
    st.integers(1, 10**4),
    st.integers(-24, 24),
)


def _order(value: Fraction) -> int:
    """The order of magnitude, by counting, as an independent check."""
    order = 0
    while value >= 10:
        value, order = value / 10, order + 1
    while value < 1:
        value, order = value * 10, order - 1
    return order


@given(
    size=VALUES,
    negative=st.booleans(),
    kind=st.sampled_from(PREFIXED),
    digits=st.integers(1, 7),
)
def test_what_is_shown_reads_back_to_its_last_digit(
    size: Fraction, negative: bool, kind: str, digits: int
) -> None:
    """Shown text parses to the nearest value with that many digits, and is exact if it says so."""
    value = -size if negative else size
    exact = Rational(value.numerator, value.denominator)
    shown = show(exact, kind, digits)
    again = read_measure(shown.text)
    error = abs(as_fraction(again.value) - value)
    unit = Fraction(10) ** (_order(size) - digits + 1)
    assert again.kind == kind
    assert error <= unit / 2
    assert error <= last_digit(exact, digits)
    assert shown.exact == (error == 0)
    assert shown.sign == ("=" if error == 0 else "≈")


@given(size=VALUES, kind=st.sampled_from(PREFIXED), digits=st.integers(1, 7))
def test_shown_values_keep_the_rules_of_the_si_brochure(
    size: Fraction, kind: str, digits: int
) -> None:
    """One space, one prefix, a number from 1 to 1000 with the digits asked for.

    Source: SI Brochure, 9th edition, sections 3 and 5.4.
    """
    shown = show(Rational(size.numerator, size.denominator), kind, digits)
    number, unit = shown.text.split(" ")
    assert re.fullmatch(r"\d{1,3}(\.\d+)?", number)
    assert unit in {prefix + KINDS[kind].unit for prefix in PREFIXES.values()}
    assert 1 <= Fraction(number) < 1000
    significant = number.replace(".", "")
    assert len(significant) == digits if "." in number else len(significant) >= digits


SHOWN_IN = [
    ("1/1000", "capacitance", "µF", 3, "1000 µF", "="),
    ("33/500000", "charge", "µC", 3, "66.0 µC", "="),
    ("1/3000", "capacitance", "µF", 3, "333 µF", "≈"),
    ("1/3000000", "capacitance", "µF", 3, "0.333 µF", "≈"),
    ("-1/3000000", "charge", "µC", 3, "−0.333 µC", "≈"),
    ("1/1000000000", "capacitance", "µF", 3, "0.00100 µF", "="),
    ("999/1000000000000", "capacitance", "µF", 3, "999 pF", "="),
    ("9996/1000000", "capacitance", "µF", 3, "10.0 mF", "≈"),
    ("1/100", "capacitance", "µF", 3, "10.0 mF", "="),
    ("4700", "resistance", "Ω", 3, "4700 Ω", "="),
    ("4700", "resistance", "kΩ", 3, "4.70 kΩ", "="),
    ("0", "capacitance", "µF", 3, "0 F", "="),
    ("12", "voltage", "furlong", 3, "12.0 V", "="),
]


@pytest.mark.parametrize(("value", "kind", "unit", "digits", "text", "sign"), SHOWN_IN)
def test_values_stay_in_a_given_unit_while_they_are_readable_there(
    value: str, kind: str, unit: str, digits: int, text: str, sign: str
) -> None:
    """A result keeps the unit beside it from 0.001 to 9999, and else gets its own prefix."""
    shown = show_in(Rational(value), kind, unit, digits)
    assert (shown.text, shown.sign) == (text, sign)


@given(
    size=VALUES,
    power=st.sampled_from(sorted(PREFIXES)),
    kind=st.sampled_from(PREFIXED),
    digits=st.integers(1, 7),
)
def test_what_is_shown_in_a_given_unit_reads_back_too(
    size: Fraction, power: int, kind: str, digits: int
) -> None:
    """Whichever unit is kept, the text parses to the nearest value with that many digits."""
    exact = Rational(size.numerator, size.denominator)
    shown = show_in(exact, kind, PREFIXES[power] + KINDS[kind].unit, digits)
    error = abs(as_fraction(read_measure(shown.text).value) - size)
    assert error <= Fraction(10) ** (_order(size) - digits + 1) / 2
    assert shown.exact == (error == 0)


@pytest.mark.parametrize(
    ("value", "digits", "size"),
    [
        ("66/1000000", 3, Fraction(1, 10**7)),
        ("123", 2, Fraction(10)),
        ("9996/10", 3, Fraction(10)),
        ("-123", 3, Fraction(1)),
        ("0", 3, Fraction(0)),
    ],
)
def test_the_last_shown_digit_has_a_size(value: str, digits: int, size: Fraction) -> None:
    """The unit of the last shown digit follows the digits that are seen."""
    assert last_digit(Rational(value), digits) == size


def test_a_value_that_is_no_real_number_is_refused() -> None:
    """A root of a negative number is refused rather than guessed."""
    with pytest.raises(TypeError, match="is no real number"):
        show(sqrt(-2), "voltage")


def test_number_and_unit_stand_apart() -> None:
    """The plain text of a value has one space before its unit."""
    assert Shown("66.0", "µC", exact=True).text == "66.0 µC"


@pytest.mark.parametrize(
    ("value", "kind", "text"),
    [
        (Fraction(135, 10**4), "area", "135 cm²"),
        (Fraction(3, 10**7), "area", "0.300 mm²"),
        (Fraction(20), "area", "20.0 m²"),
        (Fraction(3 * 10**6), "field", "3.00 MV/m"),
        (Fraction(21, 10), "ratio", "2.10"),
        (Fraction(1, 2000), "ratio", "5.00 × 10⁻⁴"),
    ],
)
def test_areas_take_squared_prefixes_and_pure_numbers_none(
    value: Fraction, kind: str, text: str
) -> None:
    """A prefix before m² counts twice, and a pure number has neither prefix nor unit."""
    assert show(Rational(value.numerator, value.denominator), kind).text == text


@pytest.mark.parametrize(
    ("value", "kind", "text", "sign"),
    [
        (sqrt(2), "current", "1.41 A", "≈"),
        (12 * exp(-1), "voltage", "4.41 V", "≈"),
        (sqrt(4), "current", "2.00 A", "="),
    ],
)
def test_roots_and_exponentials_are_shown_as_rounded(
    value: object, kind: str, text: str, sign: str
) -> None:
    """A real number that is no rational is shown by its digits, which are never the whole of it."""
    shown = show(value, kind)
    assert (shown.text, shown.sign) == (text, sign)
