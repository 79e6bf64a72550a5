"""Formulas of letters in the shortest plain text: ``2CV/3``, ``C₁C₂/(C₁ + C₂)``."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
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
from builder.quantity.names import Name
from builder.quantity.numerals import show_whole

_SUPERSCRIPTS = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def letter_text(name: Name) -> str:
    """A letter in one line of plain text."""
    return letter_symbol(name.of).text


def compact(formula: Formula, atom: Callable[[Name], str] = letter_text) -> str:
    """A formula of letters, numbers and amounts in one line.

    Args:
        formula: what is written.
        atom: how a letter is written.

    Raises:
        TypeError: if it holds anything that no value with symbols is written with.
    """
    return _Compact(atom).write(formula)


@dataclass(frozen=True)
class _Compact:
    """Writes formulas with one way of writing letters."""

    atom: Callable[[Name], str]

    def write(self, formula: Formula) -> str:
        match formula:
            case Ref(name):
                return self.atom(name)
            case Num(value):
                return str(value).replace("-", "−")
            case Amount(value, quantity):
                return show_whole(value, quantity).text
            case Negative(term):
                return "−" + self._at(term, Place.AFTER_MINUS)
            case Sum():
                return self._sum(formula)
            case Product():
                return self._product(formula)
            case Quotient(over, under):
                return f"{self._over(over)}/{self._at(under, Place.UNDER)}"
            case Square() | Power():
                power = 2 if isinstance(formula, Square) else formula.exponent
                return self._at(formula.base, Place.BASE) + str(power).translate(_SUPERSCRIPTS)
            case _:
                raise TypeError(f"{type(formula).__name__} is no part of a value with symbols")

    def _at(self, part: Formula, place: Place) -> str:
        written = self.write(part)
        return f"({written})" if needs_brackets(binding(part), place, stacked=False) else written

    def _over(self, over: Formula) -> str:
        """What stands above a slash: a product needs no brackets there."""
        return self.write(over) if isinstance(over, Product) else self._at(over, Place.OVER)

    def _sum(self, formula: Sum) -> str:
        parts: list[str] = []
        for number, (subtracted, term) in enumerate(signed_terms(formula)):
            if subtracted:
                parts.append(("− " if number else "−") + self._at(term, Place.AFTER_MINUS))
            else:
                parts.append(
                    ("+ " if number else "")
                    + self._at(term, Place.LATER_TERM if number else Place.FIRST_TERM)
                )
        return " ".join(parts)

    def _product(self, formula: Product) -> str:
        factors = list(flat_factors(formula))
        written = [self._factor(factor) for factor in factors]
        text = written[0]
        for (left, right), more in zip(pairwise(factors), written[1:], strict=True):
            text += (" · " if _apart(left, right) else "") + more
        return text

    def _factor(self, factor: Formula) -> str:
        if isinstance(factor, Num) and factor.value > 0:
            written = self.write(factor)
            return written if factor.value.denominator == 1 else f"({written})"
        return self._at(factor, Place.FACTOR)


def _apart(left: Formula, right: Formula) -> bool:
    """Whether two factors need a sign between them to be told apart."""
    inner = (_inner(left), _inner(right))
    amounts = any(isinstance(part, Amount) for part in inner)
    digit = isinstance(inner[1], Num)
    word = any(isinstance(part, Ref) and "_" in letter_text(part.name) for part in inner)
    return amounts or digit or word


def _inner(part: Formula) -> Formula:
    return _inner(part.base) if isinstance(part, Square | Power) else part
