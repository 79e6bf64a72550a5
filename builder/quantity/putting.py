"""Formulas with something else in the place of their quantities."""

from __future__ import annotations

from collections.abc import Callable

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
)
from builder.quantity.names import Name


def replaced(formula: Formula, of: Callable[[Name], Formula]) -> Formula:
    """A formula with each quantity replaced by what ``of`` gives for it."""
    match formula:
        case Ref(name):
            return of(name)
        case Num() | Amount():
            return formula
        case Sum(parts):
            return Sum(tuple(replaced(part, of) for part in parts))
        case Product(parts):
            return Product(tuple(replaced(part, of) for part in parts))
        case ReciprocalSum(parts):
            return ReciprocalSum(tuple(replaced(part, of) for part in parts))
        case Quotient(over, under):
            return Quotient(replaced(over, of), replaced(under, of))
        case Power(base, exponent):
            return Power(replaced(base, of), exponent)
        case Negative(part) | Square(part) | Root(part) | Exp(part) | Ln(part):
            return type(formula)(replaced(part, of))
        case _:
            raise TypeError(f"{type(formula).__name__} has no place in a relation")


def put_in(formula: Formula, name: Name, other: Formula) -> Formula:
    """``formula`` with another formula in the place of a quantity."""
    return replaced(formula, lambda own: other if own == name else Ref(own))
