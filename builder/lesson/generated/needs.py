"""Which steps of a solution need which others: what may be done before what."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from builder.circuit.law import PARALLEL
from builder.circuit.network import Network
from builder.lesson.lesson import Lesson
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import Prose, say
from builder.quantity.formula import names_in
from builder.quantity.names import Name
from builder.solution import Step
from builder.solution.network.step import NetworkMove, NetworkStep

FORWARD = frozenset(
    {
        NetworkMove.MERGE, NetworkMove.DROP, NetworkMove.BALANCE, NetworkMove.JOIN,
        NetworkMove.SPREAD, NetworkMove.STAR, NetworkMove.TRIANGLE, NetworkMove.DRIVE,
    }
)  # fmt: skip
"""The moves that start from the network as it is by then."""
_REDRAWING = frozenset({NetworkMove.DROP, NetworkMove.BALANCE, NetworkMove.JOIN})
"""Those of them that later moves need though they may find nothing that those use."""


@dataclass(frozen=True)
class Need:
    """What a step takes from an earlier one.

    Attributes:
        step: the position of that earlier step.
        what: what is taken: “the charge on C₂₃”, “the circuit without R₅”.
        made: whether it is a circuit that is made, not a quantity that is found.
    """

    step: int
    what: Prose
    made: bool = False


def needs_of(lesson: Lesson) -> tuple[tuple[Need, ...], ...]:
    """For each step what it needs directly, one need for each other step, in their order."""
    steps = [taught.step for taught in lesson.steps]
    found_by = {name: at for at, step in enumerate(steps) for name in step.found}
    at_hand = known_at_once(lesson)
    needs = []
    for at, step in enumerate(steps):
        by_step: dict[int, Need] = {}
        # What is the same as something given is hardly missed: it is told of last.
        for name in sorted(used_by(step), key=at_hand.__contains__):
            origin = found_by.get(name)
            if origin is not None and origin not in by_step:
                by_step[origin] = Need(origin, lesson.display.asks_for(name))
        for need in _circuits_needed(at, steps, lesson):
            by_step.setdefault(need.step, need)
        needs.append(tuple(by_step[origin] for origin in sorted(by_step)))
    return tuple(needs)


def known_at_once(lesson: Lesson) -> set[Name]:
    """What is given, and what is known at once because it is the same as something given."""
    known = set(lesson.solution.givens)
    for taught in lesson.steps:
        for line in taught.step.lines:
            if line.carries and known.issuperset(names_in(line.formula)):
                known.add(line.name)
    return known


def used_by(step: Step) -> tuple[Name, ...]:
    """The quantities that a step uses and does not find itself, each once."""
    own = set(step.found)
    used = (name for line in step.lines for name in names_in(line.formula))
    return tuple(dict.fromkeys(name for name in used if name not in own))


def _circuits_needed(at: int, steps: list[Step], lesson: Lesson) -> Iterator[Need]:
    """Circuits that an earlier step makes and a step of a network starts from."""
    step, display = steps[at], lesson.display
    if not isinstance(step, NetworkStep) or not isinstance(display, NetworkDisplay):
        return
    part = display.part_of(step)
    network = display.network
    for origin, earlier in enumerate(steps[:at]):
        if not isinstance(earlier, NetworkStep):
            continue
        if earlier.kind is NetworkMove.ALONE and display.part_of(earlier) == part:
            alone = display.element(earlier.telling["acting"])
            yield Need(origin, say("the circuit with {source} alone", source=alone), made=True)
        if display.part_of(earlier) != part or step.kind not in FORWARD:
            continue
        if earlier.kind in _REDRAWING and not goes_in(step, network):
            yield Need(origin, _redrawn(earlier, display), made=True)
        if earlier.kind in FORWARD:
            network = earlier.network


def _redrawn(step: NetworkStep, display: NetworkDisplay) -> Prose:
    """The circuit that a move leaves, in words."""
    if step.dropped:
        return say("the circuit without {gone}", gone=display.elements(step.dropped))
    return say("the circuit with its like junctions joined")


def goes_in(step: NetworkStep, network: Network) -> bool:
    """Whether a merge is possible in a network already."""
    if step.kind is not NetworkMove.MERGE:
        return False
    names = {element.name for element in network.elements}
    return all(
        names.issuperset(group.members) and is_group(group.members, group.connection, network)
        for group in step.merged
    )


def is_group(members: tuple[str, ...], connection: str, network: Network) -> bool:
    """Whether elements share both junctions, or follow one another with nothing in between.

    Args:
        members: their names, at least two; for a chain in its order.
        connection: ``series`` or ``parallel``.
        network: in which they are.
    """
    ends = [frozenset(network.element(name).between) for name in members]
    if connection == PARALLEL:
        return len(set(ends)) == 1 and len(ends[0]) == 2
    for first, second in pairwise(ends):
        shared = first & second
        if len(shared) != 1 or joined_at(next(iter(shared)), network) != 2:
            return False
    return True


def joined_at(junction: str, network: Network) -> int:
    """How many ends of elements and sources meet at a junction, a bare terminal counting one."""
    ends = [end for element in network.elements for end in element.between]
    ends += [end for source in network.sources for end in source.between]
    bare = not network.sources and junction in network.terminals
    return ends.count(junction) + int(bare)
