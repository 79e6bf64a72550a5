"""Mistakes about how joined capacitors share charge and voltage."""

from __future__ import annotations

from collections.abc import Iterator
from math import isqrt

from sympy import Integer, Rational

from builder.lesson.prose import Prose, Relation, number_word, say
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.plates import signs_of
from builder.lesson.wrong_rule import Wrong, WrongRule
from builder.quantity.exact import Exact, as_fraction
from builder.quantity.names import Name
from builder.solution.stages.step import StagesMove, StagesStep

_DIGITS = 10**12
"""How finely a root is told that no fraction equals: far finer than any page shows it."""


def _steps(display: StagesDisplay, move: StagesMove) -> Iterator[StagesStep]:
    return (step for step in display.solution.steps if step.kind is move)


def _shared(display: StagesDisplay) -> Iterator[tuple[StagesStep, Name]]:
    """Each step in which a voltage is shared, with that voltage."""
    for step in _steps(display, StagesMove.SHARE):
        yield step, step.lines[0].name


def _volts(step: StagesStep, display: StagesDisplay) -> dict[str, Exact]:
    """The voltages before, as they count on the first island."""
    story, values = display.solution.story, display.solution.values
    signs = signs_of(step, display)
    return {name: signs[name] * abs(story.charges[step.stage - 1][name])
            / values[Name("capacitance", name)] for name in step.members}  # fmt: skip


def _sizes(step: StagesStep, display: StagesDisplay) -> dict[str, Exact]:
    return {name: display.solution.values[Name("capacitance", name)] for name in step.members}


def _of_members(
    value: Exact, step: StagesStep, common: Name, happens: Prose, display: StagesDisplay
) -> Iterator[Wrong]:
    """A wrong shared voltage, told of every name that it has."""
    values = display.solution.values
    yield Wrong(common, value, step.id, happens)
    for name in step.found:
        if name != common and values[name] == values[common]:
            yield Wrong(name, value, step.id, happens)


def _polarity_ignored(display: StagesDisplay) -> Iterator[Wrong]:
    for step, common in _shared(display):
        signs = {sign for sign in signs_of(step, display).values() if sign}
        if len(signs) != 2:
            continue
        sizes, volts = _sizes(step, display), _volts(step, display)
        charge = sum((abs(volts[name]) * sizes[name] for name in sizes), Integer(0))
        happens = say("adding the charges although unlike plates were joined")
        total = sum(sizes.values(), Integer(0))
        yield from _of_members(charge / total, step, common, happens, display)
        island = next(s for s in display.solution.steps if s.kind is StagesMove.ISLAND
                      and s.stage == step.stage and s.members == step.members)  # fmt: skip
        yield Wrong(island.found[0], charge, island.id, happens)


def _polarity_ignored_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Charges add up, so it is tempting to add their sizes. But a + plate that meets a "
               "− plate fills up what is missing there, and only the difference is "
               "left.")  # fmt: skip


def _voltages_averaged(display: StagesDisplay) -> Iterator[Wrong]:
    for step, common in _shared(display):
        volts = _volts(step, display)
        mean = sum(volts.values(), Integer(0)) / len(volts)
        happens = say("taking the average of the voltages before")
        yield from _of_members(mean, step, common, happens, display)


def _voltages_averaged_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Two voltages that meet sound as if they met in the middle. But what is kept is the "
               "charge, not the voltage, and a larger capacitor takes more charge for each "
               "volt.")  # fmt: skip


def _shared_equally(display: StagesDisplay) -> Iterator[Wrong]:
    for step in _steps(display, StagesMove.CHARGES):
        if not step.plates:
            continue
        total = abs(sum((step.plates[name] * display.solution.value(
            Name("charge", f"{name}@{step.stage}")) for name in step.members),
            Integer(0)))  # fmt: skip
        happens = say("splitting the charge equally between the {count}",
                      count=number_word(len(step.members)))  # fmt: skip
        for name in step.found:
            yield Wrong(name, total / len(step.members), step.id, happens)


def _shared_equally_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Sharing sounds like equal parts. But charge moves until the voltages are equal, "
               "and by {law} the larger capacitance then holds more.",
               law=Relation("Q = CV"))  # fmt: skip


def _energy_kept(display: StagesDisplay) -> Iterator[Wrong]:
    for step, common in _shared(display):
        sizes, volts = _sizes(step, display), _volts(step, display)
        twice = sum((sizes[name] * volts[name] ** 2 for name in sizes), Integer(0))
        value = _root(twice / sum(sizes.values(), Integer(0)))
        happens = say("letting the stored energy stay the same")
        yield from _of_members(value, step, common, happens, display)


def _root(value: Exact) -> Exact:
    """A square root as a fraction, exact to twelve places."""
    fraction = as_fraction(value)
    scaled = fraction.numerator * _DIGITS**2 // fraction.denominator
    return Rational(isqrt(scaled), _DIGITS)


def _energy_kept_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("Energy is conserved, so it is tempting to start from there. But some of it turns "
               "into heat while the charge flows; it is the charge that cannot leave.")  # fmt: skip


def _as_a_battery(display: StagesDisplay) -> Iterator[Wrong]:
    for step, common in _shared(display):
        volts = _volts(step, display)
        highest = max(volts, key=lambda name: abs(volts[name]))
        happens = say("letting {one} keep its voltage", one=display.element(highest))
        yield from _of_members(abs(volts[highest]), step, common, happens, display)


def _as_a_battery_why(_wrong: Wrong, _display: StagesDisplay) -> Prose:
    return say("A charged capacitor has a voltage as a battery has, but nothing keeps it up: as "
               "charge leaves it, its voltage falls.")  # fmt: skip


_PRACTICE = "common practice, no source"
_G = "Guisasola et al., Science & Education 11, 247 (2002), from memory"

SHARING_RULES: tuple[WrongRule, ...] = (
    WrongRule("polarity-ignored", _PRACTICE, "Adding charges of unlike plates",
              _polarity_ignored_why, _polarity_ignored),
    WrongRule("voltages-averaged", _PRACTICE, "Averaging the voltages",
              _voltages_averaged_why, _voltages_averaged),
    WrongRule("shared-equally", _PRACTICE, "Sharing the charge equally",
              _shared_equally_why, _shared_equally),
    WrongRule("energy-kept", _PRACTICE, "Keeping the energy", _energy_kept_why, _energy_kept),
    WrongRule("as-a-battery", _G, "Taking a charged capacitor for a battery",
              _as_a_battery_why, _as_a_battery),
)  # fmt: skip
