"""Symbols with their texts as they lie round the point (0, 0), across or down."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import NamedTuple

from builder.figure.lettering import Runs, letter, number_runs, sign, stack_middle, stack_start
from builder.figure.network.request import CURRENT_SOURCE, SOURCES, VOLTAGE_SOURCE, Arrow, Branch
from builder.figure.network.skeleton import PORT, STUB_MINUS, STUB_PLUS, Link
from builder.figure.request import Label, ValueText
from builder.figure.scene import (
    HEAD_LENGTH,
    HEAD_WIDTH,
    TERMINAL_RADIUS,
    Box,
    Point,
    Run,
    TextLine,
)
from builder.figure.symbols import stamp, stamp_kind
from builder.figure.text_size import LINE, line_width
from builder.quantity.names import Symbol

LEAD, TEXT_GAP, TEXT_ASIDE, FRAME_PAD = 12.0, 6.0, 6.0, 5.0
SIGN_ASIDE, SIGN_BELOW, END_ASIDE = 9.0, 12.0, 7.0
PORT_LENGTH, STUB_LENGTH = 76.0, 30.0
SIGN_ABOVE = TERMINAL_RADIUS + 2.0 + LINE / 2
_PLAIN = "4.7 µF"
_METERS = {"ammeter": "A", "voltmeter": "V"}


@dataclass(frozen=True, slots=True)
class Glyph:
    """One symbol, or one current arrow, with its texts, round (0, 0).

    Attributes:
        branch: the branch that it belongs to.
        stamp: the kind of symbol; empty for an arrow, and for open terminals.
        turn: where the symbol, or the arrow, points: ``right``, ``left``, ``down`` or ``up``.
        lines: its texts.
        body: the room of the symbol alone.
        box: the room of all, with its frame.
        half: half of the length that it needs on its wire, leads included.
        is_arrow: whether it is a current arrow.
    """

    branch: Branch
    stamp: str
    turn: str
    lines: tuple[TextLine, ...]
    body: Box
    box: Box
    half: float
    is_arrow: bool = False


class Way(NamedTuple):
    """How links lie.

    Attributes:
        down: whether they lie on an upright wire.
        symbols: ``iec`` or ``ieee``.
        plain: whether all numbers are taken as equally wide, without arrows and marks, for
            choices that should not change while values are found.
    """

    down: bool
    symbols: str
    plain: bool = False


def glyphs_of(link: Link, way: Way) -> tuple[Glyph, ...]:
    """The pieces of a branch in the order of its wire (to the right, or down).

    Args:
        link: the branch, forward if its first junction lies left of or above its second.
        way: how it lies.
    """
    branch = link.branch
    if branch.kind in (PORT, STUB_PLUS, STUB_MINUS):
        return (_open_end(branch, way.down),)
    turn = _turn(link.forward, way.down)
    symbol = _symbol_glyph(branch, turn, way)
    if branch.arrow is None or way.plain:
        return (symbol,)
    with_wire = branch.arrow.forward == link.forward
    arrow = _arrow_glyph(branch, branch.arrow, _turn(with_wire, way.down), way.down)
    return (arrow, symbol) if with_wire else (symbol, arrow)


def stamp_of(branch: Branch, symbols: str) -> str:
    """The stamp of a branch."""
    if branch.kind == VOLTAGE_SOURCE:
        return "battery"
    return stamp_kind(branch.kind, symbols)


def shifted(line: TextLine, by: Point) -> TextLine:
    """A line of text moved."""
    return replace(line, at=Point(line.at.x + by.x, line.at.y + by.y), box=moved(line.box, by))


def moved(box: Box, by: Point) -> Box:
    """A box moved."""
    return Box(box.left + by.x, box.top + by.y, box.right + by.x, box.bottom + by.y)


def around(*boxes: Box) -> Box:
    """The smallest box round boxes."""
    return Box(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def grown(box: Box, by: float) -> Box:
    """A box with a margin on all sides."""
    return Box(box.left - by, box.top - by, box.right + by, box.bottom + by)


def _turn(along: bool, down: bool) -> str:
    if down:
        return "down" if along else "up"
    return "right" if along else "left"


def _symbol_glyph(branch: Branch, turn: str, way: Way) -> Glyph:
    kind = stamp_of(branch, way.symbols)
    shape = stamp(kind)
    down, length, height = way.down, shape.half_length, shape.half_height
    body = Box(-height, -length, height, length) if down else Box(-length, -height, length, height)
    label = _plain(branch.label) if way.plain else branch.label
    ends = () if way.plain else _ends(branch, turn, body, down)
    lines = (*_meter_letter(branch), *ends)
    lines += _beside(label, height) if down else _above_and_below(label, height, bool(lines))
    box = around(body, *(line.box for line in lines))
    if branch.marked and not way.plain:
        box = grown(box, FRAME_PAD)
    reach = max(-box.top, box.bottom) if down else max(-box.left, box.right)
    half = max(length + LEAD, reach + TEXT_ASIDE / (2 if down else 1))
    if branch.kind not in SOURCES:
        # Seen the same from both ends; a switch then opens upwards or to the right.
        turn = "down" if down else "right"
    return Glyph(branch, kind, turn, lines, body, box, half)


def _plain(label: Label | None) -> Label | None:
    """A label whose values are all as wide as each other."""
    if label is None:
        return None
    own = label.values[:1] if label.values and label.values[0].symbol is None else ()
    return Label(label.symbol, tuple(ValueText(_PLAIN, None, "=", v.key) for v in own))


def _beside(label: Label | None, height: float) -> tuple[TextLine, ...]:
    if label is None:
        return ()
    return stack_start(letter(label).down_the_side(), height + TEXT_GAP, 0.0)


def _above_and_below(label: Label | None, height: float, ends: bool) -> tuple[TextLine, ...]:
    if label is None:
        return ()
    text = letter(label)
    above = tuple(runs for runs in (text.in_one_line(),) if runs)
    edge = height + TEXT_GAP
    under = max(edge, SIGN_BELOW + LINE / 2 + 2) if ends else edge
    return (
        *stack_middle(above, 0.0, -edge - len(above) * LINE),
        *stack_middle(text.found, 0.0, under),
    )


def _meter_letter(branch: Branch) -> tuple[TextLine, ...]:
    letter_in_it = _METERS.get(branch.kind)
    return (sign(letter_in_it, Point(0.0, 0.0)),) if letter_in_it else ()


def _ends(branch: Branch, turn: str, body: Box, down: bool) -> tuple[TextLine, ...]:
    """What stands at the two ends: charges of plates, or + and −."""
    texts: tuple[Runs, Runs] | None = None
    if branch.plates is not None:
        texts = (number_runs(branch.plates[0]), number_runs(branch.plates[1]))
    elif branch.polarity or branch.kind == VOLTAGE_SOURCE:
        texts = ((Run("+"),), (Run("−"),))
    if texts is None or (branch.kind == CURRENT_SOURCE and not branch.polarity):
        return ()
    first, second = texts if turn in ("right", "down") else texts[::-1]
    if down:
        return (
            _ending(first, Point(-END_ASIDE, body.top - LINE / 2 - 2.0)),
            _ending(second, Point(-END_ASIDE, body.bottom + LINE / 2 + 2.0)),
        )
    return (
        _ending(first, Point(body.left - 3.0, SIGN_BELOW)),
        *stack_start((second,), body.right + 3.0, SIGN_BELOW),
    )


def _ending(runs: Runs, at: Point) -> TextLine:
    """A line that ends at a point, its middle at that height."""
    (line,) = stack_start((runs,), at.x - line_width(runs), at.y)
    return replace(line, at=Point(at.x, line.at.y), anchor="end")


def _arrow_glyph(branch: Branch, arrow: Arrow, turn: str, down: bool) -> Glyph:
    long, wide = HEAD_LENGTH / 2, HEAD_WIDTH / 2
    body = Box(-wide, -long, wide, long) if down else Box(-long, -wide, long, wide)
    runs = _arrow_text(arrow)
    stacked = (runs,) if runs else ()
    if down:
        lines = stack_start(stacked, wide + 4.0, 0.0)
    else:
        lines = stack_middle(stacked, 0.0, -wide - 3.0 - LINE * len(stacked))
    box = around(body, *(line.box for line in lines))
    reach = max(-box.top, box.bottom) if down else max(-box.left, box.right)
    half = max(long + 8.0, reach + (1.0 if down else 3.0))
    return Glyph(branch, "", turn, lines, body, box, half, is_arrow=True)


def _arrow_text(arrow: Arrow) -> Runs:
    value = arrow.text
    if value is None:
        return letter(Label(arrow.symbol)).name if arrow.symbol is not None else ()
    named = replace(value, symbol=arrow.symbol or value.symbol)
    if named.symbol is None:
        return letter(Label(Symbol(""), (named,))).own
    return letter(Label(named.symbol, (named,))).found[0]


def _open_end(branch: Branch, down: bool) -> Glyph:
    """Two open terminals at the ends of the wire's place, or one not far from where it starts.

    Their signs stand where ``terminal_sign`` says.
    """
    half = (PORT_LENGTH if branch.kind == PORT else STUB_LENGTH) / 2
    width = line_width((Run("+"),)) / 2
    if down:
        box = Box(-SIGN_ASIDE - TERMINAL_RADIUS - width, -half, TERMINAL_RADIUS, half)
    else:
        box = Box(-half, -SIGN_ABOVE - LINE / 2, half, TERMINAL_RADIUS)
    return Glyph(branch, "", "down" if down else "right", (), Box(0, 0, 0, 0), box, half)


def terminal_sign(text: str, at: Point, down: bool) -> TextLine:
    """The sign of an open terminal on an upright wire, or on one across."""
    if down:
        return sign(text, Point(at.x - TERMINAL_RADIUS - SIGN_ASIDE, at.y))
    return sign(text, Point(at.x, at.y - SIGN_ABOVE))
