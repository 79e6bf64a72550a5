"""Formulas and equations become MathML Core.

Letters of quantities are italic, indexes, numbers and units upright (ISO 80000-1, SI
Brochure 5.4). MathML Core sets a single letter in italics unless told otherwise, so units
and indexes are ``mtext``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from markupsafe import Markup, escape

from builder.lesson.equations import Equation, Reciprocal, Result, Row, Side, Symbols, Values
from builder.quantity.formula import (
    Formula,
    Num,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Square,
    Sum,
)
from builder.quantity.names import Name, Symbol
from builder.quantity.show import Shown
from builder.site.markup import Writer

_TIMES = "<mo>⋅</mo>"
_INVISIBLE_TIMES = "<mo>&#x2062;</mo>"


def symbol_math(symbol: Symbol) -> str:
    """A symbol such as Q₂₃."""
    letter = f"<mi>{escape(symbol.letter)}</mi>"
    if not symbol.index:
        return letter
    index = escape(symbol.index)
    tag = "mn" if symbol.index.isdigit() else "mtext"
    return f"<msub>{letter}<{tag}>{index}</{tag}></msub>"


def number_math(key: str, shown: Shown) -> str:
    """A number with its unit, marked with the key of its quantity."""
    return (
        f'<mrow class="sw-n" data-q="{escape(key)}"><mn>{escape(shown.number)}</mn>'
        f'<mspace width="0.2em"/><mtext>{escape(shown.unit)}</mtext></mrow>'
    )


class MathWriter:
    """Writes the equations of one lesson."""

    def __init__(self, writer: Writer) -> None:
        self._writer = writer
        self._display = writer.display

    def equations(self, equations: Iterable[Equation]) -> Markup:
        """Equations below each other, lined up at their relations."""
        rows = "".join(row for equation in equations for row in self._rows(equation))
        return Markup(
            f'<math display="block" class="sw-eq"><mtable columnalign="right center left" '
            f'class="sw-lined">{rows}</mtable></math>'
        )

    def statement(self, left: Formula, relation: str, right: Formula) -> Markup:
        """Two formulas with a relation between them, in symbols."""
        body = (
            f"{self._formula(left, self._symbol)}<mo>{escape(relation)}</mo>"
            f"{self._formula(right, self._symbol)}"
        )
        return Markup(f'<math display="inline">{body}</math>')

    def statement_numbers(self, left: Formula, relation: str, right: Formula) -> Markup:
        """The same statement with numbers in place of symbols."""
        body = (
            f"{self._formula(left, self._number)}<mo>{escape(relation)}</mo>"
            f"{self._formula(right, self._number)}"
        )
        return Markup(f'<math display="inline">{body}</math>')

    def _rows(self, equation: Equation) -> Iterable[str]:
        chain = "<mo>=</mo>".join(self._symbol(name) for name in equation.names)
        left = f"<mfrac><mn>1</mn>{chain}</mfrac>" if equation.reciprocal else f"<mrow>{chain}</mrow>"
        for row in equation.rows:
            yield (
                f"<mtr><mtd>{left}</mtd><mtd><mo>{escape(row.relation)}</mo></mtd>"
                f"<mtd>{self._side(row)}</mtd></mtr>"
            )
            left = ""

    def _side(self, row: Row) -> str:
        side: Side = row.side
        match side:
            case Symbols(formula):
                return self._top(formula, self._symbol)
            case Values(formula):
                return self._top(formula, self._number)
            case Result(name):
                return self._number(name)
            case Reciprocal(over, under, unit):
                below = (
                    f"<mrow><mn>{under}</mn><mspace width='0.2em'/><mtext>{escape(unit)}</mtext>"
                    f"</mrow>"
                )
                return f"<mfrac><mn>{over}</mn>{below}</mfrac>"

    def _top(self, formula: Formula, atom: Callable[[Name], str]) -> str:
        if isinstance(formula, ReciprocalSum):
            return self._reciprocals(formula, atom)
        return self._formula(formula, atom)

    def _reciprocals(self, formula: ReciprocalSum, atom: Callable[[Name], str]) -> str:
        terms = (
            f"<mfrac><mn>1</mn>{self._formula(term, atom)}</mfrac>" for term in formula.terms
        )
        return f"<mrow>{'<mo>+</mo>'.join(terms)}</mrow>"

    def _formula(self, formula: Formula, atom: Callable[[Name], str]) -> str:
        match formula:
            case Ref(name):
                return atom(name)
            case Num(value):
                if value.denominator == 1:
                    return f"<mn>{value.numerator}</mn>"
                return f"<mfrac><mn>{value.numerator}</mn><mn>{value.denominator}</mn></mfrac>"
            case Sum(terms):
                joined = "<mo>+</mo>".join(self._formula(term, atom) for term in terms)
                return f"<mrow>{joined}</mrow>"
            case Product(factors):
                sign = _TIMES if atom == self._number else _INVISIBLE_TIMES
                joined = sign.join(self._formula(factor, atom) for factor in factors)
                return f"<mrow>{joined}</mrow>"
            case Quotient(over, under):
                return (
                    f"<mfrac>{self._formula(over, atom)}{self._formula(under, atom)}</mfrac>"
                )
            case Square(base):
                inner = self._formula(base, atom)
                if atom == self._number:
                    inner = f"<mrow><mo>(</mo>{inner}<mo>)</mo></mrow>"
                return f"<msup>{inner}<mn>2</mn></msup>"
            case ReciprocalSum():
                return f"<mfrac><mn>1</mn>{self._reciprocals(formula, atom)}</mfrac>"

    def _symbol(self, name: Name) -> str:
        return symbol_math(self._display.symbol(name))

    def _number(self, name: Name) -> str:
        key = self._display.naming.resolve(name).key
        return number_math(key, self._display.shown(name))
