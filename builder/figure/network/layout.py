"""From a network to a scene."""

from __future__ import annotations

from builder.figure.network.choosing import choose_course
from builder.figure.network.course import Cell, Course, RailRun, Route
from builder.figure.network.draughting import put_down
from builder.figure.network.embedding import is_planar
from builder.figure.network.marks import Marks, put_marks
from builder.figure.network.metric import Demand, measure
from builder.figure.network.pieces import Sheet
from builder.figure.network.placing import course_by_place
from builder.figure.network.request import Branch, NetworkDrawing
from builder.figure.network.runs import runs_of
from builder.figure.network.sharing import share
from builder.figure.network.skeleton import (
    STUB_MINUS,
    STUB_PLUS,
    connected_parts,
    skeleton,
    with_terminals,
)
from builder.figure.scene import TERMINAL_RADIUS, Box, Component, Dot, Point, Scene
from builder.figure.text_size import LINE

MARGIN = 8.0
_TRIES = 6


def lay_out_network(drawing: NetworkDrawing) -> Scene:
    """Every piece of a network's figure in its place."""
    return _scene(drawing)[0]


def places_of(drawing: NetworkDrawing) -> dict[str, tuple[float, float]]:
    """Where the figure has its junctions, as the next figure may have them for a ``hint``."""
    _, places = _scene(drawing)
    return {junction: (point.x, point.y) for junction, point in places.items()}


def _scene(drawing: NetworkDrawing) -> tuple[Scene, dict[str, Point]]:
    course = _course(drawing)
    shared = share(course, drawing.symbols, drawing.hint)
    runs = runs_of(course, shared, drawing.symbols, False)
    columns: list[Demand] = []
    rows: list[Demand] = []
    for _ in range(_TRIES):
        metric = measure(course, runs, columns, rows)
        sheet = put_down(course, runs, metric, frozenset(drawing.junction_names))
        marks = put_marks(drawing, course, metric, sheet)
        if not (marks.columns or marks.rows):
            break
        columns += marks.columns
        rows += marks.rows
    components = tuple(_with_arrow_text(c, sheet) for c in sheet.components)
    scene = Scene(
        _room(sheet, components, marks),
        (*sheet.wires, *marks.wires),
        (*sheet.dots, *_dots(sheet, marks)),
        tuple(sheet.terminals),
        components,
        tuple(sheet.frames),
        tuple(sheet.hops),
        tuple(sheet.heads),
        marks.grounds,
        marks.curls,
        marks.names,
        _looks(drawing),
    )
    junctions = {junction for branch in drawing.branches for junction in branch.between}
    return scene, {j: at for j, at in sheet.places.items() if j in junctions}


def _dots(sheet: Sheet, marks: Marks) -> list[Dot]:
    """The dots where wires of the ground symbol leave other wires midway."""
    ends = {point for wire in sheet.wires for point in (wire.start, wire.end)}
    return [Dot(w.junction, w.start) for w in marks.wires if w.start not in ends]


def _course(drawing: NetworkDrawing) -> Course:
    """The parts of the network side by side."""
    routes: list[Route] = []
    rails: list[RailRun] = []
    spots: dict[str, Cell] = {}
    column = 0
    for part in connected_parts(_branches(drawing)):
        course = _part_course(part, drawing).shifted(column)
        routes += course.routes
        rails += course.rails
        spots |= course.spots
        column = course.columns + 2
    return Course(tuple(routes), tuple(rails), spots)


def _part_course(part: tuple[Branch, ...], drawing: NetworkDrawing) -> Course:
    """The way of one part: by the author's places if they can be kept."""
    met = {junction for branch in part for junction in branch.between}
    placed = frozenset(met & set(drawing.place))
    stubbed = any(branch.kind in (STUB_PLUS, STUB_MINUS) for branch in part)
    ends = frozenset(drawing.terminals or ()) & met if stubbed else frozenset()
    if len(placed) > 1:
        course = course_by_place(skeleton(part, placed | ends), drawing.place)
        if course is not None:
            return course
    return choose_course(skeleton(part, ends), drawing.hint)


def _branches(drawing: NetworkDrawing) -> tuple[Branch, ...]:
    """The branches with the terminals: one above the other at the left, or on short wires.

    Short wires serve where an author has placed junctions, where nothing joins the terminals, and
    where leading both to the left would cross something.
    """
    if drawing.terminals is None:
        return drawing.branches
    closed = any(
        set(drawing.terminals) <= {junction for branch in part for junction in branch.between}
        for part in connected_parts(drawing.branches)
    )
    port, stubs = (with_terminals(drawing, as_port=as_port) for as_port in (True, False))
    placed = len(drawing.place) > 1
    if placed or not closed or (_is_planar(stubs) and not _is_planar(port)):
        return stubs
    return port


def _is_planar(branches: tuple[Branch, ...]) -> bool:
    return all(is_planar(skeleton(part)) for part in connected_parts(branches))


def _with_arrow_text(component: Component, sheet: Sheet) -> Component:
    lines = sheet.arrow_lines.get(component.id)
    if not lines:
        return component
    return Component(
        component.id, component.stamp, component.at, component.turn,
        (*component.lines, *lines), component.body, component.marked, component.source,
    )  # fmt: skip


def _looks(drawing: NetworkDrawing) -> dict[str, str]:
    return {
        junction: look
        for look, joined in zip("ab", drawing.joined, strict=False)
        for junction in sorted(joined)
    }


def _room(sheet: Sheet, components: tuple[Component, ...], marks: Marks) -> Box:
    boxes = [line.box for component in components for line in component.lines]
    boxes += [component.body for component in components]
    boxes += [*sheet.frames, *marks.boxes]
    points = [point for wire in sheet.wires for point in (wire.start, wire.end)]
    points += [terminal.at for terminal in sheet.terminals]
    boxes += [Box(p.x, p.y, p.x, p.y) for p in points]
    boxes += [
        Box(t.at.x - TERMINAL_RADIUS, t.at.y - LINE / 2, t.at.x + TERMINAL_RADIUS, t.at.y)
        for t in sheet.terminals
    ]
    return Box(
        min(box.left for box in boxes) - MARGIN / 2,
        min(box.top for box in boxes) - MARGIN,
        max(box.right for box in boxes) + MARGIN,
        max(box.bottom for box in boxes) + MARGIN,
    )
