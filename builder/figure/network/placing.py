"""Ways between junctions that the author has placed.

Between the author's columns and rows lie free tracks. Chains are led through them one after the
other, the shortest first, each by its cheapest way: few corners, fewer crossings, never along
another wire.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise

from builder.figure.network.course import Cell, Course, RailRun, Route
from builder.figure.network.skeleton import STUB_MINUS, STUB_PLUS, Chain, Skeleton

_TRACKS, _MARGIN = 4, 5
_STEP, _BEND, _CROSS = 10, 90, 600
_INWARD, _RIGHT = 4, 2
_STEPS = ((1, 0), (0, 1), (-1, 0), (0, -1))

Places = Mapping[str, tuple[Fraction, Fraction]]


@dataclass
class _Board:
    """What is taken so far.

    Attributes:
        size: columns and rows of tracks.
        points: cells of junctions and their rails, with the point that each belongs to.
        through: cells with a wire, and its direction there: 0 across, 1 upright, 2 neither.
        steps: cells with the directions in which a wire leaves them.
    """

    size: Cell
    points: dict[Cell, str] = field(default_factory=dict)
    through: dict[Cell, int] = field(default_factory=dict)
    steps: set[tuple[Cell, int]] = field(default_factory=set)


def course_by_place(skeleton: Skeleton, places: Places) -> Course | None:
    """The ways of a network whose points stand where the author wants them.

    Args:
        skeleton: the network; every placed junction is a point of it.
        places: column and row of junctions, rows counted upwards.

    Returns:
        None if two points stand at one place or a chain finds no way.
    """
    spots = _spots(skeleton, places)
    if spots is None:
        return None
    board = _Board((1 + _MARGIN + max(c for c, _ in spots.values()),
                    1 + _MARGIN + max(r for _, r in spots.values())))  # fmt: skip
    board.points = {cell: point for point, cell in spots.items()}
    rails = tuple(_rails(skeleton, spots, board))
    ways: dict[int, list[Cell]] = {}
    for number in sorted(range(len(skeleton.chains)), key=lambda n: _reach(skeleton, n, spots)):
        way = _way(board, skeleton.chains[number], number == skeleton.lead)
        if way is None:
            return None
        ways[number] = way
        _take(board, way)
    routes = tuple(
        _route(chain, ways[number], _crossed(ways, number), number == skeleton.lead)
        for number, chain in enumerate(skeleton.chains)
    )
    return Course(routes, rails, _named(spots, skeleton)).pressed()


def _named(spots: dict[str, Cell], skeleton: Skeleton) -> dict[str, Cell]:
    return {p: cell for p, cell in spots.items() if p not in skeleton.junction_of}


def _spots(skeleton: Skeleton, places: Places) -> dict[str, Cell] | None:
    """The cell of each point; those without a place stand amid their neighbours."""
    known = {p: places[p] for p in skeleton.points if p in places}
    waiting = [p for p in skeleton.points if p not in known]
    while waiting:
        point = max(waiting, key=lambda p: len(_beside(p, skeleton, known)))
        near = _beside(point, skeleton, known)
        if not near:
            return None
        middle = [sum((n[k] for n in near), Fraction()) / len(near) for k in (0, 1)]
        # An open end lies to the left of its junction.
        axis = 0 if point in (STUB_PLUS, STUB_MINUS) else 1
        while (middle[0], middle[1]) in known.values():
            middle[axis] -= Fraction(1, 3)
        known[point] = middle[0], middle[1]
        waiting.remove(point)
    columns = sorted({place[0] for place in known.values()})
    rows = sorted({place[1] for place in known.values()}, reverse=True)
    cells = {
        point: (_MARGIN + _TRACKS * columns.index(c), _MARGIN + _TRACKS * rows.index(r))
        for point, (c, r) in known.items()
    }
    return cells if len(set(cells.values())) == len(cells) else None


def _beside(
    point: str, skeleton: Skeleton, known: Mapping[str, tuple[Fraction, Fraction]]
) -> list[tuple[Fraction, Fraction]]:
    ends = [(c.start, c.end) for c in skeleton.chains if point in (c.start, c.end)]
    others = [b if a == point else a for a, b in ends]
    return [known[other] for other in others if other in known]


def _rails(skeleton: Skeleton, spots: dict[str, Cell], board: _Board) -> Iterator[RailRun]:
    """A rail for each point with more chains than directions."""
    for point, (column, row) in spots.items():
        count = sum((c.start == point) + (c.end == point) for c in skeleton.chains)
        longer = min(3, (count - 3) // 2)
        if count <= 4:
            continue
        cells = [(column + n, row) for n in range(-longer, longer + 1)]
        if any(cell in board.points for cell in cells if cell != (column, row)):
            continue
        board.points |= dict.fromkeys(cells, point)
        for piece in pairwise(cells):
            yield RailRun(skeleton.junction_of.get(point, point), piece)


def _reach(skeleton: Skeleton, number: int, spots: dict[str, Cell]) -> tuple[bool, bool, int]:
    """Chains on one line first, then short ones; the lead comes last, round the others."""
    chain = skeleton.chains[number]
    (c1, r1), (c2, r2) = spots[chain.start], spots[chain.end]
    aside = (c1 != c2) and (r1 != r2)
    return number == skeleton.lead, aside, abs(c1 - c2) + abs(r1 - r2)


def _way(board: _Board, chain: Chain, lead: bool) -> list[Cell] | None:
    """The cheapest way of a chain over cells and directions."""
    starts = [cell for cell, point in board.points.items() if point == chain.start]
    waiting = [(0, cell, -1) for cell in starts]
    came: dict[tuple[Cell, int], tuple[Cell, int] | None] = {(cell, -1): None for cell in starts}
    best = {(cell, -1): 0 for cell in starts}
    while waiting:
        cost, cell, heading = heapq.heappop(waiting)
        if cost > best[cell, heading]:
            continue
        if board.points.get(cell) == chain.end and heading >= 0:
            return _back(came, (cell, heading))
        for turn, step in enumerate(_STEPS):
            price = _price(board, chain, cell, heading, turn)
            if price is None:
                continue
            there = (cell[0] + step[0], cell[1] + step[1])
            price += _taste(board, there, lead)
            if cost + price < best.get((there, turn), 1 << 30):
                best[there, turn] = cost + price
                came[there, turn] = (cell, heading)
                heapq.heappush(waiting, (cost + price, there, turn))
    return None


def _taste(board: _Board, cell: Cell, lead: bool) -> int:
    """A little more for the middle of the figure, and for a lead on the right."""
    column, row = (abs(2 * at - size + 1) / size for at, size in zip(cell, board.size, strict=True))
    inward = round(_INWARD * (1 - max(column, row)))
    return inward + (round(_RIGHT * cell[0] / board.size[0]) if lead else 0)


def _price(board: _Board, chain: Chain, cell: Cell, heading: int, turn: int) -> int | None:
    """What one step costs, or None where it cannot be made."""
    step = _STEPS[turn]
    there = (cell[0] + step[0], cell[1] + step[1])
    inside = 0 <= there[0] < board.size[0] and 0 <= there[1] < board.size[1]
    back = heading >= 0 and (turn - heading) % 4 == 2
    past = cell in board.points and heading >= 0
    if not inside or back or past or (cell, turn) in board.steps:
        return None
    bend = 0 if heading in (-1, turn) else _BEND
    if bend and cell in board.through:
        return None
    owner = board.points.get(there)
    if owner is not None:
        return _STEP + bend if owner == chain.end else None
    if there not in board.through:
        return _STEP + bend
    # Only straight across a straight wire.
    return _STEP + bend + _CROSS if board.through[there] == 1 - turn % 2 else None


def _back(
    came: dict[tuple[Cell, int], tuple[Cell, int] | None], end: tuple[Cell, int]
) -> list[Cell]:
    way = [end[0]]
    state = came[end]
    while state is not None:
        way.append(state[0])
        state = came[state]
    return way[::-1]


def _take(board: _Board, way: list[Cell]) -> None:
    """Mark the cells and the steps of a way as taken."""
    turns = [_STEPS.index((b[0] - a[0], b[1] - a[1])) for a, b in pairwise(way)]
    for (here, there), turn in zip(pairwise(way), turns, strict=True):
        board.steps |= {(here, turn), (there, (turn + 2) % 4)}
    for cell, (before, after) in zip(way[1:-1], pairwise(turns), strict=True):
        crossing = cell in board.through or before != after
        board.through[cell] = 2 if crossing else before % 2


def _crossed(ways: dict[int, list[Cell]], number: int) -> frozenset[Cell]:
    mine = set(ways[number][1:-1])
    others = {cell for other, way in ways.items() if other != number for cell in way[1:-1]}
    return frozenset(mine & others)


def _route(chain: Chain, way: list[Cell], crossed: frozenset[Cell], lead: bool) -> Route:
    """A way with its corners and crossings alone."""
    kept = [way[0]]
    for before, cell, after in zip(way, way[1:], way[2:], strict=False):
        straight = before[0] == after[0] or before[1] == after[1]
        if not straight or cell in crossed:
            kept.append(cell)
    return Route(chain, (*kept, way[-1]), crossed, lead)
