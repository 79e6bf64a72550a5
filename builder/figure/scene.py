"""What is drawn where: the typed pieces of a figure.

Lengths are user units of the SVG; a type size of 15 of them reads well on a page. x grows to the
right, y grows downwards. Nothing here knows how the pieces were laid out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

TERMINAL_RADIUS = 3.5
HOP_RADIUS = 5.0
HEAD_LENGTH, HEAD_WIDTH = 10.0, 8.0
CURL_RADIUS = 17.0
NAME_SIZE = 0.8
DOT_ROOM = 4.0


class Point(NamedTuple):
    """A place in the figure."""

    x: float
    y: float


class Box(NamedTuple):
    """An upright rectangle."""

    left: float
    top: float
    right: float
    bottom: float


class Run(NamedTuple):
    """A piece of a line of text in one style.

    Attributes:
        text: what is printed.
        style: ``upright``, ``italic`` or ``index`` (upright, smaller and lowered).
        key: the quantity whose value this is; empty if none.
        mark: where other texts will stand in its place: what tells it apart from the other such
            pieces of the figure; else empty.
        room: the least room to keep for it, in user units without slack.
    """

    text: str
    style: str = "upright"
    key: str = ""
    mark: str = ""
    room: float = 0.0


@dataclass(frozen=True, slots=True)
class TextLine:
    """One line of text.

    Attributes:
        at: where its baseline starts, or its middle if ``anchor`` is ``middle``.
        anchor: ``start``, ``middle`` or ``end``.
        runs: its pieces from left to right.
        box: the room kept for it.
    """

    at: Point
    anchor: str
    runs: tuple[Run, ...]
    box: Box


@dataclass(frozen=True, slots=True)
class Wire:
    """A straight wire, part of one junction."""

    junction: str
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Dot:
    """The mark where three or more wires meet."""

    junction: str
    at: Point


@dataclass(frozen=True, slots=True)
class Component:
    """A symbol with its text.

    Attributes:
        id: the element's name, empty for the only source of a nest.
        stamp: the kind of symbol, a key of ``builder.figure.symbols``.
        at: the centre of its body.
        turn: the direction from its + end to its − end: ``right``, ``left``, ``down`` or ``up``.
        lines: its name and values, and signs such as + and −.
        body: the room of the symbol alone.
        marked: whether it is drawn as marked.
        source: whether it is a source.
    """

    id: str
    stamp: str
    at: Point
    turn: str
    lines: tuple[TextLine, ...]
    body: Box
    marked: bool = False
    source: bool = False


@dataclass(frozen=True, slots=True)
class Terminal:
    """An open terminal of the circuit."""

    junction: str
    at: Point


@dataclass(frozen=True, slots=True)
class Hop:
    """Where a wire that runs across passes over one that it is not joined to."""

    junction: str
    at: Point


@dataclass(frozen=True, slots=True)
class Head:
    """An arrowhead on the wire of an element, its middle at a point.

    Attributes:
        of: the element's name.
        at: its middle.
        turn: where it points.
    """

    of: str
    at: Point
    turn: str


@dataclass(frozen=True, slots=True)
class Ground:
    """The ground symbol of a junction, hanging down from a point."""

    junction: str
    at: Point


@dataclass(frozen=True, slots=True)
class Curl:
    """A curved arrow inside a loop, with its name in the middle."""

    centre: Point
    clockwise: bool
    name: TextLine


@dataclass(frozen=True, slots=True)
class JunctionName:
    """What is written beside a junction, in small type."""

    junction: str
    line: TextLine


@dataclass(frozen=True, slots=True)
class Scene:
    """All pieces of a figure, and the room that they take.

    ``looks`` says which junctions are traced, and in which look: ``a`` or ``b``.
    """

    box: Box
    wires: tuple[Wire, ...]
    dots: tuple[Dot, ...]
    terminals: tuple[Terminal, ...]
    components: tuple[Component, ...]
    frames: tuple[Box, ...]
    hops: tuple[Hop, ...] = ()
    heads: tuple[Head, ...] = ()
    grounds: tuple[Ground, ...] = ()
    curls: tuple[Curl, ...] = ()
    names: tuple[JunctionName, ...] = ()
    looks: Mapping[str, str] = field(default_factory=dict)
