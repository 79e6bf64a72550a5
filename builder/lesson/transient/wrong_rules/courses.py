"""Mistakes about how fast a capacitor charges and discharges."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer, Rational, exp, log

from builder.lesson.mistake_sources import CEG, PRACTICE
from builder.lesson.prose import Prose, Relation, say
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on, found_names, step_finding
from builder.problem.transient.moments import (
    CONSTANT,
    END,
    SEEN_RESISTANCE,
    START,
    at,
    moment_of,
)
from builder.quantity.exact import Exact, near_fraction
from builder.quantity.names import Name


def _ends_of(name: Name, display: TransientDisplay) -> tuple[Exact, Exact]:
    """The first and the last value of a quantity."""
    values = display.solution.values
    return (values[at(name.quantity, name.of.partition("@")[0], START)],
            values[at(name.quantity, name.of.partition("@")[0], END)])  # fmt: skip


def _on_the_way(display: TransientDisplay) -> Iterator[tuple[Name, str, Exact, Exact, Exact]]:
    """Each voltage or current at a time: its step, the share t/τ, its first and last value."""
    values = display.solution.values
    for name, step in found_names(display):
        of, when = moment_of(name)
        if when not in display.solution.problem.times or name.quantity not in (
            "voltage",
            "current",
        ):
            continue
        if of in (*display.members, display.solution.store.id):
            share = values[Name("time", when)] / values[CONSTANT]
            yield name, step.id, share, *_ends_of(name, display)


def _reached(display: TransientDisplay) -> Iterator[tuple[Name, str, Exact]]:
    """Each time at which something is reached: its step, and the share of the way done then."""
    problem, values = display.solution.problem, display.solution.values
    for name, step in found_names(display):
        if name.quantity != "time" or ">" not in name.of:
            continue
        if name in problem.shares:
            share = problem.shares[name]
            yield name, step.id, Rational(share.numerator, share.denominator)
            continue
        element = name.of.partition(">")[0]
        start, end = (values[at("voltage", element, when)] for when in (START, END))
        yield name, step.id, (values[Name("voltage", name.of)] - start) / (end - start)


def _linear(display: TransientDisplay) -> Iterator[Wrong]:
    happens = say("letting it change evenly, to be done after one time constant")
    for name, step, share in _reached(display):
        yield Wrong(name, display.solution.values[CONSTANT] * share, step, happens)
    for name, step, share, start, end in _on_the_way(display):
        done = min(share, Integer(1))
        yield Wrong(name, start + (end - start) * done, step, happens)


def _linear_why(_wrong: Wrong, _display: TransientDisplay) -> Prose:
    return say("At the first instant it does start as if it would be done after one time constant. "
               "But the current dies down on the way, so by then only 63\u00a0% is "
               "done.")  # fmt: skip


def _half_life(display: TransientDisplay) -> Iterator[Wrong]:
    happens = say("taking the time constant for the time in which half is done")
    for name, step, share, start, end in _on_the_way(display):
        left = _rational(Integer(2) ** -share)
        yield Wrong(name, end + (start - end) * left, step, happens)
    for name, step, share in _reached(display):
        time = display.solution.values[CONSTANT] * log(1 / (1 - share)) / log(2)
        yield Wrong(name, _rational(time), step, happens)


def _half_life_why(_wrong: Wrong, _display: TransientDisplay) -> Prose:
    return say("Decays are often told by the time in which half is gone. The time constant is "
               "another measure: in it the rest shrinks to {left}, about 37\u00a0%, and half is "
               "gone earlier, after 0.69 of it.", left=Relation("1/e"))  # fmt: skip


def _rational(value: Exact) -> Exact:
    """A power or a logarithm as a fraction, exact to sixty digits: far finer than any page."""
    found = near_fraction(value)
    return Rational(found.numerator, found.denominator)


def _all_resistors(display: TransientDisplay) -> Iterator[Wrong]:
    step = step_finding(SEEN_RESISTANCE, display.solution)
    if len(display.resistors) < 2 or step is None:
        return
    values = display.solution.values
    total = sum((values[Name("resistance", one)] for one in display.resistors), Integer(0))
    altered = {SEEN_RESISTANCE: total}
    if step_finding(CONSTANT, display.solution) is not None:
        altered[CONSTANT] = total * values[display.solution.store.value]
    happens = say("adding up all resistors of the circuit")
    yield from carried_on(display, step, altered, happens)


def _all_resistors_why(_wrong: Wrong, display: TransientDisplay) -> Prose:
    return say("With one resistor the time constant is plainly {law}, so every resistor seems to "
               "count. But what counts is how they look from {store}, with the sources replaced: "
               "some lie side by side for its current, and some it never meets.",
               law=Relation("RC"), store=display.store)  # fmt: skip


def _dies_with_the_current(display: TransientDisplay) -> Iterator[Wrong]:
    """A voltage that climbs from zero, as if it shrank as the current does."""
    happens = say("letting the voltage die down with the current")
    for name, step, share, start, end in _on_the_way(display):
        if name.quantity == "voltage" and start == 0 and _holds_charge(name, display):
            yield Wrong(name, end * _rational(exp(-share)), step, happens)


def _dies_with_the_current_why(_wrong: Wrong, display: TransientDisplay) -> Prose:
    return say("In a resistor, no current means no voltage, and the current does die down. But the "
               "voltage of {store} tells what has flowed so far, not what flows now: it is largest "
               "when the current has stopped.", store=display.store)  # fmt: skip


def _gone_for_left(display: TransientDisplay) -> Iterator[Wrong]:
    """What dies down to zero, taken for what is gone; and the time until so much is left."""
    happens = say("taking what is gone for what is left")
    for name, step, share, start, end in _on_the_way(display):
        if end == 0 and start != 0:
            yield Wrong(name, start * (1 - _rational(exp(-share))), step, happens)
    for name, step, share in _reached(display):
        time = display.solution.values[CONSTANT] * log(1 / share)
        yield Wrong(name, _rational(time), step, happens)


def _gone_for_left_why(_wrong: Wrong, _display: TransientDisplay) -> Prose:
    return say("The formulas for charging and for discharging look alike. Ask where it starts: at "
               "{t} nothing is gone and all is left.", t=Relation("t = 0"))  # fmt: skip


def _holds_charge(name: Name, display: TransientDisplay) -> bool:
    return moment_of(name)[0] in (*display.capacitors, display.solution.store.id)


def _half_dropped(display: TransientDisplay) -> Iterator[Wrong]:
    happens = say("taking {energy} without the ½", energy=Relation("CV²"))
    for name, step in found_names(display):
        if name.quantity == "energy" and moment_of(name)[0] in display.capacitors:
            yield Wrong(name, display.solution.values[name] * 2, step.id, happens)


def _half_dropped_why(_wrong: Wrong, _display: TransientDisplay) -> Prose:
    return say("Charge times voltage is what a battery delivers. But the first bit of charge goes "
               "onto the plates against no voltage at all and only the last against the whole, so "
               "half of that is stored.")  # fmt: skip


COURSE_RULES: tuple[WrongRule, ...] = (
    WrongRule("all-resistors", PRACTICE, "Adding up all resistors", _all_resistors_why,
              _all_resistors),
    WrongRule("linear-charging", PRACTICE, "Charging evenly", _linear_why, _linear),
    WrongRule("half-life", PRACTICE, "Taking the time constant for a half-life", _half_life_why,
              _half_life),
    WrongRule("dies-with-the-current", CEG, "Letting the voltage die down with the current",
              _dies_with_the_current_why, _dies_with_the_current),
    WrongRule("gone-for-left", PRACTICE, "Mixing up what is gone and what is left",
              _gone_for_left_why, _gone_for_left),
    WrongRule("half-dropped", "University Physics Volume 2 (OpenStax), chapter 10, a printed "
              "answer shows the formula without the ½", "Leaving out the ½",
              _half_dropped_why, _half_dropped),
)  # fmt: skip
