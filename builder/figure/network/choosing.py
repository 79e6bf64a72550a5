"""The best of the shapes that a network can be drawn in."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from builder.figure.network.bends import Shape, fewest_bends
from builder.figure.network.course import Cell, Course, RailRun, Route
from builder.figure.network.cube import cube_course
from builder.figure.network.embedding import plane_map
from builder.figure.network.grid import NORTH, Grid, on_grid
from builder.figure.network.rails import Rail, draw_out, rail_choices
from builder.figure.network.rotation import PlaneMap
from builder.figure.network.skeleton import Skeleton

_MOST_TRIES = 14
_PER_CELL, _PER_LENGTH, _PER_COLUMN, _ORDER, _HINT = 12, 30, 40, 20, 1500
_WIDE = 7

Hint = Mapping[str, tuple[float, float]]


@dataclass(frozen=True)
class _Tried:
    """One way of drawing a network.

    Attributes:
        plane: the map with rails.
        home: the points of rails, each with the point that it belongs to.
        shape: corners and bends.
        grid: places.
        score: how far it is from what a teacher would draw.
    """

    plane: PlaneMap
    home: dict[int, int]
    shape: Shape
    grid: Grid
    score: float


def choose_course(skeleton: Skeleton, hint: Hint) -> Course:
    """The way of every chain of a connected network.

    Args:
        skeleton: the network.
        hint: where a former figure had its junctions.
    """
    if skeleton.is_ring:
        return _ring(skeleton)
    cube = cube_course(skeleton)
    if cube is not None:
        return cube
    sides = [plane_map(skeleton)]
    if skeleton.lead is not None:
        sides.append(plane_map(skeleton, other_side=True))
    budget = [_MOST_TRIES]
    best = [_best_rails(side, skeleton, hint, budget) for side in sides]
    chosen = min(best, key=lambda tried: tried.score)
    return _course(chosen, skeleton)


def _best_rails(plane: PlaneMap, skeleton: Skeleton, hint: Hint, budget: list[int]) -> _Tried:
    """The best way to draw out the points of a map where many edges meet."""
    _faces, face_of = plane.faces()
    outer = face_of[plane.outer]
    choices: dict[int, list[Rail | None]] = {}
    for point, leaving in plane.around.items():
        at = [n for n, half in enumerate(leaving) if face_of[half] == outer]
        if point not in plane.crossings and len(leaving) >= 4:
            choices[point] = rail_choices(plane, point, at)
    chosen = {point: ways[0] for point, ways in choices.items()}
    best = _try(plane, chosen, skeleton, hint)
    assert best is not None
    tries = budget[0] // 2
    for point, ways in sorted(choices.items(), key=lambda item: len(item[1])):
        for way in ways[1:]:
            if tries <= 0:
                break
            tries -= 1
            tried = _try(plane, chosen | {point: way}, skeleton, hint, best.score)
            if tried is not None and tried.score < best.score:
                best, chosen = tried, chosen | {point: way}
    return best


def _try(
    plane: PlaneMap,
    rails: dict[int, Rail | None],
    skeleton: Skeleton,
    hint: Hint,
    limit: float = math.inf,
) -> _Tried | None:
    """The figure with some points drawn out; None if its bends alone are worse than the limit."""
    drawn, home = draw_out(plane, rails)
    lead = None if skeleton.lead is None else drawn.routes[skeleton.lead][0] ^ 1
    shape = fewest_bends(drawn, lead)
    if shape.cost >= limit:
        return None
    if lead is None:
        upwards, heading = _first_half(drawn), NORTH
    else:
        # Upwards, the lead first runs to the left, then up, then to the right.
        upwards, heading = lead, (NORTH - 1) % 4
        if shape.bends[lead] != -2:
            heading = NORTH
    grid = on_grid(drawn, shape, upwards, heading)
    return _Tried(drawn, home, shape, grid, _score(drawn, shape, grid, skeleton, hint))


def _first_half(plane: PlaneMap) -> int:
    return plane.outer & ~1


def _score(plane: PlaneMap, shape: Shape, grid: Grid, skeleton: Skeleton, hint: Hint) -> float:
    length = sum(
        abs(a[0] - b[0]) + abs(a[1] - b[1])
        for path in grid.path.values()
        for a, b in pairwise(path)
    )
    score = float(shape.cost + _PER_LENGTH * length + _PER_CELL * grid.columns * grid.rows)
    score += _PER_COLUMN * max(0, grid.columns - grid.rows)
    score += 500 * max(0, grid.columns - _WIDE)
    # In the author's order from left to right, where nothing else decides.
    middles = [_middle(grid.path[plane.routes[c][0] & ~1]) for c in range(len(skeleton.chains))]
    for one, other in pairwise(middles):
        score += _ORDER * (other < one)
    if hint:
        score += _HINT * _distance(grid, skeleton, hint)
    return score


def _middle(path: tuple[Cell, ...]) -> float:
    return (min(c for c, _ in path) + max(c for c, _ in path)) / 2


def _distance(grid: Grid, skeleton: Skeleton, hint: Hint) -> float:
    """How far junctions lie from where they were, as a share of the figure, on average."""
    known = [(n, hint[p]) for n, p in enumerate(skeleton.points) if p in hint]
    if len(known) < 2:
        return 0.0
    across = _even([grid.at[n][0] for n, _ in known]), _even([h[0] for _, h in known])
    down = _even([grid.at[n][1] for n, _ in known]), _even([h[1] for _, h in known])
    apart = [abs(a - b) for now, then in (across, down) for a, b in zip(now, then, strict=True)]
    return sum(apart) / len(known)


def _even(values: list[float] | list[int]) -> list[float]:
    low, high = min(values), max(values)
    return [(value - low) / ((high - low) or 1) for value in values]


def _course(tried: _Tried, skeleton: Skeleton) -> Course:
    plane, grid = tried.plane, tried.grid
    crossed = {grid.at[point] for point in plane.crossings}
    routes = []
    for number, chain in enumerate(skeleton.chains):
        cells: list[Cell] = []
        for half in plane.routes[number]:
            path = grid.path[half & ~1]
            cells += (path if half % 2 == 0 else path[::-1])[1 if cells else 0 :]
        through = frozenset(cell for cell in cells[1:-1] if cell in crossed)
        routes.append(Route(chain, tuple(cells), through, number == skeleton.lead))
    names = skeleton.junction_of
    rails = tuple(
        RailRun(_junction(plane.tail[half], tried.home, skeleton, names), grid.path[half])
        for half in sorted(plane.rails)
    )
    spots = {point: grid.at[n] for n, point in enumerate(skeleton.points) if point not in names}
    return Course(tuple(routes), rails, spots)


def _junction(
    point: int, home: dict[int, int], skeleton: Skeleton, names: Mapping[str, str]
) -> str:
    name = skeleton.points[home.get(point, point)]
    return names.get(name, name)


def _ring(skeleton: Skeleton) -> Course:
    """A single loop: its lead on the left, the rest round the other three sides."""
    (chain,) = skeleton.chains
    cells = ((0, 0), (1, 0), (1, 1), (0, 1), (0, 0))
    return Course((Route(chain, cells, lead=True),), (), {chain.start: (0, 0)})
