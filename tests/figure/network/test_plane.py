"""Plane maps, flows and shapes: the way from a network to a grid."""

from __future__ import annotations

import random
from itertools import pairwise

import networkx
import pytest

from builder.figure.network.bends import fewest_bends
from builder.figure.network.choosing import choose_course
from builder.figure.network.course import Cell, Course
from builder.figure.network.embedding import plane_map
from builder.figure.network.flow import CheapestFlow
from builder.figure.network.rails import draw_out, rail_choices
from builder.figure.network.skeleton import Skeleton, connected_parts, skeleton
from tests.figure.network.drawings import (
    CROSSED,
    TYPICAL,
    network,
    random_drawing,
)

SEEDS = range(40)


def random_skeletons() -> list[Skeleton]:
    """The skeletons of random networks that are no rings."""
    parts = [part for seed in SEEDS for part in connected_parts(random_drawing(seed).branches)]
    return [found for found in map(skeleton, parts) if not found.is_ring]


def steps(cells: tuple[Cell, ...]) -> list[tuple[Cell, Cell]]:
    """The unit steps of a way over the grid, each from its lower end."""
    found: list[tuple[Cell, Cell]] = []
    for (c1, r1), (c2, r2) in pairwise(cells):
        assert c1 == c2 or r1 == r2, "a wire must run along a column or a row"
        across = [(c, r1) for c in range(min(c1, c2), max(c1, c2) + 1)]
        down = [(c1, r) for r in range(min(r1, r2), max(r1, r2) + 1)]
        found += pairwise(across if r1 == r2 else down)
    return found


def touching(course: Course) -> list[tuple[Cell, str]]:
    """Cells and steps that two wires share though no junction or crossing lies there."""
    owners: dict[Cell, set[int]] = {}
    used: set[tuple[Cell, Cell]] = set()
    faults: list[tuple[Cell, str]] = []
    runs = [route.cells for route in course.routes] + [rail.cells for rail in course.rails]
    for number, cells in enumerate(runs):
        for step in steps(cells):
            if step in used:
                faults.append((step[0], "two wires lie on each other"))
            used.add(step)
            for cell in step:
                owners.setdefault(cell, set()).add(number)
    ends = {cell for cells in runs for cell in (cells[0], cells[-1])}
    crossed = {cell for route in course.routes for cell in route.crossed}
    for cell, wires in owners.items():
        inside = [n for n in wires if cell not in (runs[n][0], runs[n][-1])]
        if len(wires) > 1 and cell in ends and inside:
            faults.append((cell, "a wire runs through the end of another"))
        if len(wires) > 1 and cell not in ends and cell not in crossed:
            faults.append((cell, "two wires cross"))
    return faults


def test_cheapest_flow_agrees_with_networkx() -> None:
    """On 40 random networks of arcs, amount and cost are those that networkx finds."""
    chance = random.Random(2)
    for _ in range(40):
        graph = networkx.DiGraph()
        graph.add_nodes_from(range(8))
        flow = CheapestFlow(8)
        for start, end in {(chance.randrange(8), chance.randrange(8)) for _ in range(24)}:
            if start != end:
                capacity, cost = chance.randint(1, 6), chance.randint(0, 9)
                graph.add_edge(start, end, capacity=capacity, weight=cost)
                flow.add(start, end, capacity, cost)
        best = networkx.max_flow_min_cost(graph, 0, 7)
        amount = sum(best[0].values()) - sum(best[n].get(0, 0) for n in graph)
        assert flow.send(0, 7) == (amount, networkx.cost_of_flow(graph, best))


def test_faces_satisfy_euler() -> None:
    """Points, edges and faces of every plane map add up as Euler found: V − E + F = 2."""
    for found in random_skeletons():
        plane = plane_map(found)
        faces, face_of = plane.faces()
        assert len(plane.around) - len(plane.tail) // 2 + len(faces) == 2
        assert sorted(half for face in faces for half in face) == list(range(len(plane.tail)))
        assert len(face_of) == len(plane.tail)


@pytest.mark.parametrize("name", sorted(CROSSED))
def test_crossings_are_few(name: str) -> None:
    """A network that is not planar is drawn with as few crossings as it needs."""
    (part,) = connected_parts(network(TYPICAL[name]))
    found = skeleton(part)
    plane = plane_map(found)
    assert len(plane.crossings) <= 2 * CROSSED[name]
    crossed = {cell for route in choose_course(found, {}).routes for cell in route.crossed}
    assert len(crossed) == CROSSED[name]
    assert all(len(plane.around[point]) == 4 for point in plane.crossings)


def test_angles_close_round_points_and_faces() -> None:
    """Round a point the angles make four quarters; round a face the turns make a full one."""
    for found in random_skeletons():
        plane = plane_map(found)
        _, face_of = plane.faces()
        outer = face_of[plane.outer]
        rails = {
            point: rail_choices(plane, point, [n for n, h in enumerate(leaving)
                                               if face_of[h] == outer])[0]
            for point, leaving in plane.around.items()
        }  # fmt: skip
        drawn, _ = draw_out(plane, rails)
        shape = fewest_bends(drawn, None)
        for leaving in drawn.around.values():
            assert sum(shape.quarter[half] for half in leaving) == 4
        faces, face_of = drawn.faces()
        for number, face in enumerate(faces):
            turns = sum(2 - shape.quarter[drawn.after(half)] for half in face)
            turns += sum(shape.bends.get(half, 0) for half in face)
            assert turns == (-4 if number == face_of[drawn.outer] else 4)


def test_no_wires_meet_on_the_grid() -> None:
    """On the grid of 40 random networks no wires cross, touch or lie on each other."""
    for found in random_skeletons():
        course = choose_course(found, {})
        assert touching(course) == []
        assert not any(route.crossed for route in course.routes)


@pytest.mark.parametrize("name", sorted(TYPICAL))
def test_typical_networks_on_the_grid(name: str) -> None:
    """Wires of typical networks cross only where they must, and then straight over each other."""
    for part in connected_parts(network(TYPICAL[name])):
        course = choose_course(skeleton(part), {})
        assert touching(course) == []
        crossed = {cell for route in course.routes for cell in route.crossed}
        assert len(crossed) == CROSSED.get(name, 0)
        for route in course.routes:
            for before, cell, after in zip(
                route.cells, route.cells[1:], route.cells[2:], strict=False
            ):
                if cell in crossed:
                    assert before[0] == after[0] or before[1] == after[1]
