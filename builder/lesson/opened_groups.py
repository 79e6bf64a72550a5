"""Groups as the walk back opens them: what their members share, and what they divide.

Nests and networks both walk back through groups; wrong rules about sharing see no difference.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sympy import Integer

from builder.circuit.law import PARALLEL, SERIES, Law
from builder.circuit.network import Source
from builder.circuit.tree import groups
from builder.lesson.display import LONGEST_LIST
from builder.lesson.nest.display import NestDisplay
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import Prose, number_word, say
from builder.lesson.wrong_rule import Wrong
from builder.problem.network.read_so_far import INNER_PREFIX
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.quantity.symbolic import sign_of
from builder.solution import Step
from builder.solution.network.renaming import share
from builder.solution.network.step import NetworkMove

CircuitDisplay = NestDisplay | NetworkDisplay
"""The writing of a solution of a circuit with one kind of element."""


@dataclass(frozen=True)
class Part:
    """The names of the quantities of a group's equivalent or of one of its members.

    Attributes:
        id: of the element or equivalent.
        value: its capacitance or resistance.
        flow: its charge or current.
        drop: its voltage.
        work: its energy or power.
    """

    id: str
    value: Name
    flow: Name
    drop: Name
    work: Name


@dataclass(frozen=True)
class OpenedGroup:
    """A group that the walk back opens.

    Attributes:
        connection: ``series`` or ``parallel``.
        whole: its equivalent.
        parts: its members; for series from the + to the − end.
        root: whether it is the whole circuit.
    """

    connection: str
    whole: Part
    parts: tuple[Part, ...]
    root: bool


def law_of(display: CircuitDisplay) -> Law:
    """The law of the circuit's elements."""
    return display.solution.problem.law


def opened_groups(display: CircuitDisplay) -> Iterator[OpenedGroup]:
    """The groups of a driven circuit whose members have flows and voltages."""
    if isinstance(display, NestDisplay):
        yield from _of_nest(display)
    else:
        yield from _of_network(display)


def _of_nest(display: NestDisplay) -> Iterator[OpenedGroup]:
    naming, tree = display.naming, display.solution.problem.tree
    if naming.source is None:
        return

    def part(id: str) -> Part:
        return Part(id, naming.value(id), naming.flow(id), naming.drop(id), naming.work(id))

    for group in groups(tree):
        members = tuple(part(one.id) for one in group.parts)
        yield OpenedGroup(group.connection, part(group.id), members, group is tree)


def _of_network(display: NetworkDisplay) -> Iterator[OpenedGroup]:
    for step in display.solution.steps:
        if step.kind is not NetworkMove.OPEN or step.undone is not NetworkMove.MERGE:
            continue
        within = display.within(step)
        for group in step.merged:
            members = tuple(_part(one, within) for one in group.members)
            whole = _part(group.equivalent, within)
            root = group.equivalent == TOTAL and not within.part
            yield OpenedGroup(group.connection, whole, members, root)


def _part(id: str, within: NetworkDisplay) -> Part:
    value, flow, drop, work = (_name(kind, id, within) for kind in within.law.quantities)
    return Part(id, value, flow, drop, work)


def _name(quantity: str, id: str, within: NetworkDisplay) -> Name:
    plain = Name(quantity, id)
    own = share(plain, within.part)
    if within.part and own in within.solution.values:
        return own
    return within.resolve(plain)


def flow_of(part: Part, display: CircuitDisplay) -> Exact | None:
    """What flows through a part, also where the steps need only its voltage."""
    values = display.solution.values
    if part.flow in values:
        return values[part.flow]
    if part.drop in values and part.value in values:
        return law_of(display).weight(values[part.value]) * values[part.drop]
    return None


def drop_of(part: Part, display: CircuitDisplay) -> Exact | None:
    """The voltage across a part, also where the steps need only what flows through it."""
    values = display.solution.values
    if part.drop in values:
        return values[part.drop]
    if part.flow in values and part.value in values:
        return values[part.flow] / law_of(display).weight(values[part.value])
    return None


def divided(
    group: OpenedGroup, weights: Iterable[Exact], display: CircuitDisplay
) -> dict[Name, Exact]:
    """What the members would get if a group divided its flow or voltage by other weights.

    A series group divides its voltage, a parallel group its flow. Each member keeps the sign
    of its right value, since a mistake about shares is none about directions.

    Returns:
        Of each member whose share the steps find, in SI units.
    """
    series = group.connection == SERIES
    whole = (drop_of if series else flow_of)(group.whole, display)
    if whole is None:
        return {}
    found = {name for step in display.solution.steps for name in step.found}
    weights = tuple(weights)
    size = _size(whole) / sum(weights, Integer(0))
    shares: dict[Name, Exact] = {}
    for part, weight in zip(group.parts, weights, strict=True):
        name = part.drop if series else part.flow
        if name in found:
            shares[name] = size * weight * _sign(display.solution.values[name])
    return shares


def _size(value: Exact) -> Exact:
    return value * _sign(value)


def _sign(value: Exact) -> int:
    return -1 if sign_of(value) == -1 else 1


def named(group: OpenedGroup, display: CircuitDisplay) -> Prose:
    """The members by name; many of them by number, as “C₁ to C₆” is nothing to share with."""
    if len(group.parts) > LONGEST_LIST:
        return say("all {count}", count=number_word(len(group.parts)))
    return display.elements(tuple(part.value.of for part in group.parts))


def together(group: OpenedGroup, display: CircuitDisplay) -> Prose:
    """The members as one thing: “C₁ and C₂ together”."""
    if len(group.parts) > LONGEST_LIST:
        return say("the group")
    return say("{members} together", members=named(group, display))


def lies_nowhere(id: str, display: CircuitDisplay) -> bool:
    """Whether an element is not to be seen on the way through the circuit.

    That is a leg of a star or a side of a triangle that the steps put in, or the inside of a
    source: nothing gets to them first or later.
    """
    if isinstance(display, NestDisplay):
        return False
    if id.startswith(INNER_PREFIX):
        return True
    stars = (one for step in display.solution.steps for one in (step.star, step.mirrored) if one)
    return id not in display.members and any(id in (*one.legs, *one.sides) for one in stars)


def step_of(names: Iterable[Name], display: CircuitDisplay) -> Step | None:
    """The first step that finds one of these quantities."""
    wanted = set(names)
    return next((step for step in display.solution.steps if wanted & set(step.found)), None)


def only_voltage(display: CircuitDisplay) -> Source | None:
    """The source, if it is the only one and gives a voltage."""
    sources = display.solution.problem.network.sources
    if len(sources) != 1 or sources[0].quantity != law_of(display).drop:
        return None
    return sources[0]


def is_single(id: str, display: CircuitDisplay) -> bool:
    """Whether something is an element of the circuit, and not the inside of a source."""
    return id in display.members and not id.startswith(INNER_PREFIX)


def asked_first(wrongs: Iterable[Wrong], display: CircuitDisplay) -> list[Wrong]:
    """What is asked before what is only met on the way: that is what a reader looks for."""
    asked = set(map(display.resolve, display.solution.problem.find))
    return sorted(wrongs, key=lambda wrong: wrong.name not in asked)


__all__ = [
    "PARALLEL", "SERIES", "CircuitDisplay", "OpenedGroup", "Part", "asked_first", "divided",
    "drop_of", "flow_of", "is_single", "law_of", "lies_nowhere", "named", "only_voltage",
    "opened_groups", "step_of", "together",
]  # fmt: skip
