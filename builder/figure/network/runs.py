"""Straight runs: which branch of a chain stands on which straight piece of its way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from builder.figure.network.course import Cell, Course, Route
from builder.figure.network.glyphs import Glyph, Way, glyphs_of
from builder.figure.network.skeleton import Link


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
