"""The frame, the texts and the lines of a figure that is drawn without a circuit."""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape

from builder.figure.scene import Box, Run, TextLine
from builder.figure.svg import FONT_FAMILY, STROKE
from builder.figure.text_size import INDEX_DROP, INDEX_SIZE, TYPE_SIZE


def figure(pieces: Iterable[str], box: Box, *, id_prefix: str, title: str, description: str) -> str:
    """One ``svg`` element with its name and its description.

    Args:
        pieces: its shapes.
        box: the room that they take.
        id_prefix: goes before every id, so that figures on one page do not clash.
        title: the figure's accessible name.
        description: what it shows.
    """
    width, height = n(box.right - box.left), n(box.bottom - box.top)
    prefix = escape("-".join(id_prefix.split()))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="sw-figure" role="img" '
        f'aria-labelledby="{prefix}-title {prefix}-desc" width="{width}" height="{height}" '
        f'viewBox="{n(box.left)} {n(box.top)} {width} {height}" '
        f'font-family="{FONT_FAMILY}" font-size="{n(TYPE_SIZE)}" fill="none" '
        f'stroke-width="{STROKE}">'
        f'<title id="{prefix}-title">{escape(title)}</title>'
        f'<desc id="{prefix}-desc">{escape(description)}</desc>{"".join(pieces)}</svg>'
    )


def text(line: TextLine) -> str:
    """One line of text."""
    anchor = "" if line.anchor == "start" else f' text-anchor="{line.anchor}"'
    return (
        f'<text class="sw-label" x="{n(line.at.x)}" y="{n(line.at.y)}"{anchor} '
        f'fill="currentColor">{"".join(_spans(line.runs))}</text>'
    )


def _spans(runs: tuple[Run, ...]) -> Iterable[str]:
    drop, lowered = n(INDEX_DROP * TYPE_SIZE), False
    for run in runs:
        attributes = ""
        if run.style == "index":
            attributes = f' dy="{drop}" font-size="{n(INDEX_SIZE * TYPE_SIZE)}"'
        elif lowered:
            attributes = f' dy="-{drop}"'
        lowered = run.style == "index"
        attributes += ' font-style="italic"' if run.style == "italic" else ""
        attributes += f' data-q="{escape(run.key)}"' if run.key else ""
        yield f"<tspan{attributes}>{escape(run.text)}</tspan>" if attributes else escape(run.text)


def line(x1: float, y1: float, x2: float, y2: float, more: str = "") -> str:
    """A straight line."""
    return (
        f'<path d="M{n(x1)} {n(y1)}L{n(x2)} {n(y2)}" stroke="currentColor" '
        f'stroke-linecap="round" {more}/>'
    )


def arrow(x1: float, y1: float, x2: float, y2: float) -> str:
    """A horizontal or vertical line with a head at its end."""
    size = 5.0
    across, along = (0.0, size) if x1 == x2 else (size, 0.0)
    sign = 1.0 if (x2 > x1 or y2 > y1) else -1.0
    if x1 == x2:
        head = f"M{n(x2 - size * 0.7)} {n(y2 - sign * along)}L{n(x2)} {n(y2)}" \
               f"L{n(x2 + size * 0.7)} {n(y2 - sign * along)}"  # fmt: skip
    else:
        head = f"M{n(x2 - sign * across)} {n(y2 - size * 0.7)}L{n(x2)} {n(y2)}" \
               f"L{n(x2 - sign * across)} {n(y2 + size * 0.7)}"  # fmt: skip
    return line(x1, y1, x2, y2) + (
        f'<path d="{head}" stroke="currentColor" stroke-linecap="round" stroke-linejoin="round"/>'
    )


def unseen(piece: str) -> str:
    """A piece that is there but not shown, until other numbers need it."""
    return re.sub(r"^<\w+", r'\g<0> display="none"', piece)


def filled_up(pieces: Iterable[str], spare: str, most: int) -> list[str]:
    """Pieces, and after them as many of ``spare`` as make ``most`` of them."""
    there = [*pieces]
    return [*there, *[spare] * (most - len(there))]


def rectangle(box: Box, more: str) -> str:
    """An upright rectangle."""
    return (
        f'<rect x="{n(box.left)}" y="{n(box.top)}" width="{n(box.right - box.left)}" '
        f'height="{n(box.bottom - box.top)}" {more}/>'
    )


def n(number: float) -> str:
    """A number for SVG: two digits after the point at most."""
    rounded = round(number, 2)
    return str(int(rounded)) if rounded == int(rounded) else str(rounded)
