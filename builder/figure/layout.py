"""From a series-parallel tree to a scene.

The source stands at the left, and the circuit is led round from its + along the top, down the
right side and back along the bottom (``builder.figure.loop`` says which part goes where).
"""

from __future__ import annotations

from typing import NamedTuple

from builder.circuit.between import MINUS, PLUS, lay_between
from builder.circuit.tree import leaves
from builder.figure.blocks import TEXT_GAP, Axis, Block, Measurer, Placer
from builder.figure.lettering import Lettering, letter, letter_source, sign, stack_start
from builder.figure.loop import (
    Sizes,
    Source,
    chain_of,
    choose_split,
    extent,
    measure_source,
    side_blocks,
    size_up,
)
from builder.figure.request import Drawing, Label
from builder.figure.scene import TERMINAL_RADIUS, Box, Component, Point, Scene, Terminal, TextLine
from builder.figure.symbols import stamp_kind
from builder.figure.text_size import LINE
from builder.quantity.names import Symbol

MARGIN = 8.0


class _Plan(NamedTuple):
    """How the chain is led round: the blocks of each side, and the sizes that follow."""

    top: tuple[Block, ...]
    side: tuple[Block, ...]
    bottom: tuple[Block, ...]
    sizes: Sizes


def lay_out(drawing: Drawing) -> Scene:
    """Every piece of a figure in its place."""
    letterings = {leaf: _lettering(drawing, leaf) for leaf in leaves(drawing.tree)}
    kind = stamp_kind(drawing.element, drawing.symbols)
    source = measure_source(
        letter_source(drawing.source, drawing.source_quantity), drawing.source_quantity
    )
    plan = _plan(drawing, Measurer(letterings, kind, drawing.marked), source)
    placer = Placer(lay_between(drawing.tree), letterings, kind, drawing.marked)
    _place_loop(plan, source, placer)
    components, terminals = _place_source(source, plan.sizes.height, placer)
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


def _plan(drawing: Drawing, measurer: Measurer, source: Source) -> _Plan:
    parts = chain_of(drawing.tree)
    split = choose_split(parts, measurer.stamp_kind, drawing.source_quantity)
    top = tuple(measurer.block(part, False) for part in parts[: split.top])
    side = side_blocks(parts[split.top : split.top + split.side], measurer, split)
    bottom = tuple(measurer.block(part, False) for part in parts[split.top + split.side :])
    sizes = size_up(extent(top), side, extent(bottom[::-1]), source)
    return _Plan(top, side, bottom, sizes)


def _place_loop(plan: _Plan, source: Source, placer: Placer) -> None:
    sizes = plan.sizes
    corner, floor = Point(sizes.corner, 0.0), Point(sizes.corner, sizes.height)
    stop, run = Point(sizes.stop, 0.0), sizes.stop - sizes.start
    placer.wire(PLUS, Point(source.port, 0.0), Point(sizes.start, 0.0))
    junction = PLUS
    if plan.top:
        placer.place_chain(plan.top, Axis(sizes.start, 0.0, "right"), run)
        junction = placer.ends_of(plan.top[-1].tree)[1]
        placer.wire(junction, stop, corner)
    else:
        placer.wire(PLUS, Point(sizes.start, 0.0), corner)
    if plan.side:
        placer.place_chain(plan.side, Axis(*corner, "down"), sizes.height)
        junction = placer.ends_of(plan.side[-1].tree)[1]
    else:
        placer.wire(junction, corner, floor)
    home = Point(source.port, sizes.height)
    if plan.bottom:
        placer.wire(junction, floor, Point(sizes.stop, sizes.height))
        placer.place_chain(plan.bottom, Axis(sizes.stop, sizes.height, "left"), run)
        placer.wire(MINUS, Point(sizes.start, sizes.height), home)
    else:
        placer.wire(junction, floor, home)


def _place_source(
    source: Source, height: float, placer: Placer
) -> tuple[tuple[Component, ...], tuple[Terminal, ...]]:
    at = Point(0.0, height / 2)
    lines = stack_start(source.text.down_the_side(), source.half_width + TEXT_GAP, at.y)
    if not source.stamp:
        signs = _signs(-TERMINAL_RADIUS - 9.0, 0.0, height)
        ends = Terminal(PLUS, Point(0.0, 0.0)), Terminal(MINUS, Point(0.0, height))
        return (Component("", "", at, "down", lines + signs, Box(*at, *at)),), ends
    upper, lower = at.y - source.half_length, at.y + source.half_length
    placer.wire(PLUS, Point(0.0, 0.0), Point(0.0, upper))
    placer.wire(MINUS, Point(0.0, lower), Point(0.0, height))
    signs = _signs(-9.0, upper - LINE / 2, lower + LINE / 2)
    body = Box(-source.half_width, upper, source.half_width, lower)
    return (Component("", source.stamp, at, "down", lines + signs, body),), ()


def _signs(x: float, upper: float, lower: float) -> tuple[TextLine, ...]:
    return sign(PLUS, Point(x, upper)), sign(MINUS, Point(x, lower))


def _room(source: Source, plan: _Plan) -> Box:
    left = max(source.half_width, 9.0 + LINE / 2)
    above = max([LINE / 2, *(block.before for block in plan.top)])
    below = max([LINE / 2, *(block.after for block in plan.bottom)])
    right = plan.sizes.corner + max([0.0, *(block.after for block in plan.side)])
    bottom = plan.sizes.height + below + MARGIN
    return Box(-left - MARGIN / 2, -above - MARGIN, right + MARGIN, bottom)
