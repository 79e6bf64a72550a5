"""A typed value with its unit: ``4.7 uF`` becomes an exact number of farads."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from fractions import Fraction

from sympy import Rational

from builder.quantity.exact import Exact, as_fraction, read_number, split_number
from builder.quantity.kinds import KINDS
from builder.quantity.show import Shown, as_typed
from builder.quantity.units import read_unit

_DECIMAL_COMMA = re.compile(r"^[+\-−]?\d+,\d+")
_SPACED_DIGITS = re.compile(r"^[+\-−]?\d{1,3}([ \u00a0\u2009\u202f]\d{3})+(?!\d)")
_COMMON_UNITS = (
    "F mF uF µF nF pF C mC uC µC nC pC V kV mV uV J kJ mJ uJ µJ nJ ohm kohm Mohm Ω kΩ MΩ mΩ "
    "A mA uA µA nA kA W kW mW uW µW s ms us µs"
).split()


class MeasureError(ValueError):
    """Raised when a text is not a number with a unit.

    Attributes:
        found: what stands there.
        expected: what should stand there.
        advice: what to do about it.
    """

    def __init__(self, found: str, expected: str, advice: str) -> None:
        super().__init__(found, expected, advice)
        self.found = found
        self.expected = expected
        self.advice = advice

    def __str__(self) -> str:
        return f"found {self.found}; expected {self.expected}. {self.advice}"


@dataclass(frozen=True)
class Measure:
    """A value as its author typed it.

    Attributes:
        kind: the name of its quantity kind, e.g. ``capacitance``.
        value: the exact value in SI units.
        shown: how the author wrote it, with the unit symbol spelled properly.
    """

    kind: str
    value: Exact
    shown: Shown


_EXPECTED = "a number and a unit, such as 4.7 uF, 12 V or 1 kohm"


def read_measure(text: str, *, expected: str = _EXPECTED) -> Measure:
    """Read a number with a unit, exactly.

    Args:
        text: ``4.7 uF``, ``1 kΩ``, ``1.5e-5 F``, ``3/2 V``.
        expected: how an error describes what should stand here.

    Raises:
        MeasureError: if the number or the unit cannot be read.
    """
    stripped = text.strip()
    quoted = f'"{_short(stripped)}"' if stripped else "nothing"
    if _DECIMAL_COMMA.match(stripped):
        fixed = stripped.replace(",", ".", 1)
        raise MeasureError(
            quoted, expected, f'Write the decimal point as a point: "{_short(fixed)}".'
        )
    if _SPACED_DIGITS.match(stripped):
        raise MeasureError(quoted, expected, "Write the digits of a number without spaces.")
    number, unit_text = split_number(stripped)
    if not number:
        raise MeasureError(quoted, expected, "Start with a number.")
    try:
        amount = read_number(number)
    except ValueError as error:
        raise MeasureError(quoted, expected, f"{str(error)[:1].upper()}{str(error)[1:]}.") from None
    if not unit_text:
        raise MeasureError(quoted, expected, f"Add the unit after {number}.")
    unit = read_unit(unit_text)
    if unit is None:
        raise MeasureError(quoted, expected, _unit_advice(unit_text))
    kind, size = unit
    value = amount * Rational(size.numerator, size.denominator)
    return Measure(kind, value, as_typed(number, as_fraction(amount), KINDS[kind], size))


def _short(text: str, most: int = 40) -> str:
    return text if len(text) <= most else text[: most - 1] + "…"


def _unit_advice(unit_text: str) -> str:
    near = difflib.get_close_matches(unit_text, _COMMON_UNITS, n=1, cutoff=0.6)
    folded = [unit for unit in _COMMON_UNITS if unit.lower() == unit_text.lower()]
    guess = (folded or near)[:1]
    hint = f' Did you mean "{guess[0]}"?' if guess else ""
    return f'"{_short(unit_text)}" is no unit of a circuit quantity.{hint}'


def si_size(kind: str, unit_text: str) -> Fraction | None:
    """The size of a typed unit in SI units if it measures ``kind``, else None."""
    unit = read_unit(unit_text)
    return unit[1] if unit is not None and unit[0] == kind else None
