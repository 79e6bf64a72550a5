"""What is taken of a figure's room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from builder.figure.network.pieces import Sheet
from builder.figure.scene import (
    DOT_ROOM,
    HEAD_WIDTH,
    HOP_RADIUS,
    TERMINAL_RADIUS,
    Box,
    Point,
    Wire,
)

STROKE = 1.0


def taken(sheet: Sheet) -> Iterator[Box]:
    """The boxes of everything that has been put down."""
    for component in sheet.components:
        yield component.body
        yield from (line.box for line in component.lines)
    for lines in sheet.arrow_lines.values():
        yield from (line.box for line in lines)
    yield from sheet.frames
    for head in sheet.heads:
        yield round_box(head.at, HEAD_WIDTH)
    for hop in sheet.hops:
        yield round_box(hop.at, HOP_RADIUS + STROKE)
    for terminal in sheet.terminals:
        yield round_box(terminal.at, TERMINAL_RADIUS + STROKE)
    for dot in sheet.dots:
        yield round_box(dot.at, DOT_ROOM)
    yield from map(wire_box, sheet.wires)


def wire_box(wire: Wire) -> Box:
    """The box of a wire with its stroke."""
    return Box(
        min(wire.start.x, wire.end.x) - STROKE,
        min(wire.start.y, wire.end.y) - STROKE,
        max(wire.start.x, wire.end.x) + STROKE,
        max(wire.start.y, wire.end.y) + STROKE,
    )


def round_box(at: Point, radius: float) -> Box:
    """The square round a circle."""
    return Box(at.x - radius, at.y - radius, at.x + radius, at.y + radius)


def is_free(box: Box, taken: Iterable[Box]) -> bool:
    """Whether a box touches none of those."""
    return not any(
        box.left < other.right
        and other.left < box.right
        and box.top < other.bottom
        and other.top < box.bottom
        for other in taken
    )
