"""The symbol chart: the shapes of a unit's figures, each with its name and meaning."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from markupsafe import Markup

from builder.figure.scene import TERMINAL_RADIUS
from builder.figure.svg import DOT_RADIUS, STROKE
from builder.figure.symbols import Stamp, stamp, stamp_kind

WIDTH, HEIGHT = 96, 64
_ALWAYS = ""
_ROUND = 'stroke-linecap="round" stroke-linejoin="round"'


@dataclass(frozen=True)
class ShownSymbol:
    """One entry of the chart.

    Attributes:
        called: its name.
        means: what it stands for.
        drawing: its picture; the words beside it tell what it shows.
    """

    called: str
    means: str
    drawing: Markup


def symbols(used: Collection[str], style: str) -> tuple[ShownSymbol, ...]:
    """The symbols of what occurs in a unit.

    Args:
        used: as ``builder.lesson.nest.uses`` tells it.
        style: ``iec`` (IEC 60617) or ``ieee`` (IEEE 315).
    """
    return tuple(
        ShownSymbol(called, means, drawing)
        for needs, called, means, drawing in (*_parts(style), *_wiring())
        if needs == _ALWAYS or needs in used
    )


_Entry = tuple[str, str, str, Markup]


def _parts(style: str) -> tuple[_Entry, ...]:
    """What has two ends: what it needs, its name, its meaning, its picture."""
    resistor = "a plain rectangle" if style == "iec" else "a zigzag line"
    return (
        ("capacitor", "Capacitor", "Two plates that face each other; charge gathers on them.",
         _element("capacitor", style)),
        ("resistor", "Resistor", f"Drawn as {resistor}; it stands for anything that hinders "
         "the current: a lamp, a heating wire, a long cable.", _element("resistor", style)),
        ("voltage-source", "Battery or supply", "Keeps a fixed voltage. The longer line is the "
         "+ side, and charge leaves there.", _battery()),
        ("current-source", "Current source", "Drives a fixed current, in the direction of its "
         "arrow.", _stamped(stamp("current-source"))),
        ("terminals", "Terminals", "Two open ends, where something may be joined on. What lies "
         "between them is asked for.", _terminals()),
        ("ammeter", "Ammeter", "Measures the current that passes it, and keeps no voltage for "
         "itself.", _meter("ammeter", "A")),
        ("voltmeter", "Voltmeter", "Measures the voltage between its two ends, and lets nothing "
         "pass.", _meter("voltmeter", "V")),
        ("switch", "Open switch", "A gap: nothing passes, and what it parts is two junctions.",
         _stamped(stamp("switch-open"))),
        ("switch", "Closed switch", "As good as a wire: what it joins is one junction.",
         _stamped(stamp("switch-closed"))),
    )  # fmt: skip


def _wiring() -> tuple[_Entry, ...]:
    """Wires, where they meet, and what is written on them."""
    return (
        (_ALWAYS, "Wire", "Joins what it touches into one junction. Its length and its bends "
         "mean nothing.", _wires("M8 44H48V20H88")),
        ("parallel", "Junction dot", "Three or more wires meet and are joined.",
         _wires("M8 32H88M48 32V58", dot=True)),
        (_ALWAYS, "Crossing without a dot", "Two wires that only pass each other in the drawing "
         "and are not joined. The figures of this unit avoid it; other drawings have it.",
         _wires("M8 32H88M48 6V58")),
        ("parallel", "Crossing with a dot", "Four wires that are joined: all of them are one "
         "junction.", _wires("M8 32H88M48 6V58", dot=True)),
        ("network", "Hop", "A wire that leaps over another: they are not joined. It is drawn only "
         "where a crossing cannot be avoided.", _wires("M48 6V58M8 32H41A7 7 0 0 1 55 32H88")),
        ("potential", "Ground", "The junction whose potential counts as zero.", _ground()),
        ("several-sources", "Current arrow", "The direction in which a current is counted. A "
         "negative one flows against it.", _arrow()),
        ("loops", "Loop arrow", "A current that goes all the way round a loop, in the direction of "
         "the arrow.", _loop_arrow()),
    )  # fmt: skip


def _picture(inner: str) -> Markup:
    return Markup(
        f'<svg class="sw-chart-picture" viewBox="0 0 {WIDTH} {HEIGHT}" width="{WIDTH}" '
        f'height="{HEIGHT}" fill="none" stroke-width="{STROKE}" aria-hidden="true" '
        f'focusable="false">{inner}</svg>'
    )


def _element(element: str, style: str) -> Markup:
    return _stamped(stamp(stamp_kind(element, style)))


def _stamped(shape: Stamp, signs: str = "") -> Markup:
    """A symbol in the middle, with leads to both sides."""
    x, y = WIDTH / 2, HEIGHT / 2
    leads = f"M8 {y:g}H{x - shape.half_length:g}M{x + shape.half_length:g} {y:g}H{WIDTH - 8}"
    body = "".join(
        f'<path {paint} {_ROUND} d="{data}"/>'
        for filled, paint in ((False, 'stroke="currentColor"'), (True, 'fill="currentColor"'))
        if (data := _outline(shape, filled=filled))
    )
    rings = "".join(
        f'<circle cx="{ring.centre.x:g}" cy="{ring.centre.y:g}" r="{ring.radius:g}" '
        f'stroke="currentColor"/>'
        for ring in shape.circles
    )
    return _picture(
        f'<path stroke="currentColor" {_ROUND} d="{leads}"/>'
        f'<g transform="translate({x:g} {y:g})">{rings}{body}</g>{signs}'
    )


def _outline(shape: Stamp, *, filled: bool) -> str:
    return "".join(
        "M" + "L".join(f"{point.x:g} {point.y:g}" for point in path.points) + "Z" * filled
        for path in shape.paths
        if path.filled == filled
    )


def _battery() -> Markup:
    shape = stamp("battery")
    left, right = WIDTH / 2 - shape.half_length - 12, WIDTH / 2 + shape.half_length + 12
    signs = "".join(
        f'<text x="{x:g}" y="22" text-anchor="middle" font-size="15" fill="currentColor">{sign}'
        f"</text>"
        for x, sign in ((left, "+"), (right, "−"))
    )
    return _stamped(shape, signs)


def _meter(kind: str, letter: str) -> Markup:
    return _stamped(
        stamp(kind),
        f'<text x="{WIDTH / 2:g}" y="{HEIGHT / 2 + 5:g}" text-anchor="middle" font-size="15" '
        f'fill="currentColor">{letter}</text>',
    )


def _ground() -> Markup:
    shape = stamp("ground")
    return _picture(
        f'<path stroke="currentColor" {_ROUND} d="M8 20H88M48 20V28"/>'
        f'<g transform="translate(48 28)"><path stroke="currentColor" {_ROUND} '
        f'd="{_outline(shape, filled=False)}"/></g>'
    )


def _arrow() -> Markup:
    return _picture(
        f'<path stroke="currentColor" {_ROUND} d="M8 32H88"/>'
        '<path fill="currentColor" d="M56 32L42 26V38Z"/>'
    )


def _loop_arrow() -> Markup:
    """Three quarters of a circle, clockwise, with its head at the end."""
    return _picture(
        f'<path stroke="currentColor" {_ROUND} d="M30 32A18 18 0 1 1 48 50"/>'
        '<path fill="currentColor" d="M40 50L54 43V57Z"/>'
    )


def _wires(path: str, *, dot: bool = False) -> Markup:
    mark = f'<circle cx="48" cy="32" r="{DOT_RADIUS}" fill="currentColor"/>' if dot else ""
    return _picture(f'<path stroke="currentColor" {_ROUND} d="{path}"/>{mark}')


def _terminals() -> Markup:
    ends = "".join(
        f'<circle cx="20" cy="{y}" r="{TERMINAL_RADIUS}" stroke="currentColor"/>' for y in (18, 46)
    )
    edge = 20 + TERMINAL_RADIUS
    leads = f'<path stroke="currentColor" d="M{edge} 18H88M{edge} 46H88"/>'
    return _picture(ends + leads)
