"""From the grid to a sheet: every piece of the figure in its place."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from itertools import pairwise

from builder.figure.network.course import Cell, Course
from builder.figure.network.metric import Metric, end_pads, strips_of
from builder.figure.network.pieces import Sheet, put_run, remember
from builder.figure.network.runs import Run, Straight
from builder.figure.scene import HOP_RADIUS, Dot, Hop, Point

Place = Callable[[Cell], Point]


def put_down(
    course: Course, runs: list[Run], metric: Metric, named: frozenset[str] = frozenset()
) -> Sheet:
    """Every piece of the grid in its place.

    Args:
        course: the figure on the grid.
        runs: its straight pieces with what stands on them.
        metric: the places of columns and rows.
        named: junctions that get a dot though only two wires meet there.
    """

    def at(cell: Cell) -> Point:
        return Point(metric.x[cell[0]], metric.y[cell[1]])

    sheet = Sheet()
    for junction, cell in course.spots.items():
        sheet.places[junction] = at(cell)
    across, down = strips_of(course, runs)
    crossed = frozenset(cell for route in course.routes for cell in route.crossed)
    _remember_corners(runs, crossed, at, sheet)
    pads = [end_pads(run, down, across) for run in runs]
    middles = _middles(runs, pads, at)
    for run, pad in zip(runs, pads, strict=True):
        low, high = at(run.straight.low), at(run.straight.high)
        if not run.straight.down:
            low, high = _hop(run, low, high, crossed, sheet)
        put_run(run, (low, high), pad, middles.get(run.straight), sheet)
    for rail in course.rails:
        for start, end in pairwise(rail.cells):
            sheet.wire(rail.junction, at(start), at(end))
    _dots(course, runs, at, sheet)
    dotted = {dot.junction for dot in sheet.dots}
    for junction in sorted((named & set(sheet.places)) - dotted):
        sheet.dots.append(Dot(junction, sheet.places[junction]))
    return sheet


def _middles(runs: list[Run], pads: list[tuple[float, float]], at: Place) -> dict[Straight, float]:
    """One height for single elements that stand side by side between the same two rows."""
    rungs: dict[tuple[int, int], list[tuple[Straight, float, float]]] = {}
    for run, (before, after) in zip(runs, pads, strict=True):
        straight = run.straight
        if not straight.down or len({glyph.branch.id for glyph in run.glyphs}) != 1:
            continue
        length = at(straight.high).y - at(straight.low).y
        half = sum(glyph.half for glyph in run.glyphs)
        rows = (straight.low[1], straight.high[1])
        rungs.setdefault(rows, []).append((straight, before + half, length - after - half))
    middles: dict[Straight, float] = {}
    for beside in rungs.values():
        length = at(beside[0][0].high).y - at(beside[0][0].low).y
        least = max(low for _, low, _ in beside)
        most = min(high for _, _, high in beside)
        if least <= most:
            middles |= {s: min(max(length / 2, least), most) for s, _, _ in beside}
    return middles


def _remember_corners(runs: list[Run], crossed: frozenset[Cell], at: Place, sheet: Sheet) -> None:
    """A junction between two elements lies in the corner of their wire if it has one."""
    for run in runs:
        for junction, cell in (
            (run.junctions[0], run.straight.low),
            (run.junctions[-1], run.straight.high),
        ):
            if cell not in crossed:
                remember(junction, at(cell), sheet)


def _hop(
    run: Run, low: Point, high: Point, crossed: frozenset[Cell], sheet: Sheet
) -> tuple[Point, Point]:
    """The ends of a piece that lies across, without the hops that it makes there."""
    if run.straight.low in crossed:
        low = Point(low.x + HOP_RADIUS, low.y)
    if run.straight.high in crossed:
        sheet.hops.append(Hop(run.junctions[-1], high))
        high = Point(high.x - HOP_RADIUS, high.y)
    return low, high


def _dots(course: Course, runs: list[Run], at: Place, sheet: Sheet) -> None:
    """A dot wherever three wires of a junction or more meet."""
    meeting: Counter[tuple[str, Cell]] = Counter()
    for run in runs:
        meeting[run.junctions[0], run.straight.low] += 1
        meeting[run.junctions[-1], run.straight.high] += 1
    for rail in course.rails:
        for start, end in pairwise(rail.cells):
            meeting[rail.junction, start] += 1
            meeting[rail.junction, end] += 1
    for (junction, cell), count in meeting.items():
        if count > 2:
            sheet.dots.append(Dot(junction, at(cell)))
