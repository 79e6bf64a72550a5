"""Values as an author would type them."""

from __future__ import annotations

from fractions import Fraction

from builder.problem.varying.stated import StatedValue
from builder.quantity.exact import split_number
from builder.quantity.measure import si_size


def decimal(number: Fraction) -> str | None:
    """A number in digits, or None if its digits never end."""
    under, places = number.denominator, 0
    while under % 10 == 0:
        under //= 10
        places += 1
    for prime in (2, 5):
        while under % prime == 0:
            under //= prime
            places += 1
    if under != 1:
        return None
    digits = f"{abs(number.numerator) * 10**places // number.denominator:0{places + 1}d}"
    whole, rest = digits[: len(digits) - places], digits[len(digits) - places :].rstrip("0")
    sign = "-" if number < 0 else ""
    return f"{sign}{whole}.{rest}" if rest else f"{sign}{whole}"


def unit_typed(value: StatedValue, text: str) -> tuple[str, Fraction]:
    """What an author typed after a number, spaces included, and its size in SI units."""
    typed = text[value.start : value.end]
    number, unit = split_number(typed)
    rest = typed.strip()[len(number) :] if number else typed
    return rest, (si_size(value.measure.kind, unit) if unit else None) or Fraction(1)


def typed_like(amount: Fraction, value: StatedValue, text: str) -> str:
    """An amount in SI units as its author would type it in place of a stated value.

    Args:
        amount: the new value, in SI units.
        value: what stands there now, whose unit is kept.
        text: of the file.
    """
    rest, size = unit_typed(value, text)
    number = amount / size
    return (decimal(number) or str(number)) + rest
