"""Sensible other values for one that an author typed: like it in size, unit and manner."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from builder.problem.varying.stated import StatedValue
from builder.problem.varying.writing import TypedUnit, decimal, unit_of
from builder.quantity.exact import as_fraction, split_number
from builder.quantity.series import decade, is_preferred, preferred

WIDEST = 3
"""How many times larger or smaller another value may be."""
FEW = 6
"""With fewer choices, one more decimal place is allowed."""
_ROUND = (10, 12, 15, 16, 18, 20, 24, 25, 30, 32, 36, 40, 45, 48, 50, 60, 72, 75, 80, 90, 96)
"""Numbers of one decade that many others divide, so that results come out clean."""
_SUPPLIES = tuple(Fraction(volts) for volts in (
    "1.5", 3, "4.5", 5, 6, "7.5", 9, 12, 15, 18, 24, 30, 36, 48, 60, 80, 100, 120, 150, 180, 200,
    240, 250, 300, 350, 400, 450, 500, 600))  # fmt: skip
"""Voltages of cells, batteries and bench supplies (common practice, no source)."""
_HARMLESS = Fraction(60)
"""Up to here another voltage may be larger, so that no page becomes more dangerous than its author
meant it: the touch voltage for children (IEC TS 60479, as listed at emf-portal.org)."""
_SERIES = ("E12", "E24")
_ELEMENTS = ("capacitance", "resistance")
_IN_DIGITS = re.compile(r"[+\-−]?\d+(?:\.\d+)?")
_HELD = ("ratio", "permittivity")
"""Kinds that belong to materials and to nature."""


def fitting_series(values: Iterable[StatedValue], text: str) -> dict[str, str]:
    """The series that all elements of a kind are taken from, by the kind.

    Only where round numbers would not explain them as well: 10 and 20 are in no hurry to become
    8.2 and 18.
    """
    numbers: dict[str, list[Fraction]] = {kind: [] for kind in _ELEMENTS}
    for value in values:
        if value.name.quantity in _ELEMENTS and value.measure.value > 0:
            numbers[value.name.quantity].append(_number(value, text))
    found = {}
    for kind, of_kind in numbers.items():
        fits = (s for s in _SERIES if all(is_preferred(number, s) for number in of_kind))
        series = next(fits, None)
        if series and not all(_is_round(number) for number in of_kind):
            found[kind] = series
    return found


def _number(value: StatedValue, text: str) -> Fraction:
    """The number that was typed before the unit, without its sign."""
    return abs(as_fraction(value.measure.value)) / unit_of(value, text).size


def _is_round(number: Fraction) -> bool:
    return number / decade(number) * 10 in _ROUND


def sensible(value: StatedValue, text: str, series: str | None) -> tuple[str, ...]:
    """What could be typed in the place of a value, itself included, from small to large.

    Args:
        value: what stands there.
        text: of its file.
        series: the series that its number is taken from, or None for round numbers.

    Returns:
        Only what stands there, if it should not vary or is typed in another way than in digits.
    """
    own = text[value.start : value.end]
    amount = as_fraction(value.measure.value)
    held = value.of_material or value.name.quantity in _HELD or amount == 0
    if held or not _IN_DIGITS.fullmatch(split_number(own)[0]):
        return (own,)
    unit = unit_of(value, text)
    number = _number(value, text)
    sign = "-" if amount < 0 else ""
    numbers = _numbers(value, number, unit, series)
    typed = {
        near: f"{sign}{decimal(near)}{unit.text}" for near in numbers if _as_long(near, number)
    }
    typed[number] = own
    return tuple(typed[near] for near in sorted(typed))


def _as_long(near: Fraction, number: Fraction) -> bool:
    """Whether a number is as easily read in the unit that was typed."""
    return (near < 1000 or number >= 1000) and (near >= Fraction(1, 10) or number < Fraction(1, 10))


def _numbers(
    value: StatedValue, number: Fraction, unit: TypedUnit, series: str | None
) -> list[Fraction]:
    least, most = number / WIDEST, number * WIDEST
    if series is not None:
        return [number, *preferred(series, least, most)]
    if value.name.quantity == "voltage":
        volts, size = number * unit.size, unit.size
        most = min(most, max(number, _HARMLESS / size))
        if volts in _SUPPLIES:
            return [v / size for v in _SUPPLIES if least <= v / size <= most]
    return [number, *_round_like(number, tuple(_round_between(least, most)))]


def _round_between(least: Fraction, most: Fraction) -> Iterator[Fraction]:
    power = decade(least)
    while power <= most:
        yield from (power * n / 10 for n in _ROUND if least <= power * n / 10 <= most)
        power *= 10


def _round_like(number: Fraction, numbers: Sequence[Fraction]) -> list[Fraction]:
    """The numbers with no more decimal places than were typed, or one more where those are few."""
    places = _places(number)
    alike = [near for near in numbers if _places(near) <= places]
    if len(alike) >= FEW:
        return alike
    return [near for near in numbers if _places(near) <= places + 1]


def _places(number: Fraction) -> int:
    digits = decimal(number)
    return len(digits.partition(".")[2]) if digits is not None else 0
