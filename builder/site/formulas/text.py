"""Formulas in one line of plain text."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from builder.quantity.brackets import (
    Atoms,
    Place,
    binding,
    flat_factors,
    letters,
    needs_brackets,
    signed_terms,
)
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
from builder.quantity.show import show_whole

_SUPERSCRIPTS = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def plain_formula(
    formula: Formula, atom: Callable[[Name], str], *, top: bool = False, atoms: Atoms = letters
) -> str:
    """A formula in one line.

    Args:
        formula: what is written.
        atom: how a quantity in it is written.
        top: whether the reciprocal of what is meant stands at the left, so that a sum of
            reciprocals stands alone.
        atoms: how each quantity binds.
    """
    writer = _Text(atom, atoms)
    if top and isinstance(formula, ReciprocalSum):
        return writer.reciprocals(formula.terms)
    return writer.write(formula)


@dataclass(frozen=True)
class _Text:
    """Writes formulas with one way of writing their atoms."""

    atom: Callable[[Name], str]
    atoms: Atoms

    def write(self, formula: Formula) -> str:
        match formula:
            case Ref(name):
                return self.atom(name)
            case Num(value):
                return "½" if value == Fraction(1, 2) else str(value).replace("-", "−")
            case Amount(value, quantity):
                return show_whole(value, quantity).text
            case Sum(terms):
                return self._sum(formula) if terms else "0"
            case Negative(term):
                return "−" + self._at(term, Place.AFTER_MINUS)
            case Product(factors):
                return self._product(formula) if factors else "1"
            case Quotient() | ReciprocalSum() | Solved():
                return self._fraction(formula)
            case _:
                return self._function(formula)

    def _fraction(self, formula: Quotient | ReciprocalSum | Solved) -> str:
        match formula:
            case Quotient(over, under):
                return f"{self._at(over, Place.OVER)} / {self._at(under, Place.UNDER)}"
            case ReciprocalSum(terms):
                return f"1/({self.reciprocals(terms)})"
            case Solved(system, position):
                return self._determinants(system.rows, system.right, position)

    def reciprocals(self, terms: Iterable[Formula]) -> str:
        return " + ".join(f"1/{self._at(term, Place.UNDER)}" for term in terms)

    def _function(self, formula: Square | Power | Root | Exp | Ln) -> str:
        match formula:
            case Square(base):
                return f"{self._at(base, Place.BASE)}²"
            case Power(base, exponent):
                return self._at(base, Place.BASE) + _exponent(exponent)
            case Root(base):
                return f"√{self._at(base, Place.ARGUMENT)}"
            case Exp(exponent):
                return f"e^({self.write(exponent)})"
            case Ln(argument):
                inner = self._at(argument, Place.ARGUMENT)
                return f"ln{'' if inner.startswith('(') else ' '}{inner}"

    def _at(self, part: Formula, place: Place) -> str:
        written = self.write(part)
        half = isinstance(part, Num) and written == "½"
        bound = binding(part, self.atoms)
        # A plain number such as 3/2 heads a product well enough: 3/2 · C · V².
        number = isinstance(part, Num) and part.value > 0 and place is Place.FACTOR
        if half or number or not needs_brackets(bound, place, stacked=False):
            return written
        return f"({written})"

    def _sum(self, formula: Sum) -> str:
        parts: list[str] = []
        for number, (subtracted, term) in enumerate(signed_terms(formula)):
            if subtracted:
                parts.append(("− " if number else "−") + self._at(term, Place.AFTER_MINUS))
            else:
                place = Place.LATER_TERM if number else Place.FIRST_TERM
                parts.append(("+ " if number else "") + self._at(term, place))
        return " ".join(parts)

    def _product(self, formula: Product) -> str:
        *factors, last = flat_factors(formula)
        if not factors:
            return self.write(last)
        written = [self._at(factor, Place.FACTOR) for factor in factors]
        return " · ".join([*written, self._at(last, Place.LAST_FACTOR)])

    def _determinants(
        self,
        rows: Sequence[Sequence[Formula]],
        right: Sequence[Formula],
        position: int,
    ) -> str:
        """Cramer's rule: what an unknown of linear equations is in one line."""
        replaced = [
            [*row[:position], value, *row[position + 1 :]]
            for row, value in zip(rows, right, strict=True)
        ]
        return f"{self._determinant(replaced)} / {self._determinant(rows)}"

    def _determinant(self, rows: Iterable[Iterable[Formula]]) -> str:
        return f"det[{'; '.join(', '.join(self.write(part) for part in row) for row in rows)}]"


def _exponent(value: Fraction) -> str:
    if value.denominator == 1:
        return str(value).translate(_SUPERSCRIPTS)
    return f"^({value})".replace("-", "−")
