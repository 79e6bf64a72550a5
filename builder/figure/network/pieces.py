"""A figure's sheet, and how a straight piece with its symbols is put down on it."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import groupby

from builder.figure.network.glyphs import (
    FRAME_PAD,
    STUB_LENGTH,
    Glyph,
    around,
    grown,
    moved,
    shifted,
    terminal_sign,
)
from builder.figure.network.request import SOURCES
from builder.figure.network.runs import Run
from builder.figure.network.skeleton import PORT, STUB_MINUS, STUB_PLUS
from builder.figure.scene import (
    TERMINAL_RADIUS,
    Box,
    Component,
    Dot,
    Head,
    Hop,
    Point,
    Terminal,
    TextLine,
    Wire,
)
from builder.figure.symbols import stamp

_OPEN = frozenset({PORT, STUB_PLUS, STUB_MINUS})


@dataclass
class Sheet:
    """The pieces of a figure while they are put down.

    Attributes:
        places: where each junction lies; its first place if it has several.
        arrow_lines: the texts of current arrows, by branch.
    """

    wires: list[Wire] = field(default_factory=list)
    dots: list[Dot] = field(default_factory=list)
    terminals: list[Terminal] = field(default_factory=list)
    components: list[Component] = field(default_factory=list)
    frames: list[Box] = field(default_factory=list)
    hops: list[Hop] = field(default_factory=list)
    heads: list[Head] = field(default_factory=list)
    places: dict[str, Point] = field(default_factory=dict)
    arrow_lines: dict[str, list[TextLine]] = field(default_factory=dict)

    def wire(self, junction: str, start: Point, end: Point) -> None:
        """Add a wire, unless it has no length."""
        if start != end:
            self.wires.append(Wire(junction, start, end))


def put_run(
    run: Run,
    ends: tuple[Point, Point],
    pads: tuple[float, float],
    middle: float | None,
    sheet: Sheet,
) -> None:
    """Put down a straight piece with what stands on it.

    Args:
        run: the piece.
        ends: where it starts and ends, from left to right or downwards.
        pads: what stays free at its ends.
        middle: how far from its start the middle of its only element lies; None for half way.
        sheet: what is put down.
    """
    (low, high), down = ends, run.straight.down
    length = high.y - low.y if down else high.x - low.x

    def along(distance: float) -> Point:
        return Point(low.x, low.y + distance) if down else Point(low.x + distance, low.y)

    groups = [list(group) for _, group in groupby(run.glyphs, key=lambda g: g.branch.id)]
    lengths = [2 * sum(glyph.half for glyph in group) for group in groups]
    start, spare = _spread(length, pads, lengths, middle)
    here, junction = 0.0, 0
    for group in groups:
        for glyph in group:
            centre = along(start + glyph.half)
            start += 2 * glyph.half
            if glyph.is_arrow:
                _put_arrow(glyph, centre, sheet)
                continue
            first, last = _put_glyph(glyph, centre, ends, run, sheet)
            sheet.wire(run.junctions[junction], along(here), along(_gone(first, low)))
            remember(run.junctions[junction], along((here + _gone(first, low)) / 2), sheet)
            here = _gone(last, low)
            junction += 1
        start += spare
    sheet.wire(run.junctions[-1], along(here), high)
    remember(run.junctions[-1], along((here + length) / 2), sheet)


def _spread(
    length: float, pads: tuple[float, float], lengths: list[float], middle: float | None
) -> tuple[float, float]:
    """Where the first element of a piece begins, and what lies free between two of them."""
    spare = (length - sum(pads) - sum(lengths)) / max(1, len(lengths))
    if len(lengths) != 1:
        return pads[0] + spare / 2, spare
    # In the middle of its wire if texts of others leave it free.
    wanted = (length / 2 if middle is None else middle) - lengths[0] / 2
    return min(max(wanted, pads[0]), length - pads[1] - lengths[0]), spare


def _gone(point: Point, start: Point) -> float:
    return point.x - start.x + point.y - start.y


def remember(junction: str, at: Point, sheet: Sheet) -> None:
    """Keep where a junction lies, unless it is known already."""
    sheet.places.setdefault(junction, at)


def _put_arrow(glyph: Glyph, at: Point, sheet: Sheet) -> None:
    sheet.heads.append(Head(glyph.branch.id, at, glyph.turn))
    sheet.arrow_lines.setdefault(glyph.branch.id, []).extend(
        shifted(line, at) for line in glyph.lines
    )


def _put_glyph(
    glyph: Glyph, at: Point, ends: tuple[Point, Point], run: Run, sheet: Sheet
) -> tuple[Point, Point]:
    """Put down a symbol; where its wires end."""
    if glyph.branch.kind in _OPEN:
        return _put_open(glyph, ends, run, sheet)
    body = moved(glyph.body, at)
    lines = tuple(shifted(line, at) for line in glyph.lines)
    branch = glyph.branch
    sheet.components.append(
        Component(branch.id, glyph.stamp, at, glyph.turn, lines, body, branch.marked,
                  branch.kind in SOURCES)
    )  # fmt: skip
    if branch.marked:
        sheet.frames.append(grown(around(body, *(line.box for line in lines)), FRAME_PAD))
    half = stamp(glyph.stamp).half_length
    if run.straight.down:
        return Point(at.x, at.y - half), Point(at.x, at.y + half)
    return Point(at.x - half, at.y), Point(at.x + half, at.y)


def _put_open(
    glyph: Glyph, ends: tuple[Point, Point], run: Run, sheet: Sheet
) -> tuple[Point, Point]:
    """Put down open terminals, with their signs."""
    down, kind = run.straight.down, glyph.branch.kind
    plus, minus = ("+", "−") if run.junctions[0] == glyph.branch.between[0] else ("−", "+")
    low, high = ends
    if kind == PORT:
        _terminal(plus, run.junctions[0], low, down, sheet)
        _terminal(minus, run.junctions[-1], high, down, sheet)
        return low, high
    at_high = run.junctions[-1] == kind
    start, way = (low, 1) if at_high else (high, -1)
    far = way * (STUB_LENGTH - TERMINAL_RADIUS)
    at = Point(start.x, start.y + far) if down else Point(start.x + far, start.y)
    _terminal("+" if kind == STUB_PLUS else "−", glyph.branch.between[0], at, down, sheet)
    back = -way * TERMINAL_RADIUS
    edge = Point(at.x, at.y + back) if down else Point(at.x + back, at.y)
    return (edge, high) if at_high else (low, edge)


def _terminal(text: str, junction: str, at: Point, down: bool, sheet: Sheet) -> None:
    sheet.terminals.append(Terminal(junction, at))
    line = terminal_sign(text, at, down)
    sheet.components.append(Component("", "", at, "down", (line,), Box(*at, *at)))
