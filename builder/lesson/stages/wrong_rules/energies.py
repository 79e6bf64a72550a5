"""Mistakes about the energy that is stored, delivered and lost."""

from __future__ import annotations

from collections.abc import Iterator

from builder.circuit.switching import LOST, split_moment
from builder.lesson.prose import Prose, Relation, say
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.quantity.names import TOTAL


def _no_loss_on_charging(display: StagesDisplay) -> Iterator[Wrong]:
    for name, step in found_names(display):
        base, _ = split_moment(name.of)
        if name.quantity == "energy" and base in display.batteries:
            happens = say("letting {battery} deliver ½ of charge times voltage",
                          battery=display.element(base))  # fmt: skip
            yield Wrong(name, display.solution.values[name] / 2, step.id, happens)


def _no_loss_on_charging_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("The capacitor stores {half}, and it is tempting to think that the battery delivers "
               "just that. But the battery moves all of the charge across its full voltage; the "
               "other half turns into heat.", half=Relation("½QV"))  # fmt: skip


def _half_dropped(display: StagesDisplay) -> Iterator[Wrong]:
    for name, step in found_names(display):
        base, _ = split_moment(name.of)
        if name.quantity == "energy" and (base in display.members or base in (TOTAL, LOST)):
            if base == LOST and display.batteries:
                continue
            value = display.solution.values[name] * 2
            yield Wrong(name, value, step.id, say("taking charge times voltage without the ½"))


def _half_dropped_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Charge times voltage is what a battery would deliver. But the first bit of charge "
               "went onto the plates against no voltage at all and only the last against the "
               "whole, so half of that is stored.")  # fmt: skip


ENERGY_RULES: tuple[WrongRule, ...] = (
    WrongRule("no-loss-on-charging", "University Physics Volume 2 (OpenStax), 8.3, for what the "
              "battery delivers; the mistake common practice, no source",
              "Forgetting the heat of charging", _no_loss_on_charging_why, _no_loss_on_charging),
    WrongRule("half-dropped", "University Physics Volume 2 (OpenStax), chapter 10, a printed "
              "answer shows the formula without the ½", "Leaving out the ½",
              _half_dropped_why, _half_dropped),
)  # fmt: skip
