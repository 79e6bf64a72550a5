"""From a scene to the text of an SVG.

Every stroke and every letter is drawn in ``currentColor``, so that a figure follows the colours
of the page; only marks have a colour of their own. ``figure.css`` refines this; without it, the
presentation attributes alone give a complete picture.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from html import escape

from builder.figure.scene import (
    TERMINAL_RADIUS,
    Box,
    Component,
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
    pieces += _wires(scene.wires)
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
    pieces += map(_component, scene.components)
    pieces.append("</svg>")
    return "".join(pieces)


def _frame(box: Box) -> str:
    return (
        f'<rect class="sw-frame" x="{_n(box.left)}" y="{_n(box.top)}" '
        f'width="{_n(box.right - box.left)}" height="{_n(box.bottom - box.top)}" '
        f'rx="{FRAME_ROUNDING}" stroke="{MARK_COLOUR}" stroke-dasharray="5 4"/>'
    )


def _wires(wires: Iterable[Wire]) -> list[str]:
    """One path for all the wires of a junction."""
    lines: dict[str, list[str]] = {}
    for wire in wires:
        lines.setdefault(wire.junction, []).append(
            f"M{_n(wire.start.x)} {_n(wire.start.y)}L{_n(wire.end.x)} {_n(wire.end.y)}"
        )
    return [
        f'<path class="sw-wire" data-junction="{escape(junction)}" stroke="currentColor" '
        f'{_ROUND} d="{"".join(parts)}"/>'
        for junction, parts in lines.items()
    ]


def _component(component: Component) -> str:
    text = "".join(map(_text, component.lines))
    if not component.id:
        return f'<g class="sw-source">{_symbol(component)}{text}</g>'
    classes = "sw-element sw-marked" if component.marked else "sw-element"
    return (
        f'<g class="{classes}" data-element="{escape(component.id)}">'
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
    return point if turn == "right" else Point(-point.x, -point.y)


def _text(line: TextLine) -> str:
    anchor = "" if line.anchor == "start" else f' text-anchor="{line.anchor}"'
    return (
        f'<text class="sw-label" x="{_n(line.at.x)}" y="{_n(line.at.y)}"{anchor} '
        f'fill="currentColor">{_runs(line.runs)}</text>'
    )


@lru_cache(maxsize=4096)
def _runs(runs: tuple[Run, ...]) -> str:
    pieces, drop = [], _n(INDEX_DROP * TYPE_SIZE)
    lowered = False
    for run in runs:
        attributes = ""
        if run.style == "index":
            attributes = f' dy="{drop}" font-size="{_n(INDEX_SIZE * TYPE_SIZE)}"'
        elif lowered:
            attributes = f' dy="-{drop}"'
        lowered = run.style == "index"
        if run.style == "italic":
            attributes += ' font-style="italic"'
        if run.key:
            attributes += f' data-q="{escape(run.key)}"'
        text = escape(run.text)
        pieces.append(f"<tspan{attributes}>{text}</tspan>" if attributes else text)
    return "".join(pieces)


@lru_cache(maxsize=16384)
def _n(number: float) -> str:
    """A number for SVG: two digits after the point at most."""
    rounded = round(number, 2)
    return str(int(rounded)) if rounded == int(rounded) else str(rounded)
