"""The moves from a network to one element, written as steps."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import singledispatch
from typing import Any

from sympy import Integer

from builder.circuit.law import PARALLEL, SERIES, Law
from builder.quantity.formula import Amount, Formula, Num, Product, Quotient, Ref, Sum
from builder.solution.network.reductions.automorphism import is_exchange
from builder.solution.network.reductions.moves import (
    Balance,
    Bridge,
    Cut,
    Drop,
    Exchange,
    Group,
    Join,
    Merge,
    Move,
    Trade,
)
from builder.solution.network.reductions.state import State
from builder.solution.network.reductions.story import Story
from builder.solution.network.step import (
    Balanced,
    Merged,
    NetworkMove,
    NetworkStep,
    StarAndTriangle,
)
from builder.solution.program import Line, Statement


def forward_steps(story: Story) -> Iterator[NetworkStep]:
    """One step for each move of the path."""
    joins = 0
    path = story.path
    for move, before, after in zip(path.moves, path.states, path.states[1:], strict=False):
        joins += isinstance(move, Join)
        about = _about(move, story, before)
        yield NetworkStep(
            id=f"{about['kind']}-{about.pop('called', joins)}",
            network=story.network_of(after),
            before=None if isinstance(move, Merge) else story.network_of(before),
            **about,
        )


@singledispatch
def _about(move: Move, story: Story, before: State) -> dict[str, Any]:
    """The fields of the step that a move becomes, and what its id ends in (``called``)."""
    raise NotImplementedError


@_about.register
def _(move: Merge, story: Story, before: State) -> dict[str, Any]:
    merged = tuple(merged_of(group, story) for group in move.groups)
    weights = [sorted(str(before.pieces[id].weight) for id in g.members) for g in move.groups]
    telling = {"connection": merged[0].connection}
    if len(merged) > 1 and all(some == weights[0] for some in weights):
        telling["alike"] = "yes"
    return {
        "kind": NetworkMove.MERGE,
        "called": merged[0].equivalent,
        "lines": tuple(_merging(group, story) for group in move.groups),
        "members": tuple(member for group in merged for member in group.members),
        "marked": tuple(group.equivalent for group in merged),
        "merged": merged,
        "telling": telling,
    }


def merged_of(group: Group, story: Story) -> Merged:
    """A group by its names, in the direction in which its equivalent is counted."""
    members = tuple(story.names[id] for id in story.told(group).members)
    return Merged(story.names[group.id], group.connection, members)


def _merging(group: Group, story: Story) -> Line:
    members = tuple(Ref(story.value(id)) for id in story.told(group).members)
    return Line(story.value(group.id), story.law.merged(group.connection, members))


@_about.register
def _(move: Drop, story: Story, before: State) -> dict[str, Any]:
    dropped = _named(move.gone, story)
    return {
        "kind": NetworkMove.DROP,
        "called": dropped[0],
        "lines": _nothing(move.gone, story),
        "members": dropped,
        "dropped": dropped,
        "telling": {"because": move.because},
    }


def _named(ids: tuple[int, ...], story: Story) -> tuple[str, ...]:
    return tuple(story.names[id] for id in ids)


def _nothing(ids: tuple[int, ...], story: Story) -> tuple[Line, ...]:
    """No drop and no flow, where a source tells of drops and flows at all."""
    if story.network.source is None:
        return ()
    law = story.law
    drops = [Line(story.drop(id), Amount(Integer(0), law.drop)) for id in ids]
    return (*drops, *(Line(story.flow(id), Amount(Integer(0), law.flow)) for id in ids))


@_about.register
def _(move: Balance, story: Story, before: State) -> dict[str, Any]:
    assert move.bridge.middle is not None
    return _balanced(move.bridge, story) | {"telling": _ratio(move.bridge, story, before, "drop")}


def _balanced(bridge: Bridge, story: Story) -> dict[str, Any]:
    """What a balanced bridge tells, whether its middle is taken out or joined."""
    told = _from_plus(bridge, story)
    gone = () if told.middle is None else (told.middle,)
    first, second = (_named(side, story) for side in told.arms)
    middle = "".join(_named(gone, story))
    value = story.naming.value
    conditions = tuple(
        Statement(
            Quotient(Ref(value(first[0])), Ref(value(first[place]))),
            Quotient(Ref(value(second[0])), Ref(value(second[place]))),
            about=middle,
        )
        for place in range(1, len(first))
    )
    return {
        "kind": NetworkMove.BALANCE,
        "called": middle or first[0],
        "lines": _nothing(gone, story),
        "statements": conditions,
        "members": (*first, *second, *_named(gone, story)),
        "dropped": _named(gone, story),
        "balance": Balanced(told.ends, middle, told.outer, (first, second)),
    }


def _from_plus(bridge: Bridge, story: Story) -> Bridge:
    """The bridge with its outer junctions from the highest potential to the lowest."""
    places = list(range(len(bridge.outer)))
    volts = [story.volts[junction] for junction in bridge.outer]
    for last in range(len(places) - 1, 0, -1):
        for place in range(last):
            if story.field.seems_lower(volts[places[place]], volts[places[place + 1]]):
                places[place], places[place + 1] = places[place + 1], places[place]
    one, other = (tuple(side[place] for place in places) for side in bridge.arms)
    outer = tuple(bridge.outer[place] for place in places)
    return Bridge(bridge.ends, bridge.middle, outer, (one, other))


def _ratio(bridge: Bridge, story: Story, before: State, then: str) -> dict[str, str]:
    first, second = (before.pieces[id].weight for id in _from_plus(bridge, story).arms[0][:2])
    weights = second / first if story.law.adds_in == SERIES else first / second
    ratio = story.field.exact(weights)
    return {"then": then} | ({"ratio": str(ratio)} if ratio.is_Rational else {})


@_about.register
def _(move: Join, story: Story, before: State) -> dict[str, Any]:
    joined = {together[0]: together for together in move.sets}
    if move.bridge is not None:
        balanced = _balanced(move.bridge, story)
        return balanced | {"joined": joined, "telling": _ratio(move.bridge, story, before, "join")}
    halves = tuple(halves_of(cut, story) for cut in move.cuts)
    dropped = _named(move.gone, story)
    half = {"half": move.half} if move.half else {}
    symmetry = move.symmetry if is_exchange(move, before) else "regular"
    return {
        "kind": NetworkMove.JOIN,
        "lines": (*_halving(move.cuts, story), *_nothing(move.gone, story)),
        "members": (*dropped, *(halved.equivalent for halved in halves)),
        "marked": tuple(half for halved in halves for half in halved.members),
        "dropped": dropped,
        "joined": joined,
        "halved": halves,
        "telling": {"symmetry": symmetry} | half,
    }


def halves_of(cut: Cut, story: Story) -> Merged:
    """A cut element with its halves as members."""
    return Merged(story.names[cut.id], SERIES, _named(cut.halves, story))


def _halving(cuts: tuple[Cut, ...], story: Story) -> Iterator[Line]:
    """Half of a resistance, or twice a capacitance."""
    factor = Num(Fraction(1, 2) if story.law.adds_in == SERIES else Fraction(2))
    for cut in cuts:
        for half in cut.halves:
            yield Line(story.value(half), Product((factor, Ref(story.value(cut.id)))))


@_about.register
def _(move: Exchange, story: Story, before: State) -> dict[str, Any]:
    to_star = move.trades[0].to_star
    gone = tuple(id for trade in move.trades for id in trade.gone)
    made = tuple(id for trade in move.trades for id in trade.made)
    return {
        "kind": NetworkMove.STAR if to_star else NetworkMove.TRIANGLE,
        "called": story.names[made[0]],
        "lines": tuple(line for trade in move.trades for line in _trading(trade, story)),
        "members": _named(gone, story),
        "marked": _named(made, story),
        **stars_of(move, story),
    }


def stars_of(move: Exchange, story: Story) -> Mapping[str, StarAndTriangle]:
    """What the steps of an exchange and of its undoing tell of its stars and triangles."""
    told = (
        StarAndTriangle(
            trade.point,
            trade.corners,
            _three(trade.legs, story),
            _three(trade.sides, story),
        )
        for trade in move.trades
    )
    return dict(zip(("star", "mirrored"), told, strict=False))


def _three(ids: tuple[int, int, int], story: Story) -> tuple[str, str, str]:
    one, two, three = ids
    return story.names[one], story.names[two], story.names[three]


def _trading(trade: Trade, story: Story) -> Iterator[Line]:
    gone = sorted(trade.gone, key=lambda id: story.order[id])
    values = {id: Ref(story.value(id)) for id in gone}
    for made, own in zip(trade.made, trade.gone, strict=True):
        place = gone.index(own)
        formula = exchanged(story.law, tuple(values.values()), place, to_star=trade.to_star)
        yield Line(story.value(made), formula)


def exchanged(law: Law, gone: tuple[Formula, ...], place: int, *, to_star: bool) -> Formula:
    """The value of one of three elements in a star or triangle, from the other three.

    A leg of a star of resistors is the product of the two sides at its corner over the sum of all
    three sides; a side of a triangle of resistors is the sum of the three products of two legs
    over the leg that it lies opposite to. For capacitors both are the other way round. Sources:
    T. R. Kuphaldt, Lessons In Electric Circuits, vol. I, section on Δ-Y and Y-Δ conversions
    (resistors); J. B. Tatum, Electricity and Magnetism (LibreTexts), section 5.7 (capacitors).

    Args:
        law: of the elements.
        gone: the values of the three sides, or of the three legs.
        place: among these, the side that lies opposite the wanted leg, or the leg that lies
            opposite the wanted side.
        to_star: whether a leg is wanted.
    """
    one, two, three = gone
    others = tuple(ref for number, ref in enumerate(gone) if number != place)
    if to_star == (law.adds_in == PARALLEL):
        pairs = (Product((one, two)), Product((one, three)), Product((two, three)))
        return Quotient(Sum(pairs), gone[place])
    return Quotient(Product(others), Sum(gone))
