"""Mistakes with several sources, and with the equivalent of a source."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer

from builder.circuit.network import Source
from builder.lesson.network.chains import chain_of
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.what_if import only, solved, with_sources
from builder.lesson.prose import Prose, say
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.problem.network.asking import OPEN
from builder.quantity.names import Name
from builder.solution.network.step import NetworkMove


def _voltage_sources(display: NetworkDisplay) -> list[Source]:
    return [one for one in display.network.sources if one.quantity == display.law.drop]


def _one_loop_only(display: NetworkDisplay) -> Iterator[Wrong]:
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


def _others_forgotten(display: NetworkDisplay) -> Iterator[Wrong]:
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


def _others_forgotten_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("One source at a time is a good plan, but only half of it: what the others drive "
               "through the same wire has to be added, with its sign.")  # fmt: skip


def _emfs_added(display: NetworkDisplay) -> Iterator[Wrong]:
    beside = _side_by_side(display)
    if len(beside) < 2:
        return
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
            yield Wrong(name, values[name], step.id, happens)


def _side_by_side(display: NetworkDisplay) -> list[Source]:
    """Sources of voltage that lie side by side with + to +, each with what is in its chain."""
    by_ends: dict[tuple[str, str], list[Source]] = {}
    for source in _voltage_sources(display):
        by_ends.setdefault(chain_of(source, display.network).ends, []).append(source)
    return max(by_ends.values(), key=len, default=[])


def _emfs_added_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("In a chain the voltages of batteries do add. Side by side they do not: they share "
               "the current, and the voltage stays that of about one of them.")  # fmt: skip


def _open_voltage_kept(display: NetworkDisplay) -> Iterator[Wrong]:
    load = display.solution.problem.load
    opened = Name(display.law.drop, OPEN)
    if load is None or opened not in display.solution.values:
        return
    for name, step in found_names(display):
        if name == Name(display.law.drop, load) and step.kind is NetworkMove.LOAD:
            yield Wrong(name, display.solution.values[opened], step.id,
                        say("taking the open voltage for {load}",
                            load=display.element(load)))  # fmt: skip


def _open_voltage_kept_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("The open voltage is there as long as nothing flows. As soon as the load takes a "
               "current, the inner resistance keeps a part of it.")  # fmt: skip


_SK = "Smith and van Kampen, Phys. Rev. ST-PER 7, 020115 (2011)"
_ST = "Am. J. Phys. 81, 134 (2013), on complete circuits"
_EB = "Engelhardt and Beichner, Am. J. Phys. 72, 98 (2004), from memory"

SOURCE_RULES: tuple[WrongRule, ...] = (
    WrongRule("one-loop-only", _SK, "Giving each battery a loop of its own", _one_loop_only_why,
              _one_loop_only),
    WrongRule("others-forgotten", f"{_ST}; {_SK}", "Forgetting the other sources",
              _others_forgotten_why, _others_forgotten),
    WrongRule("emfs-added", f"{_EB}; {_SK}", "Adding the voltages of batteries side by side",
              _emfs_added_why, _emfs_added),
    WrongRule("open-voltage-kept", "common practice, no source",
              "Taking the open voltage for the voltage under load", _open_voltage_kept_why,
              _open_voltage_kept),
)  # fmt: skip
