"""Mistakes with unknown elements of a nest."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sympy import Integer

from builder.circuit.law import SERIES
from builder.circuit.tree import Group
from builder.lesson.mistake_sources import EB, GUISASOLA, MS, PRACTICE, TGB
from builder.lesson.prose import Prose, number_word, say
from builder.lesson.relations.unknown_display import UnknownDisplay, part_of
from builder.lesson.vocabulary import vocabulary
from builder.lesson.wrong_rule import Wrong, WrongRule, carried_on, step_finding
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import unit_power
from builder.solution.relations.step import RelationStep


@dataclass(frozen=True)
class TakenApart:
    """A step that finds one part of a group from the whole and its other parts.

    Attributes:
        step: the step.
        name: what it finds of the part.
        group: the group.
        whole: the same quantity of the group, in SI units.
        known: the same of its other parts, by their names.
    """

    step: RelationStep
    name: Name
    group: Group
    whole: Exact
    known: dict[str, Exact]


def _taken_apart(word: str, display: UnknownDisplay) -> Iterator[TakenApart]:
    """The steps that use ``merge`` or ``added`` backwards."""
    values = display.solution.values
    for step in display.solution.steps:
        about, of = step.relations[0].about[:2]
        (name, *_) = step.solved_for
        group = part_of(of, display.solution.problem.tree)
        if about != word or not isinstance(group, Group) or name.of == group.id:
            continue
        whole = values[display.resolve(Name(name.quantity, group.id))]
        others = [part.id for part in group.parts if part.id != name.of]
        known = {other: values[Name(name.quantity, other)] for other in others}
        yield TakenApart(step, name, group, whole, known)


def _adds(found: TakenApart, display: UnknownDisplay) -> bool:
    return found.group.connection == display.solution.problem.law.adds_in


def _named(found: TakenApart, display: UnknownDisplay) -> Prose:
    return display.elements(tuple(found.known))


def _added_on(display: UnknownDisplay) -> Iterator[Wrong]:
    """The known part added to the equivalent, from which it has to be taken away."""
    for found in _taken_apart("merge", display):
        parts = [found.whole, *found.known.values()]
        adds = _adds(found, display)
        value = sum(parts, Integer(0)) if adds else 1 / sum((1 / p for p in parts), Integer(0))
        happens = say("adding {named} to {whole}", named=_named(found, display),
                      whole=display.element(found.group.id))  # fmt: skip
        yield from carried_on(display, found.step, {found.name: value}, happens)


def _added_on_why(wrong: Wrong, display: UnknownDisplay) -> Prose:
    return say("The rule of the group says “add”, and that is easily done with whatever is at "
               "hand. But the equivalent holds {one} already: what is known has to be taken "
               "away from it.", one=display.element(_unknown(wrong, display)))  # fmt: skip


def _unknown(wrong: Wrong, display: UnknownDisplay) -> str:
    """What a step with a mistake was to find."""
    step = next(step for step in display.solution.steps if step.id == wrong.step)
    return step.solved_for[0].of


def _equivalent_for_one(display: UnknownDisplay) -> Iterator[Wrong]:
    """The equivalent taken for the unknown element itself."""
    problem, values = display.solution.problem, display.solution.values
    whole = display.resolve(Name(problem.law.value, TOTAL))
    for of in problem.unknown:
        name = Name(problem.law.value, of)
        step = step_finding(name, display.solution)
        if step is not None:
            happens = say("taking the equivalent for {one}", one=display.element(of))
            yield from carried_on(display, step, {name: values[whole]}, happens)


def _equivalent_for_one_why(wrong: Wrong, display: UnknownDisplay) -> Prose:
    return say("The value of the whole circuit is found on the way, and it is tempting to stop "
               "there. But {one} is only a part of it.",
               one=display.element(_unknown(wrong, display)))  # fmt: skip


def _subtracted_instead(display: UnknownDisplay) -> Iterator[Wrong]:
    """A plain difference where reciprocals have to be subtracted."""
    for found in _taken_apart("merge", display):
        if not _adds(found, display):
            value = abs(sum(found.known.values(), Integer(0)) - found.whole)
            happens = say("taking the plain difference of {named} and {whole}",
                          named=_named(found, display),
                          whole=display.element(found.group.id))  # fmt: skip
            yield from carried_on(display, found.step, {found.name: value}, happens)


def _subtracted_instead_why(_wrong: Wrong, display: UnknownDisplay) -> Prose:
    way = "in series" if display.solution.problem.law.adds_in != SERIES else "in parallel"
    one = display.solution.problem.law.element
    return say("What is missing sounds like a difference. But for {one}s {way} it is the "
               "reciprocals that add, so it is the reciprocals that must be subtracted.",
               one=one, way=way)  # fmt: skip


def _reciprocals_instead(display: UnknownDisplay) -> Iterator[Wrong]:
    """Reciprocals subtracted where values add."""
    for found in _taken_apart("merge", display):
        if _adds(found, display):
            rest = 1 / found.whole - sum((1 / one for one in found.known.values()), Integer(0))
            if rest != 0:
                happens = say("subtracting the reciprocals of {named} and {whole}",
                              named=_named(found, display),
                              whole=display.element(found.group.id))  # fmt: skip
                yield from carried_on(display, found.step, {found.name: abs(1 / rest)}, happens)


def _reciprocals_instead_why(_wrong: Wrong, display: UnknownDisplay) -> Prose:
    law = display.solution.problem.law
    way, other = ("in series", "in parallel") if law.adds_in == SERIES else (
        "in parallel", "in series")  # fmt: skip
    return say("There are two rules, and this one belongs to {one}s {other}. For {one}s {way} the "
               "values add, so the rest is a plain difference.",
               one=law.element, way=way, other=other)  # fmt: skip


def _never_inverted(display: UnknownDisplay) -> Iterator[Wrong]:
    for found in _taken_apart("merge", display):
        if _adds(found, display):
            continue
        shown = display.shown(Name(found.name.quantity, next(iter(found.known))))
        unit = Integer(10) ** (unit_power(shown.unit, found.name.quantity) or 0)
        rest = unit / found.whole - sum((unit / v for v in found.known.values()), Integer(0))
        happens = say("stopping at the difference of the reciprocals")
        yield from carried_on(display, found.step, {found.name: rest * unit}, happens)


def _never_inverted_why(_wrong: Wrong, display: UnknownDisplay) -> Prose:
    voc = vocabulary(display.solution.problem.law)
    return say("After all that work with fractions the difference looks like the answer. It is one "
               "over the {value}, so it still has to be turned over.", value=voc.value)  # fmt: skip


def _whole_for_one(display: UnknownDisplay) -> Iterator[Wrong]:
    """The voltage of a chain, or the flow of a fork, given to one part of it."""
    for found in _taken_apart("added", display):
        what = _flowing(found, display)
        happens = say("taking the whole {what} of {whole} for {one}", what=what,
                      whole=display.element(found.group.id),
                      one=display.element(found.name.of))  # fmt: skip
        yield from carried_on(display, found.step, {found.name: found.whole}, happens)


def _flowing(found: TakenApart, display: UnknownDisplay) -> str:
    series = found.group.connection == SERIES
    return "voltage" if series else vocabulary(display.solution.problem.law).flow


def _whole_for_one_why(wrong: Wrong, display: UnknownDisplay) -> Prose:
    return say("What is known of the whole is easily carried too far. But here it is divided, and "
               "what the others have of it has to be taken away before it is that of "
               "{one}.", one=display.element(_unknown(wrong, display)))  # fmt: skip


def _equal_shares(display: UnknownDisplay) -> Iterator[Wrong]:
    for found in _taken_apart("added", display):
        count = len(found.group.parts)
        happens = say("sharing the {what} equally between the {count}",
                      what=_flowing(found, display), count=number_word(count))  # fmt: skip
        yield from carried_on(display, found.step, {found.name: found.whole / count}, happens)


def _equal_shares_why(_wrong: Wrong, _display: UnknownDisplay) -> Prose:
    return say("With one value unknown, equal shares look like the best guess. But what the others "
               "have is known, and the rest is what is left of the whole.")  # fmt: skip


RULES: tuple[WrongRule, ...] = (
    WrongRule("added-on", PRACTICE, "Adding what has to be taken away", _added_on_why, _added_on),
    WrongRule("whole-for-one", MS, "Giving one part what belongs to all",
              _whole_for_one_why, _whole_for_one),
    WrongRule("equivalent-for-one", PRACTICE, "Taking the equivalent for one element",
              _equivalent_for_one_why, _equivalent_for_one),
    WrongRule("subtracted-instead", PRACTICE, "Subtracting where reciprocals belong",
              _subtracted_instead_why, _subtracted_instead),
    WrongRule("reciprocals-instead", PRACTICE, "Subtracting reciprocals where values add",
              _reciprocals_instead_why, _reciprocals_instead),
    WrongRule("never-inverted", PRACTICE, "Forgetting the last reciprocal",
              _never_inverted_why, _never_inverted),
    WrongRule("equal-shares", f"for voltages {TGB}, and {EB}; for what flows {MS}, and {GUISASOLA}",
              "Sharing equally", _equal_shares_why, _equal_shares),
)  # fmt: skip
"""Every rule; the likelier ones come first."""
