"""Preferred numbers of resistors and capacitors: the series E3 to E24 of IEC 60063."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

_E24 = (10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75,
        82, 91)  # fmt: skip

SERIES: dict[str, tuple[int, ...]] = {f"E{size}": _E24[:: 24 // size] for size in (3, 6, 12, 24)}
"""The numbers of one decade, in tenths of its start (IEC 60063:2015, table 1).

Each series is every other number of the next. They are no rounded powers of ten throughout: 27 to
47 and 82 differ from them, so they stand here as they are.
"""


def preferred(series: str, least: Fraction, most: Fraction) -> Iterator[Fraction]:
    """The numbers of a series between two limits, both included, from small to large.

    Args:
        series: a name in ``SERIES``.
        least: the lower limit, positive.
        most: the upper limit, positive.

    Raises:
        KeyError: for an unknown series.
        ValueError: if a limit is not positive.
    """
    numbers = SERIES[series]
    if least <= 0 or most <= 0:
        raise ValueError(f"{least} to {most} are no limits of positive numbers")
    power = decade(least)
    while power <= most:
        yield from (size for size in (power * n / 10 for n in numbers) if least <= size <= most)
        power *= 10


def is_preferred(number: Fraction, series: str) -> bool:
    """Whether a positive number is one of a series, in any decade."""
    return number / decade(number) * 10 in SERIES[series]


def decade(number: Fraction) -> Fraction:
    """The power of ten at which the decade of a positive number starts: 100 for 470.

    Raises:
        ValueError: if the number is not positive.
    """
    if number <= 0:
        raise ValueError(f"{number} is not positive")
    power = Fraction(10) ** (len(str(number.numerator)) - len(str(number.denominator)))
    return power if power <= number else power / 10
