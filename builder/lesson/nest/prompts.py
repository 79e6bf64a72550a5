"""What a teacher asks the class before a step is shown: its decision, not its sums."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from builder.circuit.law import PARALLEL
from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import Prose, say
from builder.lesson.vocabulary import vocabulary
from builder.quantity.formula import Sum
from builder.quantity.names import TOTAL
from builder.solution.nest.step import NestStep, StepKind


def prompt(step: NestStep, display: NestDisplay) -> Prose:
    """A question that leads to the step and does not give it away."""
    return _PROMPTERS[step.kind](step, display)


def _merge(step: NestStep, display: NestDisplay) -> Prose:
    group = step.group
    assert group is not None
    voc = vocabulary(display.solution.problem.law)
    if group.id == TOTAL:
        ids = tuple(part.id for part in group.parts)
        return say("What is the same for {named}: the voltage or the {flow}?",
                   named=display.elements(ids), flow=voc.flow)  # fmt: skip
    now = " now" if _merged_before(step, display) else ""
    if group.connection == PARALLEL:
        return say("Which {ones}s share both junctions{now}?", ones=voc.one, now=now)
    return say("Which {ones}s{now} follow one another with nothing joined on in between?",
               ones=voc.one, now=now)  # fmt: skip


def _merged_before(step: NestStep, display: NestDisplay) -> bool:
    first = next(s for s in display.solution.steps if s.kind is StepKind.MERGE)
    return first.id != step.id


def _drive(step: NestStep, display: NestDisplay) -> Prose:
    law = display.solution.problem.law
    name = step.found[-1]
    if all(line.carries for line in step.lines):
        return say("What is the {noun} {word} {one}?", noun=name.quantity,
                   word="across" if name.quantity == law.drop else vocabulary(law).flow_word,
                   one=display.element(name.of))  # fmt: skip
    if name.quantity == law.drop:
        whose: Prose = ("the voltage across the source",)
    elif name.of == TOTAL:
        whose = say("the {flow} that the source delivers", flow=law.flow)
    else:
        whose = say("the {flow} {word} {one}", flow=law.flow, word=vocabulary(law).flow_word,
                    one=display.element(name.of))  # fmt: skip
    if display.naming.root != TOTAL:
        return say("Which law gives {whose}?", whose=whose)
    return say("Only {one} is left. Which law gives {whose}?",
               one=display.element(TOTAL), whose=whose)  # fmt: skip


def _open(step: NestStep, display: NestDisplay) -> Prose:
    group = step.group
    assert group is not None
    voc = vocabulary(display.solution.problem.law)
    found = {name.of for name in step.found}
    members = tuple(part.id for part in group.parts if part.id in found)
    merged = any(other.id == f"merge-{group.id}" for other in display.solution.steps)
    return say("What {do} {named} have in common with {whom}: the voltage or the {flow}?",
               do="does" if len(members) == 1 else "do", named=display.elements(members),
               whom=display.element(group.id) if merged else "the source",
               flow=voc.flow)  # fmt: skip


def _work(step: NestStep, display: NestDisplay) -> Prose:
    voc = vocabulary(display.solution.problem.law)
    return say("Which formula for the {work} uses only what is known by now?", work=voc.work)


def _total(step: NestStep, display: NestDisplay) -> Prose:
    law = display.solution.problem.law
    voc = vocabulary(law)
    (line,) = step.lines
    if line.name.quantity == law.flow:
        return say("Where do the {flow}s of all branches come together?", flow=voc.flow)
    if isinstance(line.formula, Sum):
        return say("How does the {work} of the whole circuit follow from its parts?",
                   work=voc.work)  # fmt: skip
    return say("Seen from the source, what is the whole circuit? Which formula then gives its "
               "{work}?", work=voc.work)  # fmt: skip


_PROMPTERS: dict[StrEnum, Callable[[NestStep, NestDisplay], Prose]] = {
    StepKind.MERGE: _merge,
    StepKind.DRIVE: _drive,
    StepKind.OPEN: _open,
    StepKind.WORK: _work,
    StepKind.TOTAL: _total,
}
