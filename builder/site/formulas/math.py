"""Formulas become MathML Core."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from markupsafe import escape

from builder.quantity.brackets import (
    Atoms,
    Binding,
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
from builder.quantity.letters import letter_symbol
from builder.quantity.names import Name, Symbol
from builder.quantity.show import Shown, ShownExpression, show_whole

_TIMES = "<mo>⋅</mo>"
_INVISIBLE_TIMES = "<mo>&#x2062;</mo>"
_MINUS = "<mo>−</mo>"
_OF = "<mo>&#x2061;</mo>"


def symbol_math(symbol: Symbol, of: str = "") -> str:
    """A symbol such as Q₂₃, marked with the element whose quantity it is."""
    mark = f' class="sw-sym" data-of="{escape(of)}"' if of else ""
    letter, index = f"<mi>{escape(symbol.letter)}</mi>", escape(symbol.index)
    tag = "mn" if symbol.index.isdigit() else "mtext"
    lowered = f"{letter}<{tag}>{index}</{tag}>"
    if symbol.mark:
        # A prime that is set as a superscript comes out too small and too high to be seen.
        own = f"<msub>{lowered}</msub>" if symbol.index else letter
        return f"<mrow{mark}>{own}<mtext>{escape(symbol.mark)}</mtext></mrow>"
    return f"<msub{mark}>{lowered}</msub>" if symbol.index else f"<mi{mark}>{letter[4:]}"


def letter_math(name: Name) -> str:
    """A letter of an expression."""
    return symbol_math(letter_symbol(name.of))


def shown_math(shown: Shown) -> str:
    """A number with its unit that belongs to no single quantity."""
    return f"<mrow>{number_and_unit(shown)}</mrow>"


def number_and_unit(shown: Shown) -> str:
    """A number, and its unit after a small space if it has one; or an expression of letters."""
    if isinstance(shown, ShownExpression):
        return formula_math(shown.expression, letter_math)
    number = f"<mn>{escape(shown.number)}</mn>"
    if not shown.unit:
        return number
    return f'{number}<mspace width="0.2em"/><mtext>{escape(shown.unit)}</mtext>'


def slashed_math(shown: Shown) -> str:
    """A number or an expression for a place above or below a line, its own fraction slanted."""
    if not isinstance(shown, ShownExpression) or not isinstance(shown.expression, Quotient):
        return number_and_unit(shown)
    over, under = (
        f"<mrow><mo>(</mo>{math}<mo>)</mo></mrow>" if bracketed else math
        for part, loosest in ((shown.expression.over, Binding.PRODUCT),
                              (shown.expression.under, Binding.POWER))
        for math, bracketed in [(formula_math(part, letter_math), binding(part) < loosest)]
    )  # fmt: skip
    return f"<mrow>{over}<mo>/</mo>{under}</mrow>"


def formula_math(
    formula: Formula,
    atom: Callable[[Name], str],
    *,
    numbers: bool = False,
    top: bool = False,
    atoms: Atoms | None = None,
    slashed: Callable[[Name], str] | None = None,
) -> str:
    """A formula.

    Args:
        formula: what is written.
        atom: how a quantity in it is written.
        numbers: whether atoms are numbers, which are multiplied with a visible sign.
        top: whether the reciprocal of what is meant stands at the left, so that a sum of
            reciprocals stands alone.
        atoms: how each quantity binds; if left out, letters stand whole and numbers are taken
            for positive.
        slashed: how a quantity that is a fraction is written above or below a line; like
            others if left out.
    """
    if top and isinstance(formula, ReciprocalSum):
        formula = _reciprocals(formula.terms)
    measured: Atoms = lambda _name: Binding.PRODUCT  # noqa: E731 - a default of the same shape
    bound = atoms or (measured if numbers else letters)
    return _Math(atom, numbers, bound, slashed or atom).write(formula)


def _reciprocals(terms: Iterable[Formula]) -> Sum:
    return Sum(tuple(Quotient(Num(Fraction(1)), term) for term in terms))


@dataclass(frozen=True)
class _Math:
    """Writes formulas with one way of writing their atoms."""

    atom: Callable[[Name], str]
    numbers: bool
    atoms: Atoms
    slashed: Callable[[Name], str]

    def write(self, formula: Formula) -> str:
        match formula:
            case Ref(name):
                return self.atom(name)
            case Num(value):
                return _number(value)
            case Amount(value, quantity):
                return shown_math(show_whole(value, quantity))
            case Sum(terms):
                return self._sum(formula) if terms else "<mn>0</mn>"
            case Negative(term):
                return f"<mrow>{_MINUS}{self._at(term, Place.AFTER_MINUS)}</mrow>"
            case Product(factors):
                return self._product(formula) if factors else "<mn>1</mn>"
            case Quotient() | ReciprocalSum() | Solved():
                return self._fraction(formula)
            case _:
                return self._function(formula)

    def _fraction(self, formula: Quotient | ReciprocalSum | Solved) -> str:
        match formula:
            case Quotient(over, under):
                return f"<mfrac>{self._at_a_line(over)}{self._at_a_line(under)}</mfrac>"
            case ReciprocalSum(terms):
                return f"<mfrac><mn>1</mn>{self.write(_reciprocals(terms))}</mfrac>"
            case Solved(system, position):
                return self._determinants(system.rows, system.right, position)

    def _function(self, formula: Square | Power | Root | Exp | Ln) -> str:
        match formula:
            case Square(base):
                return f"<msup>{self._at(base, Place.BASE)}<mn>2</mn></msup>"
            case Power(base, exponent):
                return f"<msup>{self._at(base, Place.BASE)}{_exponent(exponent)}</msup>"
            case Root(base):
                return f"<msqrt>{self.write(base)}</msqrt>"
            case Exp(exponent):
                return f'<msup><mi mathvariant="normal">e</mi>{self._raised(exponent)}</msup>'
            case Ln(argument):
                return f"<mrow><mi>ln</mi>{_OF}{self._at(argument, Place.ARGUMENT)}</mrow>"

    def _raised(self, exponent: Formula) -> str:
        """An exponent; a fraction in it is slanted, as its parts would grow too small to read."""
        match exponent:
            case Negative(Quotient(Ref() as over, Ref() as under)):
                return f"<mrow>{_MINUS}{self._slanted(over, under)}</mrow>"
            case Quotient(Ref() as over, Ref() as under):
                return f"<mrow>{self._slanted(over, under)}</mrow>"
            case _:
                return self.write(exponent)

    def _slanted(self, over: Formula, under: Formula) -> str:
        return f"{self.write(over)}<mo>/</mo>{self.write(under)}"

    def _at_a_line(self, part: Formula) -> str:
        """A part above or below a line; fractions in it would grow too small to read."""
        if isinstance(part, Ref) and self.atoms(part.name) is Binding.QUOTIENT:
            return self.slashed(part.name)
        return self.write(part)

    def _at(self, part: Formula, place: Place) -> str:
        written = self.write(part)
        if needs_brackets(binding(part, self.atoms), place, stacked=True):
            return f"<mrow><mo>(</mo>{written}<mo>)</mo></mrow>"
        return written

    def _sum(self, formula: Sum) -> str:
        parts = []
        for number, (subtracted, term) in enumerate(signed_terms(formula)):
            if subtracted:
                parts += [_MINUS, self._at(term, Place.AFTER_MINUS)]
            else:
                place = Place.LATER_TERM if number else Place.FIRST_TERM
                parts += ["<mo>+</mo>"] if number else []
                parts.append(self._at(term, place))
        return f"<mrow>{''.join(parts)}</mrow>"

    def _product(self, formula: Product) -> str:
        factors = list(flat_factors(formula))
        if len(factors) == 1:
            return self.write(factors[0])
        parts = [self._at(factors[0], Place.FACTOR)]
        for left, right in pairwise(factors):
            seen = self.numbers or isinstance(left, Amount | Ln) or _starts_with_digit(right)
            parts += [_TIMES if seen else _INVISIBLE_TIMES, self._at(right, Place.FACTOR)]
        return f"<mrow>{''.join(parts)}</mrow>"

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
        return f"<mfrac>{self._determinant(replaced)}{self._determinant(rows)}</mfrac>"

    def _determinant(self, rows: Iterable[Iterable[Formula]]) -> str:
        cells = "".join(
            f"<mtr>{''.join(f'<mtd>{self.write(part)}</mtd>' for part in row)}</mtr>"
            for row in rows
        )
        return f"<mrow><mo>|</mo><mtable>{cells}</mtable><mo>|</mo></mrow>"


def _starts_with_digit(formula: Formula) -> bool:
    match formula:
        case Num() | Amount():
            return True
        case Square(base) | Power(base):
            return _starts_with_digit(base)
        case _:
            return False


def _number(value: Fraction) -> str:
    size = abs(value)
    written = f"<mn>{size.numerator}</mn>"
    if size.denominator != 1:
        written = f"<mfrac>{written}<mn>{size.denominator}</mn></mfrac>"
    return f"<mrow>{_MINUS}{written}</mrow>" if value < 0 else written


def _exponent(value: Fraction) -> str:
    written = f"<mn>{abs(value.numerator)}</mn>"
    if value.denominator != 1:
        written += f"<mo>/</mo><mn>{value.denominator}</mn>"
    return f"<mrow>{_MINUS if value < 0 else ''}{written}</mrow>"
