"""Why two elements of a nest compare as they do, seen from the circuit without any arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum, auto

from builder.circuit.law import SERIES
from builder.circuit.tree import Leaf
from builder.lesson.generated.view import View
from builder.lesson.prose import Prose, Relation, capitalised, say


class Ground(Enum):
    """What decides between two elements."""

    SAME_FLOW = auto()
    """They lie in one chain, and their flow is compared."""
    SAME_DROP = auto()
    """They share both junctions, and their voltage is compared."""
    BY_FLOW = auto()
    """They lie in one chain, so that their values decide about voltage or work."""
    BY_DROP = auto()
    """They share both junctions, so that their values decide about flow or work."""
    SPLIT = auto()
    """What flows through the first is shared out between branches, of which the second is part."""
    PART = auto()
    """The second is part of a branch beside the first."""


TIES = frozenset({Ground.SAME_FLOW, Ground.SAME_DROP})
BY_VALUE = frozenset({Ground.BY_FLOW, Ground.BY_DROP})
NESTED = frozenset({Ground.SPLIT, Ground.PART})


@dataclass(frozen=True)
class Compared:
    """Two elements, and what decides between them.

    Attributes:
        ground: that decides.
        where: the group in which they meet.
        first, second: their names; where they differ in kind, the first has more.
    """

    ground: Ground
    where: str
    first: str
    second: str


def compared(view: View, quantity: str, one: str, other: str) -> Compared | None:
    """What decides between two elements of a nest, or None if only arithmetic does."""
    assert view.tree is not None
    meet = view.meeting(one, other)
    series, where = meet.group.connection == SERIES, "/".join(sorted(map(str, meet.group.parts)))
    alone = [isinstance(part, Leaf) for part in meet.parts]
    shared = view.law.flow if series else view.law.drop
    if all(alone):
        same, by = ((Ground.SAME_FLOW, Ground.BY_FLOW) if series
                    else (Ground.SAME_DROP, Ground.BY_DROP))  # fmt: skip
        return Compared(same if quantity == shared else by, where, one, other)
    if quantity != shared or not any(alone):
        return None
    whole, part = (one, other) if alone[0] else (other, one)
    return Compared(Ground.SPLIT if series else Ground.PART, where, whole, part)


def told(grounds: Sequence[Compared], quantity: str, view: View) -> Prose:
    """The reason of pairs that are decided alike: of one ground, in one place."""
    ground = grounds[0].ground
    if ground in NESTED:
        return _of_part(grounds, view)
    names = [name for each in grounds for name in (each.first, each.second)]
    ids = tuple(member for member in view.members if member in names)
    named, voc = view.display.elements(ids), view.voc
    if ground is Ground.SAME_DROP:
        return say("{named} share both junctions, so they have the same voltage.", named=named)
    if ground is Ground.SAME_FLOW:
        return say("{named} lie in one chain: {why}, so they carry the same {flow}.",
                   named=named, why=_all_through(view, len(ids) > 2), flow=voc.flow)  # fmt: skip
    shared = voc.flow if ground is Ground.BY_FLOW else "voltage"
    how = "lie in one chain" if ground is Ground.BY_FLOW else "share both junctions"
    law, grows = _law(ground, quantity, view)
    noun = {view.law.flow: voc.flow, view.law.drop: "voltage", view.law.work: voc.work}[quantity]
    return say("{named} {how} and have the same {shared}. By {law}, the {large} the {value}, the "
               "larger the {noun}.", named=named, how=how, shared=shared, law=law,
               large="larger" if grows else "smaller", value=voc.value, noun=noun)  # fmt: skip


def _all_through(view: View, several: bool) -> str:
    others = "the others" if several else "the other"
    if view.resistive:
        return f"all that flows through one flows through {others} as well"
    return f"the charge that one takes up is pushed on to {others}"


def _of_part(grounds: Sequence[Compared], view: View) -> Prose:
    """The first ones, which have equally much, have more than each of the others."""
    wholes, parts = (
        tuple(member for member in view.members if member in names)
        for names in ({each.first for each in grounds}, {each.second for each in grounds})
    )
    several, voc, named = len(parts) > 1, view.voc, view.display.elements(parts)
    split = grounds[0].ground is Ground.SPLIT
    flow_or_drop = voc.flow if split else "voltage"
    whole = say("the {what} {word} {one}", what=flow_or_drop, one=view.element(wholes[0]),
                word=voc.flow_word if split else "across")  # fmt: skip
    if len(wholes) > 1:
        whole = say("the {what} that {all} have in common", what=flow_or_drop,
                    all=view.display.elements(wholes))  # fmt: skip
    if split:
        return say("{whole} is shared out between branches, so {parts} {get} only a part of it.",
                   whole=capitalised(whole), parts=named,
                   get="each get" if several else "gets")  # fmt: skip
    return say("{parts} {have} only a part of {whole}: the rest lies across the other elements of "
               "the same branch.", whole=whole, parts=named,
               have="each have" if several else "has")  # fmt: skip


def _law(ground: Ground, quantity: str, view: View) -> tuple[Relation, bool]:
    """The law by which equal flow or voltage decides, and whether a larger value gives more."""
    by_flow = ground is Ground.BY_FLOW
    if quantity == view.law.work:
        of = {(True, True): "P = I^(2)R", (True, False): "P = V^(2)/R",
              (False, True): "U = Q^(2)/2C", (False, False): "U = ½CV^(2)"}  # fmt: skip
        return Relation(of[view.resistive, by_flow]), view.resistive == by_flow
    law = view.voc.drop_law if by_flow else view.voc.flow_law
    return law, view.resistive == by_flow
