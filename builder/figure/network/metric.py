"""How wide columns and rows must be so that nothing touches.

Each straight piece needs a length for its symbols and room on both sides for their texts. Pieces
that see each other across a face must keep both their rooms apart. The longest way through these
demands gives the least places from one side, and from the other; the middle between both is taken,
which meets every demand as well and puts things in the middle of what is free.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from builder.figure.network.course import Course, RailRun
from builder.figure.network.runs import Run
from builder.figure.network.skeleton import PORT

NEAR, SEP, APART = 12.0, 10.0, 18.0
PAD = 2.0
_EVEN, _NEARLY = 1.25, 1.08
PHONE = 396.0


@dataclass(frozen=True, slots=True)
class Strip:
    """A straight piece as an obstacle in one direction.

    Attributes:
        line: its column (or row).
        first: the first row (or column) that it reaches.
        last: the last one.
        low: the room that it needs on its left (or above).
        high: the room that it needs on its right (or below).
    """

    line: int
    first: float
    last: float
    low: float
    high: float


@dataclass(frozen=True)
class Metric:
    """Places of columns and rows, in user units."""

    x: tuple[float, ...]
    y: tuple[float, ...]

    @property
    def size(self) -> float:
        """What a figure costs: narrow ones are worth more."""
        width, height = self.x[-1], self.y[-1]
        return width + height + 3 * max(0.0, width - PHONE)


Demand = tuple[int, int, float]
"""Two lines, and how far the second must lie behind the first."""


def measure(course: Course, runs: list[Run], extra: Iterable[Demand] = (),
            extra_rows: Iterable[Demand] = ()) -> Metric:  # fmt: skip
    """The places of columns and rows.

    Args:
        course: the figure on the grid.
        runs: its straight pieces with what stands on them.
        extra: further demands on columns.
        extra_rows: further demands on rows.
    """
    across, down = _strips(course.rails, runs)
    columns = [*_apart(down), *_lengths(runs, False, across, down), *extra]
    rows = [*_apart(across), *_lengths(runs, True, down, across), *_beyond(runs, across, down)]
    rows += extra_rows
    return Metric(_placed(course.columns, columns, PHONE), _placed(course.rows, rows, float("inf")))


def _strips(rails: tuple[RailRun, ...], runs: list[Run]) -> tuple[list[Strip], list[Strip]]:
    """The pieces that lie across, and those that stand upright, with all their ends."""
    across: list[Strip] = []
    down: list[Strip] = []
    for run in runs:
        (c1, r1), (c2, r2) = run.straight.low, run.straight.high
        if run.straight.down:
            low = max([0.0, *(-glyph.box.left for glyph in run.glyphs)])
            high = max([0.0, *(glyph.box.right for glyph in run.glyphs)])
            # The signs of open terminals reach a little beyond the ends of their piece.
            beyond = 0.5 if any(glyph.branch.kind == PORT for glyph in run.glyphs) else 0.0
            down.append(Strip(c1, r1 - beyond, r2 + beyond, low, high))
        else:
            low = max([0.0, *(-glyph.box.top for glyph in run.glyphs)])
            high = max([0.0, *(glyph.box.bottom for glyph in run.glyphs)])
            across.append(Strip(r1, c1, c2, low, high))
    for rail in rails:
        for (c1, r1), (c2, r2) in pairwise(rail.cells):
            if c1 == c2:
                down.append(Strip(c1, min(r1, r2), max(r1, r2), 0.0, 0.0))
            else:
                across.append(Strip(r1, min(c1, c2), max(c1, c2), 0.0, 0.0))
    # An end of an upright piece is a point for rows, and the other way round.
    pieces = [(run.straight.low, run.straight.high) for run in runs]
    pieces += [piece for rail in rails for piece in pairwise(rail.cells)]
    points_across = {cell for a, b in pieces if a[0] == b[0] for cell in (a, b)}
    points_down = {cell for a, b in pieces if a[0] != b[0] for cell in (a, b)}
    across += [Strip(row, column, column, 0.0, 0.0) for column, row in sorted(points_across)]
    down += [Strip(column, row, row, 0.0, 0.0) for column, row in sorted(points_down)]
    return across, down


def _apart(strips: list[Strip]) -> list[Demand]:
    """How far pieces that see each other must lie apart."""
    demands: list[Demand] = []
    ordered = sorted(strips, key=lambda strip: strip.line)
    for position, one in enumerate(ordered):
        for other in ordered[position + 1 :]:
            if other.line == one.line:
                continue
            first, last = max(one.first, other.first), min(one.last, other.last)
            if first > last:
                continue
            if first < last or _inside(first, one) or _inside(first, other):
                room = one.high + other.low
                demands.append((one.line, other.line, room + (SEP if room else APART)))
            else:
                demands.append((one.line, other.line, NEAR))
    return demands


def _inside(place: float, strip: Strip) -> bool:
    return strip.first < place < strip.last


def _lengths(runs: list[Run], down: bool, along: list[Strip], across: list[Strip]) -> list[Demand]:
    """How long pieces must be for what stands on them.

    Args:
        runs: all pieces.
        down: whether upright ones are asked for.
        along: the strips in the same direction.
        across: the strips in the other direction, whose texts reach into their ends.
    """
    demands: list[Demand] = []
    for run in runs:
        if run.straight.down != down or not run.glyphs:
            continue
        before, after = end_pads(run, along, across)
        length = sum(2 * glyph.half for glyph in run.glyphs)
        low, high = run.straight.low, run.straight.high
        first, last = (low[1], high[1]) if down else (low[0], high[0])
        demands.append((first, last, before + length + after))
    return demands


def end_pads(run: Run, along: list[Strip], across: list[Strip]) -> tuple[float, float]:
    """What must stay free at both ends of an upright piece, for texts of pieces across there."""
    if not run.straight.down:
        return PAD, PAD
    top, bottom = run.straight.low[1], run.straight.high[1]
    left, right = _sight(run, along)
    before = after = 0.0
    for strip in across:
        if strip.first < right and strip.last > left and strip.first < strip.last:
            if strip.line == top:
                before = max(before, strip.high)
            elif strip.line == bottom:
                after = max(after, strip.low)
    return before + PAD, after + PAD


def _sight(run: Run, along: list[Strip]) -> tuple[int, int]:
    """The next columns on both sides with anything beside an upright piece."""
    (column, top), (_, bottom) = run.straight.low, run.straight.high
    seen = [s.line for s in along if s.first < bottom and s.last > top]
    return (
        max([line for line in seen if line < column], default=-1),
        min([line for line in seen if line > column], default=1 << 30),
    )


def _beyond(runs: list[Run], across: list[Strip], down: list[Strip]) -> list[Demand]:
    """Texts of pieces across end before rows where texts beside upright pieces may start."""
    demands: list[Demand] = []
    rooms = [strip for strip in across if strip.low or strip.high]
    for run in runs:
        if not (run.straight.down and run.glyphs):
            continue
        top, bottom = run.straight.low[1], run.straight.high[1]
        left, right = _sight(run, down)
        for strip in rooms:
            if strip.first < right and strip.last > left:
                if strip.line < top:
                    demands.append((strip.line, top, strip.high + PAD))
                elif strip.line > bottom:
                    demands.append((bottom, strip.line, strip.low + PAD))
    return demands


def strips_of(course: Course, runs: list[Run]) -> tuple[list[Strip], list[Strip]]:
    """The pieces that lie across and those that stand upright, as ``end_pads`` takes them."""
    return _strips(course.rails, runs)


def _placed(count: int, demands: list[Demand], limit: float) -> tuple[float, ...]:
    """Places that meet all demands."""
    demands = [*demands, *((n, n + 1, NEAR) for n in range(count - 1))]
    ordered = sorted(demands)
    early = [0.0] * count
    for first, second, gap in ordered:
        early[second] = max(early[second], early[first] + gap)
    late = [early[-1]] * count
    for first, second, gap in reversed(ordered):
        late[first] = min(late[first], late[second] - gap)
    middle = [(a + b) / 2 for a, b in zip(early, late, strict=True)]
    middle = [place - middle[0] for place in middle]
    even = _even(count, demands)
    most = max(min(_EVEN * middle[-1], limit), _NEARLY * middle[-1])
    if even * (count - 1) <= most:
        return tuple(even * n for n in range(count))
    return tuple(middle)


def _even(count: int, demands: list[Demand]) -> float:
    """The least distance between neighbours that are all as far apart."""
    if count < 2:
        return 0.0
    return max(gap / (second - first) for first, second, gap in demands)
