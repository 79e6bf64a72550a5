"""Which way round the edges leave each point of a plane map, and the faces that follow.

An edge is a pair of half-edges ``2k`` and ``2k + 1``, one each way; ``h ^ 1`` is the other one of
``h``. Around each point, the half-edges that leave it stand clockwise as on paper, and each
half-edge has its face on its left.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field


@dataclass
class PlaneMap:
    """A plane map that can grow.

    Attributes:
        tail: where each half-edge starts.
        around: the half-edges that leave each point, clockwise.
        routes: for each chain, its half-edges from start to end; several where it is crossed.
        rails: edges (the lower half-edge) that are plain wires of one junction.
        crossings: points where two chains only cross.
        outer: a half-edge with the outer face on its left.
    """

    tail: list[int] = field(default_factory=list)
    around: dict[int, list[int]] = field(default_factory=dict)
    routes: dict[int, list[int]] = field(default_factory=dict)
    rails: set[int] = field(default_factory=set)
    crossings: set[int] = field(default_factory=set)
    outer: int = 0

    def copy(self) -> PlaneMap:
        """An independent copy."""
        return PlaneMap(
            list(self.tail),
            {point: list(leaving) for point, leaving in self.around.items()},
            {chain: list(route) for chain, route in self.routes.items()},
            set(self.rails),
            set(self.crossings),
            self.outer,
        )

    def add_edge(self, start: int, end: int) -> int:
        """A new edge that does not stand in ``around`` yet; its half-edge from ``start``."""
        self.tail += [start, end]
        return len(self.tail) - 2

    def head(self, half: int) -> int:
        """Where a half-edge ends."""
        return self.tail[half ^ 1]

    def after(self, half: int) -> int:
        """The next half-edge along the face on the left."""
        leaving = self.around[self.head(half)]
        return leaving[(leaving.index(half ^ 1) + 1) % len(leaving)]

    def faces(self) -> tuple[list[list[int]], list[int]]:
        """The half-edges of each face in order, and the face of each half-edge."""
        following = self._following()
        face_of = [-1] * len(self.tail)
        faces: list[list[int]] = []
        for first in range(len(self.tail)):
            if face_of[first] >= 0:
                continue
            face, half = [], first
            while face_of[half] < 0:
                face_of[half] = len(faces)
                face.append(half)
                half = following[half]
            faces.append(face)
        return faces, face_of

    def _following(self) -> list[int]:
        following = [0] * len(self.tail)
        for leaving in self.around.values():
            for position, half in enumerate(leaving):
                following[half ^ 1] = leaving[(position + 1) % len(leaving)]
        return following

    def insert(self, chain: int, start: int, end: int, kept: set[int]) -> int:
        """Draw a chain in by the way that crosses the fewest edges.

        Args:
            chain: its key in ``routes``.
            start: the point where it starts.
            end: the point where it ends.
            kept: edges (lower half-edges) that must not be crossed.

        Returns:
            The number of crossings.
        """
        crossed = self._fewest_crossings(start, end, kept)
        route: list[int] = []
        here = start
        faces, face_of = self.faces()
        face = self._first_face(start, end, crossed, faces, face_of)
        for half in crossed:
            # The chain leaves the face on the left of ``half`` across it.
            point = self._split(half)
            route.append(self._join(here, point, face, onto=half))
            here = point
            face = half ^ 1
        route.append(self._join(here, end, face, onto=None))
        self.routes[chain] = route
        return len(crossed)

    def _fewest_crossings(self, start: int, end: int, kept: set[int]) -> list[int]:
        faces, face_of = self.faces()
        goal = {face_of[half] for half in self.around[end]}
        came: dict[int, tuple[int, int] | None] = {
            face_of[half]: None for half in self.around[start]
        }
        queue = deque(came)
        while queue:
            face = queue.popleft()
            if face in goal:
                return self._way_back(came, face)
            for half in faces[face]:
                other = face_of[half ^ 1]
                if other not in came and (half & ~1) not in kept:
                    came[other] = (face, half)
                    queue.append(other)
        raise AssertionError("the faces of a connected map reach each other")

    @staticmethod
    def _way_back(came: dict[int, tuple[int, int] | None], face: int) -> list[int]:
        crossed: list[int] = []
        while (step := came[face]) is not None:
            face, half = step
            crossed.append(half)
        return crossed[::-1]

    def _first_face(
        self, start: int, end: int, crossed: list[int], faces: list[list[int]], face_of: list[int]
    ) -> int:
        """A half-edge of the first face that the chain runs through."""
        if crossed:
            return crossed[0]
        shared = {face_of[h] for h in self.around[start]} & {face_of[h] for h in self.around[end]}
        return faces[min(shared)][0]

    def _split(self, half: int) -> int:
        """A new crossing in the middle of an edge; ``half`` then ends there."""
        point, far = max(self.around) + 1, self.head(half)
        onward = self.add_edge(point, far)
        self.tail[half ^ 1] = point
        leaving = self.around[far]
        leaving[leaving.index(half ^ 1)] = onward ^ 1
        self.around[point] = [half ^ 1, onward]
        self.crossings.add(point)
        for route in self.routes.values():
            if half in route:
                route.insert(route.index(half) + 1, onward)
            elif half ^ 1 in route:
                route.insert(route.index(half ^ 1), onward ^ 1)
        return point

    def _join(self, start: int, end: int, face: int, onto: int | None) -> int:
        """An edge through the face on the left of the half-edge ``face``.

        With ``onto``, it ends at the point that splits ``onto``, on its left side.
        """
        begin = self._corner(start, face)
        finish = onto if onto is not None else self._corner(end, face)
        edge = self.add_edge(start, end)
        self._place_after(start, begin ^ 1, edge)
        self._place_after(end, finish ^ 1, edge ^ 1)
        return edge

    def _corner(self, point: int, face: int) -> int:
        """The half-edge of a face that arrives at ``point``."""
        half = face
        while self.head(half) != point:
            half = self.after(half)
            if half == face:
                break
        return half

    def _place_after(self, point: int, before: int, edge: int) -> None:
        leaving = self.around[point]
        leaving.insert(leaving.index(before) + 1, edge)
