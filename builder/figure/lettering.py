"""Labels as lines of text: a name, its own value, and what has been found so far."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from builder.figure.request import Label, ValueText
from builder.figure.scene import Box, Point, Run, TextLine
from builder.figure.text_size import ASCENT, DESCENT, LINE, line_width
from builder.quantity.compact import compact
from builder.quantity.formula import Formula
from builder.quantity.letters import letter_symbol
from builder.quantity.names import Name, Symbol

Runs = tuple[Run, ...]


class Lettering(NamedTuple):
    """The lines of one label.

    Attributes:
        name: the line with the name; empty if a value carries the name.
        own: the element's own value; empty if it is unknown.
        found: one line for each other value.
    """

    name: Runs
    own: Runs
    found: tuple[Runs, ...]

    def in_one_line(self) -> Runs:
        """Name and own value side by side."""
        gap = (Run("\u2002"),) if self.name and self.own else ()
        return self.name + gap + self.own

    def down_the_side(self) -> tuple[Runs, ...]:
        """All lines from top to bottom, without empty ones."""
        return tuple(runs for runs in (self.name, self.own, *self.found) if runs)


def letter(label: Label) -> Lettering:
    """The lines of an element's label."""
    own = label.values[:1] if label.values and label.values[0].symbol is None else ()
    found = tuple(map(_value, label.values[len(own) :]))
    if own and own[0].expression is not None:
        # Two letters side by side would look like a product.
        return Lettering((), _value(replace(own[0], symbol=label.symbol)), found)
    return Lettering(_symbol(label.symbol), _value(own[0]) if own else (), found)


def letter_source(label: Label | None, quantity: str | None) -> Lettering:
    """The lines of the source's label; a total charge stands behind its own symbol."""
    if label is None:
        return Lettering((), (), ())
    first = label.values[0] if label.values else None
    if first is not None and first.symbol == label.symbol:
        return Lettering((), (), tuple(map(_value, label.values)))
    if first is not None and first.symbol is None and quantity == "charge":
        named = replace(first, symbol=label.symbol)
        return Lettering((), (), tuple(map(_value, (named, *label.values[1:]))))
    return letter(label)


def number_runs(value: ValueText) -> Runs:
    """What stands for a number: its sign, if it needs one, and its digits and unit.

    Where other numbers will stand in its place, the sign has a piece of its own in any case.
    """
    number: Runs = (Run(value.text, key=value.key),)
    if value.expression is not None:
        number = tuple(_expression(value.expression))
    if value.symbol is not None:
        number = (Run(f" {value.sign} "), *number)
    elif value.sign != "=" or value.slot is not None:
        number = (Run("" if value.sign == "=" else f"{value.sign} "), *number)
    if value.slot is None:
        return number
    mark, rooms = value.slot
    return tuple(
        run._replace(mark=f"{mark}.{at}", room=rooms[at] if at < len(rooms) else 0.0)
        for at, run in enumerate(number)
    )


def widest(lines: tuple[Runs, ...]) -> float:
    """The width of the widest line, 0 if there is none."""
    return max(map(line_width, lines), default=0.0)


def stack_middle(lines: tuple[Runs, ...], x: float, top: float) -> tuple[TextLine, ...]:
    """Lines below each other from ``top`` down, each centred on ``x``."""
    placed = []
    for row, runs in enumerate(lines):
        half, above = line_width(runs) / 2, top + row * LINE
        box = Box(x - half, above, x + half, above + LINE)
        placed.append(TextLine(Point(x, above + ASCENT), "middle", runs, box))
    return tuple(placed)


def stack_start(lines: tuple[Runs, ...], left: float, middle: float) -> tuple[TextLine, ...]:
    """Lines below each other from ``left`` on, as a block centred on the height ``middle``."""
    placed = []
    for row, runs in enumerate(lines):
        above = middle + (row - len(lines) / 2) * LINE
        box = Box(left, above, left + line_width(runs), above + LINE)
        placed.append(TextLine(Point(left, above + ASCENT), "start", runs, box))
    return tuple(placed)


def sign(text: str, middle: Point) -> TextLine:
    """A sign such as + centred on a point."""
    runs = (Run(text),)
    half, baseline = line_width(runs) / 2, middle.y + 0.25 * (ASCENT + DESCENT)
    box = Box(middle.x - half, middle.y - LINE / 2, middle.x + half, middle.y + LINE / 2)
    return TextLine(Point(middle.x, baseline), "middle", runs, box)


def _symbol(symbol: Symbol) -> Runs:
    index = (Run(symbol.index, "index"),) if symbol.index else ()
    mark = (Run(symbol.mark),) if symbol.mark else ()
    return (Run(symbol.letter, "italic"), *index, *mark)


def _value(value: ValueText) -> Runs:
    name = () if value.symbol is None else _symbol(value.symbol)
    return (*name, *number_runs(value))


def _expression(formula: Formula) -> Iterator[Run]:
    """An expression with its letters in italics; a mark keeps the place of each."""
    letters: list[Symbol] = []

    def mark(name: Name) -> str:
        letters.append(letter_symbol(name.of))
        return "\0"

    first, *pieces = compact(formula, mark).split("\0")
    yield from (Run(first),) if first else ()
    for symbol, piece in zip(letters, pieces, strict=True):
        yield from _symbol(symbol)
        yield from (Run(piece),) if piece else ()
