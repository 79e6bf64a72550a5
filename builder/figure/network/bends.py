"""Corners and bends: the shape of an orthogonal figure with the fewest bends.

A plane map in which at most four edges meet at a point gets an angle at each corner and bends on
its edges, by the cheapest flow between points and faces (R. Tamassia, On embedding a graph in the
grid with the minimum number of bends, SIAM J. Comput. 16, 1987).
"""

from __future__ import annotations

from dataclasses import dataclass

from builder.figure.network.flow import CheapestFlow
from builder.figure.network.rotation import PlaneMap

BEND, RAIL_BEND, LEAD_BEND = 1000, 1600, 5000
_INWARD, _SHARP, _REVERSED = 40, 90, 30
_ANY = 1 << 30


@dataclass(frozen=True)
class Shape:
    """Angles and bends of a plane map.

    Attributes:
        quarter: by the half-edge that leaves a corner, the angle before it in quarter turns
            clockwise from the half-edge that stands before it round its point.
        bends: by half-edge, the left turns along it (right turns if negative).
        cost: how far it is from a simple figure.
    """

    quarter: dict[int, int]
    bends: dict[int, int]
    cost: int


def fewest_bends(plane: PlaneMap, lead: int | None) -> Shape:
    """The shape with the fewest bends.

    Args:
        plane: the map; at most four edges at each point.
        lead: the half-edge, upwards, of the edge that turns two corners at the left of the
            figure, with the outer face on its left; None if there is none.
    """
    faces, face_of = plane.faces()
    outer = face_of[plane.outer]
    points = sorted(plane.around)
    node = {point: number for number, point in enumerate(points)}
    first_face = len(points)
    flow = CheapestFlow(first_face + len(faces) + 2)
    source, sink = first_face + len(faces), first_face + len(faces) + 1
    need = [len(face) + (4 if number == outer else -4) for number, face in enumerate(faces)]
    if lead is not None:
        need[outer] -= 2
        need[face_of[lead ^ 1]] += 2
    corners: dict[int, list[int]] = {}
    for point in points:
        leaving = plane.around[point]
        for half in leaving:
            face = face_of[half]
            corners[half] = _corner(flow, node[point], first_face + face, len(leaving),
                                    outward=face == outer)  # fmt: skip
        flow.add(source, node[point], 4 - len(leaving), 0)
    turning = _edges(flow, plane, face_of, first_face, lead)
    for number, wanted in enumerate(need):
        if wanted > 0:
            flow.add(first_face + number, sink, wanted, 0)
        elif wanted < 0:
            flow.add(source, first_face + number, -wanted, 0)
    sent, cost = flow.send(source, sink)
    assert sent == sum(wanted for wanted in need if wanted > 0), "every plane map has a shape"
    quarter = {half: 1 + sum(map(flow.through, arcs)) for half, arcs in corners.items()}
    bends = {half: flow.through(arc) for half, arc in turning.items()}
    net = {half: count - bends.get(half ^ 1, 0) for half, count in bends.items()}
    if lead is not None:
        net[lead] = net.get(lead, 0) - 2
        net[lead ^ 1] = -net[lead]
    return Shape(quarter, net, cost)


def _corner(flow: CheapestFlow, point: int, face: int, degree: int, *, outward: bool) -> list[int]:
    """The arcs for what a corner has beyond a quarter turn."""
    straight = flow.add(point, face, 1, 0 if outward else _INWARD)
    if degree == 1:
        return [straight, flow.add(point, face, 2, 0)]
    return [straight, flow.add(point, face, 1, _SHARP)] if degree == 2 else [straight]


def _edges(
    flow: CheapestFlow, plane: PlaneMap, face_of: list[int], first_face: int, lead: int | None
) -> dict[int, int]:
    """The arcs for left turns along each half-edge."""
    turning: dict[int, int] = {}
    for half in range(len(plane.tail)):
        if face_of[half] == face_of[half ^ 1]:
            continue
        price = RAIL_BEND if half & ~1 in plane.rails else BEND
        if lead is not None and half & ~1 == lead & ~1:
            price = LEAD_BEND
        # A left turn of this half-edge is a unit from the face on its left to the other.
        turning[half] = flow.add(
            first_face + face_of[half], first_face + face_of[half ^ 1], _ANY, price
        )
    return turning
