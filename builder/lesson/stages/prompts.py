"""What a teacher asks the class before a step is shown: its decision, not its sums."""

from __future__ import annotations

from builder.lesson.prose import Prose, say
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.plates import signs_of
from builder.solution.stages.step import StagesMove, StagesStep


def prompt(step: StagesStep, display: StagesDisplay) -> Prose:
    """A question that leads to the step and does not give it away."""
    named = display.elements(step.members)
    match step.kind:
        case StagesMove.START:
            return say("What do we know of {named} before anything is switched, and what follows "
                       "from it?", named=named)  # fmt: skip
        case StagesMove.BATTERY:
            return say("When {done}, between which two junctions {do} {named} lie?",
                       done=_done(step, display), named=named,
                       do="does" if len(step.members) == 1 else "do")  # fmt: skip
        case StagesMove.SHORT:
            return say("When {done}, what lies between the two plates of {named}?",
                       done=_done(step, display), named=named)  # fmt: skip
        case StagesMove.ISLAND:
            return say("When {done}, which plates are joined, and can their charge go anywhere "
                       "else?", done=_done(step, display))  # fmt: skip
        case StagesMove.SHARE:
            return say("What must be the same for {named} once nothing flows any more?",
                       named=named)  # fmt: skip
        case _:
            return _of_others(step, display)


def _of_others(step: StagesStep, display: StagesDisplay) -> Prose:
    match step.kind:
        case StagesMove.CHAIN:
            return say("Is there any branch in the loop that is now closed?")
        case StagesMove.ROUND:
            held = any(signs_of(step, display).values())
            return say("Which voltage is left to drive charge round the loop?" if held
                       else "Which voltage does the chain get?")  # fmt: skip
        case StagesMove.EQUATIONS:
            return say("Which islands cannot lose charge, and which loops must agree?")
        case StagesMove.CHARGES:
            return say("What is known of each capacitor now, and what follows from it?")
        case StagesMove.TURN:
            return say("What changes for the circuit when the plates change places?")
        case StagesMove.STORED:
            return say("Which formula gives the energy from what is known by now?")
        case StagesMove.DELIVERED:
            return say("How much charge has passed the battery?")
        case _:
            return say("Is all energy still there? If not, where could it be?")


def _done(step: StagesStep, display: StagesDisplay) -> Prose:
    return display.done(step.stage) if step.stage else say("nothing is switched yet")
