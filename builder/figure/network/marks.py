"""Names of junctions, the ground symbol and loop arrows: put where the figure leaves room."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple

from builder.figure.lettering import Runs, letter
from builder.figure.network.course import Cell, Course
from builder.figure.network.glyphs import grown
from builder.figure.network.loops import curl_box, loop_cells, place_curl
from builder.figure.network.metric import Demand, Metric
from builder.figure.network.pieces import Sheet
from builder.figure.network.request import NetworkDrawing
from builder.figure.network.room import STROKE, is_free, wire_box
from builder.figure.network.room import taken as taken_room
from builder.figure.request import Label
from builder.figure.scene import (
    CURL_RADIUS,
    DOT_ROOM,
    NAME_SIZE,
    Box,
    Curl,
    Ground,
    JunctionName,
    Point,
    Run,
    TextLine,
    Wire,
)
from builder.figure.symbols import stamp
from builder.figure.text_size import ASCENT, LINE, line_width
from builder.quantity.names import Symbol

_CLOSE, _STEP, _ASIDE = 3.0, 6.0, 24.0
_GROUND_ROOM, _NAME_ROOM = 46.0, 26.0


class _Earth(NamedTuple):
    """The ground symbol, and the wire that leads to it if it stands aside."""

    ground: Ground
    wires: tuple[Wire, ...]


@dataclass(frozen=True)
class Marks:
    """What was put into the free room of a figure.

    Attributes:
        names: names of junctions.
        grounds: the ground symbol.
        wires: what leads to it.
        curls: loop arrows.
        columns: demands on columns, for what found no room.
        rows: demands on rows, for what found no room.
    """

    names: tuple[JunctionName, ...]
    grounds: tuple[Ground, ...]
    curls: tuple[Curl, ...]
    wires: tuple[Wire, ...] = ()
    columns: tuple[Demand, ...] = ()
    rows: tuple[Demand, ...] = ()

    @property
    def boxes(self) -> Iterator[Box]:
        """The room of each mark."""
        yield from (name.line.box for name in self.names)
        yield from (_ground_box(ground.at) for ground in self.grounds)
        yield from (curl_box(curl.centre) for curl in self.curls)


def put_marks(drawing: NetworkDrawing, course: Course, metric: Metric, sheet: Sheet) -> Marks:
    """Find room for all marks of a figure.

    Args:
        drawing: what is asked for.
        course: the figure on its grid.
        metric: the places of columns and rows.
        sheet: what has been put down.
    """
    room = _Room(drawing, course, metric, sheet, list(taken_room(sheet)))
    earth = room.earth()
    curls = room.curls()
    names = room.names()
    return Marks(
        names,
        () if earth is None else (earth.ground,),
        curls,
        () if earth is None else earth.wires,
        tuple(room.columns),
        tuple(room.rows),
    )


@dataclass
class _Room:
    """The free room of a figure while marks are put into it, and what more is needed."""

    drawing: NetworkDrawing
    course: Course
    metric: Metric
    sheet: Sheet
    taken: list[Box]
    columns: list[Demand] = field(default_factory=list)
    rows: list[Demand] = field(default_factory=list)

    def earth(self) -> _Earth | None:
        """The ground symbol, if one is asked for."""
        junction = self.drawing.grounded
        if junction is None:
            return None
        earth = _ground(junction, self.sheet, self.taken)
        if earth is None:
            column, row = _cell(junction, self.course, self.metric, self.sheet)
            self.columns += _beside(column, self.metric.x, _GROUND_ROOM)
            self.rows += _beside(row, self.metric.y, _GROUND_ROOM)
        else:
            self.taken.append(_ground_box(earth.ground.at))
            self.taken += map(wire_box, earth.wires)
        return earth

    def curls(self) -> tuple[Curl, ...]:
        """The loop arrows."""
        curls: list[Curl] = []
        for loop in self.drawing.loops:
            cells = loop_cells(loop, self.drawing, self.course)
            curl = place_curl(loop, [_at(cell, self.metric) for cell in cells], self.taken)
            if curl is not None:
                curls.append(curl)
                self.taken.append(curl_box(curl.centre))
            elif cells:
                self.columns.append(_wider([column for column, _ in cells], self.metric.x))
                self.rows.append(_wider([row for _, row in cells], self.metric.y))
        return tuple(curls)

    def names(self) -> tuple[JunctionName, ...]:
        """The names of junctions, with their potentials."""
        names: list[JunctionName] = []
        for junction, name in self.drawing.junction_names.items():
            if junction not in self.sheet.places:
                continue
            runs = _runs(name) + _level(junction, self.drawing)
            placed = _name(junction, runs, self.sheet, self.taken)
            if placed is not None:
                names.append(placed)
                self.taken.append(placed.line.box)
                continue
            column, row = _cell(junction, self.course, self.metric, self.sheet)
            width = line_width(runs) * NAME_SIZE + _NAME_ROOM
            self.columns += _beside(column, self.metric.x, width)
            self.rows += _beside(row, self.metric.y, _NAME_ROOM)
        return tuple(names)


def _at(cell: Cell, metric: Metric) -> Point:
    return Point(metric.x[cell[0]], metric.y[cell[1]])


def _cell(junction: str, course: Course, metric: Metric, sheet: Sheet) -> Cell:
    """The column and the row next to which a junction lies."""
    if junction in course.spots:
        return course.spots[junction]
    at = sheet.places[junction]
    column = max(n for n, x in enumerate(metric.x) if x <= at.x + STROKE)
    return column, max(n for n, y in enumerate(metric.y) if y <= at.y + STROKE)


def _beside(line: int, places: tuple[float, ...], more: float) -> Iterator[Demand]:
    if line + 1 < len(places):
        yield line, line + 1, places[line + 1] - places[line] + more
    elif line:
        yield line - 1, line, places[line] - places[line - 1] + more


def _wider(lines: list[int], places: tuple[float, ...]) -> Demand:
    first, last = min(lines), max(lines)
    return first, last, places[last] - places[first] + CURL_RADIUS


def _along(junction: str, sheet: Sheet) -> Iterator[Point]:
    """Points of a junction: where it was put, then its dots and wires, near ones first."""
    spot = sheet.places[junction]
    points = [dot.at for dot in sheet.dots if dot.junction == junction]
    for wire in sheet.wires:
        if wire.junction == junction:
            points += _on_wire(wire)
    yield spot
    yield from sorted(points, key=lambda at: (math.dist(at, spot), at))


def _on_wire(wire: Wire) -> Iterator[Point]:
    across, down = wire.end.x - wire.start.x, wire.end.y - wire.start.y
    steps = max(1, int((abs(across) + abs(down)) / _STEP))
    for step in range(steps + 1):
        yield Point(wire.start.x + across * step / steps, wire.start.y + down * step / steps)


def _runs(name: Symbol | str) -> Runs:
    return (Run(name),) if isinstance(name, str) else letter(Label(name)).name


def _level(junction: str, drawing: NetworkDrawing) -> Runs:
    """The potential of a junction after its name."""
    if junction not in drawing.levels:
        return ()
    return (Run(": "), *letter(Label(Symbol(""), (drawing.levels[junction],))).own)


def _name(junction: str, runs: Runs, sheet: Sheet, taken: list[Box]) -> JunctionName | None:
    """The name at the first free place: above left of its junction, and so on round it."""
    width, height = line_width(runs) * NAME_SIZE, LINE * NAME_SIZE
    near, far = _CLOSE + STROKE + 0.5, _CLOSE + DOT_ROOM + 0.5
    for at in _along(junction, sheet):
        for across in (-1, 1, 0):
            for down in (-1, 1, 0):
                gap = far if across == 0 or down == 0 else near
                left = at.x - width / 2 + across * (width / 2 + gap)
                top = at.y - height / 2 + down * (height / 2 + gap)
                box = Box(left, top, left + width, top + height)
                room = grown(box, _CLOSE)
                if (across or down) and is_free(room, taken):
                    baseline = Point(left + width / 2, top + ASCENT * NAME_SIZE)
                    return JunctionName(junction, TextLine(baseline, "middle", runs, box))
    return None


def _ground_box(at: Point) -> Box:
    shape = stamp("ground")
    return Box(
        at.x - shape.half_height - _CLOSE,
        at.y + 2 * STROKE,
        at.x + shape.half_height + _CLOSE,
        at.y + shape.half_length + _CLOSE,
    )


def _ground(junction: str, sheet: Sheet, taken: list[Box]) -> _Earth | None:
    """The ground symbol below the lowest free point of its junction, else on a wire aside."""
    spot = sheet.places[junction]
    points = sorted(
        dict.fromkeys(_along(junction, sheet)), key=lambda at: (-at.y, abs(at.x - spot.x), at.x)
    )
    for aside in (0.0, _ASIDE, -_ASIDE):
        for at in points:
            end = Point(at.x + aside, at.y)
            low, high = min(at.x, end.x), max(at.x, end.x)
            bridge = Box(low + 2 * STROKE, at.y - STROKE, high - 2 * STROKE, at.y + STROKE)
            if is_free(_ground_box(end), taken) and (not aside or is_free(bridge, taken)):
                wires = (Wire(junction, at, end),) if aside else ()
                return _Earth(Ground(junction, end), wires)
    return None
