"""Exact numbers: how a typed number becomes a rational, and back."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache
from typing import Any, TypeAlias

from sympy import Float, Rational

Exact: TypeAlias = Any
"""A SymPy number (a Rational for plain problems) in SI units, or an expression of symbols."""

LONGEST_NUMBER = 40
LARGEST_EXPONENT = 30
MOST_ORDERS = 1_000
"""Larger than ten to this power, or as much smaller, is nothing that anybody writes or measures."""
_MOST_BITS = MOST_ORDERS * 10 // 3

_NUMBER = re.compile(
    r"(?P<sign>[+\-−]?)\s*"
    r"(?:(?P<over>\d+)\s*/\s*(?P<under>\d+)"
    r"|(?P<digits>\d+\.?\d*|\.\d+)(?:\s*(?:[eE]|[×x*]\s*10\s*(?:\^|(?=[+\-−])))\s*(?P<exp>[+\-−]?\d+))?)",
    re.ASCII,
)


def split_number(text: str) -> tuple[str, str]:
    """Split ``text`` into the number it starts with and what follows.

    Returns:
        The number as typed (empty if ``text`` starts with none) and the rest, both stripped.
    """
    match = _NUMBER.match(text.strip())
    if match is None:
        return "", text.strip()
    return match.group(0), text.strip()[match.end() :].strip()


def read_number(text: str) -> Rational:
    """Read a typed number exactly: ``4.7``, ``1.5e-5``, ``6.6×10^-5``, ``3/2``.

    Raises:
        ValueError: if ``text`` is not one number, divides by zero, or is too long to be meant.
    """
    if len(text) > LONGEST_NUMBER:
        raise ValueError(f"a number of more than {LONGEST_NUMBER} characters is too long")
    match = _NUMBER.fullmatch(text.strip())
    if match is None:
        raise ValueError(f'"{text}" is not a number')
    if match["over"]:
        if int(match["under"]) == 0:
            raise ValueError(f'"{text}" divides by zero')
        value = Fraction(int(match["over"]), int(match["under"]))
    else:
        exponent = int((match["exp"] or "0").replace("−", "-"))
        if abs(exponent) > LARGEST_EXPONENT:
            raise ValueError(f'"{text}" has an exponent beyond ±{LARGEST_EXPONENT}')
        value = Fraction(match["digits"]) * Fraction(10) ** exponent
    if match["sign"] in ("-", "−"):
        value = -value
    return Rational(value.numerator, value.denominator)


def as_fraction(value: Exact) -> Fraction:
    """The value of an exact number as a ``Fraction``.

    Raises:
        TypeError: if ``value`` still holds a symbol.
    """
    if not isinstance(value, Rational):
        raise TypeError(f"{value} is not a rational number")
    return Fraction(int(value.p), int(value.q))


def near_fraction(value: Exact) -> Fraction:
    """A real number as a ``Fraction``: the value itself if rational, else right to 60 digits.

    Only for what is shown: a rational stands in for a root or a logarithm nowhere else. What is
    smaller than all measure is 0.

    Raises:
        TypeError: if ``value`` still holds a symbol, or is no real number.
        ValueError: if it is larger than all measure.
    """
    if isinstance(value, Rational):
        return as_fraction(value)
    return _near_fraction(value)


@lru_cache(maxsize=4096)
def _near_fraction(value: Exact) -> Fraction:
    """The same for what is not rational."""
    if value.free_symbols or not value.is_real:
        raise TypeError(f"{value} is no real number")
    number = _sixty_digits(value)
    bits = _bits(number)
    if bits > _MOST_BITS:
        raise ValueError(f"a number of {bits} binary digits is too large to be written")
    return Fraction(str(number)) if bits >= -_MOST_BITS else Fraction(0)


@lru_cache(maxsize=4096)
def _sixty_digits(value: Exact) -> Exact:
    """A root, a logarithm or the like as a floating-point number."""
    return value.evalf(60)


def within_measure(value: Exact) -> bool:
    """Whether a real number lies where it can be written: not beyond ``MOST_ORDERS``."""
    if isinstance(value, Rational):
        return abs(int(value.p).bit_length() - int(value.q).bit_length()) <= _MOST_BITS
    return abs(_bits(_sixty_digits(value))) <= _MOST_BITS


def _bits(number: Exact) -> int:
    """About the logarithm to base 2 of a floating-point number; 0 for zero."""
    if not isinstance(number, Float):
        return 0
    _, mantissa, exponent, length = number._mpf_
    return int(exponent + length) if mantissa else 0
