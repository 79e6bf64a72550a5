"""A problem as those look at it who search for oddities: solved, with the places in its file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from builder.errors import Oddity
from builder.lesson.display import Display
from builder.lesson.kinds import display_of
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
from builder.problem.body import Body
from builder.problem.choosing import read_body
from builder.problem.faults.gathering import LINE_END, Faults, Mark
from builder.problem.model import Problem
from builder.problem.yaml_text.composing import compose
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text
from builder.quantity.names import Name
from builder.solution import Solution


@dataclass(frozen=True)
class Look:
    """A solved problem and its file.

    Attributes:
        solution: of a problem that was read from a file.
    """

    solution: Solution

    @property
    def problem(self) -> Problem:
        """What was solved."""
        return self.solution.problem

    @cached_property
    def display(self) -> Display:
        """How its quantities are written."""
        return display_of(self.solution)

    @cached_property
    def root(self) -> Map:
        """All of the file."""
        return compose(self.problem.text, Faults(self.problem.path))

    @cached_property
    def lines(self) -> list[str]:
        """The lines of the file."""
        return LINE_END.split(self.problem.text)

    def oddity(self, at: Mark, kind: str, seen: str, advice: str) -> Oddity:
        """Something odd at a place of the file.

        Args:
            at: where it is, and how many characters it takes.
            kind: its name, for machines.
            seen: what is odd, a sentence.
            advice: what to look at, a sentence.
        """
        source = self.lines[at.line - 1] if at.line <= len(self.lines) else ""
        return Oddity(self.problem.path, at.line, at.column, kind, seen, advice, source, at.width)

    def place(self, position: int, width: int) -> Mark:
        """Line and column of a position in the text of the file."""
        before = LINE_END.split(self.problem.text[:position])
        return Mark(len(before), len(before[-1]) + 1, width)

    def items(self, key: str) -> Iterator[Node]:
        """The items of a list at the top of the file; a single one may stand without a dash."""
        entry = self.root.get(key)
        if entry is None:
            return
        yield from entry.value.items if isinstance(entry.value, Items) else (entry.value,)

    @cached_property
    def body(self) -> Body:
        """What the problem is about, as its file says it."""
        body = read_body(self.root, Faults(self.problem.path))
        assert body is not None  # it has been read already, and is sound
        return body

    def asks(self, item: Node) -> tuple[Name, ...]:
        """What one item under ``find:`` asks for."""
        return self.body.find(Entry(Text("find", item.at), Items((item,), item.at)))

    def asked_at(self, name: Name) -> Node:
        """The item under ``find:`` that asks for a quantity; the first, if it is not told there."""
        items = list(self.items("find"))
        return next((item for item in items if name in self.asks(item)), items[0])

    def plain(self, prose: Prose) -> str:
        """A sentence as text."""
        return "".join(map(self._plain, prose))

    def _plain(self, piece: Piece) -> str:
        match piece:
            case NumberOf(name):
                return self.display.shown(name).text
            case SymbolOf(name):
                return self.display.symbol(name).text
            case WrongNumber(shown=shown) | Told(shown):
                return shown.text
            case Relation(text) | Written(text):
                return text
            case str():
                return piece
