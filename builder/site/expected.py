"""What a page knows of the answer to a typed question, so that its scripts can judge it.

A number travels with all of its digits as text, and is compared digit by digit. An expression of
letters travels as its values at a few points, worked out exactly here.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Any

from sympy import Rational, Symbol

from builder.lesson import Lesson
from builder.lesson.prose import NumberOf, Piece, Prose, SymbolOf
from builder.lesson.questions import TypedQuestion
from builder.lesson.questions.wrong_turns import WrongTurn, elsewhere, wrong_turns
from builder.lesson.slips import Slip
from builder.quantity.exact import near_fraction
from builder.quantity.formula import Amount, every_part
from builder.quantity.kinds import KINDS
from builder.quantity.letters import letter_of
from builder.quantity.names import Name
from builder.quantity.show import Shown, ShownExpression
from builder.quantity.symbolic import is_symbolic, letters_in, reading_order
from builder.site.judging import at_points, decimal_text, order_of, points_for, short, worth_if_real

_EXAMPLES = {
    "F": "7 µF is 7000 nF", "C": "7 mC is 7000 µC", "V": "7 V is 7000 mV",
    "J": "7 mJ is 7000 µJ", "Ω": "7 kΩ is 7000 Ω", "A": "7 A is 7000 mA",
    "W": "7 W is 7000 mW", "s": "7 s is 7000 ms", "m": "7 cm is 70 mm",
    "m²": "7 m² is 70000 cm²", "V/m": "7 kV/m is 7000 V/m", "F/m": "7 nF/m is 7000 pF/m",
}  # fmt: skip


@dataclass(frozen=True)
class Expected:
    """What one typed question has in its form.

    Attributes:
        data: what the scripts judge by, as JSON.
        turns: the known mistakes, numbered from 1.
        help: how an answer may be written.
        keys: which keys a phone offers (``inputmode``).
    """

    data: str
    turns: tuple[WrongTurn, ...]
    help: str
    keys: str


@dataclass(frozen=True)
class ExpectedAnswers:
    """The typed questions of one lesson.

    Attributes:
        lesson: that asks them.
    """

    lesson: Lesson

    def of(self, question: TypedQuestion) -> Expected:
        """What the form of a question needs; any quantity of the lesson may be asked."""
        name = self.lesson.display.resolve(question.answer)
        if name not in self._found:
            self._found[name] = self._of(name)
        return self._found[name]

    @cached_property
    def _found(self) -> dict[Name, Expected]:
        """What was worked out already: a step and the self-check can ask for the same."""
        return {}

    def _of(self, name: Name) -> Expected:
        display = self.lesson.display
        turns = wrong_turns(name, self._turns.get(name, ()), display)
        if is_symbolic(display.solution.values[name]):
            return self._expression(name, turns)
        return self._number(name, turns)

    def _number(self, name: Name, turns: tuple[WrongTurn, ...]) -> Expected:
        kind = KINDS[name.quantity]
        told: dict[str, Any] = {
            "value": decimal_text(near_fraction(self.lesson.display.solution.values[name])),
            "digits": self.lesson.display.digits,
            "unit": kind.unit,
            "noun": kind.noun,
        }
        # Their numbers stand on the page, marked with these keys, and are read there.
        others = [[other.key, pieces] for other in elsewhere(name, self._told, self.lesson.display)
                  if (pieces := self._called(other))]  # fmt: skip
        told |= {"others": others} if others else {}
        help = "A number without a unit."
        if kind.unit:
            help = f"A number and a unit. Any prefix will do: {_EXAMPLES[kind.unit]}."
        return Expected(_json(told), turns, help, "text" if kind.unit else "decimal")

    def _expression(self, name: Name, turns: tuple[WrongTurn, ...]) -> Expected:
        values, display = self.lesson.display.solution.values, self.lesson.display
        letters = sorted({*letters_in(values[name]), *self._letters}, key=reading_order)
        points = points_for(letters, values[name], self._sizes)
        names = [letter_of(symbol) for symbol in letters]
        worth = {letter_of(symbol): [short(at[symbol]) for at in points] for symbol in letters}
        for given in display.solution.givens:
            symbol = display.symbol(given)
            if not symbol.mark and (found := at_points(values[given], points)) is not None:
                worth.setdefault(symbol.letter + symbol.index, found)
        told: dict[str, Any] = {
            "letters": worth,
            "names": names,
            "values": at_points(values[name], points),
            "noun": KINDS[name.quantity].noun,
            "shown": display.shown(name).text,
        }
        if _has_units(display.shown(name)):
            told["units"] = True
        told |= self._lists(name, turns, points)
        return Expected(_json(told), turns, _letters_help(names), "text")

    def _lists(
        self, name: Name, turns: tuple[WrongTurn, ...], points: list[dict[Symbol, Rational]]
    ) -> dict[str, Any]:
        """The wrong values at the points with their entries, and those that belong elsewhere."""
        values, display = self.lesson.display.solution.values, self.lesson.display
        wrong = [
            [worth, number]
            for number, turn in enumerate(turns, start=1)
            if turn.slip.stands
            and (worth := worth_if_real(turn.slip.wrong.value, points)) is not None
        ]
        others = [
            [worth, pieces]
            for other in elsewhere(name, self._told, display)
            if display.shown(other).text != display.shown(name).text
            and (worth := worth_if_real(values[other], points)) is not None
            and (pieces := self._called(other))
        ]
        return {key: found for key, found in (("turns", wrong), ("others", others)) if found}

    @cached_property
    def _turns(self) -> Mapping[Name, list[Slip]]:
        """The mistakes by the quantity that they get wrong."""
        found: dict[Name, list[Slip]] = {}
        for slip in self.lesson.turns:
            found.setdefault(self.lesson.display.resolve(slip.wrong.name), []).append(slip)
        return found

    @cached_property
    def _told(self) -> tuple[Name, ...]:
        """Every quantity that the page tells, those of the results first."""
        rows = (row for table in self.lesson.tables for row in table.rows)
        told = (
            *(name for row in rows for name in row.names if name is not None),
            # A given instant is called by no name of its own.
            *(name for name in self.lesson.solution.givens if name.quantity != "time"),
            *(name for step in self.lesson.solution.steps for name in step.found),
        )
        return tuple(dict.fromkeys(map(self.lesson.display.resolve, told)))

    @cached_property
    def _letters(self) -> frozenset[Symbol]:
        """The letters of what is given, which all others are made of."""
        values = self.lesson.solution.values
        given = (values[name] for name in self.lesson.solution.givens)
        return frozenset(symbol for value in given for symbol in value.free_symbols)

    @cached_property
    def _sizes(self) -> Mapping[str, Fraction]:
        """The order of magnitude of the smallest given number of each kind.

        Letters take values of that size, so that neither they nor numbers among them get lost.
        """
        sizes: dict[str, Fraction] = {}
        for name in self.lesson.solution.givens:
            value = self.lesson.solution.values[name]
            if not is_symbolic(value) and (size := abs(near_fraction(value))):
                order = Fraction(10) ** order_of(size)
                sizes[name.quantity] = min(order, sizes.get(name.quantity, order))
        return sizes

    @cached_property
    def _calls(self) -> dict[Name, list[str | list[str]]]:
        """Quantities in words, each worked out once."""
        return {}

    def _called(self, name: Name) -> list[str | list[str]]:
        """A quantity in words as the script takes them: text, and symbols as lists.

        Empty for what stands on the way alone, as an equivalent seen from somewhere, and has no
        words of its own.
        """
        if name not in self._calls:
            try:
                self._calls[name] = self._pieces(self.lesson.display.asks_for(name))
            except KeyError:
                self._calls[name] = []
        return self._calls[name]

    def _pieces(self, prose: Prose) -> list[str | list[str]]:
        """Text, and symbols as letter, index and mark."""
        return [self._piece(piece) for piece in prose]

    def _piece(self, piece: Piece) -> str | list[str]:
        match piece:
            case str():
                return piece
            case SymbolOf(name):
                symbol = self.lesson.display.symbol(name)
                parts = [symbol.letter, symbol.index, symbol.mark]
                while not parts[-1]:
                    parts.pop()
                return parts
            case NumberOf(name):
                return self.lesson.display.shown(name).text
            case _:
                raise TypeError(f"{piece} names no quantity")


def _has_units(shown: Shown) -> bool:
    """Whether numbers with units stand among the letters."""
    return isinstance(shown, ShownExpression) and any(
        isinstance(part, Amount) for part in every_part(shown.expression)
    )


def _letters_help(names: list[str]) -> str:
    first, last = ", ".join(names[:-1]), names[-1]
    letters = f"the letters {first} and {last}" if first else f"the letter {last}"
    return (
        f"An expression with {letters}. Write * or nothing for times, / for over, ^2 for "
        "squared, and brackets where they are needed."
    )


def _json(told: Mapping[str, Any]) -> str:
    return json.dumps(told, ensure_ascii=False, separators=(",", ":"))
