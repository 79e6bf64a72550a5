"""Mistakes with signs in equations, and with what may be added up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from sympy import Integer

from builder.lesson.mistake_sources import PRACTICE
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.what_if import only, solved
from builder.lesson.opened_groups import asked_first
from builder.lesson.prose import Prose, SymbolOf, listed, say
from builder.lesson.vocabulary import vocabulary
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on
from builder.quantity.exact import Exact
from builder.quantity.formula import Solved, System, evaluate
from builder.quantity.linear import solve_exactly
from builder.quantity.names import Name
from builder.quantity.symbolic import sign_of
from builder.solution.network.renaming import share
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.program import Step


def _drop_taken_wrong(display: NetworkDisplay) -> list[Wrong]:
    return asked_first(_round_the_first_loop(display), display)


def _round_the_first_loop(display: NetworkDisplay) -> Iterator[Wrong]:
    """In the first loop's equation, what the loops share is counted with the wrong sign."""
    for step in display.solution.steps:
        unknowns = _unknowns(step) if step.kind is NetworkMove.LOOPS else {}
        if len(unknowns) < 2:
            continue
        (system,) = {formula.system for formula in unknowns.values()}
        altered = _with_signs_turned(system, display.solution.values)
        if altered is None:
            continue
        happens = say("counting what {other} does in the first loop with the wrong sign",
                      other=SymbolOf(list(unknowns)[1]))  # fmt: skip
        values = dict(display.solution.values)
        values |= {name: altered[one.position] for name, one in unknowns.items()}
        yield from (Wrong(name, values[name], step.id, happens) for name in unknowns)
        yield from _carried_on(step, values, happens, display)


def _carried_on(
    step: NetworkStep, values: dict[Name, Exact], happens: Prose, display: NetworkDisplay
) -> Iterator[Wrong]:
    """What later steps make of wrong values."""
    steps = list(display.solution.steps)
    for later in steps[steps.index(step) + 1 :]:
        for line in later.lines:
            values[line.name] = evaluate(line.formula, values)
            if line.name.quantity in (display.law.flow, display.law.drop):
                yield Wrong(line.name, values[line.name], step.id, happens)


def _unknowns(step: Step) -> dict[Name, Solved]:
    return {line.name: line.formula for line in step.lines if isinstance(line.formula, Solved)}


def _with_signs_turned(system: System, values: Mapping[Name, Exact]) -> tuple[Exact, ...] | None:
    """The unknowns if in the first row all coefficients but its own had the other sign."""
    rows = [[evaluate(part, values) for part in row] for row in system.rows]
    first, *others = rows
    if all(value == 0 for value in first[1:]):
        return None
    turned = (first[0], *(-value for value in first[1:]))
    right = tuple(evaluate(part, values) for part in system.right)
    try:
        return solve_exactly((turned, *map(tuple, others)), right)
    except ZeroDivisionError:
        return None


def _drop_taken_wrong_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("Signs get lost where two loops pass one element. Walk along the arrow of your "
               "loop: a current that runs against you there counts negative.")  # fmt: skip


def _powers_added(display: NetworkDisplay) -> Iterator[Wrong]:
    """The power as the sum of what it would be with each source alone."""
    law, values = display.law, display.solution.values
    if law.work != "power":
        return
    for step in display.solution.steps:
        for name in step.found:
            if name.quantity != law.work or name.of not in display.members:
                continue
            parts = _parts_alone(Name(law.flow, name.of), display)
            if len(parts) > 1:
                resistance = values[Name(law.value, name.of)]
                total = sum((resistance * part * part for part in parts[1:]),
                            resistance * parts[0] * parts[0])  # fmt: skip
                sources = tuple(source.name for source in display.network.sources)
                happens = say("adding up the powers that {sources} would cause in {one} if each "
                              "were alone", sources=display.elements(sources),
                              one=display.element(name.of))  # fmt: skip
                yield Wrong(name, total, step.id, happens)


def _parts_alone(flow: Name, display: NetworkDisplay) -> list[Exact]:
    """What each source alone drives through an element, where the steps superpose."""
    if all(step.kind is not NetworkMove.ADD for step in display.solution.steps):
        return []
    found = (solved(only(display.network, source.name), display.law).get(flow)
             for source in display.network.sources)  # fmt: skip
    return [value for value in found if value is not None]


def _powers_added_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("Currents and voltages may be added up source by source, so why not powers? Because "
               "power goes with the square of the current, and the square of a sum is not the sum "
               "of the squares.")  # fmt: skip


def _potentials_added(display: NetworkDisplay) -> list[Wrong]:
    """In the first junction's equation, sums of potentials where differences belong."""
    found: list[Wrong] = []
    for step in display.solution.steps:
        unknowns = _unknowns(step) if step.kind is NetworkMove.JUNCTIONS else {}
        if len(unknowns) < 2:
            continue
        (system,) = {formula.system for formula in unknowns.values()}
        altered = _with_signs_turned(system, display.solution.values)
        if altered is None:
            continue
        first = next(iter(unknowns))
        happens = say("adding potentials where differences belong in the equation of junction "
                      "{junction}", junction=first.of)  # fmt: skip
        values = {name: altered[one.position] for name, one in unknowns.items()}
        found += carried_on(display, step, values, happens)
    return asked_first(found, display)


def _potentials_added_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    voc = vocabulary(display.law)
    return say("Potentials look like something to be summed up. But the {flow} of each {one} comes "
               "from the voltage across it, and that is one potential less the other.",
               flow=voc.flow, one=voc.one)  # fmt: skip


def _signs_dropped(display: NetworkDisplay) -> list[Wrong]:
    """What the sources drive through an element against each other, added up as if together."""
    found: list[Wrong] = []
    for step in display.solution.steps:
        if step.kind is not NetworkMove.ADD:
            continue
        for name in step.found:
            parts = [share(name, source.name) for source in display.network.sources]
            values = [display.solution.values.get(part, Integer(0)) for part in parts]
            signs = {sign_of(value) for value in values}
            if name.quantity == display.law.flow and {1, -1} <= signs:
                told = [SymbolOf(part) for part, value in zip(parts, values, strict=True) if value]
                happens = say("adding {parts} without their signs", parts=listed(told))
                sizes = sum((value * (sign_of(value) or 0) for value in values), Integer(0))
                found += carried_on(display, step, {name: sizes}, happens)
    return asked_first(found, display)


def _signs_dropped_why(wrong: Wrong, display: NetworkDisplay) -> Prose:
    return say("Adding up is the plan, and so everything is added. But here two sources push "
               "against each other, and what runs against the arrow counts "
               "negative.")  # fmt: skip


SIGN_RULES: tuple[WrongRule, ...] = (
    WrongRule("drop-taken-wrong", PRACTICE,
              "Taking a voltage round the loop with the wrong sign", _drop_taken_wrong_why,
              _drop_taken_wrong),
    WrongRule("potentials-added", PRACTICE, "Adding potentials instead of taking differences",
              _potentials_added_why, _potentials_added),
    WrongRule("signs-dropped", PRACTICE, "Adding without signs", _signs_dropped_why,
              _signs_dropped),
    WrongRule("powers-added", PRACTICE,
              "Adding up powers source by source", _powers_added_why, _powers_added),
)  # fmt: skip
