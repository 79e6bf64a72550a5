"""Formulas as plain data, for the browser to evaluate again with other numbers."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from builder.quantity.exact import as_fraction
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
    parts_of,
)


def as_data(formula: Formula) -> Any:
    """``formula`` as nested lists of plain data, for the browser to evaluate again.

    A name is its key, a rational is ``[over, under]``, anything else is a list that starts with
    its word. Amounts are in SI units.
    """
    match formula:
        case Ref(name):
            return name.key
        case Num(value):
            return _fraction_data(value)
        case Amount(value):
            return _fraction_data(as_fraction(value))
        case Power(base, exponent):
            return ["power", as_data(base), _fraction_data(exponent)]
        case Solved(system, position):
            rows = [[as_data(part) for part in row] for row in system.rows]
            return ["solved", position, rows, [as_data(part) for part in system.right]]
        case _:
            return [_WORDS[type(formula)], *map(as_data, parts_of(formula))]


_WORDS: dict[type, str] = {
    Sum: "sum", Negative: "negative", Product: "product", Quotient: "quotient",
    Square: "square", Root: "root", Exp: "exp", Ln: "ln", ReciprocalSum: "reciprocal-sum",
}  # fmt: skip


def _fraction_data(value: Fraction) -> list[int]:
    return [value.numerator, value.denominator]
