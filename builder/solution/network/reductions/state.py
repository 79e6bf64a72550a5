"""A network while it is being reduced, in numbers alone."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple, TypeAlias

from builder.solution.network.reductions.field import Weight


class Piece(NamedTuple):
    """An element or an equivalent.

    Attributes:
        ends: its two junctions.
        weight: flow per drop.
    """

    ends: tuple[str, str]
    weight: Weight

    def other(self, junction: str) -> str:
        """The end that is not ``junction``."""
        return self.ends[1] if self.ends[0] == junction else self.ends[0]


Around: TypeAlias = dict[str, list[int]]
"""The pieces at each junction, by id; one with both ends at a junction is there twice."""


@dataclass(frozen=True)
class State:
    """A network after some moves.

    Attributes:
        pieces: by id; the elements of the problem have the first ids, in their order.
        terminals: the + and the − point.
        fresh: the id of the next new piece.
        points: the junctions that exist or have existed, in the order of their making.
        reciprocal: whether values are reciprocals of weights, as resistances are.
    """

    pieces: Mapping[int, Piece]
    terminals: tuple[str, str]
    fresh: int
    points: tuple[str, ...]
    reciprocal: bool = False

    @property
    def around(self) -> Around:
        """The pieces at each junction."""
        around: Around = defaultdict(list)
        for id, piece in self.pieces.items():
            for end in piece.ends:
                around[end].append(id)
        return around

    @property
    def key(self) -> frozenset[tuple[frozenset[str], Weight]]:
        """The same for states without parallel pieces that are one network."""
        return frozenset((frozenset(piece.ends), piece.weight) for piece in self.pieces.values())

    @property
    def is_one(self) -> bool:
        """Whether a single piece between the terminals is left."""
        ends = [piece.ends for piece in self.pieces.values()]
        return len(ends) == 1 and set(ends[0]) == set(self.terminals)

    def new_points(self, number: int = 1) -> list[str]:
        """Names for other star points: s, t, u, …, then s1, s2, …."""
        names = [*"stuvw", *(f"s{count}" for count in range(1, len(self.points) + number + 1))]
        return [name for name in names if name not in self.points][:number]
