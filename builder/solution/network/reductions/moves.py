"""The moves of a reduction: what each takes out, what it puts in, and its cost to a reader."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar, TypeAlias

from builder.circuit.law import PARALLEL, SERIES
from builder.problem.model import REDUCTIONS
from builder.solution.network.reductions.field import Weight
from builder.solution.network.reductions.state import Piece, State

METHODS = REDUCTIONS
"""What an author may ask for."""
METHOD_MERGE, METHOD_BALANCE, METHOD_SYMMETRY, METHOD_STAR = METHODS


@dataclass(frozen=True)
class Group:
    """Pieces that one piece stands for.

    Attributes:
        id: of the equivalent.
        connection: ``series`` or ``parallel``.
        members: ids; for series from the first end to the second.
        ends: of the equivalent.
        inner: the junctions between the members of a series chain, in order.
    """

    id: int
    connection: str
    members: tuple[int, ...]
    ends: tuple[str, str]
    inner: tuple[str, ...] = ()

    @property
    def turned(self) -> Group:
        """The same group seen from its other end."""
        order = -1 if self.connection == SERIES else 1
        return replace(
            self, members=self.members[::order], ends=self.ends[::-1], inner=self.inner[::-1]
        )


@dataclass(frozen=True)
class Merge:
    """Groups of one connection become their equivalents."""

    groups: tuple[Group, ...]
    cost: ClassVar[int] = 1
    method: ClassVar[str] = METHOD_MERGE

    def apply(self, state: State) -> State:
        """The network after the move."""
        pieces = dict(state.pieces)
        for group in self.groups:
            weights = [pieces.pop(member).weight for member in group.members]
            pieces[group.id] = Piece(group.ends, merged_weight(group.connection, weights))
        return replace(state, pieces=pieces, fresh=state.fresh + len(self.groups))


def merged_weight(connection: str, weights: list[Weight]) -> Weight:
    """Flow per drop of pieces in series or in parallel."""
    total = weights[0] if connection == PARALLEL else weights[0] ** -1
    for weight in weights[1:]:
        total = total + (weight if connection == PARALLEL else weight**-1)
    return total if connection == PARALLEL else total**-1


@dataclass(frozen=True)
class Drop:
    """Pieces that carry nothing are taken out.

    Attributes:
        gone: their ids.
        because: ``loose`` or ``loop``.
    """

    gone: tuple[int, ...]
    because: str
    cost: ClassVar[int] = 1
    method: ClassVar[str] = METHOD_MERGE

    def apply(self, state: State) -> State:
        """The network after the move."""
        gone = set(self.gone)
        left = {id: piece for id, piece in state.pieces.items() if id not in gone}
        return replace(state, pieces=left)


@dataclass(frozen=True)
class Bridge:
    """Two junctions whose arms to the same outer junctions are in proportion.

    Attributes:
        ends: the two junctions.
        middle: the piece between them, if there is one.
        outer: where the arms lead.
        arms: for each end the ids of its arms, in the order of ``outer``.
    """

    ends: tuple[str, str]
    middle: int | None
    outer: tuple[str, ...]
    arms: tuple[tuple[int, ...], tuple[int, ...]]


@dataclass(frozen=True)
class Balance:
    """The middle piece of a balanced bridge is taken out."""

    bridge: Bridge
    cost: ClassVar[int] = 1
    method: ClassVar[str] = METHOD_BALANCE

    def apply(self, state: State) -> State:
        """The network after the move."""
        left = {id: piece for id, piece in state.pieces.items() if id != self.bridge.middle}
        return replace(state, pieces=left)


@dataclass(frozen=True)
class Cut:
    """A piece taken as two equal ones in series, with a junction between them.

    Attributes:
        id: of the piece.
        halves: ids of its parts, from its first end to its second.
    """

    id: int
    halves: tuple[int, int]


@dataclass(frozen=True)
class Join:
    """Junctions at the same potential become one.

    Attributes:
        sets: each with the junction whose name is kept at its head.
        gone: pieces whose ends become one junction.
        symmetry: ``same-distance``, ``alike``, ``half`` or ``ratio``.
        half: the name of the junction halfway between the terminals; empty if there is none.
        bridge: for ``ratio``.
        cuts: pieces whose middle is joined to ``half``.
    """

    sets: tuple[tuple[str, ...], ...]
    gone: tuple[int, ...]
    symmetry: str
    half: str = ""
    bridge: Bridge | None = None
    cuts: tuple[Cut, ...] = ()

    @property
    def cost(self) -> int:
        """Proportion is seen at a glance, symmetry is not, and a cut takes some courage."""
        return 1 if self.bridge else 3 if self.cuts else 2

    @property
    def method(self) -> str:
        """Whether balance or symmetry is used."""
        return METHOD_BALANCE if self.bridge else METHOD_SYMMETRY

    def apply(self, state: State) -> State:
        """The network after the move."""
        kept = {junction: junctions[0] for junctions in self.sets for junction in junctions}
        gone = {*self.gone, *(cut.id for cut in self.cuts)}
        pieces = {
            id: Piece((kept.get(a, a), kept.get(b, b)), weight)
            for id, ((a, b), weight) in state.pieces.items()
            if id not in gone
        }
        for cut in self.cuts:
            (a, b), weight = state.pieces[cut.id]
            pieces[cut.halves[0]] = Piece((kept.get(a, a), self.half), 2 * weight)
            pieces[cut.halves[1]] = Piece((self.half, kept.get(b, b)), 2 * weight)
        known = self.half in state.points or not self.half
        points = state.points if known else (*state.points, self.half)
        return replace(state, pieces=pieces, fresh=state.fresh + 2 * len(self.cuts), points=points)


Three: TypeAlias = tuple[int, int, int]


@dataclass(frozen=True)
class Trade:
    """A triangle and a star that stand for each other.

    Attributes:
        to_star: whether the star takes the place of the triangle.
        point: the middle of the star.
        corners: of the triangle.
        legs: of the star, each at the corner of the same position.
        sides: of the triangle, each opposite the corner of the same position.
    """

    to_star: bool
    point: str
    corners: tuple[str, str, str]
    legs: Three
    sides: Three

    @property
    def made(self) -> Three:
        """The pieces that are put in."""
        return self.legs if self.to_star else self.sides

    @property
    def gone(self) -> Three:
        """The pieces that are taken out."""
        return self.sides if self.to_star else self.legs

    @property
    def pieces_made(self) -> tuple[tuple[int, tuple[str, str]], ...]:
        """The new pieces with their junctions."""
        first, second, third = self.corners
        ends = (
            tuple((corner, self.point) for corner in self.corners)
            if self.to_star
            else ((second, third), (third, first), (first, second))
        )
        return tuple(zip(self.made, ends, strict=True))


def traded_weights(trade: Trade, state: State) -> tuple[Weight, Weight, Weight]:
    """The weights of the three pieces that a trade puts in.

    Source of the formulas, here for capacitors: J. B. Tatum, Electricity and Magnetism
    (LibreTexts), section 5.7.
    """
    one, two, three = (state.pieces[id].weight for id in trade.gone)
    if trade.to_star:
        pairs = one * two + two * three + three * one
        return pairs / one, pairs / two, pairs / three
    total = one + two + three
    return two * three / total, three * one / total, one * two / total


@dataclass(frozen=True)
class Exchange:
    """A triangle becomes a star or a star a triangle, and so does its mirror image."""

    trades: tuple[Trade, ...]
    cost: ClassVar[int] = 4
    method: ClassVar[str] = METHOD_STAR

    def apply(self, state: State) -> State:
        """The network after the move."""
        pieces, points = dict(state.pieces), list(state.points)
        for trade in self.trades:
            for id in trade.gone:
                del pieces[id]
            weights = traded_weights(trade, state)
            for (id, ends), weight in zip(trade.pieces_made, weights, strict=True):
                pieces[id] = Piece(ends, weight)
            points += [trade.point] if trade.to_star else []
        fresh = state.fresh + 3 * len(self.trades)
        return replace(state, pieces=pieces, fresh=fresh, points=tuple(points))


Move: TypeAlias = Merge | Drop | Balance | Join | Exchange
