"""Mistakes with several sources, and with the equivalent of a source."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer

from builder.circuit.network import Network, Source
from builder.lesson.mistake_sources import COMPLETE_CIRCUITS, EB_RECALLED, PRACTICE, SK
from builder.lesson.network.chains import chain_of
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.what_if import only, potentials, solved, with_sources, with_wire
from builder.lesson.opened_groups import asked_first, step_of
from builder.lesson.prose import Prose, say
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on, found_names
from builder.problem.network.read_so_far import INNER_PREFIX
from builder.quantity.names import Name
from builder.solution.network.step import NetworkMove


def _voltage_sources(display: NetworkDisplay) -> list[Source]:
    return [one for one in display.network.sources if one.quantity == display.law.drop]


def _one_loop_only(display: NetworkDisplay) -> list[Wrong]:
    return asked_first(_alone_in_their_loops(display), display)


def _alone_in_their_loops(display: NetworkDisplay) -> Iterator[Wrong]:
    if len(display.network.sources) < 2 or display.law.flow != "current":
        return
    for source in _voltage_sources(display):
        chain = chain_of(source, display.network).elements
        if not chain:
            continue
        total = sum((display.network.element(one).value for one in chain), Integer(0))
        happens = say("dividing {source} by {chain} alone", source=display.element(source.name),
                      chain=display.elements(chain))  # fmt: skip
        for name, step in found_names(display):
            if name.quantity == display.law.flow and name.of in (*chain, source.name):
                yield Wrong(name, source.value / total, step.id, happens)


def _one_loop_only_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("Every battery looks as if it had its own resistor to itself. But the current has "
               "to come back through the rest of the circuit, and the voltage there counts as "
               "well.")  # fmt: skip


def _others_forgotten(display: NetworkDisplay) -> list[Wrong]:
    return asked_first(_each_alone(display), display)


def _each_alone(display: NetworkDisplay) -> Iterator[Wrong]:
    if len(display.network.sources) < 2:
        return
    for source in display.network.sources:
        alone = solved(only(display.network, source.name), display.law)
        whose = (source.name, *chain_of(source, display.network).elements)
        happens = say("working out the {flow} of {source} as if it were the only source",
                      flow=display.law.flow, source=display.element(source.name))  # fmt: skip
        for name, step in found_names(display):
            if name.quantity == display.law.flow and name.of in whose and name in alone:
                yield Wrong(name, alone[name], step.id, happens)
        level = say("counting with {source} alone", source=display.element(source.name))
        yield from _levels(only(display.network, source.name), level, display)


def _levels(network: Network, happens: Prose, display: NetworkDisplay) -> Iterator[Wrong]:
    """The potentials that the steps find, as another network would have them."""
    for step in display.solution.steps:
        if step.kind is NetworkMove.JUNCTIONS and not display.part_of(step):
            levels = potentials(network, display.law, step.reference)
            for name in step.found:
                if name in levels:
                    yield Wrong(name, levels[name], step.id, happens)


def _others_forgotten_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("One source at a time is a good plan, but only half of it: what the others drive "
               "through the same wire has to be added, with its sign.")  # fmt: skip


def _emfs_added(display: NetworkDisplay) -> list[Wrong]:
    beside, found = _side_by_side(display), list[Wrong]()
    if len(beside) < 2:
        return []
    total = sum((source.value for source in beside), Integer(0))
    values = solved(
        with_sources(display.network, {source.name: total for source in beside}), display.law
    )
    chains = {one for source in beside for one in chain_of(source, display.network).elements}
    happens = say("adding the voltages of {sources}",
                  sources=display.elements(tuple(source.name for source in beside)))  # fmt: skip
    for name, step in found_names(display):
        flows = name.quantity in (display.law.flow, display.law.drop)
        if flows and name.of not in chains and name.of in display.members and name in values:
            found.append(Wrong(name, values[name], step.id, happens))
    return asked_first(found, display)


def _side_by_side(display: NetworkDisplay) -> list[Source]:
    """Sources of voltage that lie side by side with + to +, each with what is in its chain."""
    by_ends: dict[tuple[str, str], list[Source]] = {}
    for source in _voltage_sources(display):
        by_ends.setdefault(chain_of(source, display.network).ends, []).append(source)
    return max(by_ends.values(), key=len, default=[])


def _emfs_added_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("In a chain the voltages of batteries do add. Side by side they do not: they share "
               "the current, and the voltage stays that of about one of them.")  # fmt: skip


def _emfs_averaged(display: NetworkDisplay) -> list[Wrong]:
    """What lies straight across sources side by side, as if at the average of their voltages."""
    beside, found = _side_by_side(display), list[Wrong]()
    if len(beside) < 2:
        return []
    ends = set(chain_of(beside[0], display.network).ends)
    volts = sum((source.value for source in beside), Integer(0)) / len(beside)
    happens = say("taking the average of {sources}",
                  sources=display.elements(tuple(source.name for source in beside)))  # fmt: skip
    for element in display.network.elements:
        step = step_of([Name(display.law.drop, element.name)], display)
        if set(element.between) == ends and step is not None:
            flow = volts * display.law.weight(element.value)
            altered = {Name(display.law.drop, element.name): volts,
                       Name(display.law.flow, element.name): flow}  # fmt: skip
            found += carried_on(display, step, altered, happens)
    return asked_first(found, display)


def _emfs_averaged_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("The middle looks like a fair deal. But each battery works through a resistance of "
               "its own, and what lies across them takes its share: only all the currents together "
               "tell where the voltage settles.")  # fmt: skip


def _source_turned(display: NetworkDisplay) -> list[Wrong]:
    """Every further source taken with its + and − exchanged."""
    if len(display.network.sources) < 2 or _superposed(display):
        return []
    found: list[Wrong] = []
    for source in display.network.sources[1:]:
        turned = with_sources(display.network, {source.name: -source.value})
        values = solved(turned, display.law)
        happens = say("counting {source} the other way round", source=display.element(source.name))
        found += (
            Wrong(name, values[name], step.id, happens)
            for name, step in found_names(display)
            if name in values and name != (source.quantity, source.name)
        )
        found += _levels(turned, happens, display)
    return asked_first(found, display)


def _superposed(display: NetworkDisplay) -> bool:
    return any(step.kind is NetworkMove.ADD for step in display.solution.steps)


def _source_turned_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("With two sources one sign is lost quickly. Mark + and − on the drawing first: a "
               "source that is passed from − to + lifts, and one that is passed from + to − "
               "lowers.")  # fmt: skip


def _inner_forgotten(display: NetworkDisplay) -> list[Wrong]:
    inner = tuple(one for one in display.members if one.startswith(INNER_PREFIX))
    if not inner:
        return []
    values = solved(with_wire(display.network, *inner), display.law)
    happens = say("leaving out the internal {value} of the {source}", value=display.law.value,
                  source="source" if len(display.network.sources) == 1 else "sources")  # fmt: skip
    found = [Wrong(name, values[name], step.id, happens) for name, step in found_names(display)
             if name in values]  # fmt: skip
    return asked_first(found, display)


def _inner_forgotten_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("On the battery stands one voltage, and it is tempting to count on it. But its own "
               "current has to pass its internal resistance as well, which keeps a part of "
               "it.")  # fmt: skip


SOURCE_RULES: tuple[WrongRule, ...] = (
    WrongRule("one-loop-only", SK, "Giving each battery a loop of its own", _one_loop_only_why,
              _one_loop_only),
    WrongRule("others-forgotten", f"{COMPLETE_CIRCUITS}; {SK}", "Forgetting the other sources",
              _others_forgotten_why, _others_forgotten),
    WrongRule("emfs-added", f"{EB_RECALLED}; {SK}", "Adding the voltages of batteries side by side",
              _emfs_added_why, _emfs_added),
    WrongRule("source-turned", PRACTICE, "Counting a source the wrong way round",
              _source_turned_why, _source_turned),
    WrongRule("emfs-averaged", PRACTICE, "Taking the average of batteries side by side",
              _emfs_averaged_why, _emfs_averaged),
    WrongRule("inner-forgotten", PRACTICE, "Forgetting the inside of the battery",
              _inner_forgotten_why, _inner_forgotten),
)  # fmt: skip
