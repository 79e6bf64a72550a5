"""Mistakes where resistors or capacitors become one equivalent."""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Integer

from builder.lesson.mistake_sources import EB_RECALLED, MS, PRACTICE
from builder.lesson.prose import Prose, say
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on
from builder.quantity.exact import Exact
from builder.quantity.formula import ReciprocalSum, Ref, Sum
from builder.quantity.names import Name
from builder.quantity.show import unit_power
from builder.solution.program import Line
from builder.solution.transient.step import TransientStep

_VALUES = ("capacitance", "resistance")


def _merges(
    form: type[Sum] | type[ReciprocalSum], display: TransientDisplay
) -> Iterator[tuple[TransientStep, Line, tuple[Name, ...]]]:
    """Every line that merges values by one of the two rules, with the names of its members."""
    for step in display.solution.steps:
        for line in step.lines:
            if line.name.quantity not in _VALUES or not isinstance(line.formula, form):
                continue
            members = [term.name for term in line.formula.terms if isinstance(term, Ref)]
            if len(members) == len(line.formula.terms) > 1:
                yield step, line, tuple(members)


def _told(members: tuple[Name, ...], display: TransientDisplay) -> Prose:
    return display.elements(tuple(name.of for name in members))


def _added_instead(display: TransientDisplay) -> Iterator[Wrong]:
    for step, line, members in _merges(ReciprocalSum, display):
        altered = {line.name: Sum(tuple(map(Ref, members)))}
        happens = say("adding {members}", members=_told(members, display))
        yield from carried_on(display, step, altered, happens)


def _added_instead_why(wrong: Wrong, _display: TransientDisplay) -> Prose:
    if wrong.name.quantity == "capacitance":
        return say("Side by side capacitances do add, and so do resistances in a chain. But a "
                   "chain of capacitors holds less charge for the same voltage, never "
                   "more.")  # fmt: skip
    return say("More resistors sound like more resistance. But each branch in parallel is one more "
               "way for the current, so the resistance falls.")  # fmt: skip


def _reciprocals_instead(display: TransientDisplay) -> Iterator[Wrong]:
    for step, line, members in _merges(Sum, display):
        altered = {line.name: ReciprocalSum(tuple(map(Ref, members)))}
        happens = say("adding the reciprocals of {members}", members=_told(members, display))
        yield from carried_on(display, step, altered, happens)


def _reciprocals_instead_why(wrong: Wrong, _display: TransientDisplay) -> Prose:
    if wrong.name.quantity == "capacitance":
        return say("For resistors in parallel the reciprocals add up, and it is tempting to carry "
                   "that over. But capacitors side by side have more plate for the same voltage: "
                   "their capacitances simply add.")  # fmt: skip
    return say("In series the current has to pass every resistor, one after another, so the "
               "resistances simply add. Reciprocals belong to resistors in parallel.")  # fmt: skip


def _never_inverted(display: TransientDisplay) -> Iterator[Wrong]:
    for step, line, members in _merges(ReciprocalSum, display):
        values = [display.solution.values[name] for name in members]
        shown = display.shown(members[0]).unit
        unit: Exact = Integer(10) ** (unit_power(shown, line.name.quantity) or 0)
        stopped = sum((unit / value for value in values), Integer(0)) * unit
        happens = say("stopping at the sum of the reciprocals of {members}",
                      members=_told(members, display))  # fmt: skip
        yield from carried_on(display, step, {line.name: stopped}, happens)


def _never_inverted_why(wrong: Wrong, _display: TransientDisplay) -> Prose:
    return say("After all that work with fractions the sum looks like the answer. It is one over "
               "the {value}, so it still has to be turned over.",
               value=wrong.name.quantity)  # fmt: skip


MERGE_RULES: tuple[WrongRule, ...] = (
    WrongRule("added-instead", f"for resistors in parallel {MS}, and {EB_RECALLED}; for "
              f"capacitors in series {PRACTICE}", "Adding where reciprocals belong",
              _added_instead_why, _added_instead),
    WrongRule("reciprocals-instead", PRACTICE, "Adding reciprocals where values add",
              _reciprocals_instead_why, _reciprocals_instead),
    WrongRule("never-inverted", PRACTICE, "Forgetting the last reciprocal",
              _never_inverted_why, _never_inverted),
)  # fmt: skip
