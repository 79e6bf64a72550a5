"""YAML as plain data: every key and value with its place and the exact text that was typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from builder.problem.faults.gathering import Mark


@dataclass(frozen=True)
class Text:
    """A single value, as it was typed (after YAML's quotes and line folding).

    Attributes:
        value: the text; empty if nothing was typed.
        at: where it starts; the place of its key if nothing was typed.
        under: its key, if nothing was typed.
        span: where its characters stand in the text of the file, without quotation marks: from,
            and up to; None of a block of lines, and of what stands in no file.
        until: where it ends; None of what stands in no file.
    """

    value: str
    at: Mark
    under: str = ""
    span: tuple[int, int] | None = field(default=None, compare=False)
    until: Mark | None = field(default=None, compare=False)

    def inside(self, column: int, word: str, lines: Sequence[str]) -> Mark:
        """Where a word of it stands that starts at one of its columns, from 1.

        Of a text of several lines it is the place of the whole.
        """
        if self.until is None or self.until.line != self.at.line:
            return self.at
        line = lines[self.at.line - 1] if self.at.line <= len(lines) else ""
        quotes = 1 if line[self.at.column - 1 : self.at.column] in ("'", '"') else 0
        return Mark(self.at.line, self.at.column + quotes + column - 1, max(len(word), 1))

    def place_of(self, piece: str, lines: Sequence[str], *, before: str = "") -> Mark:
        """Where a piece of it stands.

        Args:
            piece: on one line, as it was typed.
            lines: of the file.
            before: the value up to the piece, by which the right one of several is found.

        Returns:
            The place of the piece; that of the whole text if it was typed otherwise, as with
            escapes, or in no file.
        """
        if self.until is None or self.under or not piece:
            return self.at
        to_skip = before.count(piece)
        for number in range(self.at.line, min(self.until.line, len(lines)) + 1):
            line = lines[number - 1]
            start = self.at.column - 1 if number == self.at.line else 0
            end = self.until.column - 1 if number == self.until.line else len(line)
            found = line.find(piece, start, end)
            while found >= 0 and to_skip:
                to_skip -= 1
                found = line.find(piece, found + len(piece), end)
            if found >= 0:
                return Mark(number, found + 1, len(piece))
        return self.at


@dataclass(frozen=True)
class Entry:
    """A key with its value."""

    key: Text
    value: Node


@dataclass(frozen=True)
class Map:
    """Keys with their values, each key once."""

    entries: tuple[Entry, ...]
    at: Mark

    def get(self, key: str) -> Entry | None:
        """The entry of that key, or None."""
        return next((entry for entry in self.entries if entry.key.value == key), None)


@dataclass(frozen=True)
class Items:
    """A list."""

    items: tuple[Node, ...]
    at: Mark


@dataclass(frozen=True)
class Unusable:
    """Something whose fault has been told already."""

    at: Mark


Node = Text | Map | Items | Unusable


def is_usable(node: Node) -> bool:
    """Whether nothing in a node is unusable, at any depth."""
    if isinstance(node, Map):
        return all(is_usable(entry.value) for entry in node.entries)
    if isinstance(node, Items):
        return all(is_usable(item) for item in node.items)
    return not isinstance(node, Unusable)
