"""Units as people type them. Prefixes and dimensions come from pint."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

from builder.quantity.kinds import KINDS

_ONE_UNIT = r"[A-Za-z\u00b5\u03bc\u03a9\u2126]{1,20}(?:\^?[23]|[\u00b2\u00b3])?"
_UNIT_WORD = re.compile(rf"{_ONE_UNIT}(?:[/*\u00b7]{_ONE_UNIT}){{0,3}}")
_RAISED = re.compile(r"\^?([23])")
_SPELLINGS = (
    ("\u03a9", "ohm"),  # the Greek letter
    ("\u2126", "ohm"),  # the ohm sign that some keyboards have
    ("\u03bc", "\u00b5"),  # pint knows the micro sign, not the Greek letter
    ("kilohm", "kiloohm"),  # common practice drops the vowel in these two
    ("megohm", "megaohm"),
    ("\u00b2", "2"),
    ("\u00b3", "3"),
    ("\u00b7", "*"),
)


_UNITS = (
    "meter gram second minute hour ampere newton joule watt watt_hour coulomb ampere_hour volt "
    "ohm farad"
).split()
_PREFIX_LINE = re.compile(r"[a-z]+- =")


@cache
def _registry() -> Any:
    """Pint with its prefixes and the few of its units that a circuit has.

    All of pint's units would take a second to load, and would read ``5 a`` as years.

    Raises:
        RuntimeError: if pint's definitions no longer hold one of the units.
    """
    from pint import UnitRegistry

    text = files("pint").joinpath("default_en.txt").read_text(encoding="utf-8")
    lines = text.splitlines()
    kept = [line for line in lines if _PREFIX_LINE.match(line)]
    for unit in _UNITS:
        definition = next((line for line in lines if line.startswith(f"{unit} =")), None)
        if definition is None:
            raise RuntimeError(f"pint does not define {unit} any more")
        kept.append(definition)
    registry: Any = UnitRegistry(None, non_int_type=Fraction, cache_folder=None)
    registry.load_definitions(kept)
    return registry


@cache
def _kind_by_dimension() -> dict[Any, str]:
    registry = _registry()
    return {
        registry.parse_units(_spelled(kind.unit)).dimensionality: kind.name
        for kind in KINDS.values()
        if kind.typed and kind.unit
    }


def _spelled(unit: str) -> str:
    for typed, spelled in _SPELLINGS:
        unit = unit.replace(typed, spelled)
    return _RAISED.sub(r"**\1", unit)


@cache
def read_unit(text: str) -> tuple[str, Fraction] | None:
    """What a typed unit measures.

    Args:
        text: ``uF``, ``µF``, ``kΩ``, ``kohm``, ``milliampere``, ``cm^2``, ``kV/mm`` …

    Returns:
        The name of the quantity kind and the size of the unit in SI units, exactly;
        None if it is no unit or a unit of something a circuit does not have.
    """
    if not _UNIT_WORD.fullmatch(text):
        return None
    try:
        units = _registry().parse_units(_spelled(text))
        one = _registry().Quantity(Fraction(1), units).to_base_units()
    except Exception:  # noqa: BLE001 - pint raises several unrelated classes for unknown words
        return None
    kind = _kind_by_dimension().get(units.dimensionality)
    if kind is None:
        return None
    size = Fraction(one.magnitude)
    in_base = _registry().Quantity(Fraction(1), _spelled(KINDS[kind].unit)).to_base_units()
    return kind, size / Fraction(in_base.magnitude)


@cache
def dimension_of_kind(kind: str) -> tuple[Fraction, ...]:
    """The exponents of length, mass, time and current in the unit of a quantity kind."""
    unit = KINDS[kind].unit
    if not unit:
        return (Fraction(0),) * len(_BASES)
    dimension = _registry().parse_units(_spelled(unit)).dimensionality
    return tuple(Fraction(dimension.get(base, 0)) for base in _BASES)


_BASES = ("[length]", "[mass]", "[time]", "[current]")
