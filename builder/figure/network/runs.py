"""Straight runs: which branch of a chain stands on which straight piece of its way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from builder.figure.network.course import Cell, Course, Route
from builder.figure.network.glyphs import Glyph, Way, glyphs_of
from builder.figure.network.request import SOURCES
from builder.figure.network.skeleton import PORT, STUB_MINUS, STUB_PLUS, Link

UPRIGHT = SOURCES | {PORT}
_SEAT = 6.0
STUBS = frozenset({STUB_PLUS, STUB_MINUS})


@dataclass(frozen=True, slots=True)
class Straight:
    """A straight piece of a way, without corners and crossings inside.

    Attributes:
        low: its left or upper cell.
        high: its right or lower cell.
        forward: whether the chain runs from ``low`` to ``high``.
    """

    low: Cell
    high: Cell
    forward: bool

    @property
    def down(self) -> bool:
        """Whether it is upright."""
        return self.low[0] == self.high[0]

    @property
    def span(self) -> int:
        """How many columns or rows it spans."""
        return self.high[0] - self.low[0] + self.high[1] - self.low[1]


@dataclass(frozen=True, slots=True)
class Run:
    """A straight piece and what stands on it.

    Attributes:
        straight: where it is.
        glyphs: from ``low`` to ``high``.
        junctions: the junctions from ``low`` to ``high``: one more than there are symbols.
    """

    straight: Straight
    glyphs: tuple[Glyph, ...]
    junctions: tuple[str, ...]


def straights(route: Route) -> tuple[Straight, ...]:
    """The straight pieces of a way, from its start to its end."""
    return tuple(Straight(min(a, b), max(a, b), a < b) for a, b in pairwise(route.cells) if a != b)


def sharings(route: Route) -> tuple[tuple[int, ...], ...]:
    """The ways worth trying to share a chain's links among its straight pieces, best first.

    Each says how many links stand on each piece.
    """
    pieces, links = straights(route), route.chain.links
    found = [
        shared
        for shared in _shared(len(links), len(pieces))
        if _fits(shared, pieces, links, route.lead)
    ]
    found.sort(key=lambda shared: _crowding(shared, pieces, links) - _seated(shared, route))
    return tuple(found[:6])


def _seated(shared: tuple[int, ...], route: Route) -> float:
    """What it is worth that the first element, or the lead's source, has its seat."""
    if route.seat is None or not shared[route.seat]:
        return 0.0
    before = sum(shared[: route.seat])
    here = route.chain.links[before : before + shared[route.seat]]
    wanted = UPRIGHT if route.lead else frozenset({here[0].branch.kind})
    return _SEAT if any(link.branch.kind in wanted for link in here) else 0.0


def _shared(count: int, places: int) -> Iterator[tuple[int, ...]]:
    if places == 1:
        yield (count,)
        return
    for here in range(count + 1):
        for rest in _shared(count - here, places - 1):
            yield (here, *rest)


def _fits(
    shared: tuple[int, ...], pieces: tuple[Straight, ...], links: tuple[Link, ...], lead: bool
) -> bool:
    """Sources at the left stand upright; open ends have a piece of their own."""
    start = 0
    for count, piece in zip(shared, pieces, strict=True):
        kinds = [link.branch.kind for link in links[start : start + count]]
        start += count
        if PORT in kinds and count > 1:
            return False
        if lead and not piece.down and UPRIGHT & set(kinds):
            return False
        if STUBS & set(kinds) and piece is not (pieces[-1] if kinds[-1] in STUBS else pieces[0]):
            return False
    return True


def _crowding(
    shared: tuple[int, ...], pieces: tuple[Straight, ...], links: tuple[Link, ...]
) -> float:
    """How far a sharing is from the usual look; the weights are our own taste."""
    total, start = 0.0, 0
    top = min(piece.low[1] for piece in pieces)
    for count, piece in zip(shared, pieces, strict=True):
        kinds = [link.branch.kind for link in links[start : start + count]]
        start += count
        if not count:
            continue
        room = piece.span + (0.5 if piece.down else 0.0)
        total += (count / room) ** 2 + 0.4 * (count - 1)
        total += sum(0.9 for kind in kinds if kind.endswith("source") and not piece.down)
        if not piece.down:
            # Along the top rather than along the bottom.
            total += 0.8 if piece.low[1] > top else -0.05
    return total


def runs_of(
    course: Course, shared: tuple[tuple[int, ...], ...], symbols: str, plain: bool
) -> list[Run]:
    """All straight pieces with what stands on them.

    Args:
        course: the figure on the grid.
        shared: for each route, how many links stand on each of its straight pieces.
        symbols: ``iec`` or ``ieee``.
        plain: whether all numbers are taken as equally wide.
    """
    return [
        run
        for route, counts in zip(course.routes, shared, strict=True)
        for run in _runs(route, counts, symbols, plain)
    ]


def _runs(route: Route, counts: tuple[int, ...], symbols: str, plain: bool) -> Iterator[Run]:
    links, start = route.chain.links, 0
    here = links[0].ends[0] if links else route.chain.end
    for piece, count in zip(straights(route), counts, strict=True):
        mine = links[start : start + count]
        start += count
        junctions = [here, *(link.ends[1] for link in mine)]
        here = junctions[-1]
        if not piece.forward:
            mine = tuple(Link(link.branch, not link.forward) for link in reversed(mine))
            junctions.reverse()
        way = Way(piece.down, symbols, plain)
        glyphs = tuple(glyph for link in mine for glyph in glyphs_of(link, way))
        yield Run(piece, glyphs, tuple(junctions))
