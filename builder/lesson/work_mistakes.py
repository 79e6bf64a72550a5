"""Mistakes with energy and power: a factor, a square or the wrong voltage."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer, Rational

from builder.circuit.law import Law
from builder.lesson.mistake_sources import PRACTICE
from builder.lesson.opened_groups import (
    SERIES,
    CircuitDisplay,
    Part,
    asked_first,
    drop_of,
    flow_of,
    is_single,
    law_of,
    only_voltage,
    opened_groups,
)
from builder.lesson.prose import Prose, Relation, SymbolOf, say
from builder.lesson.vocabulary import vocabulary
from builder.lesson.wrong_rule import Wrong, WrongRule, found_names
from builder.quantity.exact import Exact
from builder.quantity.formula import Ref, Square, every_part
from builder.quantity.names import TOTAL, Name
from builder.solution import Step
from builder.solution.network.renaming import SHARE


def _works(display: CircuitDisplay) -> Iterator[tuple[Part, Step]]:
    """The elements, and the whole circuit, of which the steps find energy or power."""
    law = law_of(display)
    for name, step in found_names(display):
        if name.quantity == law.work and (is_single(name.of, display) or name.of == TOTAL):
            value, flow, drop = (
                display.resolve(Name(kind, name.of)) for kind in (law.value, law.flow, law.drop)
            )
            yield Part(name.of, value, flow, drop, name), step


def _stores(display: CircuitDisplay) -> bool:
    return law_of(display).work == "energy"


def _half(law: Law) -> Exact:
    return Rational(1, 2) if law.work == "energy" else Integer(1)


def _half_dropped(display: CircuitDisplay) -> list[Wrong]:
    if not _stores(display):
        return []
    found = [
        Wrong(part.work, display.solution.values[part.work] * 2, step.id,
              say("taking {flow} times {drop} without the ½",
                  flow=SymbolOf(part.flow), drop=SymbolOf(part.drop)))
        for part, step in _works(display)
        if {part.flow, part.drop} <= set(display.solution.values)
    ]  # fmt: skip
    return asked_first(found, display)


def _half_dropped_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    return say("The source does hand over charge times voltage. But the first bit of charge moves "
               "across no voltage at all and only the last across the whole, so the capacitor "
               "keeps half.")  # fmt: skip


def _charge_for_capacitance(display: CircuitDisplay) -> list[Wrong]:
    if not _stores(display):
        return []
    values, found = display.solution.values, list[Wrong]()
    for part, step in _works(display):
        flow, drop = flow_of(part, display), drop_of(part, display)
        if flow is not None and drop is not None and part.value in values:
            happens = say("writing {flow} for {value} in {law}", flow=SymbolOf(part.flow),
                          value=SymbolOf(part.value), law=Relation("U = ½CV²"))  # fmt: skip
            found.append(Wrong(part.work, flow * drop * drop / 2, step.id, happens))
    return asked_first(found, display)


def _charge_for_capacitance_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    return say("The two formulas are close neighbours: {one} and {other}. With the charge there is "
               "no square, since the charge has a voltage in it already.",
               one=Relation("U = ½QV"), other=Relation("U = ½CV²"))  # fmt: skip


def _wrong_pair(display: CircuitDisplay) -> list[Wrong]:
    """One factor from the element, the other from its group or from the source."""
    return asked_first(_mixed_pairs(display), display)


def _mixed_pairs(display: CircuitDisplay) -> Iterator[Wrong]:
    source, steps = only_voltage(display), {part.work: step for part, step in _works(display)}
    half = _half(law_of(display))
    for group in opened_groups(display):
        series, whole = group.connection == SERIES, group.whole
        for part in group.parts:
            step, flow, drop = steps.get(part.work), flow_of(part, display), drop_of(part, display)
            of_all = (drop_of if series else flow_of)(whole, display)
            if step is None or flow is None or drop is None or of_all is None:
                continue
            if SHARE in f"{whole.flow.of}{part.flow.of}":
                continue  # what a source does alone has no power of its own
            own, other = (part.flow, whole.drop) if series else (part.drop, whole.flow)
            kept = flow if series else drop
            yield Wrong(part.work, half * kept * of_all, step.id, _pairing(own, other))
            if not series and not group.root and source is not None:
                volts = Name(source.quantity, source.name)
                wrong = half * flow * source.value
                yield Wrong(part.work, wrong, step.id, _pairing(part.flow, volts))


def _pairing(one: Name, other: Name) -> Prose:
    return say("pairing {one} with {other}", one=SymbolOf(one), other=SymbolOf(other))


def _wrong_pair_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    voc = vocabulary(law_of(display))
    return say("Any {flow} and any voltage can be multiplied, and the product looks fine. But the "
               "{work} of one {one} needs both from that same {one}.",
               flow=voc.flow, work=voc.work, one=voc.one)  # fmt: skip


def _square_forgotten(display: CircuitDisplay) -> list[Wrong]:
    """Where the steps use a formula with a square."""
    law, values, found = law_of(display), display.solution.values, list[Wrong]()
    for part, step in _works(display):
        formula = next(line.formula for line in step.lines if line.name == part.work)
        squares = [one.base for one in every_part(formula) if isinstance(one, Square)]
        if len(squares) != 1 or part.value not in values:
            continue
        by_drop = squares[0] == Ref(part.drop)
        base, value = values[part.drop if by_drop else part.flow], values[part.value]
        if _stores(display):
            wrong = value * base / 2 if by_drop else base / (2 * value)
        else:
            wrong = base / value if by_drop else value * base
        found.append(
            Wrong(
                part.work,
                wrong,
                step.id,
                say("forgetting the square in {law}", law=_squared(law, by_drop)),
            )
        )
    return asked_first(found, display)  # fmt: skip


def _squared(law: Law, by_drop: bool) -> Relation:
    if law.work == "energy":
        return Relation("U = ½CV²" if by_drop else "U = Q²/(2C)")
    return Relation("P = V²/R" if by_drop else "P = RI²")


def _square_forgotten_why(wrong: Wrong, display: CircuitDisplay) -> Prose:
    voc = vocabulary(law_of(display))
    return say("The square is small and easily lost on the way to the calculator. It is there "
               "because twice the voltage also brings twice the {flow}, and so four times the "
               "{work}.", flow=voc.flow, work=voc.work)  # fmt: skip


_HALF_SOURCE = (
    "University Physics Volume 2 (OpenStax), chapter 10, a printed answer shows the formula "
    "without the ½"
)

WORK_RULES: tuple[WrongRule, ...] = (
    WrongRule("half-dropped", _HALF_SOURCE, "Leaving out the ½", _half_dropped_why, _half_dropped),
    WrongRule("wrong-pair", PRACTICE, "Pairing what does not belong together", _wrong_pair_why,
              _wrong_pair),
    WrongRule("charge-for-capacitance", PRACTICE, "Mixing up two formulas for the energy",
              _charge_for_capacitance_why, _charge_for_capacitance),
)  # fmt: skip
SQUARE_RULES: tuple[WrongRule, ...] = (
    WrongRule("square-forgotten", PRACTICE, "Forgetting the square", _square_forgotten_why,
              _square_forgotten),
)  # fmt: skip
"""For steps that use a formula with a square, as those of networks never do."""
