"""How a number is shown: prefix, significant digits, and whether that is exact.

Rules of the SI Brochure (9th ed., 5.4): a space between number and unit, an upright unit
symbol, one prefix at most.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from sympy import Rational

from builder.quantity.brackets import Binding
from builder.quantity.exact import Exact, as_fraction, near_fraction
from builder.quantity.kinds import KINDS, QuantityKind

PREFIXES: dict[int, str] = {
    -30: "q", -27: "r", -24: "y", -21: "z", -18: "a", -15: "f", -12: "p", -9: "n", -6: "µ",
    -3: "m", 0: "", 3: "k", 6: "M", 9: "G", 12: "T", 15: "P", 18: "E", 21: "Z", 24: "Y",
    27: "R", 30: "Q",
}  # fmt: skip
_EXPONENT_OF = {Fraction(10) ** power: power for power in (*PREFIXES, -4)}


@dataclass(frozen=True)
class Shown:
    """A value ready to be read.

    Attributes:
        number: the digits, with a proper minus sign and, rarely, a power of ten.
        unit: the prefixed unit symbol.
        exact: whether the digits tell the whole value.
    """

    number: str
    unit: str
    exact: bool

    @property
    def text(self) -> str:
        """Number and unit with a plain space: ``66.0 µC``."""
        return f"{self.number} {self.unit}".rstrip()

    @property
    def binding(self) -> Binding:
        """How it binds in a formula."""
        if self.number.startswith("−"):
            return Binding.NEGATIVE
        plain = not self.unit and self.number.replace(".", "").isdigit()
        return Binding.WHOLE if plain else Binding.PRODUCT

    @property
    def sign(self) -> str:
        """The relation that introduces it: ``=`` if exact, else ``≈``."""
        return "=" if self.exact else "≈"


def show_number(value: Exact, kind: str, digits: int = 3) -> Shown:
    """Show ``value`` to ``digits`` significant digits in the unit of its kind.

    Args:
        value: a real number in SI units.
        kind: the name of the quantity kind.
        digits: significant digits, at least 1; trailing zeros are kept.

    Raises:
        TypeError: if ``value`` holds a symbol.
    """
    unit = KINDS[kind].unit
    exact = near_fraction(value)
    if exact == 0:
        return Shown("0", unit, exact=value == 0)
    order, rounded = _round(abs(exact), digits)
    prefix = _prefix_for(order, KINDS[kind])
    sign = "−" if exact < 0 else ""
    if prefix is None:
        mantissa = _decimal(rounded / Fraction(10) ** order, digits - 1)
        return Shown(
            f"{sign}{mantissa} × 10{_superscript(order)}", unit, exact=_is_whole(value, rounded)
        )
    power, written = prefix
    number = _decimal(rounded / Fraction(10) ** power, max(0, digits - 1 - (order - power)))
    return Shown(sign + number, written + unit, exact=_is_whole(value, rounded))


def _is_whole(value: Exact, rounded: Fraction) -> bool:
    """Whether the shown digits are the whole value, which those of a root never are."""
    return isinstance(value, Rational) and rounded == abs(as_fraction(value))


# Areas are told in km², m², cm² and mm² in the trade; other prefixes of m² are hardly met.
_SQUARES = {6: "k", 0: "", -4: "c", -6: "m", -12: "µ"}
_PLAIN_ORDERS = range(-3, 6)


def _prefix_for(order: int, kind: QuantityKind) -> tuple[int, str] | None:
    """The power of ten of the unit in which a value of that order is written, and its prefix.

    None where a power of ten has to stand beside the number.
    """
    if kind.prefix_power == 0:
        return (0, "") if order in _PLAIN_ORDERS else None
    if kind.prefix_power == 2:
        power = next((size for size in _SQUARES if size <= order), -12)
        power = -6 if power == -12 and order >= -8 else power
        return (power, _SQUARES[power]) if -15 < order < 12 else None
    power = 3 * (order // 3)
    return (power, PREFIXES[power]) if power in PREFIXES else None


def _prefixes_of(kind: QuantityKind) -> dict[int, str]:
    """The prefixes before a kind's unit, by the power of ten that they stand for with it."""
    if kind.prefix_power == 0:
        return {0: ""}
    return {2: _SQUARES}.get(kind.prefix_power, PREFIXES)


def show_number_in(value: Exact, kind: str, unit: str, digits: int = 3) -> Shown:
    """Show ``value`` in a given prefixed unit, where the number stays readable there.

    Args:
        value: a real number in SI units.
        kind: the name of the quantity kind.
        unit: the unit symbol to keep, such as ``µF``.
        digits: significant digits.

    Returns:
        The value in ``unit`` if its number then lies between 0.001 and 9999, else as
        ``show_number`` does it.
    """
    power = unit_power(unit, kind)
    exact = near_fraction(value)
    if power is None or exact == 0:
        return show_number(value, kind, digits)
    order, mantissa, last = _mantissa(abs(exact), digits)
    # All of it in whole numbers: a page with its sets has tens of thousands of wrong numbers.
    over, under = mantissa * _tens(last - power), _tens(power - last)
    if not under <= 1000 * over < 10_000_000 * under:
        return show_number(value, kind, digits)
    places = max(0, digits - 1 - (order - power))
    number = _with_point(over * 10**places // under, places)
    whole = isinstance(value, Rational) and (
        mantissa * _tens(last) * exact.denominator == abs(exact.numerator) * _tens(-last)
    )
    return Shown(("−" if exact < 0 else "") + number, unit, exact=whole)


@lru_cache(maxsize=256)
def unit_power(unit: str, kind: str) -> int | None:
    """The power of ten of a shown unit: −6 for ``µF``; None if it is no unit of that kind."""
    base, prefixes = KINDS[kind].unit, _prefixes_of(KINDS[kind])
    return next((power for power, prefix in prefixes.items() if prefix + base == unit), None)


def last_digit(value: Exact, digits: int = 3) -> Fraction:
    """The size of one unit in the last shown significant digit, in SI units (0 for 0)."""
    exact = abs(near_fraction(value))
    if exact == 0:
        return Fraction(0)
    order, _ = _round(exact, digits)
    return Fraction(10) ** (order - digits + 1)


def as_typed(number: str, amount: Fraction, kind: QuantityKind, size: Fraction) -> Shown:
    """Keep an author's own digits and prefix: ``1000 uF`` stays ``1000 µF``.

    Args:
        number: the number as typed.
        amount: its value.
        kind: what the unit measures.
        size: the size of the typed unit in SI units.
    """
    plain = all(character.isdigit() or character == "." for character in number.lstrip("+-−"))
    prefix = _typed_prefix(size, kind)
    if not plain or prefix is None:
        return _exact(amount * size, kind)
    digits = number.lstrip("+-−").rstrip(".")
    digits = "0" + digits if digits.startswith(".") else digits
    sign = "−" if amount < 0 else ""
    return Shown(sign + digits, prefix + kind.unit, exact=True)


def _typed_prefix(size: Fraction, kind: QuantityKind) -> str | None:
    """The prefix of a typed unit; lengths may be typed in centimetres and decimetres as well."""
    power = _EXPONENT_OF.get(size)
    if kind.name == "length":
        power = {Fraction(1, 10): -1, Fraction(1, 100): -2}.get(size, power)
    if power is None:
        return None
    return {-1: "d", -2: "c"}.get(power) if power in (-1, -2) else _prefixes_of(kind).get(power)


def show_whole(value: Exact, kind: str) -> Shown:
    """Show all of a rational value: as a decimal if it ends, else as a fraction.

    Args:
        value: in SI units.
        kind: the name of the quantity kind, or a unit that has no name of its own: ``V²``.

    Raises:
        TypeError: if ``value`` is not rational.
    """
    known = KINDS.get(kind) or QuantityKind("", "", kind, "", prefix_power=0)
    return _exact(as_fraction(value), known)


def article(number: str) -> str:
    """``an`` before numbers that are said with a vowel first: 8, 11, 18, 80, 800 …; else ``a``."""
    match = re.match(r"\d+", number)
    digits = match.group() if match else ""
    eleven_or_eighteen = len(digits) % 3 == 2 and digits[:2] in ("11", "18")
    return "an" if digits[:1] == "8" or eleven_or_eighteen else "a"


def _exact(value: Fraction, kind: QuantityKind) -> Shown:
    """The whole value, as a decimal if it ends, else as a fraction."""
    if value == 0:
        return Shown("0", kind.unit, exact=True)
    order, _ = _round(abs(value), 1)
    power, prefix = _prefix_for(min(30, max(-30, order)), kind) or (0, "")
    scaled = abs(value) / Fraction(10) ** power
    sign = "−" if value < 0 else ""
    places = _decimal_places(scaled)
    number = (
        f"{scaled.numerator}/{scaled.denominator}" if places is None else _decimal(scaled, places)
    )
    return Shown(sign + number, prefix + kind.unit, exact=True)


def _decimal_places(value: Fraction) -> int | None:
    """How many decimals ``value`` has, or None if it does not end."""
    rest, twos, fives = value.denominator, 0, 0
    while rest % 2 == 0:
        rest, twos = rest // 2, twos + 1
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    return max(twos, fives) if rest == 1 else None


def _round(value: Fraction, digits: int) -> tuple[int, Fraction]:
    """The decimal order of a positive value and the value rounded half up to ``digits``."""
    order, mantissa, power = _mantissa(value, digits)
    return order, Fraction(mantissa * _tens(power), _tens(-power))


def _mantissa(value: Fraction, digits: int) -> tuple[int, int, int]:
    """The same with the rounded value as a whole number and the power of ten that it counts."""
    over, under = value.numerator, value.denominator
    order = (over.bit_length() - under.bit_length()) * 30103 // 100000  # log10(2): one off at most
    if _tens(order) * under > over * _tens(-order):
        order -= 1
    elif _tens(order + 1) * under <= over * _tens(-order - 1):
        order += 1
    # In whole numbers, as every slip and every result comes through here.
    power = order - digits + 1
    over, under = 2 * over * _tens(-power), under * _tens(power)
    mantissa = (over + under) // (2 * under)
    if mantissa >= 10**digits:
        order += 1
    return order, mantissa, power


@lru_cache(maxsize=256)
def _tens(power: int) -> int:
    """That power of ten; 1 for a negative one."""
    return int(10 ** max(0, power))


def _decimal(value: Fraction, places: int) -> str:
    scaled = value * 10**places
    return _with_point(scaled.numerator // scaled.denominator, places)


def _with_point(number: int, places: int) -> str:
    digits = str(number).rjust(places + 1, "0")
    return digits if places == 0 else f"{digits[:-places]}.{digits[-places:]}"


def _superscript(number: int) -> str:
    return str(number).translate(str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"))
