"""Which changes can be asked about, and what the structure of the circuit says of each.

A spot is only a proposal: the changed circuit is solved exactly, and a spot whose structure says
otherwise is not asked about.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from typing import NamedTuple

from builder.circuit.law import SERIES
from builder.circuit.tree import Group, Leaf
from builder.lesson.generated.view import View
from builder.lesson.generated.what_if.changes import Change, How
from builder.lesson.network.display import NetworkDisplay
from builder.quantity.names import TOTAL, Name
from builder.solution.network.step import NetworkMove


class Why(Enum):
    """What decides: the kind of reason."""

    BALANCED = "nothing flows through what is changed"
    HELD = "the source holds the voltage across a branch"
    HELD_SELF = "the source holds the voltage across the element that is changed"
    PUSHED = "the source drives the same through the whole chain"
    SOURCE = "the source delivers more or less"
    BRANCH = "the voltage across a group changes"
    CHAIN = "what flows through a chain changes"
    SHARE = "an element gets another part of the voltage of its chain"
    SEEN = "what is changed sees all the rest as one source"
    EQUIVALENT = "the whole follows each of its parts"


class Spot(NamedTuple):
    """A change, and what is looked at; a tuple, as of many only one is asked about.

    Attributes:
        why: what decides.
        change: what is done.
        seen: the quantity that is looked at.
        grows: 1, 0 or −1, as the structure says.
        group: in which the changed element and the one looked at meet, or None.
        whole: whether that group is the whole circuit.
    """

    why: Why
    change: Change
    seen: Name
    grows: int
    group: Group | None = None
    whole: bool = False


_LARGER = (How.DOUBLED, How.HALVED)
_FITTING: dict[Why, tuple[How, ...]] = {
    Why.BALANCED: (How.TAKEN_OUT, How.WIRE, How.DOUBLED),
    Why.HELD: (How.TAKEN_OUT, How.BESIDE, How.DOUBLED),
    Why.HELD_SELF: _LARGER,
    Why.PUSHED: (How.DOUBLED, How.HALVED, How.WIRE),
    Why.SOURCE: (How.TAKEN_OUT, How.BESIDE, How.BEHIND, How.DOUBLED),
    Why.BRANCH: (How.TAKEN_OUT, How.BESIDE, How.DOUBLED),
    Why.CHAIN: (How.DOUBLED, How.HALVED, How.BESIDE, How.WIRE),
    Why.SHARE: _LARGER,
    Why.SEEN: _LARGER,
    Why.EQUIVALENT: (How.DOUBLED, How.BESIDE, How.BEHIND, How.HALVED),
}
"""The changes that make a telling question."""


def spots(view: View) -> Iterator[Spot]:
    """Every question that the structure of a circuit answers."""
    for member in view.members:
        for how in How:
            change = Change(how, member)
            found = _in_nest(change, view) if view.tree else _in_network(change, view)
            yield from (spot for spot in found if how in _FITTING[spot.why])


def _in_nest(change: Change, view: View) -> Iterator[Spot]:
    source = view.network.source
    grows = 1 if change.eases(view.law) else -1
    if source is None:
        more = 1 if change.more(view.law) else -1
        yield Spot(Why.EQUIVALENT, change, Name(view.law.value, TOTAL), more)
        return
    driven = source.quantity == view.law.drop
    whole = view.law.flow if driven else view.law.drop
    yield Spot(Why.SOURCE, change, Name(whole, source.name), grows if driven else -grows)
    yield from _of_itself(change, view, driven)
    for other in view.members:
        if other != change.of:
            yield from _of_other(change, other, view, driven)


def _of_other(change: Change, other: str, view: View, driven: bool) -> Iterator[Spot]:
    meet = view.meeting(other, change.of)
    grows = 1 if change.eases(view.law) else -1
    series = meet.group.connection == SERIES
    if series:
        held = meet.root and not driven
        why, sign = (Why.PUSHED, 0) if held else (Why.CHAIN, grows)
    else:
        held = meet.root and driven
        why, sign = (Why.HELD, 0) if held else (Why.BRANCH, -grows)
    for quantity in (view.law.flow, view.law.drop):
        yield Spot(why, change, Name(quantity, other), sign, meet.group, meet.root)


def _of_itself(change: Change, view: View, driven: bool) -> Iterator[Spot]:
    tree, of = view.tree, change.of
    drop = view.drop(of)
    alone = isinstance(tree, Leaf)
    if alone or (isinstance(tree, Group) and tree.connection != SERIES and Leaf(of) in tree.parts):
        if driven:
            yield Spot(Why.HELD_SELF, change, drop, 0)
        return
    group = _around(of, tree)
    if group is None or group.connection != SERIES or (group is tree and not driven):
        return
    yield Spot(Why.SHARE, change, drop, -1 if change.eases(view.law) else 1, group)


def _around(of: str, tree: object) -> Group | None:
    """The group of which an element is a part itself."""
    if not isinstance(tree, Group):
        return None
    if Leaf(of) in tree.parts:
        return tree
    return next((found for part in tree.parts if (found := _around(of, part))), None)


def _in_network(change: Change, view: View) -> Iterator[Spot]:
    grows, sources = 1 if change.eases(view.law) else -1, view.network.sources
    if not sources:
        more = 1 if change.more(view.law) else -1
        yield Spot(Why.EQUIVALENT, change, Name(view.law.value, TOTAL), more)
        return
    volts = [source for source in sources if source.quantity == view.law.drop]
    if change.of == _idle_middle(view):
        yield Spot(Why.BALANCED, change, Name(view.law.flow, sources[0].name), 0)
        yield from (Spot(Why.BALANCED, change, view.flow(other), 0)
                    for other in view.members if other != change.of)  # fmt: skip
        return
    if len(sources) == len(volts) == 1:
        yield Spot(Why.SOURCE, change, Name(view.law.flow, sources[0].name), grows)
    for source in volts:
        for other in view.members:
            if set(view.network.element(other).between) == set(source.between):
                if other != change.of:
                    yield Spot(Why.HELD, change, view.flow(other), 0)
                else:
                    yield Spot(Why.HELD_SELF, change, view.drop(other), 0)
    if view.resistive:
        yield Spot(Why.SEEN, change, view.drop(change.of), -grows)


def _idle_middle(view: View) -> str:
    """The element of a balanced bridge through which nothing flows, or nothing."""
    if not isinstance(view.display, NetworkDisplay):
        return ""
    balances = (step.balance for step in view.display.solution.every_step
                if step.kind is NetworkMove.BALANCE)  # fmt: skip
    return next((one.middle for one in balances if one is not None and one.middle), "")
