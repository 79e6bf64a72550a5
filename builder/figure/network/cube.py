"""The cube as a square in a square.

The eight corners and twelve edges of a cube are known by their pattern, whatever they are called.
The lead may join two of its corners besides; open terminals may stand at two of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise, permutations

from builder.figure.network.course import Cell, Course, Route
from builder.figure.network.skeleton import STUB_MINUS, STUB_PLUS, Chain, Skeleton

# The outer square is A B C D, the inner one a b c d, both clockwise from the upper left.
_CORNERS: dict[str, Cell] = {
    "A": (1, 1), "B": (4, 1), "C": (4, 2), "D": (1, 2),
    "a": (2, 1), "b": (3, 1), "c": (3, 2), "d": (2, 2),
}  # fmt: skip
_WAYS: dict[str, tuple[Cell, ...]] = {
    "AD": ((1, 1), (1, 2)),
    "AB": ((1, 1), (1, 0), (4, 0), (4, 1)),
    "BC": ((4, 1), (4, 2)),
    "DC": ((1, 2), (1, 4), (4, 4), (4, 2)),
    **{pair: (_CORNERS[pair[0]], _CORNERS[pair[1]])
       for pair in ("Aa", "Bb", "Cc", "Dd", "ab", "bc", "dc", "ad")},
}  # fmt: skip
_LEADS: dict[str, tuple[Cell, ...]] = {
    "AD": ((1, 1), (0, 1), (0, 2), (1, 2)),
    "AC": ((1, 1), (0, 1), (0, 5), (5, 5), (5, 2), (4, 2)),
    "Ac": ((1, 1), (0, 1), (0, 5), (3, 5), (3, 4), (3, 2)),
}
_CROSSED: Cell = (3, 4)
_STUBS: dict[str, tuple[Cell, ...]] = {STUB_PLUS: ((1, 1), (0, 1)), STUB_MINUS: ((3, 2), (3, 3))}

Corners = dict[str, str]
"""The point at each corner."""


def cube_course(skeleton: Skeleton) -> Course | None:
    """The ways of a cube, or None if the skeleton is none."""
    stubs = {c.end for c in skeleton.chains} & set(_STUBS)
    edges = [c for n, c in enumerate(skeleton.chains) if c.end not in stubs]
    extra = len(edges) == len(_WAYS) + 1 and skeleton.lead is not None
    lead = skeleton.chains[skeleton.lead] if extra and skeleton.lead is not None else None
    edges = [chain for chain in edges if chain is not lead]
    points = len(skeleton.points) - len(stubs)
    if len(edges) != len(_WAYS) or points != len(_CORNERS):
        return None
    best = min(_found(edges, lead, skeleton), key=lambda found: found[0], default=None)
    return None if best is None else _course(best[1], best[2], skeleton, lead)


def _found(
    edges: list[Chain], lead: Chain | None, skeleton: Skeleton
) -> Iterator[tuple[tuple[int, ...], Corners, str]]:
    """The ways to lay the cube, each with the author's order of its edges and its lead's way."""
    number = {frozenset((c.start, c.end)): n for n, c in enumerate(edges)}
    at = {c.end: c.start for c in skeleton.chains if c.end in _STUBS}
    for corners in _cubes(set(number)):
        order = tuple(number[frozenset(_ends(pair, corners))] for pair in _WAYS)
        if at and (at.get(STUB_PLUS) != corners["A"] or at.get(STUB_MINUS) != corners["c"]):
            continue
        ways = [w for w in _LEADS if lead is None or (lead.start, lead.end) == _ends(w, corners)]
        if ways:
            yield order, corners, ways[0]


def _cubes(edges: set[frozenset[str]]) -> Iterator[Corners]:
    """Every way to name the corners so that the edges are those of a cube."""
    near: dict[str, set[str]] = {}
    for first, second in map(sorted, edges):
        near.setdefault(first, set()).add(second)
        near.setdefault(second, set()).add(first)
    if any(len(around) != 3 for around in near.values()):
        return
    for first in sorted(near):
        for right, below, inside in permutations(sorted(near[first])):
            corners = {"A": first, "B": right, "D": below, "a": inside}
            for corner, (one, other) in (("C", "BD"), ("b", "Ba"), ("d", "Da")):
                shared = near[corners[one]] & near[corners[other]] - {first}
                corners[corner] = min(shared, default="")
            corners["c"] = min(set(near) - set(corners.values()), default="")
            if {frozenset(_ends(pair, corners)) for pair in _WAYS} == edges:
                yield corners


def _ends(pair: str, corners: Corners) -> tuple[str, str]:
    return corners[pair[0]], corners[pair[1]]


def _course(corners: Corners, way: str, skeleton: Skeleton, lead: Chain | None) -> Course:
    crossing = lead is not None and way == "Ac"
    by_ends = {_ends(pair, corners): cells for pair, cells in _WAYS.items()}
    routes = []
    for number, chain in enumerate(skeleton.chains):
        is_lead = number == skeleton.lead
        if chain is lead:
            crossed = frozenset({_CROSSED}) if crossing else frozenset()
            routes.append(Route(chain, _LEADS[way], crossed, True, 1))
        elif chain.end in _STUBS:
            routes.append(Route(chain, _STUBS[chain.end]))
        elif (chain.start, chain.end) in by_ends:
            cells = _with_crossing(by_ends[chain.start, chain.end], crossing)
            routes.append(_edge(chain, cells, is_lead))
        else:
            cells = _with_crossing(by_ends[chain.end, chain.start], crossing)[::-1]
            routes.append(_edge(chain, cells, is_lead))
    spots = {corners[corner]: cell for corner, cell in _CORNERS.items()}
    return Course(tuple(routes), (), spots).pressed()


def _edge(chain: Chain, cells: tuple[Cell, ...], is_lead: bool) -> Route:
    """An edge of the cube, its first element on the piece of the square's own side."""
    seat = 1 if len(cells) > 2 else None
    return Route(chain, cells, frozenset(cells) & {_CROSSED}, is_lead, seat)


def _with_crossing(cells: tuple[Cell, ...], crossing: bool) -> tuple[Cell, ...]:
    """The way with the place where the lead crosses it, if it does."""
    if not crossing:
        return cells
    kept = [cells[0]]
    for here, there in pairwise(cells):
        if here[1] == there[1] == _CROSSED[1] and here[0] < _CROSSED[0] < there[0]:
            kept.append(_CROSSED)
        kept.append(there)
    return tuple(kept)
