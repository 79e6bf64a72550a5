"""Merges that look right and are not: elements that share too little, or have company between."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from builder.circuit.law import PARALLEL, SERIES, Law
from builder.circuit.network import Element, Network
from builder.lesson.display import Display
from builder.lesson.generated.needs import joined_at
from builder.lesson.prose import Prose, number_word, say
from builder.lesson.vocabulary import vocabulary
from builder.quantity.names import Name


@dataclass(frozen=True)
class FalseMerge:
    """A merge that is not allowed.

    Attributes:
        members: the elements.
        connection: how they are said to be joined.
        text: the move, as a step's goal says it.
        why: why it is not allowed.
    """

    members: tuple[str, ...]
    connection: str
    text: Prose
    why: Prose


def false_merges(network: Network, law: Law, display: Display) -> Iterator[FalseMerge]:
    """Every pair that is said to be joined in a way in which it is not.

    Only pairs that meet at a junction: nobody would merge the others. Elements that form a group
    of one kind are said to form one of the other, all together.
    """
    for first, second in combinations(network.elements, 2):
        shared = set(first.between) & set(second.between)
        if len({*first.between, *second.between}) == 3 and len(shared) == 1:
            yield from _meeting_once(first, second, shared.pop(), network, law, display)
    for bank in _banks(network):
        if all(joined_at(end, network) > len(bank) for end in bank[0].between):
            yield _side_by_side(bank, law, display)


def _meeting_once(
    first: Element, second: Element, junction: str, network: Network, law: Law, display: Display
) -> Iterator[FalseMerge]:
    members = (first.name, second.name)
    named = display.elements(members)
    yield FalseMerge(
        members, PARALLEL, say("Merge {named}, which share both junctions", named=named),
        say("{named} share only one junction. Their other ends lie apart, so they need not have "
            "the same voltage.", named=named),
    )  # fmt: skip
    if joined_at(junction, network) == 2:
        return
    why = _company(junction, members, network, law, display)
    if why:
        text = say("Merge {named}, which form one chain", named=named)
        yield FalseMerge(members, SERIES, text, why)


def _company(
    junction: str, members: tuple[str, ...], network: Network, law: Law, display: Display
) -> Prose:
    """Why two that meet at a junction are no chain; nothing where nothing else flows there."""
    named, flow = display.elements(members), vocabulary(law).flow
    others = tuple(
        one.name
        for one in network.elements
        if junction in one.between and one.name not in members and _flows(one.name, law, display)
    )
    sources = [source for source in network.sources if junction in source.between]
    if not others and not sources:
        if junction not in network.terminals:
            return ()
        return say("{named} meet at a terminal, where {flow} can come in from outside, so they "
                   "need not carry the same {flow}.", named=named, flow=flow)  # fmt: skip
    company: Prose = display.elements(others) if others else say(
        "the source" if len(network.sources) == 1 else "a source"
    )  # fmt: skip
    return say("{named} meet at a junction, but {company} {are} joined on there as well, so they "
               "need not carry the same {flow}.", named=named, company=company,
               are="are" if len(others) > 1 else "is", flow=flow)  # fmt: skip


def _flows(element: str, law: Law, display: Display) -> bool:
    """Whether anything flows in an element, as far as that is known."""
    return bool(display.solution.values.get(Name(law.flow, element), 1) != 0)


def _banks(network: Network) -> list[list[Element]]:
    """Elements that share both junctions, in the author's order."""
    banks: dict[frozenset[str], list[Element]] = {}
    for element in network.elements:
        banks.setdefault(frozenset(element.between), []).append(element)
    return [bank for bank in banks.values() if len(bank) > 1]


def _side_by_side(bank: list[Element], law: Law, display: Display) -> FalseMerge:
    members = tuple(element.name for element in bank)
    named = display.elements(members)
    all_of = "both" if len(members) == 2 else f"all {number_word(len(members))}"
    return FalseMerge(
        members, SERIES, say("Merge {named}, which form one chain", named=named),
        say("{named} do not follow one another: {all} lie between the same two junctions, and "
            "the {flow} divides between them.",
            named=named, all=all_of, flow=vocabulary(law).flow),
    )  # fmt: skip
