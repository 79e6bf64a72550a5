"""The plan of a solution in stages, in a line or two."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from builder.lesson.prose import Prose, Written, say, sentences
from builder.lesson.stages.display import StagesDisplay
from builder.solution.stages.step import StagesMove


def plan(display: StagesDisplay) -> Prose:
    """The author's own plan, or one that follows from the moves."""
    own = display.solution.problem.plan
    if own:
        return (Written(own),)
    steps = display.solution.steps
    if not steps:
        return say("What is asked is given already.")
    stages = {step.stage for step in steps if step.stage}
    kinds = {step.kind for step in steps}
    account = kinds & {StagesMove.STORED, StagesMove.DELIVERED, StagesMove.LOST}
    moves = [step.kind for step in steps if step.kind not in account]
    last = say("The energy comes last.") if account and moves else ()
    if not moves:
        return say("All charges are known, so we only account for the energy.")
    if len(stages) > 1:
        return sentences(
            say("Take the stages one by one. In each we ask which plates are joined, what cannot "
                "change, and what the voltages must satisfy."), last)  # fmt: skip
    return sentences(_of_one(moves), last)


def _of_one(moves: Sequence[StrEnum]) -> Prose:
    if StagesMove.SHARE in moves:
        return say("Count the charge of the plates that are joined, since it stays, and share it "
                   "at one voltage.")  # fmt: skip
    if StagesMove.EQUATIONS in moves:
        return say("Write down what each island keeps and what each loop must satisfy, and solve "
                   "for all voltages at once.")  # fmt: skip
    if StagesMove.ROUND in moves:
        return say("Find the one charge that goes round the loop, then add it to what each "
                   "capacitor held.")  # fmt: skip
    if StagesMove.BATTERY in moves:
        return say("The battery sets the voltage, and the charge follows.")
    if StagesMove.SHORT in moves:
        return say("See what a bare wire between two plates leaves of their voltage.")
    return say("Tell what is stated at first as charge and voltage.")
