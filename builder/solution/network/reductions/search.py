"""The shortest route from a network to one element, as far as it is worth looking for."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, field
from heapq import heappop, heappush
from itertools import count

from builder.circuit.law import PARALLEL, SERIES
from builder.solution.network.reductions.balance import balances
from builder.solution.network.reductions.exchange import exchanges
from builder.solution.network.reductions.idle import idle
from builder.solution.network.reductions.merging import next_merge
from builder.solution.network.reductions.moves import (
    METHOD_BALANCE,
    METHOD_STAR,
    METHOD_SYMMETRY,
    Balance,
    Exchange,
    Join,
    Merge,
    Move,
    Trade,
)
from builder.solution.network.reductions.state import State
from builder.solution.network.reductions.symmetry import joins

LOOKED_AT = 60
"""So many networks are looked at for a first route …"""
LOOKED_AT_MORE = 12
"""… and so many more for a shorter one."""
PER_JUNCTION = 3
"""What each inner junction that is left is guessed to cost …"""
PER_PIECE = 3
"""… and each piece."""
REST_AFTER_MOVE = 2
"""What has to follow on any move but a merge: a merge in parallel and one in series."""

_OFFERS: dict[str, Callable[[State], Iterator[Move]]] = {
    METHOD_BALANCE: balances,
    METHOD_SYMMETRY: joins,
    METHOD_STAR: exchanges,
}
_QUICK, _LATE = (METHOD_BALANCE, METHOD_SYMMETRY), (METHOD_STAR,)
"""What is tried at once on a network, and what only after others have been looked at."""


@dataclass(frozen=True)
class Path:
    """Moves in a row.

    Attributes:
        moves: from the network of the problem on.
        states: the networks, that of the problem first, then after each move.
        cost: of all moves, as a reader feels it.
        effort: the same without the merges.
    """

    moves: tuple[Move, ...]
    states: tuple[State, ...]
    cost: int = 0
    effort: int = 0

    @property
    def end(self) -> State:
        """The network after the last move."""
        return self.states[-1]

    def then(self, move: Move) -> Path:
        """The path with one more move."""
        states = (*self.states, move.apply(self.end))
        effort = self.effort + (0 if isinstance(move, Merge) else move.cost)
        return Path((*self.moves, move), states, self.cost + move.cost, effort)

    def merged(self) -> Path:
        """The path with everything merged or dropped that can be."""
        path = self
        last = path.moves[-1] if path.moves else None
        together = _brought_about(last)
        if last is None or isinstance(last, Join):
            while not path.end.is_one and (drop := idle(path.end)):
                path = path.then(drop)
        while not path.end.is_one and (move := next_merge(path.end, together)):
            path, together = path.then(move), ""
        return path


def _brought_about(move: Move | None) -> str:
    """The connection of the groups that a move brings about: they are merged in one go."""
    match move:
        case Join() | Exchange(trades=(Trade(to_star=False), *_)):
            return PARALLEL
        case Balance() | Exchange():
            return SERIES
    return ""


@dataclass
class _Search:
    """Networks still to look at, those first from which the way seems shortest."""

    methods: Collection[str]
    required: str | None
    most: int | None
    below: int | None
    best: Path | None = None
    seen: set[object] = field(default_factory=set)
    queue: list[tuple[int, int, tuple[str, ...], Path]] = field(default_factory=list)
    numbers: Iterator[int] = field(default_factory=count)

    def add(self, path: Path) -> None:
        """Take a path into account."""
        if path.end.is_one:
            used = {move.method for move in path.moves}
            fits = self.required is None or self.required in used
            if fits and (self.below is None or path.cost < self.below):
                self.best, self.below = path, path.cost
            return
        key = (path.end.key, self.required in {move.method for move in path.moves})
        if key not in self.seen:
            self.seen.add(key)
            self._wait(path, _QUICK, 0)

    def _wait(self, path: Path, methods: tuple[str, ...], more: int) -> None:
        inner = len({end for piece in path.end.pieces.values() for end in piece.ends}) - 2
        left = PER_JUNCTION * inner + PER_PIECE * len(path.end.pieces)
        guess = path.cost + left + more
        heappush(self.queue, (guess, next(self.numbers), methods, path))

    def look(self) -> Path | None:
        """The best path that is found."""
        left = LOOKED_AT
        while self.queue and left > 0:
            _, _, methods, path = heappop(self.queue)
            left -= 1
            found = self.best
            for method in methods:
                if method in self.methods:
                    self._try(path, method)
            if methods == _QUICK and METHOD_STAR in self.methods and self._may_win(path, 4):
                self._wait(path, _LATE, 1)
            if found is None and self.best is not None:
                left = LOOKED_AT_MORE
        return self.best

    def _try(self, path: Path, method: str) -> None:
        for move in _OFFERS[method](path.end):
            if self._may_win(path, move.cost):
                self.add(path.then(move).merged())

    def _may_win(self, path: Path, cost: int) -> bool:
        if self.most is not None and path.effort + cost > self.most:
            return False
        return self.below is None or path.cost + cost + REST_AFTER_MOVE < self.below


def shortest(
    state: State,
    methods: Collection[str],
    required: str | None = None,
    most: int | None = None,
    below: int | None = None,
) -> Path | None:
    """The cheapest path to one element that a short look finds.

    Args:
        state: the network, connected.
        methods: what is allowed besides merging, of ``moves.METHODS``.
        required: a method that the path has to use; None for any.
        most: the greatest effort; None for any.
        below: what the cost must be less than; None for any.

    Returns:
        The path, or None if none was found.
    """
    start = Path((), (state,))
    search = _Search(methods, required, most, below)
    if METHOD_SYMMETRY in methods and not idle(state):
        for move in joins(state):
            search.add(start.then(move).merged())
    search.add(start.merged())
    return search.look()
