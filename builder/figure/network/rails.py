"""Points where many edges meet, drawn out to rails.

A figure has four directions, so a point where five edges meet must be a wire with several dots.
Three or four edges may have one as well, where that reads better.
"""

from __future__ import annotations

from typing import NamedTuple

from builder.figure.network.rotation import PlaneMap

MOST = 4


class Rail(NamedTuple):
    """How a point is drawn out.

    Attributes:
        first: the position, clockwise, of the edge at the left end of the rail.
        above: how many edges leave on its upper side.
        wide: whether those at its ends have dots of their own.
    """

    first: int
    above: int
    wide: bool = False


def rail_choices(plane: PlaneMap, point: int, outer_at: list[int]) -> list[Rail | None]:
    """The ways worth trying to draw out a point, the most usual first.

    Args:
        plane: the map.
        point: the point.
        outer_at: the positions in its rotation that follow a corner of the outer face.
    """
    count = len(plane.around[point])
    if count < MOST:
        return [None]
    along = [Rail(first, count - 2) for first in outer_at]
    if count == MOST:
        along += [Rail(first, 2) for first in (0, 1) if first not in {a % 2 for a in outer_at}]
        return [*along, None] if outer_at else [None, *along]
    bundled = _by_bundles(plane, point)
    if bundled:
        return [*bundled, *along]
    half = (count - 2) // 2
    across = [Rail(first, half) for first in range(count if count % 2 else count // 2)]
    rest = [Rail(first, count - 2) for first in range(count) if first not in outer_at]
    return [*along, *across, *rest] if outer_at else [*across, *rest]


def _by_bundles(plane: PlaneMap, point: int) -> list[Rail | None]:
    """Rails with one bundle of edges on one side and all others on the other, large ones first.

    A bundle are edges to the same point beside each other; one alone needs no rail of this kind.
    """
    heads = [plane.head(half) for half in plane.around[point]]
    count = len(heads)
    starts = [n for n in range(count) if heads[n - 1] != heads[n]]
    bundles: list[tuple[int, int]] = []
    for start, after in zip(starts, [*starts[1:], *(n + count for n in starts[:1])], strict=True):
        bundles.append((after - start, start))
    large = sorted((b for b in bundles if b[0] > 2), key=lambda b: (-b[0], b[1]))
    if len(large) < 1 or max(heads.count(head) for head in heads) > count - 2:
        return []
    return [Rail(start, size - 2, wide) for size, start in large for wide in (True, False)]


def draw_out(plane: PlaneMap, rails: dict[int, Rail | None]) -> tuple[PlaneMap, dict[int, int]]:
    """The map with points drawn out, and the first point of the rail of each new one."""
    drawn, home = plane.copy(), {}
    for point, rail in rails.items():
        if rail is not None:
            for new in _draw_out(drawn, point, rail):
                home[new] = point
    return drawn, home


def _draw_out(plane: PlaneMap, point: int, rail: Rail) -> list[int]:
    leaving = plane.around[point]
    turned = leaving[rail.first :] + leaving[: rail.first]
    left, above = turned[0], turned[1 : 1 + rail.above]
    right, below = turned[1 + rail.above], turned[2 + rail.above :][::-1]
    here, points = point, []
    if rail.wide:
        count = max(len(above) + 2, len(below))
        upper = [[], *_spread(above, count - 2), []]
        lower = _to_the_ends(below, count)
    else:
        count = max(len(above), len(below))
        upper, lower = _spread(above, count), _spread(below, count)
    back = left
    for position in range(count):
        last = position == count - 1
        onward = right if last else plane.add_edge(here, max(plane.around) + 1)
        around = [back, *upper[position], onward, *lower[position]]
        plane.around[here] = around
        for half in around:
            plane.tail[half] = here
        if not last:
            plane.rails.add(onward & ~1)
            here = max(plane.around) + 1
            plane.tail[onward ^ 1] = here
            plane.around[here] = []
            points.append(here)
            back = onward ^ 1
    return points


def _to_the_ends(edges: list[int], count: int) -> list[list[int]]:
    """Edges over so many places, the first and the last at the ends."""
    if len(edges) < 2:
        return _spread(edges, count)
    spread: list[list[int]] = [[] for _ in range(count)]
    for position, edge in enumerate(edges):
        spread[position * (count - 1) // (len(edges) - 1)].append(edge)
    return spread


def _spread(edges: list[int], count: int) -> list[list[int]]:
    """Edges over so many places, at most one at each, as evenly as can be."""
    spread: list[list[int]] = [[] for _ in range(count)]
    for position, edge in enumerate(edges):
        spread[(2 * position + 1) * count // (2 * len(edges))].append(edge)
    return spread
