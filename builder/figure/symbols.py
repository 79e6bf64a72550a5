"""The graphic symbols, drawn once each by schemdraw and kept as plain geometry."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any, NamedTuple
from xml.etree import ElementTree

import schemdraw
import schemdraw.drawing_stack
import schemdraw.elements
import schemdraw.schemdraw

from builder.figure.scene import Point

_STYLE: dict[str, Any] = schemdraw.schemdraw.schemdrawstyle
_OPEN_DRAWINGS: dict[Any, Any] = schemdraw.drawing_stack.drawing_stack
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e-?\d+)?")
_SVG = "{http://www.w3.org/2000/svg}"


class _Kind(NamedTuple):
    """How a symbol is had from schemdraw: its class and how far it is stretched."""

    element: str
    along: float
    across: float
    backwards: bool = False


_KINDS = {
    "capacitor": _Kind("Capacitor", 1.25, 1.35),
    "resistor-iec": _Kind("ResistorIEC", 1.1, 0.76),
    "resistor-ieee": _Kind("ResistorIEEE", 1.1, 0.76),
    "battery": _Kind("Battery", 1.0, 1.0),
    "current-source": _Kind("SourceI", 0.9, 0.9, backwards=True),
    "switch-open": _Kind("Switch", 1.0, 1.0),
    "ammeter": _Kind("MeterA", 0.75, 0.75),
    "voltmeter": _Kind("MeterV", 0.75, 0.75),
}
_CONTACT, _OPENING = 2.5, 12.0


class Path(NamedTuple):
    """A line through points, from the body's centre; filled ones are closed."""

    points: tuple[Point, ...]
    filled: bool


class Circle(NamedTuple):
    """A circle round the body's centre or near it."""

    centre: Point
    radius: float


class Stamp(NamedTuple):
    """The body of a symbol without its leads, its + end to the left, centred on (0, 0).

    Attributes:
        half_length: from the centre to where the leads start.
        half_height: from the centre to the farthest stroke above or below.
        paths: its lines.
        circles: its circles.
    """

    half_length: float
    half_height: float
    paths: tuple[Path, ...]
    circles: tuple[Circle, ...]


def stamp_kind(element: str, symbols: str) -> str:
    """The stamp that ``element`` (``capacitor``, ``resistor`` …) has in a symbol set."""
    return f"resistor-{symbols}" if element == "resistor" else element


@lru_cache
def stamp(kind: str) -> Stamp:
    """The geometry of a symbol.

    Args:
        kind: ``capacitor``, ``resistor-iec``, ``resistor-ieee``, ``battery``,
            ``current-source``, ``switch-open``, ``switch-closed``, ``ammeter`` or
            ``voltmeter`` (a meter without its letter), ``gap`` (two open contacts),
            ``wire`` (a plain line) or ``ground`` (hanging down from (0, 0)).

    Raises:
        KeyError: for any other kind.
    """
    if kind in _MADE:
        return _MADE[kind]()
    chosen = _KINDS[kind]
    lines, circles = _read(_drawn_by_schemdraw(chosen.element))
    end = max(p.x for line, _ in lines for p in line)
    kept = [(line, filled) for line, filled in _without_leads(lines, end) if len(line) > 1]
    sign = -1.0 if chosen.backwards else 1.0

    def place(p: Point) -> Point:
        return Point(round(sign * (p.x - end / 2) * chosen.along, 2), round(p.y * chosen.across, 2))

    paths = tuple(Path(tuple(map(place, line)), filled) for line, filled in kept)
    rings = tuple(Circle(place(c.centre), round(c.radius * chosen.along, 2)) for c in circles)
    ends = [abs(ring.centre.x) + ring.radius for ring in rings]
    length = max([abs(p.x) for path in paths for p in path.points] + ends)
    height = max([abs(p.y) for path in paths for p in path.points] + [r.radius for r in rings])
    return Stamp(length, height, paths, rings)


def _closed_switch() -> Stamp:
    """The open switch with its blade laid from contact to contact."""
    shape = stamp("switch-open")
    left, right = sorted(shape.circles)
    blade = (Point(left.centre.x + left.radius, 0.0), Point(right.centre.x - right.radius, 0.0))
    return shape._replace(half_height=left.radius, paths=(Path(blade, False),))


def _gap() -> Stamp:
    contacts = tuple(Circle(Point(x, 0.0), _CONTACT) for x in (-_OPENING, _OPENING))
    return Stamp(_OPENING + _CONTACT, _CONTACT, (), contacts)


def _ground() -> Stamp:
    lines, _ = _read(_drawn_by_schemdraw("Ground"))
    paths = tuple(Path(tuple(line), filled) for line, filled in lines)
    return Stamp(
        max(p.y for path in paths for p in path.points),
        max(p.x for path in paths for p in path.points),
        paths,
        (),
    )


def _wire() -> Stamp:
    return Stamp(_OPENING, 0.0, (Path((Point(-_OPENING, 0.0), Point(_OPENING, 0.0)), False),), ())


_MADE = {
    "switch-closed": _closed_switch,
    "gap": _gap,
    "wire": _wire,
    "ground": _ground,
}


def _drawn_by_schemdraw(element: str) -> str:
    """The SVG of one element with leads, laid to the right from (0, 0).

    schemdraw keeps its style and its stack of open drawings in module variables, which would
    leak into the symbol and out of it: both are emptied here and put back.
    """
    kept = [(state, dict(state)) for state in (_STYLE, _OPEN_DRAWINGS)]
    try:
        for state, _ in kept:
            state.clear()
        schemdraw.config()
        drawing = schemdraw.Drawing(canvas="svg", show=False)
        drawing.add(getattr(schemdraw.elements, element)().right())
        data: bytes = drawing.get_imagedata("svg")
        return data.decode()
    finally:
        for state, before in kept:
            state.clear()
            state.update(before)


def _read(svg: str) -> tuple[list[tuple[list[Point], bool]], list[Circle]]:
    """Lines (each with whether it is filled) and circles of an SVG of straight paths."""
    lines: list[tuple[list[Point], bool]] = []
    circles: list[Circle] = []
    for node in ElementTree.fromstring(svg):
        if node.tag == _SVG + "circle":
            centre = Point(float(node.attrib["cx"]), float(node.attrib["cy"]))
            circles.append(Circle(centre, float(node.attrib["r"])))
        elif node.tag == _SVG + "path":
            filled = "fill:none" not in node.attrib["style"]
            for part in node.attrib["d"].split("M")[1:]:
                numbers = [float(n) for n in _NUMBER.findall(part)]
                points = [Point(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
                lines.append((points, filled))
    return lines, circles


def _without_leads(
    lines: list[tuple[list[Point], bool]], end: float
) -> Iterator[tuple[list[Point], bool]]:
    """The lines without the ends of the leads, at (0, 0) and at (end, 0), and without repeats."""
    for line, filled in lines:
        once = [p for i, p in enumerate(line) if i == 0 or p != line[i - 1]]
        yield [p for p in once if p not in (Point(0, 0), Point(end, 0))], filled
