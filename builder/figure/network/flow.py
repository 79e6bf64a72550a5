"""The cheapest flow through a network of arcs, by shortest augmenting paths."""

from __future__ import annotations

import heapq

_FAR = 1 << 60


class CheapestFlow:
    """Arcs with capacities and whole costs of 0 or more, and the cheapest flow through them."""

    def __init__(self, nodes: int) -> None:
        self._leaving: list[list[int]] = [[] for _ in range(nodes)]
        self._to: list[int] = []
        self._left: list[int] = []
        self._cost: list[int] = []

    def add(self, start: int, end: int, capacity: int, cost: int) -> int:
        """An arc; its number."""
        number = len(self._to)
        self._leaving[start].append(number)
        self._leaving[end].append(number + 1)
        self._to += [end, start]
        self._left += [capacity, 0]
        self._cost += [cost, -cost]
        return number

    def through(self, arc: int) -> int:
        """What flows through an arc."""
        return self._left[arc ^ 1]

    def send(self, start: int, end: int) -> tuple[int, int]:
        """Send as much as can be from start to end; the amount and its cost."""
        potential = [0] * len(self._leaving)
        amount = cost = 0
        while True:
            distance = self._distances(start, potential)
            if distance[end] >= _FAR:
                return amount, cost
            for node, far in enumerate(distance):
                potential[node] += min(far, distance[end])
            # All ways that cost the same are filled before distances are found again.
            while sent := self._fill(start, end, _FAR, potential, set()):
                amount += sent
                cost += sent * potential[end]

    def _fill(self, node: int, end: int, most: int, potential: list[int], passed: set[int]) -> int:
        """Send along one way of arcs that cost no more than they must; how much."""
        if node == end:
            return most
        passed.add(node)
        here = potential[node]
        for arc in self._leaving[node]:
            other = self._to[arc]
            if (
                self._left[arc]
                and other not in passed
                and self._cost[arc] + here == potential[other]
            ):
                sent = self._fill(other, end, min(most, self._left[arc]), potential, passed)
                if sent:
                    self._left[arc] -= sent
                    self._left[arc ^ 1] += sent
                    return sent
        return 0

    def _distances(self, start: int, potential: list[int]) -> list[int]:
        distance = [_FAR] * len(self._leaving)
        distance[start] = 0
        waiting = [(0, start)]
        to, left, costs = self._to, self._left, self._cost
        while waiting:
            far, node = heapq.heappop(waiting)
            if far > distance[node]:
                continue
            base = far + potential[node]
            for arc in self._leaving[node]:
                if left[arc]:
                    other = to[arc]
                    reached = base + costs[arc] - potential[other]
                    if reached < distance[other]:
                        distance[other] = reached
                        heapq.heappush(waiting, (reached, other))
        return distance
