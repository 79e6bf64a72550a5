"""From a scene to the text of an SVG.

Every stroke and every letter is drawn in ``currentColor``, so that a figure follows the colours
of the page; only marks have a colour of their own. ``figure.css`` refines this; without it, the
presentation attributes alone give a complete picture.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from functools import lru_cache
from html import escape

from builder.figure.scene import (
    CURL_RADIUS,
    HEAD_LENGTH,
    HEAD_WIDTH,
    HOP_RADIUS,
    NAME_SIZE,
    TERMINAL_RADIUS,
    Box,
    Component,
    Curl,
    Ground,
    Head,
    Hop,
    JunctionName,
    Point,
    Run,
    Scene,
    TextLine,
    Wire,
)
from builder.figure.symbols import Stamp, stamp
from builder.figure.text_size import INDEX_DROP, INDEX_SIZE, TYPE_SIZE

FONT_FAMILY = "STIX Two Text,STIX Two Math,Times New Roman,Times,Liberation Serif,serif"
STROKE = 1.6
MARKED_STROKE = 3.0
MARK_COLOUR = "#d55e00"  # vermilion of the Okabe–Ito set
DOT_RADIUS = 3.2
FRAME_ROUNDING = 6
HIT_MARGIN = 6.0
_ROUND = 'stroke-linecap="round" stroke-linejoin="round"'
_HOP_STEPS, _CURL_STEPS = 8, 20
_CURL_OPEN = 0.2  # the part of the circle that a curved arrow leaves open, at its lower side
# Blue and bluish green of the Okabe–Ito set: both keep 3 to 1 on light and on dark paper.
_LOOKS = {
    "a": 'stroke="#0072b2" stroke-width="7" stroke-linecap="round"',
    "b": 'stroke="#009e73" stroke-width="7" stroke-dasharray="9 6"',
}


def to_svg(scene: Scene, *, id_prefix: str, title: str, description: str) -> str:
    """The SVG of ``scene``.

    Args:
        scene: what is drawn where.
        id_prefix: goes before every id, so that figures on one page do not clash.
        title: the figure's accessible name.
        description: what the figure shows, in a sentence.
    """
    box = scene.box
    width, height = _n(box.right - box.left), _n(box.bottom - box.top)
    prefix = escape("-".join(id_prefix.split()))
    pieces = [
        f'<svg xmlns="http://www.w3.org/2000/svg" class="sw-figure" role="img" '
        f'aria-labelledby="{prefix}-title {prefix}-desc" width="{width}" height="{height}" '
        f'viewBox="{_n(box.left)} {_n(box.top)} {width} {height}" '
        f'font-family="{FONT_FAMILY}" font-size="{_n(TYPE_SIZE)}" fill="none" '
        f'stroke-width="{STROKE}">'
        f'<title id="{prefix}-title">{escape(title)}</title>'
        f'<desc id="{prefix}-desc">{escape(description)}</desc>'
    ]
    pieces += map(_frame, scene.frames)
    pieces += _wires(scene.wires, scene.looks)
    pieces += map(_hop, scene.hops)
    pieces += (
        f'<circle class="sw-dot" data-junction="{escape(dot.junction)}" '
        f'cx="{_n(dot.at.x)}" cy="{_n(dot.at.y)}" r="{DOT_RADIUS}" fill="currentColor"/>'
        for dot in scene.dots
    )
    pieces += (
        f'<circle class="sw-terminal" data-junction="{escape(end.junction)}" '
        f'cx="{_n(end.at.x)}" cy="{_n(end.at.y)}" r="{TERMINAL_RADIUS}" stroke="currentColor"/>'
        for end in scene.terminals
    )
    pieces += map(_ground, scene.grounds)
    pieces += map(_component, scene.components)
    pieces += map(_head, scene.heads)
    pieces += map(_curl, scene.curls)
    pieces += map(_junction_name, scene.names)
    pieces.append("</svg>")
    return "".join(pieces)


def _frame(box: Box) -> str:
    return (
        f'<rect class="sw-frame" x="{_n(box.left)}" y="{_n(box.top)}" '
        f'width="{_n(box.right - box.left)}" height="{_n(box.bottom - box.top)}" '
        f'rx="{FRAME_ROUNDING}" stroke="{MARK_COLOUR}" stroke-dasharray="5 4"/>'
    )


def _wires(wires: Iterable[Wire], looks: Mapping[str, str]) -> list[str]:
    """One path for all the wires of a junction, over its trace if it is traced."""
    lines: dict[str, list[str]] = {}
    for wire in wires:
        lines.setdefault(wire.junction, []).append(
            f"M{_n(wire.start.x)} {_n(wire.start.y)}L{_n(wire.end.x)} {_n(wire.end.y)}"
        )
    return [
        _trace(junction, looks.get(junction, ""), "".join(parts))
        + f'<path class="sw-wire" data-junction="{escape(junction)}" stroke="currentColor" '
        f'{_ROUND} d="{"".join(parts)}"/>'
        for junction, parts in lines.items()
    ]


def _trace(junction: str, look: str, shape: str) -> str:
    if not look:
        return ""
    return (
        f'<path class="sw-trace sw-trace-{look}" data-trace="{look}" '
        f'data-traces="{escape(junction)}" {_LOOKS[look]} d="{shape}"/>'
    )


def _hop(hop: Hop) -> str:
    """A half circle over the wire below, as a chain of short lines."""
    turns = [math.pi * step / _HOP_STEPS for step in range(_HOP_STEPS + 1)]
    points = [
        Point(hop.at.x - HOP_RADIUS * math.cos(t), hop.at.y - HOP_RADIUS * math.sin(t))
        for t in turns
    ]
    return (
        f'<path class="sw-hop" data-junction="{escape(hop.junction)}" stroke="currentColor" '
        f'{_ROUND} d="{_line(points)}"/>'
    )


def _line(points: Iterable[Point]) -> str:
    return "M" + "L".join(f"{_n(p.x)} {_n(p.y)}" for p in points)


def _ground(ground: Ground) -> str:
    at = f"translate({_n(ground.at.x)} {_n(ground.at.y)})"
    return (
        f'<g class="sw-ground" data-junction="{escape(ground.junction)}" transform="{at}">'
        f"{_stamped('ground', 'right')}</g>"
    )


def _head(head: Head) -> str:
    half, side = HEAD_LENGTH / 2, HEAD_WIDTH / 2
    corners = (Point(half, 0.0), Point(-half, -side), Point(-half, side))
    shape = _line(_moved(_turned(corner, head.turn), head.at) for corner in corners)
    return (
        f'<path class="sw-arrow" data-arrow="{escape(head.of)}" fill="currentColor" d="{shape}Z"/>'
    )


def _moved(point: Point, by: Point) -> Point:
    return Point(point.x + by.x, point.y + by.y)


def _curl(curl: Curl) -> str:
    """A circle that is open below, with an arrowhead at its end, and a name in it."""
    sign = 1.0 if curl.clockwise else -1.0
    span = 2 * math.pi * (1 - _CURL_OPEN)
    start = math.pi / 2 + sign * math.pi * _CURL_OPEN
    turns = [start + sign * span * step / _CURL_STEPS for step in range(_CURL_STEPS + 1)]
    arc = [_moved(_polar(turn, CURL_RADIUS), curl.centre) for turn in turns]
    end, along = turns[-1], turns[-1] + sign * math.pi / 2
    tip = _moved(_polar(along, HEAD_LENGTH * 0.8), arc[-1])
    wings = [_moved(_polar(end, r), curl.centre) for r in (CURL_RADIUS - 4, CURL_RADIUS + 4)]
    return (
        f'<g class="sw-loop"><path class="sw-loop-arc" stroke="currentColor" {_ROUND} '
        f'd="{_line(arc)}"/><path class="sw-loop-head" fill="currentColor" '
        f'd="{_line([tip, *wings])}Z"/>{_text(curl.name)}</g>'
    )


def _polar(turn: float, radius: float) -> Point:
    return Point(radius * math.cos(turn), radius * math.sin(turn))


def _junction_name(name: JunctionName) -> str:
    text = _text(name.line, NAME_SIZE)
    return text.replace(
        'class="sw-label"',
        f'class="sw-label sw-junction-name" data-junction="{escape(name.junction)}"',
        1,
    )


def _component(component: Component) -> str:
    text = "".join(map(_text, component.lines))
    if not component.id:
        return f'<g class="sw-source">{_symbol(component)}{text}</g>'
    kind = "source" if component.source else "element"
    classes = f"sw-{kind} sw-marked" if component.marked else f"sw-{kind}"
    return (
        f'<g class="{classes}" data-{kind}="{escape(component.id)}">'
        f"{_hit(component.body)}{_symbol(component)}{text}</g>"
    )


def _hit(body: Box) -> str:
    """Nothing to see: a larger target for a finger than thin strokes are."""
    left, top = body.left - HIT_MARGIN, body.top - HIT_MARGIN
    width, height = (
        body.right - body.left + 2 * HIT_MARGIN,
        body.bottom - body.top + 2 * HIT_MARGIN,
    )
    return (
        f'<rect class="sw-hit" x="{_n(left)}" y="{_n(top)}" width="{_n(width)}" '
        f'height="{_n(height)}" rx="4" pointer-events="all"/>'
    )


def _symbol(component: Component) -> str:
    if not component.stamp:
        return ""
    colour = MARK_COLOUR if component.marked else "currentColor"
    width = f' stroke-width="{_n(MARKED_STROKE)}"' if component.marked else ""
    shape = _stamped(component.stamp, component.turn).replace("currentColor", colour)
    at = f"translate({_n(component.at.x)} {_n(component.at.y)})"
    return f'<g class="sw-symbol" transform="{at}"{width}>{shape}</g>'


@lru_cache
def _stamped(kind: str, turn: str) -> str:
    shape: Stamp = stamp(kind)
    pieces = [
        f'<circle cx="{_n(_turned(c.centre, turn).x)}" cy="{_n(_turned(c.centre, turn).y)}" '
        f'r="{_n(c.radius)}" stroke="currentColor"/>'
        for c in shape.circles
    ]
    for filled, paint in ((False, 'stroke="currentColor"'), (True, 'fill="currentColor"')):
        data = "".join(
            "M"
            + "L".join(f"{_n(p.x)} {_n(p.y)}" for p in (_turned(q, turn) for q in path.points))
            + ("Z" if filled else "")
            for path in shape.paths
            if path.filled == filled
        )
        if data:
            pieces.append(f'<path {paint} {_ROUND} d="{data}"/>')
    return "".join(pieces)


def _turned(point: Point, turn: str) -> Point:
    if turn == "down":
        return Point(-point.y, point.x)
    if turn == "up":
        return Point(point.y, -point.x)
    return point if turn == "right" else Point(-point.x, -point.y)


def _text(line: TextLine, size: float = 1.0) -> str:
    anchor = "" if line.anchor == "start" else f' text-anchor="{line.anchor}"'
    font = "" if size == 1.0 else f' font-size="{_n(size * TYPE_SIZE)}"'
    return (
        f'<text class="sw-label" x="{_n(line.at.x)}" y="{_n(line.at.y)}"{anchor}{font} '
        f'fill="currentColor">{_runs(line.runs, size)}</text>'
    )


@lru_cache(maxsize=4096)
def _runs(runs: tuple[Run, ...], size: float = 1.0) -> str:
    pieces, drop = [], _n(INDEX_DROP * size * TYPE_SIZE)
    lowered = False
    for run in runs:
        attributes = ""
        if run.style == "index":
            attributes = f' dy="{drop}" font-size="{_n(INDEX_SIZE * size * TYPE_SIZE)}"'
        elif lowered:
            attributes = f' dy="-{drop}"'
        lowered = run.style == "index"
        if run.style == "italic":
            attributes += ' font-style="italic"'
        if run.key:
            attributes += f' data-q="{escape(run.key)}"'
        if run.mark:
            attributes += f' data-m="{escape(run.mark)}"'
        text = escape(run.text)
        pieces.append(f"<tspan{attributes}>{text}</tspan>" if attributes else text)
    return "".join(pieces)


@lru_cache(maxsize=16384)
def _n(number: float) -> str:
    """A number for SVG: two digits after the point at most."""
    rounded = round(number, 2)
    return str(int(rounded)) if rounded == int(rounded) else str(rounded)
