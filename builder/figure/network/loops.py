"""Loop arrows: which loop is meant, which way it turns on paper, and where there is room."""

from __future__ import annotations

import math
from itertools import pairwise

from builder.figure.lettering import letter
from builder.figure.network.course import Cell, Course, Route
from builder.figure.network.request import Branch, LoopArrow, NetworkDrawing
from builder.figure.network.room import is_free, round_box
from builder.figure.request import Label
from builder.figure.scene import CURL_RADIUS, HEAD_WIDTH, Box, Curl, Point, TextLine
from builder.figure.text_size import ASCENT, LINE, line_width

_CLOSE, _STEP = 4.0, 6.0


def loop_cells(loop: LoopArrow, drawing: NetworkDrawing, course: Course) -> list[Cell]:
    """The cells round a loop, in the order in which its junctions are listed.

    Raises:
        ValueError: if two junctions that follow each other are joined by no branch.
    """
    branches = {branch.id: branch for branch in drawing.branches}
    route_of = {link.branch.id: r for r in course.routes for link in r.chain.links}
    stops = [*loop.junctions, next(j for j in loop.junctions if j not in branches)]
    named, passed = "", []
    for here, there in pairwise(stops):
        if there in branches:
            named = there
            continue
        start = stops[stops.index(named) - 1] if named else here
        passed.append((branches[named] if named else _joining(start, there, drawing), start))
        named = ""
    cells: list[Cell] = []
    seen: list[Route] = []
    for branch, start in passed:
        route = route_of[branch.id]
        if route in seen:
            continue
        seen.append(route)
        forward = any(link.branch is branch and link.ends[0] == start for link in route.chain.links)
        cells += route.cells if forward else route.cells[::-1]
    return cells


def _joining(start: str, end: str, drawing: NetworkDrawing) -> Branch:
    for branch in drawing.branches:
        if frozenset(branch.between) == frozenset((start, end)):
            return branch
    raise ValueError(f"a loop runs from {start} to {end}, but no branch joins them")


def curl_box(centre: Point) -> Box:
    """The room of a loop arrow."""
    return round_box(centre, CURL_RADIUS + HEAD_WIDTH / 2 + _CLOSE)


def place_curl(loop: LoopArrow, polygon: list[Point], taken: list[Box]) -> Curl | None:
    """A loop arrow at the free place that is nearest to the middle of its loop."""
    if not polygon:
        return None
    left, right = min(p.x for p in polygon), max(p.x for p in polygon)
    top, bottom = min(p.y for p in polygon), max(p.y for p in polygon)
    middle = Point((left + right) / 2, (top + bottom) / 2)
    places = [
        Point(middle.x + _STEP * column, middle.y + _STEP * row)
        for column in range(-int((right - left) / 2 / _STEP), int((right - left) / 2 / _STEP) + 1)
        for row in range(-int((bottom - top) / 2 / _STEP), int((bottom - top) / 2 / _STEP) + 1)
    ]
    places.sort(key=lambda p: math.hypot(p.x - middle.x, p.y - middle.y))
    for place in places:
        if _inside(place, polygon) and is_free(curl_box(place), taken):
            clockwise = (_area(polygon) > 0) == loop.clockwise_as_listed
            runs = letter(Label(loop.name)).name
            half = line_width(runs) / 2
            box = Box(place.x - half, place.y - LINE / 2, place.x + half, place.y + LINE / 2)
            baseline = Point(place.x, place.y - LINE / 2 + ASCENT)
            return Curl(place, clockwise, TextLine(baseline, "middle", runs, box))
    return None


def _area(polygon: list[Point]) -> float:
    """Twice the area, positive if the points run clockwise on paper."""
    closed = [*polygon, polygon[0]]
    return sum(a.x * b.y - b.x * a.y for a, b in pairwise(closed))


def _inside(at: Point, polygon: list[Point]) -> bool:
    closed, inside = [*polygon, polygon[0]], False
    for a, b in pairwise(closed):
        if (a.y > at.y) != (b.y > at.y):
            x = a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x)
            inside ^= at.x < x
    return inside
