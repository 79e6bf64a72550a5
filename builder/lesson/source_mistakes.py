"""Mistakes about what a single source of voltage does to the rest of its circuit."""

from __future__ import annotations

from collections.abc import Iterator

from builder.lesson.mistake_sources import CEG, EB_RECALLED, MS
from builder.lesson.opened_groups import (
    SERIES,
    CircuitDisplay,
    asked_first,
    is_single,
    law_of,
    lies_nowhere,
    only_voltage,
    opened_groups,
    step_of,
)
from builder.lesson.prose import Prose, say
from builder.lesson.vocabulary import vocabulary
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on, found_names
from builder.problem.network.asking import OPEN
from builder.quantity.exact import Exact
from builder.quantity.formula import Amount, Ref, evaluate
from builder.quantity.names import TOTAL, Name


def _whole_voltage(display: CircuitDisplay) -> list[Wrong]:
    return asked_first(_with_the_whole(display), display)


def _with_the_whole(display: CircuitDisplay) -> Iterator[Wrong]:
    """Voltages of elements and equivalents, and what elements would then carry and use."""
    source, law = only_voltage(display), law_of(display)
    if source is None:
        return
    for name, step in found_names(display):
        value = display.solution.values.get(Name(law.value, name.of))
        if display.solution.values[name] == 0 or name.of in (source.name, TOTAL):
            continue
        wrong: Exact | None = None
        if name.quantity == law.drop and (value is not None or name.of == OPEN):
            wrong = source.value
        elif value is not None and is_single(name.of, display):
            wrong = _at(source.value, name, display)
        if wrong is not None:
            one = say("the open ends") if name.of == OPEN else (display.element(name.of),)
            yield Wrong(name, wrong, step.id,
                        say("taking the source's whole voltage for {one}", one=one))  # fmt: skip


def _at(volts: Exact, name: Name, display: CircuitDisplay) -> Exact | None:
    """What an element of the circuit would carry or use at a voltage."""
    law, value = law_of(display), Name(law_of(display).value, name.of)
    drop = Amount(volts, law.drop)
    formulas = {law.flow: law.flow_from(Ref(value), drop),
                law.work: law.work_from_drop(Ref(value), drop)}  # fmt: skip
    formula = formulas.get(name.quantity)
    return None if formula is None else evaluate(formula, display.solution.values)


def _whole_voltage_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    return say("The source's voltage is the only one in sight, so it is tempting to use it "
               "everywhere. But only what sits straight across the source has all of "
               "it.")  # fmt: skip


def _first_alone(display: CircuitDisplay) -> list[Wrong]:
    """What the source delivers, reckoned with the first member of the chain across it."""
    source, law = only_voltage(display), law_of(display)
    if source is None:
        return []
    found: list[Wrong] = []
    for group in opened_groups(display):
        step = step_of([group.whole.flow], display)
        if group.connection != SERIES or not group.root or step is None:
            continue
        first = group.parts[0]
        if lies_nowhere(first.id, display):
            continue
        flow = law.weight(display.solution.values[first.value]) * source.value
        happens = say("letting {first}, the first in the chain, alone decide how much {flow} comes",
                      first=display.element(first.value.of), flow=law.flow)  # fmt: skip
        # Of the first itself that is the source's whole voltage, which another rule tells of.
        names = (group.whole.flow, *(part.flow for part in group.parts[1:]))
        found += (
            one
            for one in carried_on(display, step, {group.whole.flow: flow}, happens)
            if one.name in names
        )
    return asked_first(found, display)  # fmt: skip


def _first_alone_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    voc = vocabulary(law_of(display))
    return say("It looks as if the {flow} met the first {one} before it could know of the others. "
               "But a chain acts as a whole and at once: what comes is decided by the "
               "{value} of all of it.", flow=voc.flow, one=voc.one, value=voc.value)  # fmt: skip


SOURCE_RULES: tuple[WrongRule, ...] = (
    WrongRule("whole-voltage", MS, "Giving every element the source's voltage",
              _whole_voltage_why, _whole_voltage),
    WrongRule("first-alone", f"{CEG}; {EB_RECALLED}", "Letting the first in the chain decide",
              _first_alone_why, _first_alone),
)  # fmt: skip
