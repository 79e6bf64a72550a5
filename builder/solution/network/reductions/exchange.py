"""Triangles that may become stars, and stars that may become triangles."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from math import gcd, lcm

from builder.solution.network.reductions.field import Weight
from builder.solution.network.reductions.moves import Exchange, Trade, traded_weights
from builder.solution.network.reductions.state import State
from builder.solution.network.reductions.symmetry import mirror


def exchanges(state: State) -> Iterator[Exchange]:
    """Every exchange of a triangle and a star, those that lead to the plainest values first.

    Where the network is its own mirror image, an exchange is made on both sides at once.

    Args:
        state: in which nothing can be merged, so that two junctions share one piece at most.
    """
    plainest = sorted(trades(state), key=lambda trade: _digits(trade, state))
    found = {(trade.to_star, frozenset(trade.gone)): trade for trade in plainest}
    between = {frozenset(piece.ends): id for id, piece in state.pieces.items()}
    image = mirror(state)
    done: set[object] = set()
    for key, trade in found.items():
        if key in done:
            continue
        if image is None:
            yield Exchange((trade,))
            continue
        ends = (state.pieces[id].ends for id in trade.gone)
        reflected = frozenset(between[frozenset((image[a], image[b]))] for a, b in ends)
        done.add((trade.to_star, reflected))
        if reflected.isdisjoint(trade.gone):
            other = found[trade.to_star, reflected]
            yield Exchange((trade, _next(other, trade, state)))
        else:
            yield Exchange((trade,))


def _digits(trade: Trade, state: State) -> int:
    """How much there is to write of the new values beyond what the old ones need.

    The old values are whole multiples of some unit; what counts are the denominators of the new
    ones in that unit. Symbols are all alike.
    """
    old = [_value(state.pieces[id].weight, state) for id in trade.gone]
    if not all(hasattr(value, "denominator") for value in old):
        return 0
    unit = Fraction(
        gcd(*(int(value.numerator) for value in old)), lcm(*(int(v.denominator) for v in old))
    )
    new = [_value(weight, state) for weight in traded_weights(trade, state)]
    in_units = (Fraction(int(v.numerator), int(v.denominator)) / unit for v in new)
    return sum(len(str(number.denominator)) for number in in_units if number.denominator > 1)


def _value(weight: Weight, state: State) -> Weight:
    return weight**-1 if state.reciprocal else weight


def _next(trade: Trade, before: Trade, state: State) -> Trade:
    """``trade`` with new pieces and a new point beside those of ``before``."""
    one, two, three = (id + 3 for id in before.made)
    if trade.to_star:
        return replace(trade, legs=(one, two, three), point=state.new_points(2)[1])
    return replace(trade, sides=(one, two, three))


def trades(state: State) -> Iterator[Trade]:
    """Every single trade, in the order of the junctions."""
    order = {junction: place for place, junction in enumerate(state.points)}
    between = {frozenset(piece.ends): id for id, piece in state.pieces.items()}
    fresh = (state.fresh, state.fresh + 1, state.fresh + 2)
    around = state.around
    (point,) = state.new_points()
    for first in state.points:
        near = sorted(
            {state.pieces[id].other(first) for id in around.get(first, ())}, key=order.__getitem__
        )
        later = [junction for junction in near if order[junction] > order[first]]
        for second, third in combinations(later, 2):
            opposite = between.get(frozenset((second, third)))
            if opposite is not None:
                sides = (
                    opposite,
                    between[frozenset((third, first))],
                    between[frozenset((first, second))],
                )
                yield Trade(True, point, (first, second, third), fresh, sides)
        if len(around.get(first, ())) == 3 and first not in state.terminals:
            one, two, three = near
            legs = tuple(between[frozenset((first, corner))] for corner in near)
            yield Trade(False, first, (one, two, three), (legs[0], legs[1], legs[2]), fresh)
