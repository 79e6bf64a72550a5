"""Preferred numbers against the published table, and against the powers of ten they round."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.quantity.series import SERIES, decade, is_preferred, preferred

PUBLISHED = {
    "E3": "10 22 47",
    "E6": "10 15 22 33 47 68",
    "E12": "10 12 15 18 22 27 33 39 47 56 68 82",
    "E24": "10 11 12 13 15 16 18 20 22 24 27 30 33 36 39 43 47 51 56 62 68 75 82 91",
}
"""IEC 60063, as listed at qsl.net/g4usp (E6 to E24); E3 as in Wikipedia, "E series of preferred
numbers"."""
NOT_ROUNDED = {27: 26, 30: 29, 33: 32, 36: 35, 39: 38, 43: 42, 47: 46, 82: 83}
"""The numbers of E24 that are not 10^(k/24) rounded to two digits, with what that would be."""


@pytest.mark.parametrize("series", PUBLISHED)
def test_series_are_those_of_the_table(series: str) -> None:
    """One decade of each series is printed so in the standard."""
    assert " ".join(str(number) for number in SERIES[series]) == PUBLISHED[series]


@pytest.mark.parametrize("series", PUBLISHED)
def test_series_are_rounded_powers_of_ten_but_for_the_known_numbers(series: str) -> None:
    """Steps are equal in ratio; eight numbers are traditional and differ by one unit."""
    numbers = SERIES[series]
    for place, number in enumerate(numbers):
        rounded = round(10 * 10 ** (place / len(numbers)))
        assert rounded == NOT_ROUNDED.get(number, number)


def test_a_range_over_two_decades() -> None:
    """Both ends count, and a decade goes on in the next."""
    found = [str(number) for number in preferred("E6", Fraction(47), Fraction(1000))]
    assert found == ["47", "68", "100", "150", "220", "330", "470", "680", "1000"]
    small = list(preferred("E3", Fraction("0.0047"), Fraction("0.1")))
    assert small == [Fraction(n) for n in ("0.0047", "0.01", "0.022", "0.047", "0.1")]


def test_an_empty_range_and_wrong_limits() -> None:
    """Between two numbers of a series there is none; limits are positive; E5 is no series."""
    assert list(preferred("E3", Fraction(23), Fraction(46))) == []
    with pytest.raises(ValueError, match="no limits"):
        list(preferred("E3", Fraction(0), Fraction(1)))
    with pytest.raises(KeyError):
        list(preferred("E5", Fraction(1), Fraction(2)))
    with pytest.raises(ValueError, match="not positive"):
        decade(Fraction(0))


@given(number=st.fractions(min_value=Fraction(1, 10**9), max_value=10**9))
def test_every_number_lies_in_its_decade(number: Fraction) -> None:
    """A decade starts at a power of ten and ends before the next."""
    start = decade(number)
    assert start <= number < 10 * start
    assert str(start.numerator * start.denominator).strip("0") == "1"


@given(series=st.sampled_from(tuple(SERIES)), data=st.data())
def test_what_a_series_yields_is_of_the_series(series: str, data: st.DataObject) -> None:
    """Numbers come sorted, each once, inside the limits, about as many to a decade as it says."""
    least = data.draw(st.fractions(min_value=Fraction(1, 1000), max_value=1000))
    found = list(preferred(series, least, least * 100))
    assert found == sorted(set(found))
    assert all(least <= number <= least * 100 for number in found)
    assert all(is_preferred(number, series) for number in found)
    assert len(found) in (2 * len(SERIES[series]), 2 * len(SERIES[series]) + 1)
    assert not is_preferred(found[0] + least / 1000, "E24")
