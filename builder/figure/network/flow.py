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
            distance, came = self._distances(start, potential)
            if distance[end] >= _FAR:
                return amount, cost
            for node, far in enumerate(distance):
                potential[node] += min(far, distance[end])
            most, node = _FAR, end
            while node != start:
                most = min(most, self._left[came[node]])
                node = self._to[came[node] ^ 1]
            node = end
            while node != start:
                self._left[came[node]] -= most
                self._left[came[node] ^ 1] += most
                node = self._to[came[node] ^ 1]
            amount += most
            cost += most * (potential[end] - potential[start])

    def _distances(self, start: int, potential: list[int]) -> tuple[list[int], list[int]]:
        distance = [_FAR] * len(self._leaving)
        came = [-1] * len(self._leaving)
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
                        came[other] = arc
                        heapq.heappush(waiting, (reached, other))
        return distance, came
