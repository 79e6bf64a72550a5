"""The plan of a solution in a line or two."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum

from builder.circuit.tree import Leaf
from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import Prose, Written, number_word, say, sentences
from builder.lesson.vocabulary import vocabulary
from builder.quantity.names import TOTAL
from builder.solution.nest.step import StepKind


def plan(display: NestDisplay) -> Prose:
    """What will be done, in order, before any detail; the author's own plan if there is one."""
    problem = display.solution.problem
    if problem.plan:
        return (Written(problem.plan),)
    kinds = [step.kind for step in display.solution.steps]
    if not kinds:
        return say("What is asked is given already.")
    if StepKind.MERGE not in kinds:
        start = _without_merging(display)
    elif any(step.id == f"merge-{TOTAL}" for step in display.solution.steps):
        start = sentences(_merging_all(kinds, display), _after_merging_all(kinds, display))
    else:
        start = _merging_some(kinds)
    return sentences(start, *_endings(display))


def _merging_all(kinds: list[StrEnum], display: NestDisplay) -> Prose:
    one, merges = vocabulary(display.solution.problem.law).one, kinds.count(StepKind.MERGE)
    if merges == 1:
        return say("Merge everything into one {one} in a single move.", one=one)
    return say("In {count} moves, merge from the inside out until one {one} is left.",
               count=number_word(merges), one=one)  # fmt: skip


def _after_merging_all(kinds: list[StrEnum], display: NestDisplay) -> Prose:
    law, source = display.solution.problem.law, display.solution.problem.network.source
    driven = source is not None and source.quantity == law.drop
    its = vocabulary(law).flow if driven else "voltage"
    back = "walk back" if kinds.count(StepKind.MERGE) == 1 else "walk back to the single elements"
    if StepKind.DRIVE in kinds and StepKind.OPEN in kinds:
        return say("Find its {its}, then {back}.", its=its, back=back)
    if StepKind.DRIVE in kinds:
        return say("Then find its {its}.", its=its)
    return say("Then {back}.", back=back) if StepKind.OPEN in kinds else ()


def _merging_some(kinds: list[StrEnum]) -> Prose:
    merges = kinds.count(StepKind.MERGE)
    groups = "one group" if merges == 1 else f"{number_word(merges)} groups"
    return say("Merge only the {groups} that we need, then work outward from the source.",
               groups=groups)  # fmt: skip


def _without_merging(display: NestDisplay) -> Prose:
    law = display.solution.problem.law
    source, tree = display.solution.problem.network.source, display.solution.problem.tree
    assert source is not None
    shared = source.quantity
    if isinstance(tree, Leaf):
        return say("There is nothing to merge: the source sets the {shared} {word} {one} itself.",
                   shared=shared, one=display.element(tree.id),
                   word="across" if shared == law.drop else vocabulary(law).flow_word)  # fmt: skip
    return say("Nothing has to be merged: the source sets the {shared} of every element "
               "that is asked about.", shared=shared)  # fmt: skip


def _endings(display: NestDisplay) -> Iterator[Prose]:
    """What comes after the moves through the circuit: sums, and energy or power."""
    law = display.solution.problem.law
    voc = vocabulary(law)
    if any(step.id == f"{law.flow}-{TOTAL}" for step in display.solution.steps):
        yield say("The {flow}s of the branches then add up.", flow=voc.flow)
    if any(name.quantity == law.work for step in display.solution.steps for name in step.found):
        yield say("The {work} comes last.", work=voc.work)
