"""Mistakes about how joined capacitors share charge and voltage."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer, sqrt

from builder.circuit.switching import split_moment
from builder.lesson.mistake_sources import GUISASOLA, PRACTICE
from builder.lesson.prose import Prose, Relation, number_word, say
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.plates import signs_of
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.stages.step import StagesMove, StagesStep


def steps_of(move: StagesMove, display: StagesDisplay) -> Iterator[StagesStep]:
    """The steps that make one kind of move."""
    return (step for step in display.solution.steps if step.kind is move)


def _shared(display: StagesDisplay) -> Iterator[tuple[StagesStep, Name]]:
    """Each step in which a voltage is shared, with that voltage."""
    for step in steps_of(StagesMove.SHARE, display):
        yield step, step.lines[0].name


def sizes_of(step: StagesStep, display: StagesDisplay) -> dict[str, Exact]:
    """The capacitances of a step's members, in farads."""
    return {name: display.solution.values[Name("capacitance", name)] for name in step.members}


def _volts(step: StagesStep, display: StagesDisplay) -> dict[str, Exact]:
    """The voltages before, as they count on the first island."""
    before, signs = display.solution.story.charges[step.stage - 1], signs_of(step, display)
    return {name: signs[name] * abs(before[name]) / size
            for name, size in sizes_of(step, display).items()}  # fmt: skip


def _settling_at(
    value: Exact, step: StagesStep, common: Name, happens: Prose, display: StagesDisplay
) -> Iterator[Wrong]:
    """A wrong shared voltage, under each name that it has, and what follows."""
    right = display.solution.values
    settled = {name: value if right[name] == right[common] else -value for name in step.found}
    yield from carried_on(display, step, settled, happens)


def _polarity_ignored(display: StagesDisplay) -> Iterator[Wrong]:
    for step in steps_of(StagesMove.ISLAND, display):
        signs = {sign for sign in signs_of(step, display).values() if sign}
        if len(signs) == 2:
            before = display.solution.story.charges[step.stage - 1]
            charge = sum((abs(before[name]) for name in step.members), Integer(0))
            happens = say("adding the charges although unlike plates were joined")
            yield from carried_on(display, step, {step.found[0]: charge}, happens)


def _polarity_ignored_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Charges add up, so it is tempting to add their sizes. But a + plate that meets a "
               "− plate fills up what is missing there, and only the difference is "
               "left.")  # fmt: skip


def _energy_kept(display: StagesDisplay) -> Iterator[Wrong]:
    for step, common in _shared(display):
        sizes, volts = sizes_of(step, display), _volts(step, display)
        twice = sum((sizes[name] * volts[name] ** 2 for name in sizes), Integer(0))
        value = sqrt(twice / sum(sizes.values(), Integer(0)))
        happens = say("letting the stored energy stay the same")
        yield from _settling_at(value, step, common, happens, display)


def _energy_kept_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Energy is conserved, so it is tempting to start from there. But some of it turns "
               "into heat while the charge flows; it is the charge that cannot leave.")  # fmt: skip


def _shared_equally(display: StagesDisplay) -> Iterator[Wrong]:
    for step in steps_of(StagesMove.CHARGES, display):
        if not step.plates:
            continue
        (island,) = (other for other in steps_of(StagesMove.ISLAND, display)
                     if (other.stage, other.members) == (step.stage, step.members))  # fmt: skip
        share = display.solution.values[island.found[0]] / len(step.members)
        happens = say("splitting the charge equally between the {count}",
                      count=number_word(len(step.members)))  # fmt: skip
        equal = {name: share * step.plates[split_moment(name.of)[0]] for name in step.found}
        yield from carried_on(display, step, equal, happens)


def _shared_equally_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Sharing sounds like equal parts. But charge moves until the voltages are equal, "
               "and by {law} the larger capacitance then holds more.",
               law=Relation("Q = CV"))  # fmt: skip


def _voltages_averaged(display: StagesDisplay) -> Iterator[Wrong]:
    for step, common in _shared(display):
        volts = _volts(step, display)
        mean = sum(volts.values(), Integer(0)) / len(volts)
        happens = say("taking the average of the voltages before")
        yield from _settling_at(mean, step, common, happens, display)


def _voltages_averaged_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Two voltages that meet sound as if they met in the middle. But what is kept is the "
               "charge, not the voltage, and a larger capacitor takes more charge for each "
               "volt.")  # fmt: skip


def _as_a_battery(display: StagesDisplay) -> Iterator[Wrong]:
    for step, common in _shared(display):
        for name, volts in _volts(step, display).items():
            if volts != 0:
                happens = say("letting {one} keep its voltage", one=display.element(name))
                yield from _settling_at(volts, step, common, happens, display)


def _as_a_battery_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("A charged capacitor has a voltage as a battery has, but nothing keeps it up: as "
               "charge leaves it, its voltage falls.")  # fmt: skip


def _voltages_added(display: StagesDisplay) -> Iterator[Wrong]:
    for step, common in _shared(display):
        volts = _volts(step, display)
        if sum(value != 0 for value in volts.values()) > 1:
            total = sum(volts.values(), Integer(0))
            happens = say("adding up the voltages before")
            yield from _settling_at(total, step, common, happens, display)


def _voltages_added_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Charges add up here, and voltages seem to go with them. But voltages add along a "
               "chain; side by side there is only one of them, and it lies between those that "
               "were there.")  # fmt: skip


SHARING_RULES: tuple[WrongRule, ...] = (
    WrongRule("polarity-ignored", PRACTICE, "Adding charges of unlike plates",
              _polarity_ignored_why, _polarity_ignored),
    WrongRule("energy-kept", PRACTICE, "Keeping the energy", _energy_kept_why, _energy_kept),
    WrongRule("shared-equally", PRACTICE, "Sharing the charge equally",
              _shared_equally_why, _shared_equally),
    WrongRule("voltages-averaged", PRACTICE, "Averaging the voltages",
              _voltages_averaged_why, _voltages_averaged),
    WrongRule("as-a-battery", GUISASOLA, "Taking a charged capacitor for a battery",
              _as_a_battery_why, _as_a_battery),
    WrongRule("voltages-added", PRACTICE, "Adding voltages side by side",
              _voltages_added_why, _voltages_added),
)  # fmt: skip
