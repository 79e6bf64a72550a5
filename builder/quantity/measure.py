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
from builder.quantity.visible import visible

_DECIMAL_COMMA = re.compile(r"^[+\-−]?\d+,\d+")
_SPACED_DIGITS = re.compile(r"^[+\-−]?\d{1,3}([ \u00a0\u2009\u202f]\d{3})+(?!\d)")
_UNIT_FIRST = re.compile(r"([A-Za-z\u00b5\u03bc\u03a9\u2126]{1,5})\s*(\d+(?:\.\d+)?)")
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
        instead: what was probably meant; None if that is not clear.
        number: the number, if nothing lacks but a unit; else empty.
    """

    def __init__(
        self, found: str, expected: str, advice: str, *, instead: str | None = None,
        number: str = "",
    ) -> None:  # fmt: skip
        super().__init__(found, expected, advice)
        self.found = found
        self.expected = expected
        self.advice = advice
        self.instead = instead
        self.number = number

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
        advice = f'Write the decimal point as a point: "{_short(fixed)}".'
        raise MeasureError(quoted, expected, advice, instead=fixed)
    spaced = _SPACED_DIGITS.match(stripped)
    if spaced:
        joined = re.sub(r"\s", "", spaced.group()) + stripped[spaced.end() :]
        raise MeasureError(quoted, expected, "Write the digits of a number without spaces.",
                           instead=joined)  # fmt: skip
    number, unit_text = split_number(stripped)
    if not number:
        turned = _UNIT_FIRST.fullmatch(stripped)
        raise MeasureError(quoted, expected, "Start with a number.",
                           instead=f"{turned[2]} {turned[1]}" if turned else None)  # fmt: skip
    try:
        amount = read_number(number)
    except ValueError as error:
        raise MeasureError(quoted, expected, f"{str(error)[:1].upper()}{str(error)[1:]}.") from None
    if not unit_text:
        raise MeasureError(quoted, expected, f"Add the unit after {number}.", number=number)
    unit = read_unit(unit_text)
    if unit is None:
        near = _near_unit(unit_text)
        advice = f'"{_short(unit_text)}" is no unit of a circuit quantity.'
        if near:
            advice += f' Did you mean "{near}"?'
        raise MeasureError(quoted, expected, advice,
                           instead=f"{number} {near}" if near else None)  # fmt: skip
    kind, size = unit
    value = amount * Rational(size.numerator, size.denominator)
    return Measure(kind, value, as_typed(number, as_fraction(amount), KINDS[kind], size))


def _short(text: str, most: int = 40) -> str:
    seen = visible(text)
    return seen if len(seen) <= most else seen[: most - 1] + "…"


def _near_unit(typed: str) -> str | None:
    """The unit that was probably meant: in other letters, as a word, or the most like one."""
    folded = [unit for unit in _COMMON_UNITS if unit.lower() == typed.lower()]
    if not folded and read_unit(typed.lower()) is not None:
        folded = [typed.lower()]
    near = difflib.get_close_matches(typed, _COMMON_UNITS, n=1, cutoff=0.6)
    return next(iter(folded or near), None)


def si_size(kind: str, unit_text: str) -> Fraction | None:
    """The size of a typed unit in SI units if it measures ``kind``, else None."""
    unit = read_unit(unit_text)
    return unit[1] if unit is not None and unit[0] == kind else None
