"""Which parts of a circuit go along the top, down the side and back along the bottom.

A parallel group alone hangs as rungs between two rails. A series chain is led round so that the
figure is small, and narrow enough for a phone.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from typing import NamedTuple

from builder.circuit.law import PARALLEL, SERIES
from builder.circuit.tree import Group, Tree
from builder.figure.blocks import LEAD, RUNG_GAP, TEXT_GAP, Block, Measurer
from builder.figure.lettering import Lettering, widest
from builder.figure.scene import TERMINAL_RADIUS, Run
from builder.figure.symbols import stamp
from builder.figure.text_size import LINE

LEAST_HEIGHT = 96.0
CLEAR = 8.0
PHONE_WIDTH = 388.0  # 420 without what stands left of the source and the margins
TALL = 460.0
MOST_ON_SIDE = 8
WORTH = 0.8
_SOURCES = {"voltage": "battery", "current": "current-source"}
_PLAIN = Lettering((Run("R", "italic"), Run("1", "index")), (Run("4.7 µF", key="any"),), found=())


@dataclass(frozen=True, slots=True)
class Source:
    """The measured source.

    Attributes:
        stamp: its symbol; empty for open terminals.
        text: its label.
        half_length: half of the symbol, along the wire.
        half_width: half of the symbol, across the wire; for terminals, where their label starts.
        length: the least height of the loop.
        text_half: half the height of its label.
        right: the room to the right of the wire.
        port: from the left edge of the loop to where its wires start.
    """

    stamp: str
    text: Lettering
    half_length: float
    half_width: float
    length: float
    text_half: float
    right: float
    port: float


class Split(NamedTuple):
    """How many parts of the chain go along the top, down the side and back along the bottom.

    With ``hung``, the only part on the side is a parallel group, hung between the rails.
    """

    top: int
    side: int
    bottom: int
    hung: bool


class Extent(NamedTuple):
    """The room of a chain of blocks: along, above and below its axis."""

    length: float = 0.0
    before: float = 0.0
    after: float = 0.0


class Sizes(NamedTuple):
    """The sizes of a loop.

    Attributes:
        height: from the top wire to the bottom wire.
        start: from the source to where parts on the top and the bottom start.
        stop: from the source to where parts on the top and the bottom stop.
        corner: from the source to the wire down the right side.
        width: from the source to the right edge.
        full: from the upper to the lower edge.
    """

    height: float
    start: float
    stop: float
    corner: float
    width: float
    full: float


def chain_of(tree: Tree) -> tuple[Tree, ...]:
    """The parts that follow each other from + to −."""
    if isinstance(tree, Group) and tree.connection == SERIES:
        return tree.parts
    return (tree,)


def measure_source(text: Lettering, quantity: str | None) -> Source:
    """The room of a battery, a current source, or two terminals, with its label."""
    lines = text.down_the_side()
    kind = _SOURCES.get(quantity or "", "")
    half_length, half_width, port = 0.0, -TEXT_GAP - TERMINAL_RADIUS, TERMINAL_RADIUS
    if kind:
        half_length, half_width, port = stamp(kind).half_length, stamp(kind).half_height, 0.0
    text_half = len(lines) * LINE / 2
    length = 2 * max(half_length + LEAD + LINE / 2, text_half + 2 * CLEAR)
    right = half_width + (TEXT_GAP + widest(lines) if lines else 0.0)
    return Source(kind, text, half_length, half_width, length, text_half, max(right, CLEAR), port)


@lru_cache(maxsize=256)
def choose_split(parts: tuple[Tree, ...], kind: str, quantity: str | None) -> Split:
    """The best way to lead a chain round.

    All labels are taken as equally wide here, so that a circuit keeps its shape while values are
    found and marks come and go.

    Args:
        parts: the chain.
        kind: the stamp of the elements.
        quantity: of the source.
    """
    measurer = Measurer(defaultdict(lambda: _PLAIN), kind, frozenset())
    source = measure_source(_PLAIN, quantity)
    across = tuple(measurer.block(part, False) for part in parts)
    down = tuple(measurer.block(part, True) for part in parts)

    tops, bottoms = _running(across), _running(across[::-1])

    def score(split: Split) -> float:
        side = down[split.top : split.top + split.side]
        if split.hung:
            side = side_blocks(parts[-1:], measurer, split)
        sizes = size_up(tops[split.top], side, bottoms[split.bottom], source)
        return _score(split, sizes, len(parts))

    return min(_splits(parts), key=score)


def side_blocks(parts: tuple[Tree, ...], measurer: Measurer, split: Split) -> tuple[Block, ...]:
    """The measured parts of the side, from top to bottom."""
    if split.hung:
        return (measurer.rungs(parts[0]),)
    return tuple(measurer.block(part, True) for part in parts)


def extent(blocks: tuple[Block, ...]) -> Extent:
    """The room of blocks laid across one after the other."""
    return _running(blocks)[-1]


def size_up(top: Extent, side: tuple[Block, ...], bottom: Extent, source: Source) -> Sizes:
    """The sizes of the loop that holds these chains and the source without any touching."""
    side_length = sum(block.length for block in side)
    between = top.after + bottom.before + 2 * CLEAR
    height = max(LEAST_HEIGHT, source.length, side_length, between)
    # Parts above and below the source's label need not wait beside it; a loop made a little
    # higher for that is much narrower.
    half = max(source.text_half, source.half_length) + max(top.after, bottom.before) + CLEAR
    clear = 2 * half - height <= WORTH * source.right
    height = max(height, 2 * half) if clear else height
    start = CLEAR + source.port if clear else source.right + CLEAR
    side_before = max([0.0, *(block.before for block in side)])
    aside = side_before + CLEAR if side and (top.length or bottom.length) else 0.0
    corner = start + max(top.length, bottom.length) + aside
    corner = max(corner, source.right + RUNG_GAP + side_before)
    width = corner + max([0.0, *(block.after for block in side)])
    full = height + top.before + bottom.after
    return Sizes(height, start, corner - aside, corner, width, full)


def _splits(parts: tuple[Tree, ...]) -> Iterator[Split]:
    count, last = len(parts), parts[-1]
    if isinstance(last, Group) and last.connection == PARALLEL:
        yield Split(count - 1, 1, 0, hung=True)
    for side in range(min(count, MOST_ON_SIDE) + 1):
        for bottom in range((count - side) // 2 + 1):
            yield Split(count - side - bottom, side, bottom, hung=False)


def _score(split: Split, sizes: Sizes, count: int) -> float:
    """How far a loop is from a small figure of the usual look; the weights are our own taste."""
    score = sizes.width + sizes.full
    score += 4 * max(0.0, sizes.width - PHONE_WIDTH) + 2 * max(0.0, sizes.full - TALL)
    score += 70 * bool(split.bottom) + 90 * max(0, split.side - 1) + 90 * (split.side == 0)
    return score + (250 if count == 1 and not (split.hung or split.side) else 0)


def _running(blocks: tuple[Block, ...]) -> list[Extent]:
    """The room of the first 0, 1, 2 … blocks."""

    def add(chain: Extent, block: Block) -> Extent:
        before, after = max(chain.before, block.before), max(chain.after, block.after)
        return Extent(chain.length + block.length, before, after)

    return list(accumulate(blocks, add, initial=Extent()))
