"""Right and wrong values as a page's scripts compare them: by digits, or at a few points."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from sympy import Rational, Symbol

from builder.quantity.exact import Exact
from builder.quantity.letters import kind_of

MOST_DIGITS = 24
POINTS = 3
_PRIMES = (
    2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79, 83, 89,
    97, 101, 103, 107, 109, 113, 127, 131, 137, 139, 149, 151, 157, 163, 167, 173, 179, 181,
)  # fmt: skip


def decimal_text(value: Fraction, most: int = MOST_DIGITS) -> str:
    """A number with all of its digits, as ``6.6e-5``.

    Of a number that does not end within ``most`` digits those are told, and then a 1: it
    can thus not be taken for one that ends, nor lie half-way where it is rounded.
    """
    if value == 0:
        return "0"
    order = order_of(abs(value))
    scaled = abs(value) * Fraction(10) ** (most - 1 - order)
    digits = str(scaled.numerator // scaled.denominator)
    digits = digits.rstrip("0") if scaled.denominator == 1 else digits + "1"
    sign = "-" if value < 0 else ""
    point = f".{digits[1:]}" if len(digits) > 1 else ""
    return f"{sign}{digits[0]}{point}" + (f"e{order}" if order else "")


def order_of(value: Fraction) -> int:
    """The decimal order of a positive number: 1 for 66."""
    order = len(str(value.numerator)) - len(str(value.denominator))
    return order - 1 if Fraction(10) ** order > value else order


def worth_if_real(value: Exact, points: list[dict[Symbol, Rational]]) -> list[float | int] | None:
    """A value at the points; None for what a mistake makes that has no value, such as 1/0."""
    if value.is_infinite or value.is_finite is False or value.is_real is False:
        return None
    return at_points(value, points)


def points_for(
    letters: Iterable[Symbol], value: Exact, sizes: Mapping[str, Fraction]
) -> list[dict[Symbol, Rational]]:
    """Values of the letters at which expressions are compared, each letter another prime number.

    Points at which the right value is nought or has no value are passed over.
    """
    found: list[dict[Symbol, Rational]] = []
    for point in _every_point(tuple(letters), sizes):
        there = value.xreplace(point)
        if there.is_Rational and there != 0:
            found.append(point)
        if len(found) == POINTS:
            break
    return found


def _every_point(
    letters: tuple[Symbol, ...], sizes: Mapping[str, Fraction]
) -> Iterator[dict[Symbol, Rational]]:
    for start in range(len(_PRIMES)):
        yield {
            symbol: _PRIMES[(5 * start + 3 * place) % len(_PRIMES)]
            * Rational(*sizes.get(kind_of(symbol), Fraction(1)).as_integer_ratio())
            for place, symbol in enumerate(letters)
        }


def at_points(value: Exact, points: list[dict[Symbol, Rational]]) -> list[float | int] | None:
    """The values of an expression at the points; None where it has none at one of them."""
    found = [value.xreplace(point) for point in points]
    if any(not worth.is_number or worth.is_finite is not True for worth in found):
        return None
    return [short(worth) for worth in found]


def short(value: Exact) -> float | int:
    """A number as short as JSON can have it."""
    return int(value) if value.is_Integer and abs(value) < 2**53 else float(value)
