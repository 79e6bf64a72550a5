"""Where a written formula needs brackets: decided once for all ways of writing.

A part is written in a *place* (a later term of a sum, after a minus, a factor, …) and binds in
some way (a sum loosely, a single symbol not at all). Brackets stand where the part binds more
loosely than its place allows, and round everything that starts with a minus sign but does not
start the line.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from enum import Enum, IntEnum

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
    Solved,
    Square,
    Sum,
)
from builder.quantity.names import Name


class Binding(IntEnum):
    """How firmly the parts of something written hold together, loosest first."""

    NEGATIVE = 1
    SUM = 2
    QUOTIENT = 3
    PRODUCT = 4
    POWER = 5
    WHOLE = 6


class Place(Enum):
    """Where a part of a formula is written."""

    FIRST_TERM = "first-term"
    LATER_TERM = "later-term"
    AFTER_MINUS = "after-minus"
    FACTOR = "factor"
    LAST_FACTOR = "last-factor"
    OVER = "over"
    UNDER = "under"
    BASE = "base"
    ARGUMENT = "argument"


Atoms = Callable[[Name], Binding]
"""How a quantity is written where it stands: a letter is whole, ``22 µF`` a product, ``−3 V``
negative, ``a + b`` a sum."""


def letters(_name: Name) -> Binding:
    """Every quantity is one symbol."""
    return Binding.WHOLE


_BINDINGS: dict[type, Binding] = {
    Negative: Binding.NEGATIVE, Sum: Binding.SUM, Product: Binding.PRODUCT,
    Quotient: Binding.QUOTIENT, ReciprocalSum: Binding.QUOTIENT, Solved: Binding.QUOTIENT,
    Square: Binding.POWER, Power: Binding.POWER, Exp: Binding.POWER,
    Root: Binding.WHOLE, Ln: Binding.WHOLE,
}  # fmt: skip


def binding(formula: Formula, atoms: Atoms = letters) -> Binding:
    """How a written formula binds."""
    match formula:
        case Ref(name):
            return atoms(name)
        case Num(value) | Amount(value) if value < 0:
            return Binding.NEGATIVE
        case Num(value):
            return Binding.WHOLE if value.denominator == 1 else Binding.QUOTIENT
        case Amount():
            return Binding.PRODUCT
        case Sum((only,)) | Product((only,)):
            return binding(only, atoms)
        case Sum(()) | Product(()):
            return Binding.WHOLE
        case _:
            return _BINDINGS[type(formula)]


_LOOSEST: dict[Place, tuple[Binding, Binding]] = {
    Place.FIRST_TERM: (Binding.NEGATIVE, Binding.NEGATIVE),
    Place.LATER_TERM: (Binding.SUM, Binding.SUM),
    Place.AFTER_MINUS: (Binding.QUOTIENT, Binding.QUOTIENT),
    Place.FACTOR: (Binding.PRODUCT, Binding.QUOTIENT),
    Place.LAST_FACTOR: (Binding.QUOTIENT, Binding.QUOTIENT),
    Place.OVER: (Binding.POWER, Binding.NEGATIVE),
    Place.UNDER: (Binding.POWER, Binding.NEGATIVE),
    Place.BASE: (Binding.WHOLE, Binding.WHOLE),
    Place.ARGUMENT: (Binding.WHOLE, Binding.WHOLE),
}


def needs_brackets(bound: Binding, place: Place, *, stacked: bool) -> bool:
    """Whether something that binds so stands in brackets there.

    Args:
        bound: how the part binds.
        place: where it is written.
        stacked: whether a fraction is written with one part above the other and an exponent
            raised, so that these hold together by themselves.
    """
    in_line, in_stack = _LOOSEST[place]
    return bound < (in_stack if stacked else in_line)


def signed_terms(formula: Sum) -> Iterable[tuple[bool, Formula]]:
    """The terms of a sum with sums inside it opened: whether each is subtracted, and what.

    A negative literal is subtracted; a negative value of a quantity keeps its own sign.
    """
    for term in formula.terms:
        match term:
            case Sum() if term.terms:
                yield from signed_terms(term)
            case Negative(inner):
                yield True, inner
            case Num(value) if value < 0:
                yield True, Num(-value)
            case Amount(value, quantity) if value < 0:
                yield True, Amount(-value, quantity)
            case _:
                yield False, term


def flat_factors(formula: Product) -> Iterable[Formula]:
    """The factors of a product with products inside it opened."""
    for factor in formula.factors:
        if isinstance(factor, Product) and factor.factors:
            yield from flat_factors(factor)
        else:
            yield factor
