"""What a formula measures, worked out from the units of its quantities, and told in words."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from itertools import product

from builder.quantity.formula import (
    Amount,
    Exp,
    Formula,
    Ln,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Root,
    Square,
    Sum,
    names_in,
)
from builder.quantity.kinds import KINDS
from builder.quantity.letters import CONSTANT
from builder.quantity.units import dimension_of_kind

Dimension = tuple[Fraction, ...]
"""The exponents of length, mass, time and current."""

PURE: Dimension = (Fraction(0),) * 4
_OF_CONSTANTS = {"pi": "ratio", "eps0": "permittivity"}
_BASE_UNITS = ("m", "kg", "s", "A")


class DimensionError(ValueError):
    """Raised when a term measures something else than what stands beside it.

    Attributes:
        position: how many names stand before the term in the formula.
        found: the dimension of the term.
        expected: what it should be.
        place: ``term`` of a sum, ``exponent`` or ``argument`` of a function.
    """

    def __init__(self, position: int, found: Dimension, expected: Dimension, place: str) -> None:
        super().__init__(position, found, expected, place)
        self.position = position
        self.found = found
        self.expected = expected
        self.place = place

    def __str__(self) -> str:
        return (
            f"the {self.place} after {self.position} names is {in_words(self.found)}, "
            f"not {in_words(self.expected)}"
        )


def dimension_of(formula: Formula, before: int = 0) -> Dimension:
    """What a formula measures.

    Args:
        formula: its quantities have kinds, or are constants.
        before: how many names stand before it, to tell the place of a term.

    Raises:
        DimensionError: at the first term that does not fit.
    """
    match formula:
        case Ref(name) if name.quantity == CONSTANT:
            return dimension_of_kind(_OF_CONSTANTS[name.of])
        case Ref(name):
            return dimension_of_kind(name.quantity)
        case Num():
            return PURE
        case Amount(_, quantity):
            return dimension_of_kind(quantity)
        case Negative() | Square() | Root() | Power():
            return _of_base(formula, before)
        case Quotient(over, under):
            below = dimension_of(under, before + _names(over))
            return times(dimension_of(over, before), raised(below, Fraction(-1)))
        case Product(factors):
            return _product(factors, before)
        case _:
            return _of_rarer(formula, before)


def _of_base(formula: Negative | Square | Root | Power, before: int) -> Dimension:
    match formula:
        case Negative(part):
            return dimension_of(part, before)
        case Square(base):
            return raised(dimension_of(base, before), Fraction(2))
        case Root(base):
            return raised(dimension_of(base, before), Fraction(1, 2))
        case Power(base, exponent):
            return raised(dimension_of(base, before), exponent)


def _of_rarer(formula: Formula, before: int) -> Dimension:
    match formula:
        case Exp(argument):
            return _pure(argument, before, "exponent")
        case Ln(argument):
            return _pure(argument, before, "argument")
        case Sum(terms):
            return _sum(terms, before)
        case ReciprocalSum(terms):
            return _sum(terms, before)
        case _:
            raise TypeError(f"{type(formula).__name__} has no place in an author's formula")


def _names(formula: Formula) -> int:
    return sum(1 for _ in names_in(formula))


def _product(factors: tuple[Formula, ...], before: int) -> Dimension:
    total = PURE
    for factor in factors:
        total = times(total, dimension_of(factor, before))
        before += _names(factor)
    return total


def _sum(terms: tuple[Formula, ...], before: int) -> Dimension:
    first = dimension_of(terms[0], before)
    before += _names(terms[0])
    for term in terms[1:]:
        found = dimension_of(term, before)
        if found != first:
            raise DimensionError(before, found, first, "term")
        before += _names(term)
    return first


def _pure(argument: Formula, before: int, place: str) -> Dimension:
    found = dimension_of(argument, before)
    if found != PURE:
        raise DimensionError(before, found, PURE, place)
    return PURE


def times(one: Dimension, other: Dimension) -> Dimension:
    """The dimension of a product."""
    return tuple(a + b for a, b in zip(one, other, strict=True))


def raised(base: Dimension, exponent: Fraction) -> Dimension:
    """The dimension of a power."""
    return tuple(part * exponent for part in base)


def kind_of(dimension: Dimension) -> str | None:
    """The kind of quantity that a typed unit of that dimension measures; None without one."""
    return next((kind for kind in _typed() if dimension_of_kind(kind) == dimension), None)


def in_words(dimension: Dimension) -> str:
    """A dimension as a person tells it: ``a capacitance (F)``, ``charge per area (C/m²)``."""
    kind = kind_of(dimension)
    if kind == "ratio":
        return "a pure number"
    if kind is not None:
        return f"{KINDS[kind].a_noun} ({KINDS[kind].unit})"
    return _two_kinds(dimension) or f"something in {_base_units(dimension)}"


@cache
def _two_kinds(dimension: Dimension) -> str | None:
    for one, other in product(_typed(), repeat=2):
        if "ratio" in (one, other):
            continue
        first, second = dimension_of_kind(one), dimension_of_kind(other)
        units = KINDS[one].unit, KINDS[other].unit
        if times(first, raised(second, Fraction(-1))) == dimension and "/" not in "".join(units):
            return f"{KINDS[one].noun} per {KINDS[other].noun} ({units[0]}/{units[1]})"
        if times(first, second) == dimension and "/" not in "".join(units):
            return f"{KINDS[one].noun} times {KINDS[other].noun} ({units[0]}·{units[1]})"
    return None


def _base_units(dimension: Dimension) -> str:
    parts = [
        unit if exponent == 1 else f"{unit}^{exponent}"
        for unit, exponent in zip(_BASE_UNITS, dimension, strict=True)
        if exponent
    ]
    return " ".join(parts)


def _typed() -> list[str]:
    return [kind.name for kind in KINDS.values() if kind.typed]
