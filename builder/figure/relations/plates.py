"""Two plates, what lies between them, what drives them, and what is known of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.figure.lettering import Runs
from builder.figure.relations.canvas import figure, filled_up, line, rectangle, text, unseen
from builder.figure.request import ValueText
from builder.figure.scene import Box, Point, Run, TextLine
from builder.figure.text_size import ASCENT, LINE, line_width

LEFT, RIGHT, TOP, BOTTOM = 104.0, 284.0, 56.0, 156.0
WIRE_LEFT, WIRE_UP, WIRE_DOWN = 14.0, 26.0, 186.0
MIDDLE = (LEFT + RIGHT) / 2
MOST_CHARGES = 15
COLUMN = 150.0


@dataclass(frozen=True)
class PanelPart:
    """One part of what lies between the plates.

    Attributes:
        labels: what is written into it, one below the other.
        share: its part of the gap or of the area, from 0 to 1.
        metal: whether it is metal.
        empty: whether nothing lies there.
    """

    labels: tuple[ValueText, ...]
    share: float
    metal: bool = False
    empty: bool = False


@dataclass(frozen=True)
class Panel:
    """One state of the plates.

    Attributes:
        title: over it; may be empty.
        side_by_side: whether the parts lie side by side, not on one another.
        parts: from the upper plate down, or from left to right.
        driven: ``battery``, ``cut-off`` (terminals that were cut off) or ``terminals``.
        source: the value of what drives it, if that is told.
        gap, area: beside the plates, if they are told.
        charges: how many signs are drawn on each plate.
        known: what is known of this state, below it.
    """

    title: str
    side_by_side: bool
    parts: tuple[PanelPart, ...]
    driven: str
    source: ValueText | None
    gap: ValueText | None
    area: ValueText | None
    charges: int
    known: tuple[ValueText, ...]


def draw_plates(
    panel: Panel, *, id_prefix: str, title: str, description: str, padded: bool = False
) -> str:
    """The SVG of one state.

    Args:
        panel: what it shows.
        id_prefix: goes before every id in it.
        title: its accessible name.
        description: its text alternative.
        padded: whether as many signs of charge are there, out of sight, as other numbers may need.
    """
    right = RIGHT + 12
    pieces = [
        *_parts(panel),
        *_plates(panel.charges, MOST_CHARGES if padded else 0),
        *_leads(panel.driven),
    ]
    if panel.title:
        pieces.append(_words((Run(panel.title),), 0.0, 14.0))
    if panel.source is not None:
        pieces.append(_words(runs_of(panel.source), WIRE_LEFT + 14, _middle() + 5))
    if panel.gap is not None:
        pieces += _dimension(panel.gap)
        right = max(right, RIGHT + 26 + line_width(runs_of(panel.gap)))
    if panel.area is not None:
        runs = runs_of(panel.area)
        pieces.append(_words(runs, MIDDLE + 10, TOP - 24))
        right = max(right, MIDDLE + 14 + line_width(runs))
    bottom = WIRE_DOWN + 6
    for at, value in enumerate(panel.known):
        x, y = (at % 2) * COLUMN, bottom + 8 + (at // 2) * LINE + ASCENT
        pieces.append(_words(runs_of(value), x, y))
        right = max(right, x + line_width(runs_of(value)))
    bottom += 8 + (len(panel.known) + 1) // 2 * LINE
    box = Box(-4.0, -4.0, right, bottom + 4)
    return figure(pieces, box, id_prefix=id_prefix, title=title, description=description)


def runs_of(value: ValueText) -> Runs:
    """``C₁ = 42.0 pF``; the text alone where there is no symbol."""
    number = Run(value.text, key=value.key)
    if value.symbol is None:
        return (number,)
    index = (Run(value.symbol.index, "index"),) if value.symbol.index else ()
    return (Run(value.symbol.letter, "italic"), *index, Run(f" {value.sign} "), number)


def _words(runs: Runs, x: float, y: float, anchor: str = "start") -> str:
    width = line_width(runs)
    left = x - width / 2 if anchor == "middle" else x
    return text(TextLine(Point(x, y), anchor, runs, Box(left, y - ASCENT, left + width, y + 5)))


def _middle() -> float:
    return (TOP + BOTTOM) / 2


def _plates(charges: int, most: int) -> Iterator[str]:
    for y in (TOP, BOTTOM):
        yield line(LEFT, y, RIGHT, y, 'stroke-width="4"')
    yield from filled_up(_signs(charges), unseen(_words((Run("+"),), 0.0, 0.0)), 2 * most)


def _signs(charges: int) -> Iterator[str]:
    """The charges of both plates."""
    for at in range(charges):
        x = LEFT + (RIGHT - LEFT) * (at + 0.5) / max(charges, 1)
        if abs(x - MIDDLE) < 4:
            x += 6
        yield _words((Run("+"),), x, TOP - 5, "middle")
        yield _words((Run("−"),), x, BOTTOM + 16, "middle")


def _leads(driven: str) -> Iterator[str]:
    """The wires from both plates round the left side, and what is between their ends."""
    gap = 5.0 if driven == "battery" else 14.0
    upper, lower = _middle() - gap, _middle() + gap
    for plate, level, end in ((TOP, WIRE_UP, upper), (BOTTOM, WIRE_DOWN, lower)):
        yield (
            f'<path class="sw-wire" d="M{MIDDLE} {plate}L{MIDDLE} {level}L{WIRE_LEFT} {level}'
            f'L{WIRE_LEFT} {end}" stroke="currentColor" stroke-linecap="round" '
            f'stroke-linejoin="round"/>'
        )
    if driven == "battery":
        yield line(WIRE_LEFT - 11, upper, WIRE_LEFT + 11, upper)
        yield line(WIRE_LEFT - 6, lower, WIRE_LEFT + 6, lower, 'stroke-width="4"')
        yield _words((Run("+"),), WIRE_LEFT - 12, upper - 5, "middle")
        return
    for y in (upper, lower):
        yield f'<circle cx="{WIRE_LEFT}" cy="{y}" r="3.5" stroke="currentColor" fill="none"/>'


def _dimension(gap: ValueText) -> Iterator[str]:
    x = RIGHT + 14
    yield line(x, TOP + 2, x, BOTTOM - 2)
    for y in (TOP + 2, BOTTOM - 2):
        yield line(x - 5, y, x + 5, y)
    yield _words(runs_of(gap), x + 8, _middle() + 5)


_TINTS = ("0.10", "0.2", "0.06", "0.26", "0.14", "0.3")


def _parts(panel: Panel) -> Iterator[str]:
    total = sum(part.share for part in panel.parts) or 1.0
    at = 0.0
    for number, part in enumerate(panel.parts):
        share = part.share / total
        if panel.side_by_side:
            width = RIGHT - LEFT
            box = Box(LEFT + at * width, TOP + 3, LEFT + (at + share) * width, BOTTOM - 3)
        else:
            height = BOTTOM - TOP - 6
            box = Box(LEFT, TOP + 3 + at * height, RIGHT, TOP + 3 + (at + share) * height)
        yield from _part(part, box, _TINTS[number % len(_TINTS)])
        at += share


def _part(part: PanelPart, box: Box, tint: str) -> Iterator[str]:
    if not part.empty:
        fill = "0.45" if part.metal else tint
        yield rectangle(box, f'fill="currentColor" fill-opacity="{fill}" stroke="currentColor" '
                        f'stroke-width="1"')  # fmt: skip
    lines = [runs_of(value) for value in part.labels]
    room = int((box.bottom - box.top) // LINE)
    if len(lines) > room >= 1:  # in a thin layer the texts stand side by side
        gap = (Run(", "),)
        joined = tuple(run for at, runs in enumerate(lines) for run in (gap if at else ()) + runs)
        lines = [joined]
    top = (box.top + box.bottom) / 2 - len(lines) * LINE / 2 + ASCENT
    for row, runs in enumerate(lines):
        yield _words(runs, (box.left + box.right) / 2, top + row * LINE, "middle")


def describe_plates(panel: Panel) -> str:
    """One state in words."""
    way = "side by side" if panel.side_by_side else "one on the other"
    inside = [_told(part) for part in panel.parts]
    between = (
        f"Between two plates lie, {way}: {'; '.join(inside)}."
        if len(inside) > 1
        else f"Between two plates: {inside[0]}."
    )
    drive = {
        "battery": "A battery is connected.", "cut-off": "The battery has been removed.",
        "terminals": "The plates have two terminals.",
    }[panel.driven]  # fmt: skip
    sizes = [_value(value) for value in (panel.area, panel.gap, panel.source) if value]
    known = [_value(value) for value in panel.known]
    told = f" {', '.join([*sizes, *known])}." if sizes or known else ""
    return f"{between} {drive}{told}"


def _told(part: PanelPart) -> str:
    what = "metal" if part.metal else "nothing" if part.empty else "a filling"
    labels = ", ".join(map(_value, part.labels))
    return f"{what} ({labels})" if labels else what


def _value(value: ValueText) -> str:
    return f"{value.symbol.text} {value.sign} {value.text}" if value.symbol else value.text
