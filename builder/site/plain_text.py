"""A lesson as plain text, for a terminal and for the search."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator

from builder.lesson import Lesson
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
from builder.lesson.prose import (
    NumberOf,
    Piece,
    Prose,
    Relation,
    SymbolOf,
    Told,
    Written,
    WrongNumber,
)
from builder.quantity.brackets import Binding
from builder.quantity.compact import compact
from builder.quantity.formula import Formula
from builder.quantity.names import Name
from builder.site.formulas.text import plain_formula

WIDTH = 88
NO_BREAK = "\u00a0"
Numbers = bool | frozenset[Name]
"""Which quantities are written by their numbers: all, none, or some."""


def worked_solution(lesson: Lesson) -> str:
    """The solution of a problem, step by step, with its checks."""
    text = _Text(lesson.display)
    lines = [lesson.solution.problem.title, ""]
    lines += _wrapped("Find: " + "; ".join(text.prose(item) for item in lesson.find) + ".")
    lines += [*_wrapped("Plan: " + text.prose(lesson.plan)), ""]
    for number, taught in enumerate(lesson.steps, start=1):
        lines.append(f"{number}. {text.prose(taught.words.goal)}   [{taught.step.id}]")
        lines += _wrapped(text.prose(taught.words.reason), indent="   ")
        for equation in taught.equations:
            lines += ["     " + line for line in text.equation(equation)]
        lines.append("")
    lines += ["Both methods agree on every value."] if lesson.solution.agree else []
    lines += ["Checks:"] if lesson.checks else []
    for check in lesson.checks:
        sides = f"{check.left_number.text} {check.relation} {check.right_number.text}"
        lines += _wrapped(f"{text.prose(check.says)} {sides}", indent="   ", mark="- ")
    lines += ["At the extremes:"] if lesson.limits else []
    for case in lesson.limits:
        lines += _wrapped(text.prose(case), indent="   ", mark="- ")
    return "\n".join(lines).rstrip() + "\n"


def plain_prose(prose: Prose, display: Display) -> str:
    """A piece of prose as plain text."""
    return _Text(display).prose(prose)


def _wrapped(text: str, indent: str = "", mark: str = "") -> list[str]:
    """Lines of a paragraph; a number never parts from its unit at the end of one."""
    kept = re.sub(r"(?<=[0-9]) (?=[A-Zµa-zΩ]{1,3}(?![A-Za-z]))", NO_BREAK, text)
    hanging = indent + " " * len(mark)
    lines = textwrap.wrap(kept, WIDTH, initial_indent=indent + mark, subsequent_indent=hanging)
    return [line.replace(NO_BREAK, " ") for line in lines]


def search_words(lesson: Lesson, part: str) -> str:
    """What the search finds of a part of a problem's page."""
    text = _Text(lesson.display)
    if part == "opening":
        return " ".join(lesson.solution.problem.scenario.split())
    if part == "solution":
        return ". ".join(text.prose(taught.words.goal) for taught in lesson.steps)
    return ""


class _Text:
    """Writes words and formulas of one lesson as plain text."""

    def __init__(self, display: Display) -> None:
        self._display = display

    def prose(self, prose: Prose) -> str:
        return "".join(self._piece(piece) for piece in prose)

    def _piece(self, piece: Piece) -> str:
        match piece:
            case NumberOf(name):
                return self._display.shown(name).text
            case SymbolOf(name):
                return self._display.symbol(name).text
            case WrongNumber(shown=shown) | Told(shown):
                return shown.text
            case Relation(text):
                return text
            case Written(markdown):
                return markdown
            case _:
                return piece

    def equation(self, equation: AnyEquation) -> Iterator[str]:
        if isinstance(equation, Stated):
            left, right = (
                self._formula(side, numbers=equation.known)
                for side in (equation.left, equation.right)
            )
            yield f"{left} {equation.relation} {right}"
            return
        if isinstance(equation, LinearSystem):
            yield from self._system(equation)
            return
        left = " = ".join(self._display.symbol(name).text for name in equation.names)
        left = f"1/{left}" if equation.reciprocal else left
        for row in equation.rows:
            yield f"{left} {row.relation} {self._side(row.side)}"
            left = " " * len(left)

    def _system(self, system: LinearSystem) -> Iterator[str]:
        symbols = [self._display.symbol(name).text for name in system.unknowns]
        for row, right in zip(system.rows, system.right, strict=True):
            terms = [
                (number, symbol) for number, symbol in zip(row, symbols, strict=True) if number
            ]
            left = " ".join(
                f"{'− ' if number < 0 else '+ '}{abs(number)} {symbol}" for number, symbol in terms
            )
            left = re.sub(r"(?<![0-9])1 (?=[^0-9])", "", left).removeprefix("+ ")
            left = f"−{left[2:]}" if left.startswith("− ") else left
            yield f"{'{ ' if len(system.rows) > 1 else ''}{left} = {right.text}"

    def _side(self, side: Side) -> str:
        match side:
            case Symbols(formula):
                return self._formula(formula, numbers=False, top=True)
            case Values(formula):
                return self._formula(formula, numbers=True, top=True)
            case Result(name):
                return self._display.shown(name).text
            case InLetters(formula):
                return compact(formula)
            case Reciprocal(over, under, unit):
                return f"{over}/({under} {unit})"

    def _formula(self, formula: Formula, *, numbers: Numbers, top: bool = False) -> str:
        def as_number(name: Name) -> bool:
            return numbers if isinstance(numbers, bool) else name in numbers

        def atom(name: Name) -> str:
            shown, symbol = self._display.shown, self._display.symbol
            return shown(name).text if as_number(name) else symbol(name).text

        def bound(name: Name) -> Binding:
            shown = self._display.shown
            return shown(name).binding if as_number(name) else Binding.WHOLE

        return plain_formula(formula, atom, top=top, atoms=bound)
