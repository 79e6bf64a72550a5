"""Values as an author would type them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from builder.problem.varying.stated import StatedValue
from builder.quantity.exact import split_number
from builder.quantity.kinds import KINDS
from builder.quantity.measure import si_size
from builder.quantity.numerals import PREFIXES
from builder.quantity.series import decade


@dataclass(frozen=True)
class TypedUnit:
    """A unit as somebody typed it.

    Attributes:
        text: with the space before it; empty for a pure number.
        size: in SI units.
    """

    text: str
    size: Fraction

    def holds(self, amount: Fraction) -> bool:
        """Whether an amount in SI units is easily read with it: from 0.1 to below 1000."""
        return Fraction(1, 10) <= abs(amount) / self.size < 1000

    def typed(self, amount: Fraction) -> str:
        """An amount in SI units with it; a fraction where the digits would never end."""
        number = amount / self.size
        return (decimal(number) or str(number)) + self.text


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


def unit_in(typed: str, kind: str) -> TypedUnit:
    """The unit of a typed value of that kind."""
    number, unit = split_number(typed)
    rest = typed.strip()[len(number) :] if number else ""
    return TypedUnit(rest, (si_size(kind, unit) if unit else None) or Fraction(1))


def unit_of(value: StatedValue, text: str) -> TypedUnit:
    """The unit of a value as it stands in the text of its file."""
    return unit_in(text[value.start : value.end], value.measure.kind)


def typed_in_any(amount: Fraction, units: tuple[TypedUnit, ...], kind: str) -> str:
    """An amount in the first of some units that reads easily, or else with a prefix of its own.

    Args:
        amount: in SI units.
        units: those that the author uses, at least one.
        kind: what is measured.
    """
    fits = next((unit for unit in units if unit.holds(amount)), None)
    return (fits or _prefixed(amount, kind) or units[0]).typed(amount)


def _prefixed(amount: Fraction, kind: str) -> TypedUnit | None:
    """The unit with the prefix that anyone would write, or None where none is usual."""
    if amount == 0 or KINDS[kind].prefix_power != 1:
        return None
    start = decade(abs(amount))
    power = len(str(start.numerator)) - len(str(start.denominator))
    exponent = 3 * (power // 3)
    if exponent not in PREFIXES:
        return None
    return TypedUnit(f" {PREFIXES[exponent]}{KINDS[kind].unit}", Fraction(10) ** exponent)
