"""Formulas and equations become MathML Core.

Letters of quantities are italic, indexes, numbers and units upright (ISO 80000-1, SI
Brochure 5.4). MathML Core sets a single letter in italics unless told otherwise, so units
and indexes are ``mtext``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from itertools import groupby

from markupsafe import Markup, escape

from builder.lesson.checked import Shows
from builder.lesson.equations import (
    MOST_TERMS,
    AnyEquation,
    Equation,
    InLetters,
    Reciprocal,
    Result,
    Row,
    Side,
    Stated,
    Symbols,
    Values,
)
from builder.lesson.linear_system import LinearSystem
from builder.quantity.brackets import Binding, letters
from builder.quantity.formula import Formula, Ref, Sum, names_in
from builder.quantity.names import Name
from builder.quantity.show import Shown, numbers_of
from builder.site.formulas.math import (
    formula_math,
    letter_math,
    number_and_unit,
    shown_math,
    slashed_math,
    symbol_math,
)
from builder.site.markup import Writer
from builder.site.spoken import Speaker, spoken_number


def _row(left: str, relation: str, right: str) -> str:
    return f"<mtr><mtd>{left}</mtd><mtd><mo>{escape(relation)}</mo></mtd><mtd>{right}</mtd></mtr>"


def _collected(row: Iterable[int], symbols: Iterable[str]) -> str:
    """The left side of a collected equation: a cell for each sign and for each term."""
    cells: list[str] = []
    started = False
    for number, symbol in zip(row, symbols, strict=True):
        sign = ("−" if number < 0 else "+" if started else "") if number else ""
        size = "" if abs(number) == 1 else f"<mn>{abs(number)}</mn><mo>&#x2062;</mo>"
        term = f"<mrow>{size}{symbol}</mrow>" if number else ""
        cells.append(f"<mtd>{f'<mo>{sign}</mo>' if sign else ''}</mtd><mtd>{term}</mtd>")
        started = started or number != 0
    return "".join(cells)


def _lined_up(rows: Iterable[str], said: str) -> Markup:
    """Rows below each other, and what a screen reader says for them."""
    return Markup(
        f'<math display="block" class="sw-eq" aria-label="{escape(said)}">'
        f'<mtable columnalign="right center left" class="sw-lined">{"".join(rows)}</mtable></math>'
    )


def unmarked(math: str) -> str:
    """MathML without the marks that say which quantity a number belongs to, and without rows."""
    return re.sub(r'</?mrow[^>]*>| (?:class|data-[a-z]+)="[^"]*"', "", math)


def number_math(key: str, shown: Shown, *, slashed: bool = False) -> str:
    """A number with its unit, marked with the key of its quantity.

    Args:
        key: of the quantity.
        shown: the number, or an expression.
        slashed: whether a fraction in it is slanted, to stand above or below a line.
    """
    written = slashed_math(shown) if slashed else number_and_unit(shown)
    return f'<mrow class="sw-n" data-q="{escape(key)}">{written}</mrow>'


class MathWriter:
    """Writes the equations of one lesson."""

    def __init__(self, writer: Writer) -> None:
        self._writer = writer
        self._display = writer.display
        self._speaker = Speaker(writer.display)
        self._numbers = numbers_of(writer.display.shown)

    def equations(self, equations: Iterable[AnyEquation]) -> Markup:
        """Equations below each other, lined up at their relations.

        What is set up and what is found are lined up apart, as their left sides differ in width.
        """
        groups = groupby(equations, key=lambda one: isinstance(one, Equation))
        return Markup("").join(self._group(tuple(group)) for _, group in groups)

    def _group(self, written: tuple[AnyEquation, ...]) -> Markup:
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
            row = _row(shown_math(both[0]), "=", shown_math(both[1]))
            if unmarked(row) != unmarked(rows[-1]):
                rows.append(row)
                said.append(f"{spoken_number(both[0])} equals {spoken_number(both[1])}.")
        return _lined_up(rows, " ".join(said))

    def _statement(self, check: Shows, relation: str, atom: Callable[[Name], str]) -> str:
        return _row(self._formula(check.left, atom), relation, self._formula(check.right, atom))

    def _rows(self, equation: AnyEquation) -> Iterable[str]:
        if isinstance(equation, Stated):
            yield self._statement_row(equation)
            return
        if isinstance(equation, LinearSystem):
            yield self._system_row(equation)
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

        def bound(name: Name) -> Binding:
            return self._numbers(name) if name in stated.known else Binding.WHOLE

        left, right = (
            formula_math(side, atom, numbers=bool(stated.known), atoms=bound)
            for side in (stated.left, stated.right)
        )
        return _row(left, stated.relation, right)

    def _system_row(self, system: LinearSystem) -> str:
        """Equations behind a brace, each unknown in a column of its own."""
        symbols = [self._symbol(name) for name in system.unknowns]
        rows = "".join(
            f"<mtr>{_collected(row, symbols)}<mtd><mo>=</mo></mtd><mtd>{shown_math(right)}</mtd>"
            f"</mtr>"
            for row, right in zip(system.rows, system.right, strict=True)
        )
        brace = '<mo fence="true" stretchy="true">{</mo>' if len(system.rows) > 1 else ""
        table = f'<mrow>{brace}<mtable class="sw-system">{rows}</mtable></mrow>'
        return f'<mtr><mtd columnspan="3" class="sw-whole-row">{table}</mtd></mtr>'

    def _side(self, row: Row) -> str:
        side: Side = row.side
        match side:
            case Symbols(formula):
                return self._top(formula, self._symbol)
            case Values(formula):
                return self._top(formula, self._number)
            case Result(name):
                return self._number(name)
            case InLetters(formula):
                return formula_math(formula, letter_math)
            case Reciprocal(over, under, unit):
                below = (
                    f"<mrow><mn>{under}</mn><mspace width='0.2em'/><mtext>{escape(unit)}</mtext>"
                    f"</mrow>"
                )
                return f"<mfrac><mn>{over}</mn>{below}</mfrac>"

    def _top(self, formula: Formula, atom: Callable[[Name], str]) -> str:
        return self._formula(formula, atom, top=True)

    def _formula(self, formula: Formula, atom: Callable[[Name], str], *, top: bool = False) -> str:
        numbers = atom == self._number
        atoms = self._numbers if numbers else letters
        slashed = self._slashed if numbers else None
        return formula_math(formula, atom, numbers=numbers, top=top, atoms=atoms, slashed=slashed)

    def _symbol(self, name: Name) -> str:
        return symbol_math(self._display.symbol(name), name.of)

    def _slashed(self, name: Name) -> str:
        key = self._display.resolve(name).key
        return number_math(key, self._display.shown(name), slashed=True)

    def _number(self, name: Name) -> str:
        key = self._display.resolve(name).key
        return number_math(key, self._display.shown(name))
