"""Which straight piece of its way each branch of a chain stands on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from builder.figure.network.course import Course, Route
from builder.figure.network.metric import measure
from builder.figure.network.request import SOURCES
from builder.figure.network.runs import Straight, runs_of, straights
from builder.figure.network.skeleton import PORT, STUB_MINUS, STUB_PLUS, Link

_UPRIGHT = SOURCES | {PORT}
_STUBS = frozenset({STUB_PLUS, STUB_MINUS})
_SEAT, _UNFIT, _LYING, _BELOW, _BELOW_IN_RING = 6.0, 50.0, 0.9, 0.8, 0.1
_PER_CROWDING, _MOVED, _ALONE, _ASIDE = 10.0, 30.0, 80.0, 2.0
_MOST = 4

Hint = Mapping[str, tuple[float, float]]
Shared = tuple[int, ...]
"""How many links stand on each straight piece of a way."""


class _Way(NamedTuple):
    """One way to share a chain among its pieces, and how far it is from the usual look."""

    shared: Shared
    crowding: float


def share(course: Course, symbols: str, hint: Hint) -> tuple[Shared, ...]:
    """Links shared among straight pieces so that the figure is small and looks as usual.

    Args:
        course: the figure on the grid.
        symbols: ``iec`` or ``ieee``.
        hint: where a former figure had its junctions.
    """
    choices = [_ways(route, hint) for route in course.routes]
    shared = tuple(ways[0].shared for ways in choices)
    best = measure(course, runs_of(course, shared, symbols, True)).size
    for number, (route, ways) in enumerate(zip(course.routes, choices, strict=True)):
        if route.seat is not None:
            continue
        for way in ways[1:_MOST]:
            tried = (*shared[:number], way.shared, *shared[number + 1 :])
            size = measure(course, runs_of(course, tried, symbols, True)).size
            size += _PER_CROWDING * (way.crowding - ways[0].crowding) + _ALONE * _alone(route)
            if size < best:
                best, shared = size, tried
    return shared


def _alone(route: Route) -> bool:
    """Whether one element has the way for itself, be it opposite the lead of a ring."""
    return len(route.chain.links) <= 1 + _in_ring(route)


def _in_ring(route: Route) -> bool:
    return route.chain.start == route.chain.end


def _ways(route: Route, hint: Hint) -> list[_Way]:
    """The ways to share a chain, the most usual first."""
    pieces, links = straights(route), route.chain.links
    found = [
        _Way(shared, _crowding(shared, pieces, route) + _moved(shared, pieces, route, hint))
        for shared in _all_ways(len(links), len(pieces))
    ]
    return sorted(found, key=lambda way: way.crowding)


def _all_ways(count: int, places: int) -> Iterator[Shared]:
    if places == 1:
        yield (count,)
        return
    for here in range(count + 1):
        for rest in _all_ways(count - here, places - 1):
            yield (here, *rest)


def _crowding(shared: Shared, pieces: tuple[Straight, ...], route: Route) -> float:
    """How far a sharing is from the usual look; the weights are our own taste."""
    total, start, links = 0.0, 0, route.chain.links
    top = min(piece.low[1] for piece in pieces)
    for position, (count, piece) in enumerate(zip(shared, pieces, strict=True)):
        here = links[start : start + count]
        start += count
        if not count:
            continue
        room = min(piece.span, 2) + 0.5 if piece.down else 1.0
        total += (count / room) ** 2 + 0.4 * (count - 1)
        total += _wrong(here, piece, (pieces[0], pieces[-1]), route.lead)
        if _in_ring(route) and piece is pieces[-1]:
            # The left side of a ring is its source's own.
            total += _ASIDE * (count - 1)
        if not piece.down:
            below = _BELOW_IN_RING if _in_ring(route) else _BELOW
            # Along the top rather than along the bottom.
            total += below if piece.low[1] > top else -0.05
        if position == route.seat and _seated(here, route.lead):
            total -= _SEAT
    return total


def _seated(here: tuple[Link, ...], lead: bool) -> bool:
    return not lead or any(link.branch.kind in _UPRIGHT for link in here)


def _wrong(
    here: tuple[Link, ...], piece: Straight, ends: tuple[Straight, Straight], lead: bool
) -> float:
    """Sources stand upright, above all at the left; open ends have a piece of their own."""
    kinds = [link.branch.kind for link in here]
    wrong = 0.0 if piece.down else _LYING * sum(kind in SOURCES for kind in kinds)
    if PORT in kinds and len(kinds) > 1:
        wrong += _UNFIT
    if lead and not piece.down and _UPRIGHT & set(kinds):
        wrong += _UNFIT
    if _STUBS & set(kinds) and piece is not ends[kinds[-1] in _STUBS]:
        wrong += _UNFIT
    return wrong


def _moved(shared: Shared, pieces: tuple[Straight, ...], route: Route, hint: Hint) -> float:
    """How many junctions between elements lie on another side of the chain's ends than before."""
    chain = route.chain
    if chain.start not in hint or chain.end not in hint or _in_ring(route):
        return 0.0
    moved, start = 0, 0
    ends = route.cells[0], route.cells[-1]
    for count, piece in zip(shared, pieces, strict=True):
        low, high = (piece.low, piece.high) if piece.forward else (piece.high, piece.low)
        for position, link in enumerate(chain.links[start : start + count], start=1):
            junction = link.ends[1]
            if junction not in hint or link is chain.links[-1]:
                continue
            part = position / count
            at = (low[0] + part * (high[0] - low[0]), low[1] + part * (high[1] - low[1]))
            for axis in (0, 1):
                for end, name in zip(ends, (chain.start, chain.end), strict=True):
                    now = _sign(at[axis] - end[axis])
                    then = _sign(round((hint[junction][axis] - hint[name][axis]) / 8))
                    moved += now != then
        start += count
    return _MOVED / _PER_CROWDING * moved


def _sign(number: float) -> int:
    return (number > 0) - (number < 0)
