"""Sentences as data: text with quantities in it, rendered later as HTML or as plain text."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from string import Formatter

from builder.quantity.names import Name
from builder.quantity.show import Shown


@dataclass(frozen=True)
class NumberOf:
    """The value of a quantity, as shown on the page."""

    name: Name


@dataclass(frozen=True)
class SymbolOf:
    """The symbol of a quantity: Q₂; of an element's value it also names the element."""

    name: Name


@dataclass(frozen=True)
class WrongNumber:
    """A value that a mistake leads to.

    Attributes:
        rule: the mistake.
        name: the quantity it was meant to be.
        shown: the number that comes out.
    """

    rule: str
    name: Name
    shown: Shown


@dataclass(frozen=True)
class Told:
    """A value that is that of no quantity on the page, as in “comes close to 2C”."""

    shown: Shown


@dataclass(frozen=True)
class Relation:
    """A law in one line, such as ``Q = CV``; its letters stand for quantities."""

    text: str


@dataclass(frozen=True)
class Written:
    """Text in an author's own Markdown."""

    markdown: str


Piece = str | NumberOf | SymbolOf | WrongNumber | Told | Relation | Written
Prose = tuple[Piece, ...]

NUMBER_WORDS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve",
)  # fmt: skip


def say(template: str, **parts: Piece | Prose) -> Prose:
    """Fill ``template`` with pieces: ``say("{pair} share both junctions.", pair=…)``.

    Raises:
        KeyError: if the template names a part that is not given.
    """
    prose: list[Piece] = []
    for text, field in _parsed(template):
        if text:
            prose.append(text)
        if field is not None:
            part = parts[field]
            prose.extend(part if isinstance(part, tuple) else (part,))
    return _joined(prose)


@lru_cache(maxsize=1024)
def _parsed(template: str) -> tuple[tuple[str, str | None], ...]:
    return tuple((text, field) for text, field, _, _ in Formatter().parse(template))


def listed(items: Sequence[Piece | Prose], word: str = "and") -> Prose:
    """``a``, ``a and b``, ``a, b and c``."""
    prose: list[Piece] = []
    for position, item in enumerate(items):
        if position:
            prose.append(f" {word} " if position == len(items) - 1 else ", ")
        prose.extend(item if isinstance(item, tuple) else (item,))
    return _joined(prose)


def sentences(*parts: Prose) -> Prose:
    """Prose after prose with a space between; empty parts are left out."""
    prose: list[Piece] = []
    for part in parts:
        if part:
            prose.extend((" ", *part) if prose else part)
    return _joined(prose)


def number_word(number: int) -> str:
    """``two`` for 2, digits from thirteen on."""
    return NUMBER_WORDS[number] if number < len(NUMBER_WORDS) else str(number)


def capitalised(prose: Prose) -> Prose:
    """``prose`` with its first letter large, if it starts with text."""
    if prose and isinstance(prose[0], str):
        return (prose[0][:1].upper() + prose[0][1:], *prose[1:])
    return prose


def names_in(prose: Iterable[Piece]) -> list[Name]:
    """The quantities whose numbers or symbols a text tells."""
    return [p.name for p in prose if isinstance(p, NumberOf | SymbolOf)]


def _joined(pieces: Iterable[Piece]) -> Prose:
    prose: list[Piece] = []
    for piece in pieces:
        if isinstance(piece, str) and prose and isinstance(prose[-1], str):
            prose[-1] = prose[-1] + piece
        elif piece != "":
            prose.append(piece)
    return tuple(prose)
