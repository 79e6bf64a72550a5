"""What follows from what: for each step the quantities that it uses, an arrow, what it finds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.figure.lettering import Runs
from builder.figure.relations.canvas import arrow, figure, line, rectangle, text
from builder.figure.scene import Box, Point, Run, TextLine
from builder.figure.svg import MARK_COLOUR
from builder.figure.text_size import ASCENT, LINE, line_width
from builder.quantity.names import Symbol

PAD, GAP, ROW_GAP, ARROW = 9.0, 6.0, 22.0, 54.0
HEIGHT = LINE + 8.0


@dataclass(frozen=True)
class Chip:
    """A quantity in its box.

    Attributes:
        symbol: what it is called.
        text: its number with its unit; empty while it is unknown.
        sign: ``=`` or ``≈``.
        key: the key of the quantity, carried by the number.
        state: ``given``, ``found``, ``new`` (just found) or ``open``.
    """

    symbol: Symbol
    text: str
    sign: str
    key: str
    state: str


@dataclass(frozen=True)
class Link:
    """A step: what it uses, and what it finds."""

    uses: tuple[Chip, ...]
    finds: tuple[Chip, ...]


def draw_chain(links: tuple[Link, ...], *, id_prefix: str, title: str, description: str) -> str:
    """The SVG of a chain of steps, one below the other."""
    left = max((_width(chip) for link in links for chip in link.uses), default=0.0)
    right = max((_width(chip) for link in links for chip in link.finds), default=0.0)
    pieces: list[str] = []
    top = 0.0
    for link in links:
        rows = max(len(link.uses), len(link.finds))
        height = rows * HEIGHT + (rows - 1) * GAP
        middle = top + height / 2
        pieces += _column(link.uses, 0.0, left, middle)
        pieces += _column(link.finds, left + ARROW, right, middle)
        pieces += _joined(link, left, middle)
        top += height + ROW_GAP
    box = Box(-4.0, -4.0, left + ARROW + right + 4.0, top - ROW_GAP + 4.0)
    return figure(pieces, box, id_prefix=id_prefix, title=title, description=description)


def _joined(link: Link, left: float, middle: float) -> Iterator[str]:
    """The arrow from all that is used, gathered by a bracket, to what is found."""
    half = (len(link.uses) * (HEIGHT + GAP) - GAP) / 2
    bend = left + ARROW * 0.3
    if len(link.uses) > 1:
        for at in range(len(link.uses)):
            y = middle - half + at * (HEIGHT + GAP) + HEIGHT / 2
            yield line(left + 3, y, bend, y)
        yield line(bend, middle - half + HEIGHT / 2, bend, middle + half - HEIGHT / 2)
    yield arrow(bend if len(link.uses) > 1 else left + 3, middle, left + ARROW - 4, middle)


def _column(chips: tuple[Chip, ...], left: float, width: float, middle: float) -> Iterator[str]:
    top = middle - (len(chips) * (HEIGHT + GAP) - GAP) / 2
    for chip in chips:
        yield _chip(chip, Box(left, top, left + width, top + HEIGHT))
        top += HEIGHT + GAP


_BORDERS = {
    "given": 'stroke="currentColor" rx="3"',
    "found": 'stroke="currentColor" rx="12"',
    "new": f'class="sw-frame" stroke="{MARK_COLOUR}" stroke-width="3" rx="12"',
    "open": 'stroke="currentColor" stroke-dasharray="4 4" rx="12"',
}


def _chip(chip: Chip, box: Box) -> str:
    runs = _runs(chip)
    middle = (box.left + box.right) / 2
    at = Point(middle, box.top + 4 + ASCENT)
    return rectangle(box, _BORDERS[chip.state]) + text(TextLine(at, "middle", runs, box))


def _runs(chip: Chip) -> Runs:
    index = (Run(chip.symbol.index, "index"),) if chip.symbol.index else ()
    letter = Run(chip.symbol.letter, "italic")
    if chip.state == "open":
        return (letter, *index, Run(" = ?"))
    return (letter, *index, Run(f" {chip.sign} "), Run(chip.text, key=chip.key))


def _width(chip: Chip) -> float:
    return line_width(_runs(chip)) + 2 * PAD


def describe_chain(links: tuple[Link, ...]) -> str:
    """The figure in words: ``C follows from A = 8 cm² and d = 1 mm.``"""
    return " ".join(map(_told, links))


def _told(link: Link) -> str:
    found = " and ".join(map(_named, link.finds))
    uses = [_named(chip) for chip in link.uses]
    listed = ", ".join(uses[:-1]) + (" and " if len(uses) > 1 else "") + "".join(uses[-1:])
    verb = "follow" if len(link.finds) > 1 else "follows"
    return f"{found} {verb} from {listed}." if uses else f"{found} {verb}."


def _named(chip: Chip) -> str:
    if chip.state == "open":
        return f"{chip.symbol.text}, still unknown,"
    return f"{chip.symbol.text} {chip.sign} {chip.text}"
