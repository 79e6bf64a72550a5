"""Formulas in spoken English, for those who hear them.

Browsers hand the inner parts of a formula on to a screen reader, but not every reader knows what
to do with them: many say "C 23 µF" in one breath. The words made here become the name of each
formula, while its parts stay reachable. (Chromium's accessibility tree carries ``aria-label`` as
the name of ``math``; it leaves out ``alttext``.)
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator

from builder.lesson.display import Display
from builder.lesson.equations import (
    AnyEquation,
    InLetters,
    Reciprocal,
    Result,
    Side,
    Stated,
    Symbols,
    Values,
)
from builder.lesson.linear_system import LinearSystem
from builder.quantity.formula import Formula
from builder.quantity.letters import letter_symbol
from builder.quantity.names import Name, Symbol
from builder.quantity.show import PREFIXES, Shown, ShownExpression
from builder.site.formulas import speech

RELATIONS = {
    "=": "equals", "≈": "is about", "<": "is less than", ">": "is greater than",
    "≤": "is at most", "≥": "is at least",
}  # fmt: skip
MARKS = {"′": "prime", "″": "double prime", "‴": "triple prime"}
"""How the marks of symbols are said."""
# The names of units and prefixes: SI Brochure (9th ed.), tables 2, 4 and 7.
_UNITS = {
    "F": "farad", "C": "coulomb", "V": "volt", "J": "joule", "Ω": "ohm", "A": "ampere",
    "W": "watt", "s": "second", "m": "metre",
}  # fmt: skip
# What is said before or after the prefixed name of the first unit.
_COMPOUND = {"m²": ("square ", "m"), "m³": ("cubic ", "m")}
_PREFIX_WORDS = dict(
    zip(
        PREFIXES.values(),
        ("quecto", "ronto", "yocto", "zepto", "atto", "femto", "pico", "nano", "micro", "milli", "",
         "kilo", "mega", "giga", "tera", "peta", "exa", "zetta", "yotta", "ronna", "quetta"),
        strict=True,
    )
)  # fmt: skip
_LETTERS = {"φ": "phi", "ε": "epsilon", "κ": "kappa", "π": "pi", "σ": "sigma"}
_POWER = re.compile(r" ?[×·⋅] ?10([⁺⁻]?)([⁰¹²³⁴⁵⁶⁷⁸⁹]+)")


def spoken_symbol(symbol: Symbol) -> str:
    """A symbol: ``C sub 23``, ``V``."""
    index = symbol.index.replace("_", " ").replace(",", " comma ")
    letter = _LETTERS.get(symbol.letter, symbol.letter)
    said = f"{letter} sub {index}" if index else letter
    return f"{said} {MARKS.get(symbol.mark, symbol.mark)}" if symbol.mark else said


def spoken_letter(name: Name) -> str:
    """A letter of an expression."""
    return spoken_symbol(letter_symbol(name.of))


def spoken_unit(unit: str, *, one: bool = False) -> str:
    """A unit with its prefix in words: ``microfarads``, ``kilohms``; a strange one as it is."""
    if "/" in unit:
        over, _, under = unit.partition("/")
        return f"{spoken_unit(over, one=one)} per {spoken_unit(under, one=True)}"
    if unit[-2:] in _COMPOUND:
        before, base = _COMPOUND[unit[-2:]]
        return before + spoken_unit(unit[:-2] + base, one=one)
    name, prefix = _UNITS.get(unit[-1:]), {**_PREFIX_WORDS, "c": "centi"}.get(unit[:-1])
    if name is None or prefix is None:
        return unit
    # Common practice, no source: the vowel is dropped in these two.
    whole = (prefix + name).replace("kiloohm", "kilohm").replace("megaohm", "megohm")
    return whole if one else f"{whole}s"


def spoken_number(shown: Shown) -> str:
    """A number with its unit: ``22 microfarads``, ``1 volt``, ``minus 3.50 millivolts``.

    An expression is said letter by letter: ``2 times C times V, over 3``.
    """
    if isinstance(shown, ShownExpression):
        return spoken_formula(shown.expression, spoken_letter)
    number = _POWER.sub(_spoken_power, shown.number)
    number = number.replace("−", "minus ").replace("/", " over ")
    return f"{number} {spoken_unit(shown.unit, one=shown.number == '1')}".rstrip()


def _spoken_power(match: re.Match[str]) -> str:
    plain = match[2].translate(str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹", "0123456789"))
    return f" times 10 to the {'minus ' if match[1] == '⁻' else ''}{plain}"


def spoken_formula(
    formula: Formula, atom: Callable[[Name], str], *, numbers: bool = False, top: bool = False
) -> str:
    """A formula in words, its amounts said with their units; see ``formulas.speech``."""
    return speech.spoken_formula(formula, atom, spoken_number, numbers=numbers, top=top)


class Speaker:
    """Says the equations of one lesson."""

    def __init__(self, display: Display) -> None:
        self._display = display

    def equations(self, equations: Iterable[AnyEquation]) -> str:
        """Equations as sentences: ``C sub 23 equals C sub 2 plus C sub 3, equals …``."""
        return " ".join(f"{', '.join(self._clauses(equation))}." for equation in equations)

    def statement(
        self, left: Formula, right: Formula, relation: str, *, numbers: bool = False
    ) -> str:
        """One line of a check, in symbols or in numbers."""
        atom = self._number if numbers else self._symbol
        sides = [spoken_formula(side, atom, numbers=numbers) for side in (left, right)]
        return f"{sides[0]} {RELATIONS[relation]} {sides[1]}."

    def _stated(self, stated: Stated) -> str:
        def atom(name: Name) -> str:
            return self._number(name) if name in stated.known else self._symbol(name)

        left, right = (
            spoken_formula(side, atom, numbers=bool(stated.known))
            for side in (stated.left, stated.right)
        )
        return f"{left} {RELATIONS[stated.relation]} {right}"

    def _clauses(self, equation: AnyEquation) -> Iterator[str]:
        if isinstance(equation, Stated):
            yield self._stated(equation)
            return
        if isinstance(equation, LinearSystem):
            yield from self._system(equation)
            return
        first, *more = (self._symbol(name) for name in equation.names)
        subject = f"1 over {first} " if equation.reciprocal else f"{first} "
        for name in more:
            yield f"{subject}equals {name}"
            subject = ""
        for row in equation.rows:
            yield f"{subject}{RELATIONS[row.relation]} {self._side(row.side)}"
            subject = ""

    def _system(self, system: LinearSystem) -> Iterator[str]:
        """Collected equations, one after the other: ``together: 5 times phi sub a minus …``."""
        for count, (row, right) in enumerate(zip(system.rows, system.right, strict=True)):
            start = "together, " if count == 0 and len(system.rows) > 1 else ""
            words: list[str] = []
            for number, name in zip(row, system.unknowns, strict=True):
                if number:
                    sign = ["minus"] if number < 0 else ["plus"] if words else []
                    size = [] if abs(number) == 1 else [f"{abs(number)} times"]
                    words += [*sign, *size, self._symbol(name)]
            yield f"{start}{' '.join(words)} equals {spoken_number(right)}"

    def _side(self, side: Side) -> str:
        match side:
            case Symbols(formula):
                return spoken_formula(formula, self._symbol, top=True)
            case Values(formula):
                return spoken_formula(formula, self._number, numbers=True, top=True)
            case Result(name):
                return self._number(name)
            case InLetters(formula):
                return spoken_formula(formula, spoken_letter)
            case Reciprocal(over, under, unit):
                return f"{over} over {under} {spoken_unit(unit, one=under == 1)}"

    def _symbol(self, name: Name) -> str:
        return spoken_symbol(self._display.symbol(name))

    def _number(self, name: Name) -> str:
        return spoken_number(self._display.shown(name))
