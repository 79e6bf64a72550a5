"""What a teacher asks the class before a step is shown: its decision, not its sums."""

from __future__ import annotations

from enum import StrEnum

from builder.lesson.prose import Prose, say
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.plates import signs_of
from builder.solution.stages.energy import ALL
from builder.solution.stages.step import StagesMove, StagesStep

_ASKS: dict[StrEnum, str] = {
    StagesMove.CHAIN: "Is there any branch in the loop that is now closed?",
    StagesMove.EQUATIONS: "Which islands cannot lose charge, and which loops must agree?",
    StagesMove.CHARGES: "What is known of each capacitor now, and what follows from it?",
    StagesMove.TURN: "What changes for the circuit when the plates change places?",
    StagesMove.STORED: "Which formula gives the energy from what is known by now?",
    StagesMove.DELIVERED: "How much charge has passed the battery?",
    StagesMove.LOST: "Is all energy still there? If not, where could it be?",
}


def prompt(step: StagesStep, display: StagesDisplay) -> Prose:
    """A question that leads to the step and does not give it away."""
    named = display.elements(step.members)
    match step.kind:
        case StagesMove.START:
            return say("What do we know of {named} before anything is switched, and what follows "
                       "from it?", named=named)  # fmt: skip
        case StagesMove.BATTERY:
            return say("{when}, between which two junctions {do} {named} lie?",
                       when=_when(step, display), named=named,
                       do="does" if len(step.members) == 1 else "do")  # fmt: skip
        case StagesMove.SHORT:
            return say("{when}, what lies between the two plates of {named}?",
                       when=_when(step, display), named=named)  # fmt: skip
        case StagesMove.ISLAND:
            return say("{when}, which plates are joined, and can their charge go anywhere "
                       "else?", when=_when(step, display))  # fmt: skip
        case StagesMove.SHARE:
            return say("What must be the same for {named} once nothing flows any more?",
                       named=named)  # fmt: skip
        case _:
            return _of_others(step, display)


def _of_others(step: StagesStep, display: StagesDisplay) -> Prose:
    if step.kind is StagesMove.ROUND:
        held = any(signs_of(step, display).values())
        return say("Which voltage is left to drive charge round the loop?" if held
                   else "Which voltage does the chain get?")  # fmt: skip
    return say("What do the stages add up to?" if step.id == ALL else _ASKS[step.kind])


def _when(step: StagesStep, display: StagesDisplay) -> Prose:
    if step.stage == 0:
        return say("Before anything is switched")
    return say("When {done}", done=display.done(step.stage))
