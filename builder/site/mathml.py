"""Formulas and equations become MathML Core.

Letters of quantities are italic, indexes, numbers and units upright (ISO 80000-1, SI
Brochure 5.4). MathML Core sets a single letter in italics unless told otherwise, so units
and indexes are ``mtext``.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from markupsafe import Markup, escape

from builder.lesson.checked import Shows
from builder.lesson.equations import (
    MOST_TERMS,
    AnyEquation,
    Reciprocal,
    Result,
    Row,
    Side,
    Stated,
    Symbols,
    Values,
)
from builder.quantity.formula import (
    Formula,
    Num,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Square,
    Sum,
    names_in,
)
from builder.quantity.names import Name, Symbol
from builder.quantity.show import Shown
from builder.site.markup import Writer
from builder.site.spoken import Speaker, spoken_number

_TIMES = "<mo>⋅</mo>"
_INVISIBLE_TIMES = "<mo>&#x2062;</mo>"


def symbol_math(symbol: Symbol, of: str = "") -> str:
    """A symbol such as Q₂₃, marked with the element whose quantity it is."""
    mark = f' class="sw-sym" data-of="{escape(of)}"' if of else ""
    if not symbol.index:
        return f"<mi{mark}>{escape(symbol.letter)}</mi>"
    index = escape(symbol.index)
    tag = "mn" if symbol.index.isdigit() else "mtext"
    return f"<msub{mark}><mi>{escape(symbol.letter)}</mi><{tag}>{index}</{tag}></msub>"


def shown_math(shown: Shown) -> str:
    """A number with its unit that belongs to no single quantity."""
    return (
        f'<mrow><mn>{escape(shown.number)}</mn><mspace width="0.2em"/>'
        f"<mtext>{escape(shown.unit)}</mtext></mrow>"
    )


def _row(left: str, relation: str, right: str) -> str:
    return f"<mtr><mtd>{left}</mtd><mtd><mo>{escape(relation)}</mo></mtd><mtd>{right}</mtd></mtr>"


def _lined_up(rows: Iterable[str], said: str) -> Markup:
    """Rows below each other, and what a screen reader says for them."""
    return Markup(
        f'<math display="block" class="sw-eq" aria-label="{escape(said)}">'
        f'<mtable columnalign="right center left" class="sw-lined">{"".join(rows)}</mtable></math>'
    )


def number_math(key: str, shown: Shown) -> str:
    """A number with its unit, marked with the key of its quantity."""
    return (
        f'<mrow class="sw-n" data-q="{escape(key)}"><mn>{escape(shown.number)}</mn>'
        f'<mspace width="0.2em"/><mtext>{escape(shown.unit)}</mtext></mrow>'
    )


def formula_math(
    formula: Formula, atom: Callable[[Name], str], *, numbers: bool = False, top: bool = False
) -> str:
    """A formula.

    Args:
        formula: what is written.
        atom: how a quantity in it is written.
        numbers: whether atoms are numbers, which need signs and brackets that letters do not.
        top: whether the reciprocal of what is meant stands at the left, so that a sum of
            reciprocals stands alone.
    """

    def write(part: Formula) -> str:
        return formula_math(part, atom, numbers=numbers)

    match formula:
        case Ref(name):
            return atom(name)
        case Num(value):
            if value.denominator == 1:
                return f"<mn>{value.numerator}</mn>"
            return f"<mfrac><mn>{value.numerator}</mn><mn>{value.denominator}</mn></mfrac>"
        case Sum(terms):
            return f"<mrow>{'<mo>+</mo>'.join(map(write, terms))}</mrow>"
        case Product(factors):
            sign = _TIMES if numbers else _INVISIBLE_TIMES
            return f"<mrow>{sign.join(map(write, factors))}</mrow>"
        case Quotient(over, under):
            return f"<mfrac>{write(over)}{write(under)}</mfrac>"
        case Square(base):
            inner = f"<mrow><mo>(</mo>{write(base)}<mo>)</mo></mrow>" if numbers else write(base)
            return f"<msup>{inner}<mn>2</mn></msup>"
        case ReciprocalSum(terms):
            parts = (f"<mfrac><mn>1</mn>{write(term)}</mfrac>" for term in terms)
            summed = f"<mrow>{'<mo>+</mo>'.join(parts)}</mrow>"
            return summed if top else f"<mfrac><mn>1</mn>{summed}</mfrac>"


class MathWriter:
    """Writes the equations of one lesson."""

    def __init__(self, writer: Writer) -> None:
        self._writer = writer
        self._display = writer.display
        self._speaker = Speaker(writer.display)

    def equations(self, equations: Iterable[AnyEquation]) -> Markup:
        """Equations below each other, lined up at their relations."""
        written = tuple(equations)
        rows = (row for equation in written for row in self._rows(equation))
        return _lined_up(rows, self._speaker.equations(written))

    def check(self, check: Shows) -> Markup:
        """A check in symbols, in numbers, and the value of both sides."""
        names = [*names_in(check.left), *names_in(check.right)]
        exact = all(self._display.shown(name).exact for name in names)
        relation = "≈" if check.relation == "=" and not exact else check.relation
        sides = (check.left, check.right)
        rows = [self._statement(check, check.relation, self._symbol)]
        said = [self._speaker.statement(*sides, check.relation)]
        if len(names) <= MOST_TERMS:
            rows.append(self._statement(check, relation, self._number))
            said.append(self._speaker.statement(*sides, relation, numbers=True))
        plain = all(isinstance(side, Ref | Sum) for side in sides)
        if check.relation == "=" and not (plain and len(names) <= MOST_TERMS):
            both = (check.left_number, check.right_number)
            rows.append(_row(shown_math(both[0]), "=", shown_math(both[1])))
            said.append(f"{spoken_number(both[0])} equals {spoken_number(both[1])}.")
        return _lined_up(rows, " ".join(said))

    def _statement(self, check: Shows, relation: str, atom: Callable[[Name], str]) -> str:
        return _row(self._formula(check.left, atom), relation, self._formula(check.right, atom))

    def _rows(self, equation: AnyEquation) -> Iterable[str]:
        if isinstance(equation, Stated):
            yield self._statement_row(equation)
            return
        first, *more = (self._symbol(name) for name in equation.names)
        left = f"<mfrac><mn>1</mn>{first}</mfrac>" if equation.reciprocal else first
        for row in equation.rows:
            right, relation = self._side(row), row.relation
            if more:
                chain = "<mo>=</mo>".join(more)
                right = f"<mrow>{chain}<mo>{escape(relation)}</mo>{right}</mrow>"
                relation = "="
            yield _row(left, relation, right)
            left = ""

    def _statement_row(self, stated: Stated) -> str:
        def atom(name: Name) -> str:
            return self._number(name) if name in stated.known else self._symbol(name)

        sides = (
            formula_math(side, atom, numbers=bool(stated.known))
            for side in (stated.left, stated.right)
        )
        left, right = sides
        return _row(left, stated.relation, right)

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
        return formula_math(formula, atom, numbers=atom == self._number, top=True)

    def _formula(self, formula: Formula, atom: Callable[[Name], str]) -> str:
        return formula_math(formula, atom, numbers=atom == self._number)

    def _symbol(self, name: Name) -> str:
        return symbol_math(self._display.symbol(name), name.of)

    def _number(self, name: Name) -> str:
        key = self._display.resolve(name).key
        return number_math(key, self._display.shown(name))
