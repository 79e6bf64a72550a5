"""Parts of a nest as blocks: how much room each needs, and where its pieces go in that room.

A block is laid along a main axis (to the right, to the left, or down) between an entry and an exit
on one line, its axis. It is measured once, from the inside out, then placed from the outside in,
and may be placed in more length than it needs. Across the axis, ``before`` is the room above (or,
for a block laid down, to the left) and ``after`` the room below (or to the right).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from builder.circuit.law import PARALLEL
from builder.circuit.tree import Leaf, Tree
from builder.figure.lettering import Lettering, Runs, stack_middle, stack_start, widest
from builder.figure.scene import Box, Component, Dot, Point, Wire
from builder.figure.symbols import stamp
from builder.figure.text_size import LINE

LEAD = 14.0
TEXT_ASIDE = 7.0
TEXT_GAP = 6.0
RAIL_LEAD = 13.0
BRANCH_GAP = 11.0
RUNG_GAP = 14.0
SNAP = 18.0
FRAME_PAD = 5.0


@dataclass(frozen=True, slots=True)
class Block:
    """A measured part of the circuit.

    Attributes:
        tree: the part.
        down: whether it is laid down instead of across.
        length: the least room along the axis.
        before: room across the axis, above or left.
        after: room across the axis, below or right.
        parts: the blocks of its parts.
        offsets: for a parallel group, where the axis of each part lies across its own axis.
        lead: for a parallel group, from its entry to the rail.
        framed: whether a dashed frame is drawn round it.
    """

    tree: Tree
    down: bool
    length: float
    before: float
    after: float
    parts: tuple[Block, ...] = ()
    offsets: tuple[float, ...] = ()
    lead: float = 0.0
    framed: bool = False


class Axis(NamedTuple):
    """Where a block goes: the place of its entry and its direction."""

    x: float
    y: float
    turn: str

    def point(self, along: float, across: float) -> Point:
        """The place so far along the axis, and so far below (or right of) it."""
        if self.turn == "down":
            return Point(self.x + across, self.y + along)
        return Point(self.x + (along if self.turn == "right" else -along), self.y + across)

    def shifted(self, along: float, across: float) -> Axis:
        """The axis that starts at this place."""
        return Axis(*self.point(along, across), self.turn)

    def box(self, start: float, end: float, before: float, after: float) -> Box:
        """The room from ``start`` to ``end`` along, and on both sides across."""
        a, b = self.point(start, -before), self.point(end, after)
        return Box(min(a.x, b.x), min(a.y, b.y), max(a.x, b.x), max(a.y, b.y))


@dataclass(frozen=True)
class Measurer:
    """Measures blocks for one figure.

    Attributes:
        letterings: the text of each leaf.
        stamp_kind: the symbol of every leaf.
        marked: leaves to mark.
    """

    letterings: Mapping[str, Lettering]
    stamp_kind: str
    marked: frozenset[str]

    def block(self, tree: Tree, down: bool) -> Block:
        """The block of ``tree``, laid down or across."""
        if isinstance(tree, Leaf):
            block = self._leaf(tree, down)
        else:
            parts = tuple(self.block(part, down) for part in tree.parts)
            if tree.connection == PARALLEL:
                block = parallel_block(tree, parts, RAIL_LEAD)
            else:
                block = _series_block(tree, parts, down)
        return self._framed(block)

    def rungs(self, group: Tree) -> Block:
        """A parallel group hung between a top and a bottom rail that come from the left."""
        parts = tuple(self.block(part, True) for part in getattr(group, "parts", ()))
        block = parallel_block(group, parts, 0.0)
        if not all(part.framed for part in parts):
            return block
        return replace(
            block,
            before=block.before + FRAME_PAD,
            after=block.after + FRAME_PAD,
            parts=tuple(replace(part, framed=False) for part in parts),
            framed=True,
        )

    def _leaf(self, leaf: Leaf, down: bool) -> Block:
        room = _leaf_room(self.stamp_kind, self.letterings[leaf.id], down)
        return Block(leaf, down, *room)

    def _framed(self, block: Block) -> Block:
        if not self.marked:
            return block
        inner = all(part.framed for part in block.parts)
        if not (inner if block.parts else block.tree.id in self.marked):
            return block
        # One frame round the whole replaces those round its parts.
        return replace(
            block,
            length=block.length + 2 * FRAME_PAD,
            before=block.before + FRAME_PAD,
            after=block.after + FRAME_PAD,
            parts=tuple(replace(part, framed=False) for part in block.parts),
            lead=block.lead + FRAME_PAD if block.lead else 0.0,
            framed=True,
        )


@lru_cache(maxsize=4096)
def _leaf_room(kind: str, text: Lettering, down: bool) -> tuple[float, float, float]:
    """The room of one symbol with its text: beside it if laid down, else above and below."""
    shape = stamp(kind)
    length, half = 2 * shape.half_length + 2 * LEAD, shape.half_height
    if down:
        lines = text.down_the_side()
        aside = TEXT_GAP + widest(lines) if lines else 0.0
        return max(length, len(lines) * LINE + 2 * TEXT_ASIDE), half, half + aside
    above, below = (
        TEXT_GAP + len(lines) * LINE if lines else 0.0 for lines in (_above(text), text.found)
    )
    length = max(length, widest(_above(text) + text.found) + 2 * TEXT_ASIDE)
    return length, half + above, half + below


def _above(text: Lettering) -> tuple[Runs, ...]:
    line = text.in_one_line()
    return (line,) if line else ()


def parallel_block(tree: Tree, parts: tuple[Block, ...], lead: float) -> Block:
    """Branches side by side between two rails; without ``lead``, the rails start at the first."""
    down = parts[0].down
    gap = RUNG_GAP if down else BRANCH_GAP
    steps = [a.after + gap + b.before for a, b in pairwise(parts)]
    if not any(part.parts for part in parts):
        steps = [max(steps)] * len(steps)
    places = [0.0]
    for step in steps:
        places.append(places[-1] + step)
    centre = places[-1] / 2 if lead else 0.0
    nearest = min(places[1:-1], key=lambda place: abs(place - centre), default=centre)
    if lead and abs(nearest - centre) < SNAP:
        centre = nearest
    offsets = tuple(place - centre for place in places)
    return Block(
        tree,
        down,
        max(part.length for part in parts) + 2 * lead,
        max(part.before - offset for part, offset in zip(parts, offsets, strict=True)),
        max(part.after + offset for part, offset in zip(parts, offsets, strict=True)),
        parts,
        offsets,
        lead,
    )


def _series_block(tree: Tree, parts: tuple[Block, ...], down: bool) -> Block:
    return Block(
        tree,
        down,
        sum(part.length for part in parts),
        max(part.before for part in parts),
        max(part.after for part in parts),
        parts,
    )


@dataclass
class Placer:
    """Collects the pieces of a figure while blocks are placed.

    Attributes:
        ends: the two junctions of each leaf.
        letterings: the text of each leaf.
        stamp_kind: the symbol of every leaf.
        marked: leaves to mark.
    """

    ends: Mapping[str, tuple[str, str]]
    letterings: Mapping[str, Lettering]
    stamp_kind: str
    marked: frozenset[str]
    wires: list[Wire] = field(default_factory=list)
    dots: list[Dot] = field(default_factory=list)
    components: list[Component] = field(default_factory=list)
    frames: list[Box] = field(default_factory=list)

    def place(self, block: Block, axis: Axis, length: float) -> None:
        """Put ``block`` on ``axis``, stretched to ``length``."""
        if block.framed:
            self._frame(block, axis, length)
        if isinstance(block.tree, Leaf):
            self._place_leaf(block.tree.id, axis, length)
        elif block.offsets:
            self._place_parallel(block, axis, length)
        else:
            self.place_chain(block.parts, axis, length)

    def place_chain(self, parts: tuple[Block, ...], axis: Axis, length: float) -> None:
        """Put blocks one after the other, sharing what is left of ``length`` evenly."""
        spare = (length - sum(part.length for part in parts)) / len(parts)
        along = 0.0
        for part in parts:
            self.place(part, axis.shifted(along, 0.0), part.length + spare)
            along += part.length + spare

    def wire(self, junction: str, start: Point, end: Point) -> None:
        """Add a wire, unless it has no length."""
        if start != end:
            self.wires.append(Wire(junction, start, end))

    def _frame(self, block: Block, axis: Axis, length: float) -> None:
        if isinstance(block.tree, Leaf):
            inset = (length - block.length) / 2 + FRAME_PAD
        else:
            # Clear of a wire across its ends, and outside the rails that rungs hang from.
            inset = FRAME_PAD if block.lead or not block.offsets else -FRAME_PAD - 1.0
        self.frames.append(axis.box(inset, length - inset, block.before - 1, block.after - 1))

    def _place_leaf(self, leaf: str, axis: Axis, length: float) -> None:
        shape, text = stamp(self.stamp_kind), self.letterings[leaf]
        plus, minus = self.ends[leaf]
        start, end = length / 2 - shape.half_length, length / 2 + shape.half_length
        self.wire(plus, axis.point(0.0, 0.0), axis.point(start, 0.0))
        self.wire(minus, axis.point(end, 0.0), axis.point(length, 0.0))
        at = axis.point(length / 2, 0.0)
        if axis.turn == "down":
            aside = at.x + shape.half_height + TEXT_GAP
            lines = stack_start(text.down_the_side(), aside, at.y)
        else:
            above, edge = _above(text), shape.half_height + TEXT_GAP
            lines = stack_middle(above, at.x, at.y - edge - len(above) * LINE)
            lines += stack_middle(text.found, at.x, at.y + edge)
        body = axis.box(start, end, shape.half_height, shape.half_height)
        self.components.append(
            Component(leaf, self.stamp_kind, at, axis.turn, lines, body, leaf in self.marked)
        )

    def _place_parallel(self, block: Block, axis: Axis, length: float) -> None:
        plus, minus = self.ends_of(block.tree)
        first, last = block.lead, length - block.lead
        self.wire(plus, axis.point(0.0, 0.0), axis.point(first, 0.0))
        self.wire(minus, axis.point(last, 0.0), axis.point(length, 0.0))
        low, high = block.offsets[0], block.offsets[-1]
        for junction, along in ((plus, first), (minus, last)):
            self.wire(junction, axis.point(along, low), axis.point(along, high))
            for across in sorted({0.0, *block.offsets}):
                if low < across < high or across == 0.0:
                    self.dots.append(Dot(junction, axis.point(along, across)))
        for part, offset in zip(block.parts, block.offsets, strict=True):
            self.place(part, axis.shifted(first, offset), last - first)

    def ends_of(self, tree: Tree) -> tuple[str, str]:
        """The junctions at the entry and the exit of ``tree``."""
        first = last = tree
        while not isinstance(first, Leaf):
            first = first.parts[0]
        while not isinstance(last, Leaf):
            last = last.parts[-1]
        return self.ends[first.id][0], self.ends[last.id][1]
