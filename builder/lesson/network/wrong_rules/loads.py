"""Mistakes at the open ends of a circuit, and with the load that is put there."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer

from builder.lesson.mistake_sources import CEG, PRACTICE
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.opened_groups import step_of
from builder.lesson.prose import Prose, SymbolOf, say
from builder.lesson.vocabulary import vocabulary
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.problem.network.asking import GREATEST, INNER, OPEN
from builder.quantity.names import Name
from builder.solution.network.step import NetworkMove


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


def _no_current_no_voltage(display: NetworkDisplay) -> Iterator[Wrong]:
    step = step_of([Name(display.law.drop, OPEN)], display)
    if step is not None:
        happens = say("reasoning that without {flow} there is no voltage", flow=(
            "a current" if display.law.flow == "current" else "a charge"))  # fmt: skip
        yield Wrong(Name(display.law.drop, OPEN), Integer(0), step.id, happens)


def _no_current_no_voltage_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    voc = vocabulary(display.law)
    return say("No {flow} leaves the open ends, and by {law} that sounds like no voltage. But the "
               "law speaks of one {one} and its own {flow}; how far apart the two ends are is up "
               "to the rest of the circuit.", flow=voc.flow, law=voc.drop_law,
               one=voc.one)  # fmt: skip


def _quarter_forgotten(display: NetworkDisplay) -> Iterator[Wrong]:
    greatest = Name(display.law.work, GREATEST)
    step = step_of([greatest], display)
    if step is not None:
        volts, inner = Name(display.law.drop, OPEN), Name(display.law.value, INNER)
        values = display.solution.values
        happens = say("dividing the square of {volts} by {inner} alone", volts=SymbolOf(volts),
                      inner=SymbolOf(inner))  # fmt: skip
        yield Wrong(greatest, values[volts] * values[volts] / values[inner], step.id, happens)


def _quarter_forgotten_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("That would be the power if the load had all of the open voltage. But a load as "
               "large as the inner resistance has half of it, and half squared is a "
               "quarter.")  # fmt: skip


OPEN_END_RULES: tuple[WrongRule, ...] = (
    WrongRule("no-current-no-voltage", CEG, "No current, so no voltage",
              _no_current_no_voltage_why, _no_current_no_voltage),
    WrongRule("open-voltage-kept", PRACTICE, "Taking the open voltage for the voltage under load",
              _open_voltage_kept_why, _open_voltage_kept),
    WrongRule("quarter-forgotten", PRACTICE, "Forgetting the four in the greatest power",
              _quarter_forgotten_why, _quarter_forgotten),
)  # fmt: skip
