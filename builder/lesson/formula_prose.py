"""Formulas in one line as pieces of a sentence: ``C₁ + C₂``, ``Q₂/C₂``, ``1/(1/R₁ + 1/R₂)``."""

from __future__ import annotations

import re
from fractions import Fraction

from builder.lesson.display import Display
from builder.lesson.prose import Piece, Prose, SymbolOf
from builder.quantity.compact import compact
from builder.quantity.formula import (
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
    every_part,
    names_in,
)
from builder.quantity.names import Name

_FIRST_MARK = 0xE000
"""Characters for private use stand for the quantities while the line is written."""
_LONGEST = 8


def goes_in_line(formula: Formula) -> bool:
    """Whether a formula is short and plain enough for one line."""
    hard = any(isinstance(part, Exp | Ln | Root | Solved) for part in every_part(formula))
    return not hard and 0 < len(list(names_in(formula))) <= _LONGEST


def formula_prose(formula: Formula, display: Display) -> Prose:
    """A formula as pieces; nothing if it does not go in one line."""
    if not goes_in_line(formula):
        return ()
    names = tuple(dict.fromkeys(names_in(formula)))
    marks = {name: chr(_FIRST_MARK + position) for position, name in enumerate(names)}
    line = compact(_without_reciprocal_sums(formula), marks.__getitem__)
    line = line.replace("(1/2) · ", "½").replace("(1/2)", "½")
    short = "".join(mark for name, mark in marks.items() if _is_short(name, display))
    line = re.sub(f"(?<=[½{short}]) · (?=[{short}])", "", line) if short else line
    by_mark = {mark: SymbolOf(name) for name, mark in marks.items()}
    pieces = re.split(f"([{''.join(by_mark)}])", line)
    written: list[Piece] = [by_mark.get(piece, piece) for piece in pieces if piece]
    return tuple(written)


def _is_short(name: Name, display: Display) -> bool:
    """Whether a symbol can stand beside another without a sign: Q₂, V′, but not V_R1 or I(0)."""
    symbol = display.symbol(name)
    return (not symbol.index or symbol.index.isdigit()) and "(" not in symbol.mark


def _without_reciprocal_sums(formula: Formula) -> Formula:
    """The same with each reciprocal of a sum of reciprocals as a fraction of fractions."""
    one = Num(Fraction(1))
    inner = _without_reciprocal_sums
    match formula:
        case ReciprocalSum(terms):
            return Quotient(one, Sum(tuple(Quotient(one, inner(term)) for term in terms)))
        case Sum(terms):
            return Sum(tuple(map(inner, terms)))
        case Product(factors):
            return Product(tuple(map(inner, factors)))
        case Quotient(over, under):
            return Quotient(inner(over), inner(under))
        case Negative(term):
            return Negative(inner(term))
        case Square(base):
            return Square(inner(base))
        case Power(base, exponent):
            return Power(inner(base), exponent)
        case Ref() | Num() | _:
            return formula
