"""How clean a number is: how many significant digits tell it whole."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
from numpy.typing import NDArray
from sympy import Rational

from builder.quantity.arrays import Floats
from builder.quantity.exact import Exact, as_fraction

MOST_DIGITS = 6
UNCLEAN = MOST_DIGITS + 1
"""Stands for all numbers that six digits do not tell whole."""

_NEAR = 1e-11
"""Floating point knows 15 to 16 digits; 11 of them are right after a few dozen operations, even
where unequal values (1 µF beside 782 µF) take some in a system of equations."""
_LARGEST = 200
_BY_ORDER = 10.0 ** (MOST_DIGITS - 1 - np.arange(-_LARGEST, _LARGEST + 1.0))


def digits_of(value: Exact) -> int:
    """How many significant digits tell a number whole: 2 for 0.0047, 1 for 3000 and for 0.

    Args:
        value: in SI units, exact.

    Returns:
        From 1 to 6; ``UNCLEAN`` for a number that needs more, or has no end (1/3, √2), or holds
        a symbol.
    """
    if not isinstance(value, Rational):
        return UNCLEAN
    rest = abs(as_fraction(value))
    if rest == 0:
        return 1
    twos, fives, under = 0, 0, rest.denominator
    while under % 2 == 0:
        twos, under = twos + 1, under // 2
    while under % 5 == 0:
        fives, under = fives + 1, under // 5
    if under != 1:
        return UNCLEAN
    whole = int(rest * Fraction(10) ** max(twos, fives))
    return min(UNCLEAN, len(str(whole).rstrip("0")))


def digits_of_each(values: Floats) -> NDArray[np.int8]:
    """The same for many numbers in floating point, as long as 11 digits tell the truth.

    A number that differs from a clean one in the twelfth digit only counts as clean here; so what
    a search finds is counted again exactly by ``digits_of``.

    Args:
        values: in SI units; ``nan`` counts as unclean.
    """
    with np.errstate(all="ignore"):
        # Six digits before the point: from 100 000 to a million.
        scaled = np.abs(values) * _BY_ORDER[_orders(values) + _LARGEST]
        whole = np.rint(scaled)
        # Written so that nan is not near anything; beyond the orders that are known lies nothing.
        near = np.abs(scaled - whole) <= _NEAR * scaled
        clean = np.flatnonzero(near & (scaled < 10.0 ** (MOST_DIGITS + 1)))
    found = np.full(values.shape, UNCLEAN, np.int8)
    digits = whole[clean].astype(np.int64)
    zeros = np.zeros(digits.shape, np.int8)
    for power in range(1, MOST_DIGITS):
        zeros += digits % 10**power == 0
    found[clean] = MOST_DIGITS - zeros
    return found


def rounded(values: Floats, digits: int) -> Floats:
    """Numbers rounded to so many significant digits, for comparing how they look."""
    with np.errstate(all="ignore"):
        unit = 10.0 ** (_orders(values) - digits + 1.0)
        found: Floats = np.rint(values / unit) * unit
        return found


def _orders(values: Floats) -> NDArray[np.intp]:
    """The decimal order of each number: 2 for 470; 0 where there is none."""
    orders = np.floor(np.log10(np.abs(values)))
    return np.nan_to_num(orders, nan=0.0).clip(-_LARGEST, _LARGEST).astype(np.intp)
