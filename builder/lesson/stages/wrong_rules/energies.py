"""Mistakes about the energy that is stored, delivered and lost."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer

from builder.circuit.switching import LOST, moment, split_moment
from builder.lesson.mistake_sources import PRACTICE
from builder.lesson.prose import Prose, Relation, say
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.wrong_rules.sharing import steps_of
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on, found_names
from builder.quantity.exact import Exact
from builder.quantity.formula import evaluate
from builder.quantity.names import TOTAL, Name
from builder.solution.altered import rerun
from builder.solution.stages.step import StagesMove


def _no_loss_on_charging(display: StagesDisplay) -> Iterator[Wrong]:
    for step in steps_of(StagesMove.DELIVERED, display):
        for name in step.found:
            base, _ = split_moment(name.of)
            if name.quantity == "energy" and base in display.batteries:
                happens = say("letting {battery} deliver ½ of charge times voltage",
                              battery=display.element(base))  # fmt: skip
                half = {name: display.solution.values[name] / 2}
                yield from carried_on(display, step, half, happens)


def _no_loss_on_charging_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("The capacitor stores {half}, and it is tempting to think that the battery delivers "
               "just that. But the battery moves all of the charge across its full voltage; the "
               "other half turns into heat.", half=Relation("½QV"))  # fmt: skip


def _half_dropped(display: StagesDisplay) -> Iterator[Wrong]:
    """Twice the energy of every capacitor, and what the account then makes of it."""
    values = display.solution.values
    twice: dict[Name, Exact] = {
        name: values[name] * 2 for name, _ in found_names(display)
        if name.quantity == "energy" and split_moment(name.of)[0] in display.members
    }  # fmt: skip
    wrong = rerun(display.solution, twice)
    for name, step in found_names(display):
        if name.quantity == "energy" and wrong[name] != values[name]:
            happens = say("taking charge times voltage without the ½")
            yield Wrong(name, wrong[name], step.id, happens)


def _half_dropped_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Charge times voltage is what a battery would deliver. But the first bit of charge "
               "went onto the plates against no voltage at all and only the last against the "
               "whole, so half of that is stored.")  # fmt: skip


def _half_always_lost(display: StagesDisplay) -> Iterator[Wrong]:
    """Half of what is stored, lost in every sharing; true of two equal ones, one of them empty."""
    history, values = display.history, display.solution.values
    sharing = {step.stage for step in steps_of(StagesMove.SHARE, display)}
    for step in steps_of(StagesMove.LOST, display):
        before = Name("energy", moment(TOTAL, history.before(step.stage)))
        lost = Name("energy", moment(LOST, step.stage))
        if step.stage in sharing and lost in step.found and before in values:
            happens = say("letting half of the stored energy be lost")
            yield from carried_on(display, step, {lost: values[before] / 2}, happens)


def _half_always_lost_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Half is lost when one capacitor fills another like it, and that is easily "
               "remembered as a rule. How much it is depends on both capacitances and both "
               "voltages: work out what is stored before and after.")  # fmt: skip


def _held_forgotten(display: StagesDisplay) -> Iterator[Wrong]:
    """What a battery moves, as if all that the capacitors then hold had come from it."""
    values, changed = display.solution.values, display.history.changed
    for step in steps_of(StagesMove.DELIVERED, display):
        before = {Name("charge", moment(name, stage)): Integer(0)
                  for name, stage in changed[step.stage - 1].items()}  # fmt: skip
        moved = {line.name: evaluate(line.formula, {**values, **before}) for line in step.lines
                 if line.name.quantity == "charge"}  # fmt: skip
        happens = say("forgetting that there was charge on the plates before")
        yield from carried_on(display, step, moved, happens)


def _held_forgotten_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("What is on the plates in the end is easily read off and looks like the answer. "
               "But the battery only brings what was missing: take away what was there "
               "before.")  # fmt: skip


ENERGY_RULES: tuple[WrongRule, ...] = (
    WrongRule("no-loss-on-charging", "University Physics Volume 2 (OpenStax), 8.3, for what the "
              f"battery delivers; the mistake {PRACTICE}",
              "Forgetting the heat of charging", _no_loss_on_charging_why, _no_loss_on_charging),
    WrongRule("half-dropped", "University Physics Volume 2 (OpenStax), chapter 10, a printed "
              "answer shows the formula without the ½", "Leaving out the ½",
              _half_dropped_why, _half_dropped),
    WrongRule("half-always-lost", PRACTICE, "Losing half in every case", _half_always_lost_why,
              _half_always_lost),
    WrongRule("held-forgotten", PRACTICE, "Forgetting what was there before",
              _held_forgotten_why, _held_forgotten),
)  # fmt: skip
