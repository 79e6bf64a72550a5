"""From corners and bends to places on a grid of columns and rows.

Every straight line of the figure has one column or one row. Faces are cut into rectangles, each
of which says which line lies left of or above which; the longest way through these statements
gives places. A few sweeps then move lines to where their wires are shortest.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from itertools import pairwise

from builder.figure.network.bends import Shape
from builder.figure.network.rotation import PlaneMap

EAST, SOUTH, WEST, NORTH = range(4)
_SWEEPS = 4

Cell = tuple[int, int]


@dataclass(frozen=True)
class Grid:
    """Places on a grid; columns grow to the right, rows downwards.

    Attributes:
        at: the place of each point of the map.
        path: by half-edge (the lower of its pair), its places from tail to head with its bends.
        columns: the number of columns.
        rows: the number of rows.
    """

    at: dict[int, Cell]
    path: dict[int, tuple[Cell, ...]]
    columns: int
    rows: int


@dataclass
class _Lines:
    """Which knots share a column or a row; knots are points, and bends of edges."""

    column: list[int]
    row: list[int]

    @classmethod
    def of(cls, count: int) -> _Lines:
        return cls(list(range(count)), list(range(count)))

    def find(self, parents: list[int], knot: int) -> int:
        while parents[knot] != knot:
            parents[knot] = parents[parents[knot]]
            knot = parents[knot]
        return knot

    def join(self, one: int, other: int, direction: int) -> None:
        parents = self.row if direction in (EAST, WEST) else self.column
        a, b = self.find(parents, one), self.find(parents, other)
        parents[max(a, b)] = min(a, b)

    def settle(self) -> None:
        """Let every knot know its lines at once, when all are joined."""
        self.row = [self.find(self.row, knot) for knot in range(len(self.row))]
        self.column = [self.find(self.column, knot) for knot in range(len(self.column))]

    def line(self, knot: int, direction: int) -> int:
        """The line through a knot that runs in a direction, once all are settled."""
        return self.column[knot] if direction % 2 else self.row[knot]


Step = tuple[int, int, int]
"""A straight piece: its direction and its two knots."""


def on_grid(plane: PlaneMap, shape: Shape, upwards: int, heading: int) -> Grid:
    """The places of a shape.

    Args:
        plane: the map.
        shape: its corners and bends.
        upwards: a half-edge whose first piece has a known direction.
        heading: that direction.
    """
    number = {point: n for n, point in enumerate(sorted(plane.around))}
    first = _directions(plane, shape, upwards, heading)
    steps: dict[int, list[Step]] = {}
    count = len(number)
    for half in range(0, len(plane.tail), 2):
        turns = shape.bends.get(half, 0)
        bends = list(range(count, count + abs(turns)))
        count += len(bends)
        knots = [number[plane.tail[half]], *bends, number[plane.head(half)]]
        direction, steps[half] = first[half], []
        for here, there in pairwise(knots):
            steps[half].append((direction, here, there))
            direction = (direction + (-1 if turns > 0 else 1)) % 4
        steps[half ^ 1] = [((d + 2) % 4, b, a) for d, a, b in reversed(steps[half])]
    lines = _Lines.of(count)
    for half in range(0, len(plane.tail), 2):
        for direction, here, there in steps[half]:
            lines.join(here, there, direction)
    lines.settle()
    order = _orders(plane, steps, lines)
    column = _placed(order[0], [lines.line(k, NORTH) for k in range(count)],
                     _pairs(steps, lines, (EAST, WEST), NORTH))  # fmt: skip
    row = _placed(order[1], [lines.line(k, EAST) for k in range(count)],
                  _pairs(steps, lines, (NORTH, SOUTH), EAST))  # fmt: skip

    def cell(knot: int) -> Cell:
        return column[lines.line(knot, NORTH)], row[lines.line(knot, EAST)]

    path = {
        half: (cell(steps[half][0][1]), *(cell(step[2]) for step in steps[half]))
        for half in range(0, len(plane.tail), 2)
    }
    at = {point: cell(knot) for point, knot in number.items()}
    return Grid(at, path, max(column.values()) + 1, max(row.values()) + 1)


def _directions(plane: PlaneMap, shape: Shape, half: int, heading: int) -> dict[int, int]:
    """The direction in which each half-edge leaves its point."""
    first = {half: heading}
    waiting = [half]
    while waiting:
        half = waiting.pop()
        twin = half ^ 1
        if twin not in first:
            first[twin] = (first[half] - shape.bends.get(half, 0) + 2) % 4
            waiting.append(twin)
        leaving = plane.around[plane.tail[half]]
        at = leaving.index(half)
        onward = leaving[(at + 1) % len(leaving)]
        if onward not in first:
            first[onward] = (first[half] + shape.quarter[onward]) % 4
            waiting.append(onward)
    return first


Side = tuple[int, int]
"""A side of a face: its direction and its line."""


def _orders(
    plane: PlaneMap, steps: dict[int, list[Step]], lines: _Lines
) -> tuple[set[tuple[int, int]], set[tuple[int, int]]]:
    """Which column lies left of which, and which row above which."""
    orders: tuple[set[tuple[int, int]], set[tuple[int, int]]] = (set(), set())
    for pieces in steps.values():
        for direction, here, there in pieces:
            if direction == EAST:
                orders[0].add((lines.line(here, NORTH), lines.line(there, NORTH)))
            elif direction == SOUTH:
                orders[1].add((lines.line(here, EAST), lines.line(there, EAST)))
    faces, _ = plane.faces()
    for face in faces:
        _cut(_sides([step for half in face for step in steps[half]], lines), orders)
    return orders


def _sides(pieces: list[Step], lines: _Lines) -> list[Side]:
    """The sides round a face; a dead end has a side of no length."""
    sides: list[Side] = []
    for (before, _, _), (direction, here, _) in zip([pieces[-1], *pieces], pieces, strict=False):
        if (direction - before) % 4 == 2:
            across = (before + 1) % 4
            sides.append((across, lines.line(here, across)))
        if direction != before:
            sides.append((direction, lines.line(here, direction)))
    return sides


def _cut(sides: list[Side], orders: tuple[set[tuple[int, int]], set[tuple[int, int]]]) -> None:
    """Cut ears off a face until only a rectangle, or the outside of a hull, is left."""
    idle = 0
    while len(sides) > 4 and idle < len(sides):
        a, b, c, d = sides[:4]
        turns = tuple((y[0] - x[0]) % 4 for x, y in ((a, b), (b, c), (c, d)))
        if turns in ((1, 3, 3), (3, 3, 1)):
            _order(c, a, orders)
            _order(b, d, orders)
            sides[:4] = [a, d]
            idle = 0
            # What was cut may have opened an ear that starts before it.
            sides[:] = sides[-2:] + sides[:-2]
        else:
            sides.append(sides.pop(0))
            idle += 1
    if len(sides) == 4 and all((b[0] - a[0]) % 4 == 3 for a, b in pairwise(sides)):
        _order(sides[0], sides[2], orders)
        _order(sides[1], sides[3], orders)


def _order(
    one: Side, other: Side, orders: tuple[set[tuple[int, int]], set[tuple[int, int]]]
) -> None:
    """Two opposite sides of a rectangle whose inside lies on their left."""
    direction, line = one
    first, second = (line, other[1])
    if direction in (NORTH, EAST):
        # The inside is left of a side that runs north: the other side lies further left.
        first, second = second, first
    orders[0 if direction in (NORTH, SOUTH) else 1].add((first, second))


def _pairs(
    steps: dict[int, list[Step]], lines: _Lines, along: tuple[int, int], across: int
) -> list[tuple[int, int]]:
    """The lines that each piece along one direction links."""
    return [
        (lines.line(here, across), lines.line(there, across))
        for half, pieces in steps.items()
        if half % 2 == 0
        for direction, here, there in pieces
        if direction in along
    ]


def _placed(
    order: set[tuple[int, int]], every: list[int], links: list[tuple[int, int]]
) -> dict[int, int]:
    """A place for each line, in order, with short links."""
    after: dict[int, list[int]] = defaultdict(list)
    before: dict[int, list[int]] = defaultdict(list)
    for first, second in sorted(order):
        after[first].append(second)
        before[second].append(first)
    nodes = sorted(set(every))
    waiting = {node: len(before[node]) for node in nodes}
    ready = [node for node in nodes if not waiting[node]]
    place = dict.fromkeys(nodes, 0)
    sorted_nodes: list[int] = []
    while ready:
        node = ready.pop()
        sorted_nodes.append(node)
        for other in after[node]:
            place[other] = max(place[other], place[node] + 1)
            waiting[other] -= 1
            if not waiting[other]:
                ready.append(other)
    assert len(sorted_nodes) == len(nodes), "rectangles contradict each other"
    linked: dict[int, list[int]] = defaultdict(list)
    for one, other in links:
        linked[one].append(other)
        linked[other].append(one)
    last = max(place.values())
    for _ in range(_SWEEPS):
        for node in (*reversed(sorted_nodes), *sorted_nodes):
            low = max((place[n] + 1 for n in before[node]), default=0)
            high = min((place[n] - 1 for n in after[node]), default=last)
            near = sorted(place[n] for n in linked[node]) or [place[node]]
            wanted = near[(len(near) - 1) // 2], near[len(near) // 2]
            place[node] = min(max(place[node], low, wanted[0]), high, max(wanted[1], low))
    used = {value: rank for rank, value in enumerate(sorted(set(place.values())))}
    return {node: used[value] for node, value in place.items()}
