"""Pick elements in the figure: what shares both junctions, what carries the same, what has it all.

What is asked holds whatever the values are, so that two things that are equal by accident are not
asked for.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from functools import lru_cache
from typing import TYPE_CHECKING

from builder.lesson.by_name import turn
from builder.lesson.generated.view import View
from builder.lesson.prose import Prose, listed, say
from builder.lesson.questions.forms import Pickable, PickQuestion

if TYPE_CHECKING:
    import networkx

FEWEST = 2


def pick_of(view: View) -> PickQuestion | None:
    """One of the questions that fit; those of which not everything is right come first."""
    found = [question for ask in _ASKERS if (question := ask(view)) is not None]
    if not found and (question := _shares_one(view)) is not None:
        found.append(question)
    telling = [one for one in found if not all(item.right for item in one.items)]
    either = telling or found
    return turn(view.slug, "pick", either) if either else None


def _shares_both(view: View) -> PickQuestion | None:
    """Which elements share both junctions with another."""
    ends = {id: frozenset(view.network.element(id).between) for id in view.members}
    partners = {one: [id for id in ends if id != one and ends[id] == ends[one]] for one in ends}
    about = _about(partners, view, "both junctions")
    if about is None:
        return None
    items = tuple(
        Pickable(id, say("{one}", one=view.element(id)), id in partners[about],
                 _shares(id, about, ends[id] & ends[about], view))
        for id in view.members if id != about
    )  # fmt: skip
    one = view.element(about)
    ask = say("Which {ones} share both junctions with {one}? Pick them in the figure.",
              ones=f"{view.display.one}s", one=one)  # fmt: skip
    return PickQuestion(ask, about, items, view.network.element(about).between,
                        say("Trace the junctions of {one}", one=one), None)  # fmt: skip


def _shares(id: str, about: str, shared: Collection[str], view: View) -> Prose:
    one, other = view.element(id), view.element(about)
    if len(shared) == 2:
        return say("{one} shares both junctions with {other}.", one=one, other=other)
    if not shared:
        return say("{one} shares no junction with {other}.", one=one, other=other)
    if view.named:
        return say("{one} shares only junction {which} with {other}.", one=one, other=other,
                   which=min(shared))  # fmt: skip
    return say("{one} shares only one junction with {other}.", one=one, other=other)


def _about(partners: dict[str, list[str]], view: View, what: str) -> str | None:
    """The element that the others are held against: some are its partners, best not all."""
    if len(view.members) <= FEWEST:
        return None
    some = [id for id, found in partners.items() if found]
    best = [id for id in some if len(partners[id]) < len(view.members) - 1]
    return turn(view.slug, what, best or some) if some else None


def _carries_the_same(view: View) -> PickQuestion | None:
    """Which elements must carry the same current or charge as another."""
    partners = in_one_chain(view)
    if partners is None:
        return None
    about = _about(partners, view, "the same flow")
    if about is None:
        return None
    one, voc = view.element(about), view.voc
    items = tuple(
        Pickable(id, say("{one}", one=view.element(id)), id in partners[about],
                 _in_chain(id, about, id in partners[about], view))
        for id in view.members if id != about
    )  # fmt: skip
    ask = say("Which {ones} must carry the same {flow} as {one}, whatever their {values} are? "
              "Pick them in the figure.", ones=f"{view.display.one}s", flow=voc.flow, one=one,
              values=f"{voc.value}s")  # fmt: skip
    return PickQuestion(ask, about, items, (), (), None)


def in_one_chain(view: View) -> dict[str, list[str]] | None:
    """For each element those that must carry the same: without both, the circuit falls apart.

    Returns:
        None if some element carries nothing because it closes no loop.
    """
    parts = {one.name: one.between for one in view.network.elements}
    parts |= {one.name: one.between for one in view.network.sources}
    if not view.network.sources:
        # What looks into the circuit closes the loop as a source would.
        parts[""] = view.network.terminals
    cut = _cut_open(tuple(parts.items()))
    if cut is None:
        return None
    return {one: [id for id in view.members if id in cut[one]] for one in view.members}


@lru_cache(maxsize=64)
def _cut_open(parts: tuple[tuple[str, tuple[str, str]], ...]) -> dict[str, frozenset[str]] | None:
    """For each part those without which, and without it, the circuit falls apart.

    Args:
        parts: their names and ends, which all sets of fresh numbers share.

    Returns:
        None if it falls apart without one of them already.
    """
    import networkx

    junctions = {end for _, ends in parts for end in ends}
    found: dict[str, frozenset[str]] = {}
    for one, _ in parts:
        graph = networkx.MultiGraph()
        graph.add_edges_from((*ends, name) for name, ends in parts if name != one)
        if len(graph) < len(junctions) or not networkx.is_connected(graph):
            return None
        found[one] = frozenset(name for *_, name in _bridges(graph))
    return found


def _bridges(graph: networkx.MultiGraph) -> list[tuple[str, str, str]]:
    """The parts without which a connected circuit falls apart."""
    import networkx

    simple = networkx.Graph(graph)
    return [(a, b, next(iter(graph[a][b]))) for a, b in networkx.bridges(simple)
            if graph.number_of_edges(a, b) == 1]  # fmt: skip


def _in_chain(id: str, about: str, same: bool, view: View) -> Prose:
    one, other = view.element(id), view.element(about)
    if view.resistive:
        if same:
            return say("All that flows through {other} must flow through {one} as well.", one=one,
                       other=other)  # fmt: skip
        return say("Between {other} and {one} current can branch off or join.", one=one,
                   other=other)  # fmt: skip
    if same:
        return say("What {other} takes up, {one} must take up as well: the charge has no other "
                   "way.", one=one, other=other)  # fmt: skip
    return say("Between {other} and {one} charge can branch off or join.", one=one, other=other)


def _has_it_all(view: View) -> PickQuestion | None:
    """Which elements have the whole voltage of the source."""
    if len(view.network.sources) != 1 or len(view.members) <= FEWEST:
        return None
    poles = set(view.network.sources[0].between)
    shared = {id: len(poles & set(view.network.element(id).between)) for id in view.members}
    if 2 not in shared.values():
        return None
    items = tuple(
        Pickable(id, say("{one}", one=view.element(id)), shared[id] == 2,
                 _at_poles(id, shared[id], view))
        for id in view.members
    )  # fmt: skip
    ask = say("Which {ones} must have the whole voltage of the source across them, whatever the "
              "values are? Pick them in the figure.", ones=f"{view.display.one}s")  # fmt: skip
    return PickQuestion(ask, "", items, view.network.sources[0].between,
                        say("Trace the two poles of the source"), None)  # fmt: skip


def _at_poles(id: str, poles: int, view: View) -> Prose:
    one = view.element(id)
    if poles == 2:
        return say("{one} lies straight between the two poles of the source.", one=one)
    if poles == 1:
        return say("Only one end of {one} is joined to a pole of the source by wire alone.",
                   one=one)  # fmt: skip
    return say("Neither end of {one} is joined to a pole of the source by wire alone.", one=one)


def _shares_one(view: View) -> PickQuestion | None:
    """Which elements share a junction with another, where no two share both."""
    ends = {id: frozenset(view.network.element(id).between) for id in view.members}
    partners = {one: [id for id in ends if id != one and ends[id] & ends[one]] for one in ends}
    some = [one for one in ends if 0 < len(partners[one]) < len(ends) - 1]
    if not view.named or not some:
        return None
    about = turn(view.slug, "a junction", some)
    items = tuple(
        Pickable(id, say("{one}", one=view.element(id)), id in partners[about],
                 _meets(id, about, ends[id] & ends[about], view))
        for id in view.members if id != about
    )  # fmt: skip
    one = view.element(about)
    ask = say("Which {ones} share a junction with {one}? Pick them in the figure.",
              ones=f"{view.display.one}s", one=one)  # fmt: skip
    return PickQuestion(ask, about, items, view.network.element(about).between,
                        say("Trace the junctions of {one}", one=one), None)  # fmt: skip


def _meets(id: str, about: str, shared: Collection[str], view: View) -> Prose:
    one, other = view.element(id), view.element(about)
    if not shared:
        return say("{one} shares no junction with {other}.", one=one, other=other)
    return say("{one} meets {other} at {which}.", one=one, other=other,
               which=listed_junctions(sorted(shared)))  # fmt: skip


def listed_junctions(names: list[str]) -> Prose:
    """``junction b``, ``junctions a and b``."""
    noun = "junction" if len(names) == 1 else "junctions"
    return say("{noun} {names}", noun=noun, names=listed(names))


_ASKERS: tuple[Callable[[View], PickQuestion | None], ...] = (
    _shares_both, _carries_the_same, _has_it_all,
)  # fmt: skip
"""What can be asked of a circuit."""
