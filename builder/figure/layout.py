"""From a series-parallel tree to a scene.

The source stands at the left. A parallel group hangs as rungs between two rails; a series chain
runs from the source's + along the top, down the right side and back along the bottom. How many
parts of the chain go where is chosen by measure: figures should be small, and narrow enough for
a phone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate
from typing import NamedTuple

from builder.circuit.between import MINUS, PLUS, lay_between
from builder.circuit.law import PARALLEL, SERIES
from builder.circuit.tree import Group, Leaf, Tree, leaves
from builder.figure.blocks import (
    LEAD,
    RUNG_GAP,
    TEXT_GAP,
    Axis,
    Block,
    Measurer,
    Placer,
)
from builder.figure.lettering import (
    Lettering,
    letter,
    letter_source,
    sign,
    stack_start,
    widest,
)
from builder.figure.request import Drawing, Label
from builder.figure.scene import Box, Component, Point, Scene, Terminal, TextLine
from builder.figure.symbols import stamp, stamp_kind
from builder.figure.text_size import LINE
from builder.quantity.names import Symbol

LEAST_HEIGHT = 96.0
MARGIN = 8.0
CLEAR = 8.0
PHONE_WIDTH = 420.0
TALL = 460.0
TERMINAL_RADIUS = 3.5
_SOURCES = {"voltage": "battery", "current": "current-source"}


@dataclass(frozen=True, slots=True)
class _Source:
    """The measured source: its symbol, its text, its room above/below and to both sides."""

    stamp: str
    text: Lettering
    half_length: float
    half_width: float
    length: float
    text_half: float
    right: float


class _Plan(NamedTuple):
    """How the chain is led round: the parts of each side, and the sizes that follow."""

    score: float
    top: tuple[Block, ...]
    side: tuple[Block, ...]
    bottom: tuple[Block, ...]
    height: float
    start: float
    corner: float


def lay_out(drawing: Drawing) -> Scene:
    """Every piece of a figure in its place."""
    letterings = {leaf: _lettering(drawing, leaf) for leaf in leaves(drawing.tree)}
    kind = stamp_kind(drawing.element, drawing.symbols)
    source = _measure_source(drawing)
    measurer = Measurer(letterings, kind, drawing.marked)
    plan = min(_plans(drawing.tree, measurer, source), key=lambda plan: plan.score)
    ends = lay_between(drawing.tree)
    placer = Placer(ends, letterings, kind, drawing.marked)
    _place_loop(plan, placer)
    components, terminals = _place_source(source, plan, placer)
    return Scene(
        _room(source, plan),
        tuple(placer.wires),
        tuple(placer.dots),
        terminals,
        (*components, *placer.components),
        tuple(placer.frames),
    )


def _lettering(drawing: Drawing, leaf: str) -> Lettering:
    label = drawing.labels.get(leaf)
    return letter(label if label is not None else Label(Symbol(leaf[:1], leaf[1:])))


def _measure_source(drawing: Drawing) -> _Source:
    text = letter_source(drawing.source, drawing.source_quantity)
    lines = text.down_the_side()
    kind = _SOURCES.get(drawing.source_quantity or "", "")
    half_length, half_width = 0.0, -TEXT_GAP - TERMINAL_RADIUS
    if kind:
        half_length, half_width = stamp(kind).half_length, stamp(kind).half_height
    text_half = len(lines) * LINE / 2
    length = 2 * max(half_length + LEAD + LINE / 2, text_half + 2 * CLEAR)
    right = half_width + (TEXT_GAP + widest(lines) if lines else 0.0)
    return _Source(kind, text, half_length, half_width, length, text_half, max(right, CLEAR))


def _plans(tree: Tree, measurer: Measurer, source: _Source) -> Iterator[_Plan]:
    """All ways to lead the chain round that are worth a look."""
    parts: tuple[Tree, ...] = (tree,)
    if isinstance(tree, Group) and tree.connection == SERIES:
        parts = tree.parts
    across = tuple(measurer.block(part, False) for part in parts)
    down = tuple(measurer.block(part, True) for part in parts)
    last = parts[-1]
    rungs = None
    if isinstance(last, Group) and last.connection == PARALLEL:
        rungs = measurer.rungs(last)
    count = len(parts)
    top_sizes, bottom_sizes = _running(across), _running(across[::-1])
    for on_side in range(min(count, 4) + 1):
        for on_bottom in range((count - on_side) // 2 + 1):
            on_top = count - on_side - on_bottom
            side = down[on_top : on_top + on_side]
            if on_side == 1 and rungs is not None and not on_bottom:
                side = (rungs,)
            chains = across[:on_top], side, across[count - on_bottom :]
            yield _plan(chains, top_sizes[on_top], bottom_sizes[on_bottom], source)


def _running(blocks: tuple[Block, ...]) -> list[tuple[float, float, float]]:
    """Length, room above and room below of the first 0, 1, 2 … blocks as a chain."""

    def add(chain: tuple[float, float, float], block: Block) -> tuple[float, float, float]:
        length, before, after = chain
        return length + block.length, max(before, block.before), max(after, block.after)

    return list(accumulate(blocks, add, initial=(0.0, 0.0, 0.0)))


def _plan(
    chains: tuple[tuple[Block, ...], tuple[Block, ...], tuple[Block, ...]],
    top_size: tuple[float, float, float],
    bottom_size: tuple[float, float, float],
    source: _Source,
) -> _Plan:
    top, side, bottom = chains
    top_length, top_before, top_after = top_size
    bottom_length, bottom_before, bottom_after = bottom_size
    side_length = sum(block.length for block in side)
    height = max(LEAST_HEIGHT, source.length, side_length, top_after + bottom_before + 2 * CLEAR)
    reach = height / 2 - max(source.text_half, source.half_length) - CLEAR
    start = CLEAR if max(top_after, bottom_before) <= reach else source.right + CLEAR
    corner = start + max(top_length, bottom_length)
    side_before = max((block.before for block in side), default=0.0)
    if side and (top or bottom):
        corner += side_before
    corner = max(corner, source.right + RUNG_GAP + side_before)
    width = corner + max((block.after for block in side), default=0.0)
    full = height + top_before + bottom_after
    score = width + full + 4 * max(0.0, width - PHONE_WIDTH) + 2 * max(0.0, full - TALL)
    score += 70 * bool(bottom) + 40 * max(0, len(side) - 1) + 60 * (not side)
    return _Plan(score, top, side, bottom, height, start, corner)


def _place_loop(plan: _Plan, placer: Placer) -> None:
    end_of_top = _place_top(plan, placer)
    corner, floor = Point(plan.corner, 0.0), Point(plan.corner, plan.height)
    placer.wire(end_of_top, Point(plan.start, 0.0) if not plan.top else corner, corner)
    if plan.side:
        placer.place_chain(plan.side, Axis(*corner, "down"), plan.height)
        end_of_side = placer.ends_of(plan.side[-1].tree)[1]
    else:
        placer.wire(end_of_top, corner, floor)
        end_of_side = end_of_top
    home = Point(0.0, plan.height)
    if plan.bottom:
        placer.place_chain(plan.bottom, Axis(*floor, "left"), plan.corner - plan.start)
        placer.wire(MINUS, Point(plan.start, plan.height), home)
    else:
        placer.wire(end_of_side, floor, home)


def _place_top(plan: _Plan, placer: Placer) -> str:
    """Place the top chain; gives the junction at its far end."""
    placer.wire(PLUS, Point(0.0, 0.0), Point(plan.start, 0.0))
    if not plan.top:
        return PLUS
    placer.place_chain(plan.top, Axis(plan.start, 0.0, "right"), plan.corner - plan.start)
    return placer.ends_of(plan.top[-1].tree)[1]


def _place_source(
    source: _Source, plan: _Plan, placer: Placer
) -> tuple[tuple[Component, ...], tuple[Terminal, ...]]:
    middle = plan.height / 2
    lines = stack_start(source.text.down_the_side(), source.half_width + TEXT_GAP, middle)
    if source.stamp:
        upper, lower = middle - source.half_length, middle + source.half_length
        placer.wire(PLUS, Point(0.0, 0.0), Point(0.0, upper))
        placer.wire(MINUS, Point(0.0, lower), Point(0.0, plan.height))
        signs = _signs(-9.0, upper - LINE / 2, lower + LINE / 2)
        body = Box(-source.half_width, upper, source.half_width, lower)
        at = Point(0.0, middle)
        return (Component("", source.stamp, at, "down", lines + signs, body),), ()
    signs = _signs(-TERMINAL_RADIUS - 9.0, 0.0, plan.height)
    at, body = Point(0.0, middle), Box(0.0, middle, 0.0, middle)
    ends = Terminal(PLUS, Point(0.0, 0.0)), Terminal(MINUS, Point(0.0, plan.height))
    return (Component("", "", at, "down", lines + signs, body),), ends


def _signs(x: float, upper: float, lower: float) -> tuple[TextLine, ...]:
    return sign(PLUS, Point(x, upper)), sign(MINUS, Point(x, lower))


def _room(source: _Source, plan: _Plan) -> Box:
    left = max(source.half_width, 9.0 + LINE / 2)
    above = max((b.before for b in plan.top), default=LINE / 2)
    below = max((b.after for b in plan.bottom), default=LINE / 2)
    right = plan.corner + max((b.after for b in plan.side), default=0.0)
    return Box(-left - MARGIN / 2, -above - MARGIN, right + MARGIN, plan.height + below + MARGIN)
