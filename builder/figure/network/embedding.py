"""From a skeleton to a plane map: what lies beside what.

Chains between the same two points become rungs side by side, in the author's order, and so do
larger parts that touch the rest of the network at two points only. What cannot be taken apart so
is embedded by networkx. A chain that fits no plane map is drawn in by the way that crosses the
fewest others.
"""

from __future__ import annotations

import random
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import networkx

from builder.figure.network.rotation import PlaneMap
from builder.figure.network.skeleton import Skeleton

_TRIES = 6


@dataclass(frozen=True)
class _Part:
    """A part between two points.

    Attributes:
        start: the point at its upper end.
        end: the point at its lower end.
        chain: its only chain, or None.
        inner: its parts, one after the other or side by side.
        in_series: whether they follow each other.
        size: the number of its chains.
        first: the position of its first chain in the author's order.
    """

    start: int
    end: int
    chain: int | None
    inner: tuple[_Part, ...]
    in_series: bool
    size: int
    first: int

    def turned(self) -> _Part:
        """The same part with its lower end up."""
        return _Part(self.end, self.start, self.chain, self.inner, self.in_series, self.size,
                     self.first)  # fmt: skip


def is_planar(skeleton: Skeleton) -> bool:
    """Whether the skeleton can be drawn without crossings."""
    return _planar((chain.start, chain.end) for chain in skeleton.chains)


def plane_map(skeleton: Skeleton, other_side: bool = False) -> PlaneMap:
    """A plane map of a skeleton that is no ring, its points numbered in their order.

    Args:
        skeleton: the network.
        other_side: whether the face on the other side of the lead becomes the outer one.
    """
    number = {point: n for n, point in enumerate(skeleton.points)}
    ends = [(number[chain.start], number[chain.end]) for chain in skeleton.chains]
    if _planar(ends):
        return _drawn(ends, range(len(ends)), skeleton.lead, other_side)
    # Which chain is left to the end decides how many it must cross.
    best: PlaneMap | None = None
    order = list(range(len(ends)))
    chance = random.Random(1)  # noqa: S311 - the same choice in every build
    for _ in range(_TRIES):
        order.sort(key=lambda chain: chain != skeleton.lead)
        found = _with_crossings(ends, order, skeleton.lead, other_side)
        if best is None or len(found.crossings) < len(best.crossings):
            best = found
        chance.shuffle(order)
    assert best is not None
    return best


def _planar(ends: Iterable[tuple[object, object]]) -> bool:
    graph = networkx.Graph()
    graph.add_edges_from(ends)
    return bool(networkx.check_planarity(graph)[0])


def _with_crossings(
    ends: list[tuple[int, int]], order: list[int], lead: int | None, other_side: bool
) -> PlaneMap:
    fitting: list[int] = []
    late: list[int] = []
    for chain in order:
        fits = _planar([ends[c] for c in (*fitting, chain)])
        (fitting if fits else late).append(chain)
    drawn = _drawn(ends, sorted(fitting), lead, other_side)
    kept = set(drawn.routes[lead]) if lead is not None else set()
    for chain in late:
        drawn.insert(chain, *ends[chain], {half & ~1 for half in kept})
    return drawn


def _drawn(
    ends: list[tuple[int, int]], chains: Iterable[int], lead: int | None, other_side: bool
) -> PlaneMap:
    """The plane map of chains that have one."""
    parts = [_Part(*ends[c], c, (), False, 1, c) for c in chains if c != lead]
    fixed = frozenset(ends[lead]) if lead is not None else frozenset()
    parts = _reduced(parts, fixed)
    if lead is not None:
        leading = _Part(*ends[lead], lead, (), False, 1, -1)
        parts = list(_beside([*parts, leading], other_side))
    graph = networkx.Graph()
    graph.add_edges_from(sorted((part.start, part.end) for part in parts))
    planar, embedding = networkx.check_planarity(graph)
    assert planar
    by_ends = {frozenset((part.start, part.end)): part for part in parts}
    drawn = PlaneMap()
    leaving: dict[tuple[int, int], list[int]] = {}
    for part in parts:
        above, below = _draw(part, drawn)
        leaving[part.start, part.end] = above
        leaving[part.end, part.start] = below
    for point in sorted(graph):
        drawn.around[point] = []
        for other in embedding.neighbors_cw_order(point):
            assert frozenset((point, other)) in by_ends
            drawn.around[point] += leaving[point, other]
    for chain, route in drawn.routes.items():
        if drawn.tail[route[0]] != ends[chain][0]:
            drawn.routes[chain] = [route[0] ^ 1]
    if other_side:
        for around in drawn.around.values():
            around.reverse()
    if lead is not None:
        drawn.outer = drawn.routes[lead][0] ^ 1
    else:
        drawn.outer = max(drawn.faces()[0], key=len)[0]
    return drawn


def _reduced(parts: list[_Part], fixed: frozenset[int]) -> list[_Part]:
    """Parts merged side by side and one after the other until neither can be done."""
    while True:
        parts = list(_beside(parts))
        meeting: dict[int, list[_Part]] = defaultdict(list)
        for part in parts:
            meeting[part.start].append(part)
            meeting[part.end].append(part)
        through = [p for p, met in meeting.items() if len(met) == 2 and p not in fixed]
        if not through or len(parts) < 2:
            return parts
        point = through[0]
        one, other = sorted(meeting[point], key=lambda part: part.first)
        one = one if one.end == point else one.turned()
        other = other if other.start == point else other.turned()
        merged = _Part(one.start, other.end, None, (one, other), True, one.size + other.size,
                       one.first)  # fmt: skip
        parts = [part for part in parts if part.first not in (one.first, other.first)]
        parts.append(merged)
        parts.sort(key=lambda part: part.first)


def _beside(parts: list[_Part], lead_last: bool = False) -> Iterator[_Part]:
    """Parts between the same two points as one, simple ones first.

    With ``lead_last``, those beside the lead stand the other way round.
    """
    groups: dict[frozenset[int], list[_Part]] = {}
    for part in parts:
        groups.setdefault(frozenset((part.start, part.end)), []).append(part)
    for group in groups.values():
        if len(group) == 1:
            yield group[0]
            continue
        start = min(group, key=lambda part: part.first).start
        turned = [part if part.start == start else part.turned() for part in group]
        turned.sort(key=lambda part: (part.size > 1, part.first))
        flat: list[_Part] = []
        for part in turned:
            flat += part.inner if part.inner and not part.in_series else (part,)
        if lead_last and flat[0].first < 0:
            flat.reverse()
        size, first = sum(part.size for part in flat), min(part.first for part in flat)
        yield _Part(start, turned[0].end, None, tuple(flat), False, size, first)


def _draw(part: _Part, drawn: PlaneMap) -> tuple[list[int], list[int]]:
    """Add a part to the map.

    Returns:
        The half-edges that leave its start and its end, clockwise, as they lie with the start
        up, the end down, and parts side by side from left to right.
    """
    if part.chain is not None:
        half = drawn.add_edge(part.start, part.end)
        drawn.routes[part.chain] = [half]
        return [half], [half ^ 1]
    if not part.in_series:
        above: list[int] = []
        below: list[int] = []
        for inner in part.inner:
            over, under = _oriented(inner, part.start, drawn)
            above = over + above
            below = below + under
        return above, below
    here = part.start
    first: list[int] = []
    last: list[int] = []
    inner_parts = part.inner
    if part.start not in (inner_parts[0].start, inner_parts[0].end):
        inner_parts = inner_parts[::-1]
    for position, inner in enumerate(inner_parts):
        over, under = _oriented(inner, here, drawn)
        if position:
            drawn.around[here] = last + over
        else:
            first = over
        last = under
        here = inner.end if inner.start == here else inner.start
    return first, last


def _oriented(part: _Part, start: int, drawn: PlaneMap) -> tuple[list[int], list[int]]:
    return _draw(part if part.start == start else part.turned(), drawn)
