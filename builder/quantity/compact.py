"""Formulas of letters in the shortest plain text: ``2CV/3``, ``C₁C₂/(C₁ + C₂)``."""

from __future__ import annotations

from itertools import pairwise

from builder.quantity.brackets import Place, binding, flat_factors, needs_brackets, signed_terms
from builder.quantity.formula import (
    Amount,
    Formula,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    Ref,
    Square,
    Sum,
)
from builder.quantity.letters import letter_symbol
from builder.quantity.numerals import show_whole

_SUPERSCRIPTS = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def compact(formula: Formula) -> str:
    """A formula of letters, numbers and amounts in one line.

    Raises:
        TypeError: if it holds anything that no value with symbols is written with.
    """
    match formula:
        case Ref(name):
            return letter_symbol(name.of).text
        case Num(value):
            return str(value).replace("-", "−")
        case Amount(value, quantity):
            return show_whole(value, quantity).text
        case Negative(term):
            return "−" + _at(term, Place.AFTER_MINUS)
        case Sum():
            return _sum(formula)
        case Product():
            return _product(formula)
        case Quotient(over, under):
            return f"{_over(over)}/{_at(under, Place.UNDER)}"
        case Square() | Power():
            power = 2 if isinstance(formula, Square) else formula.exponent
            return _at(formula.base, Place.BASE) + str(power).translate(_SUPERSCRIPTS)
        case _:
            raise TypeError(f"{type(formula).__name__} is no part of a value with symbols")


def _at(part: Formula, place: Place) -> str:
    written = compact(part)
    return f"({written})" if needs_brackets(binding(part), place, stacked=False) else written


def _over(over: Formula) -> str:
    """What stands above a slash: a product needs no brackets there."""
    return compact(over) if isinstance(over, Product) else _at(over, Place.OVER)


def _sum(formula: Sum) -> str:
    parts: list[str] = []
    for number, (subtracted, term) in enumerate(signed_terms(formula)):
        if subtracted:
            parts.append(("− " if number else "−") + _at(term, Place.AFTER_MINUS))
        else:
            parts.append(
                ("+ " if number else "")
                + _at(term, Place.LATER_TERM if number else Place.FIRST_TERM)
            )
    return " ".join(parts)


def _product(formula: Product) -> str:
    factors = list(flat_factors(formula))
    written = [_factor(factor) for factor in factors]
    text = written[0]
    for (left, right), more in zip(pairwise(factors), written[1:], strict=True):
        text += (" · " if _apart(left, right) else "") + more
    return text


def _factor(factor: Formula) -> str:
    if isinstance(factor, Num) and factor.value > 0:
        written = compact(factor)
        return written if factor.value.denominator == 1 else f"({written})"
    return _at(factor, Place.FACTOR)


def _apart(left: Formula, right: Formula) -> bool:
    """Whether two factors need a sign between them to be told apart."""
    amounts = any(isinstance(_inner(part), Amount) for part in (left, right))
    digit = isinstance(_inner(right), Num)
    word = isinstance(_inner(left), Ref) and "_" in compact(left)
    return amounts or digit or word


def _inner(part: Formula) -> Formula:
    return _inner(part.base) if isinstance(part, Square | Power) else part
