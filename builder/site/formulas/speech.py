"""Formulas in spoken words that need no brackets."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from builder.quantity.brackets import flat_factors, signed_terms
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
from builder.quantity.show import Shown, show_whole

_FRACTIONS = {(1, 2): "one half", (1, 3): "one third", (1, 4): "one quarter"}
_MINUS = "minus "


def spoken_formula(
    formula: Formula,
    atom: Callable[[Name], str],
    amount: Callable[[Shown], str],
    *,
    numbers: bool = False,
    top: bool = False,
) -> str:
    """A formula in words that need no brackets.

    Args:
        formula: what is said.
        atom: how a quantity in it is said.
        amount: how a number with its unit is said.
        numbers: whether atoms are numbers.
        top: whether the reciprocal of what is meant is on the left, so that a sum of reciprocals
            stands alone.
    """
    speech = _Speech(atom, amount, numbers)
    if top and isinstance(formula, ReciprocalSum):
        return " plus ".join(speech.reciprocals(formula.terms))
    return speech.say(formula)


@dataclass(frozen=True)
class _Speech:
    """Says formulas with one way of saying their atoms."""

    atom: Callable[[Name], str]
    amount: Callable[[Shown], str]
    numbers: bool

    def say(self, formula: Formula) -> str:
        match formula:
            case Ref(name):
                return self.atom(name)
            case Num(value):
                return _number(value)
            case Amount(value, quantity):
                return self.amount(show_whole(value, quantity))
            case Sum(terms):
                return self._sum(formula) if terms else "0"
            case Negative(term):
                return _MINUS + _negative(self._grouped(term))
            case Product(factors):
                said = [_negative(self._grouped(factor)) for factor in flat_factors(formula)]
                return " times ".join(said) if factors else "1"
            case Quotient() | ReciprocalSum() | Solved():
                return self._fraction(formula)
            case _:
                return self._function(formula)

    def _fraction(self, formula: Quotient | ReciprocalSum | Solved) -> str:
        match formula:
            case Quotient(over, under):
                pause = "" if isinstance(over, Ref | Num) else ","
                return f"{self.say(over)}{pause} over {_negative(self._grouped(under))}"
            case ReciprocalSum(terms):
                return f"1 over the sum of {_listed(self.reciprocals(terms))}"
            case Solved(system, position):
                return self._determinants(system.rows, system.right, position)

    def reciprocals(self, terms: Iterable[Formula]) -> list[str]:
        return [f"1 over {_negative(self._grouped(term))}" for term in terms]

    def _function(self, formula: Square | Power | Root | Exp | Ln) -> str:
        match formula:
            case Square(Ref() as base) if not self.numbers:
                return f"{self.say(base)} squared"
            case Square(base):
                return f"the square of {_negative(self._grouped(base))}"
            case Power(base, exponent):
                return f"{_negative(self._grouped(base))} to the power {_number(exponent)}"
            case Root(base):
                return f"the square root of {self._grouped(base)}"
            case Exp(exponent):
                return f"e to the power {self._grouped(exponent)}"
            case Ln(argument):
                return f"the natural logarithm of {self._grouped(argument)}"

    def _sum(self, formula: Sum) -> str:
        words: list[str] = []
        for number, (subtracted, term) in enumerate(signed_terms(formula)):
            said = self._term(term)
            if number or subtracted:
                words += ["minus" if subtracted else "plus", _negative(said)]
            else:
                words.append(said)
        return " ".join(words)

    def _term(self, term: Formula) -> str:
        """A term of a sum; a sum inside it must not run into the terms beside it."""
        inner = term.over if isinstance(term, Quotient) else term
        return self._grouped(term) if isinstance(inner, Sum) else self.say(term)

    def _grouped(self, part: Formula) -> str:
        """A part of a product or a fraction; what would need brackets is named for what it is."""
        match part:
            case Sum((only,)) | Product((only,)):
                return self._grouped(only)
            case Sum():
                return self._grouped_sum(part)
            case Product():
                factors = [_negative(self._grouped(factor)) for factor in flat_factors(part)]
                return f"the product of {_listed(factors)}" if factors else "1"
            case Quotient():
                return f"the fraction {self.say(part)}"
            case Power() | Exp():
                return f"the power {self.say(part)}"
            case _:
                return self.say(part)

    def _grouped_sum(self, formula: Sum) -> str:
        terms = list(signed_terms(formula))
        said = [_negative(self._grouped(term)) for _, term in terms]
        signs = [subtracted for subtracted, _ in terms]
        if signs == [False, True]:
            return f"the difference of {_listed(said)}"
        words = [
            f"negative {text}" if subtracted else text
            for subtracted, text in zip(signs, said, strict=True)
        ]
        return f"the sum of {_listed(words)}" if words else "0"

    def _determinants(
        self,
        rows: Sequence[Sequence[Formula]],
        right: Sequence[Formula],
        position: int,
    ) -> str:
        replaced = [
            [*row[:position], value, *row[position + 1 :]]
            for row, value in zip(rows, right, strict=True)
        ]
        return f"{self._determinant(replaced)}, over {self._determinant(rows)}"

    def _determinant(self, rows: Iterable[Iterable[Formula]]) -> str:
        said = (", ".join(self.say(part) for part in row) for row in rows)
        return f"the determinant with the rows {'; '.join(said)}"


def _negative(said: str) -> str:
    """A negative number after another sign: "plus negative 3", which no ear takes for ±3."""
    return f"negative {said.removeprefix(_MINUS)}" if said.startswith(_MINUS) else said


def _number(value: Fraction) -> str:
    size = abs(value)
    whole = f"{size.numerator}"
    plain = whole if size.denominator == 1 else f"{whole} over {size.denominator}"
    said = _FRACTIONS.get((size.numerator, size.denominator), plain)
    return f"{_MINUS}{said}" if value < 0 else said


def _listed(items: list[str]) -> str:
    return f"{', '.join(items[:-1])} and {items[-1]}" if len(items) > 1 else items[0]
