"""What a teacher says about the account of the energy."""

from __future__ import annotations

from builder.circuit.switching import LOST, split_moment
from builder.lesson.prose import Prose, Relation, say, sentences
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.words import Words
from builder.quantity.formula import names_in
from builder.quantity.names import TOTAL
from builder.solution.stages.history import ALL_STAGES
from builder.solution.stages.step import StagesMove, StagesStep


def stored(step: StagesStep, display: StagesDisplay) -> Words:
    """The energy of capacitors at one moment."""
    owners = [split_moment(name.of)[0] for name in step.found]
    singles = tuple(owner for owner in owners if owner != TOTAL)
    goal = say("Find the energy stored {when}", when=display.after(step.stage))
    first = not display.told_before(step)
    reason: Prose = ()
    if singles and first:
        reason = say("While a capacitor is charged its voltage climbs from nothing, so its charge "
                     "moves across half of the final voltage on average. That is where the ½ comes "
                     "from.")  # fmt: skip
    elif singles:
        reason = say("Again half of charge times voltage, now with the values that hold then.")
    summed = next((line for line in step.lines if line.name.of.startswith(TOTAL)), None)
    parts = len(tuple(names_in(summed.formula))) if summed else 0
    if parts > 1:
        return Words(goal, sentences(reason, say("Together that is what is stored.")))
    if parts == 1:
        return Words(goal, sentences(reason, say("No other capacitor holds any charge.")))
    if summed:
        return Words(goal, sentences(reason, say("No capacitor holds any charge, so nothing is "
                                                 "stored.")))  # fmt: skip
    return Words(goal, reason)


def delivered(step: StagesStep, display: StagesDisplay) -> Words:
    """What batteries move and deliver."""
    if not step.batteries:
        return Words(
            say("See that no battery moves any charge"),
            say("No charge passes a battery in this stage, so none delivers any energy."),
        )
    named, one = display.elements(step.batteries), len(step.batteries) == 1
    energy = any(name.quantity == "energy" for name in step.found)
    goal = say("Find what {named} {delivers}", named=named,
               delivers=("delivers" if one else "deliver") if energy
               else "moves" if one else "move")  # fmt: skip
    moves = say("The charge that {named} {has} moved is all that has arrived on the plates behind "
                "{its} + side.", named=named, has="has" if one else "have",
                its="its" if one else "each")  # fmt: skip
    if not energy:
        return Words(goal, moves)
    if display.told_before(step):
        return Words(goal, sentences(moves, say("Again it was moved across the full voltage.")))
    whole = say("A battery keeps its full voltage all the time, so it delivers {law} without any "
                "½.", law=Relation("QV"))  # fmt: skip
    return Words(goal, sentences(moves, whole))


def lost(step: StagesStep, display: StagesDisplay) -> Words:
    """What turns into heat."""
    if any(name.of.endswith(f"@{ALL_STAGES}") for name in step.found):
        return _in_all(step)
    quiet = step.stage not in display.history.active
    goal = say("Account for the energy {when}", when=display.after(step.stage))
    if quiet:
        return Words(goal, say("No charge moves in this stage, so nothing can be lost."))
    if step.batteries:
        held = any(name.of.startswith(TOTAL) and not name.of.endswith(f"@{step.stage}")
                   for line in step.lines for name in names_in(line.formula))  # fmt: skip
        missing = say("{what} {battery} delivered cannot vanish. What is not stored afterwards has "
                      "turned into heat.", battery=display.elements(step.batteries),
                      what="What was stored before and what" if held else "What")  # fmt: skip
    else:
        missing = say("Nothing delivers energy here, and yet less is stored than before. The "
                      "difference has turned into heat.")  # fmt: skip
    told = any(other.kind is StagesMove.LOST and 0 < other.stage < step.stage
               for other in display.solution.steps)  # fmt: skip
    if told:
        return Words(goal, sentences(missing, say("Again wires and spark took it.")))
    where = say("While charge flows it must pass the wires, and often a spark at the switch. "
                "Thick wires let it flow faster, thin ones more slowly, but the loss comes out "
                "the same.")  # fmt: skip
    return Words(goal, sentences(missing, where))


def _in_all(step: StagesStep) -> Words:
    whose = {split_moment(name.of)[0] for name in step.found}
    if whose == {LOST}:
        return Words(say("Add up what is lost"),
                     say("Each stage turned some energy into heat; in all that is their "
                         "sum."))  # fmt: skip
    return Words(say("Add up over all stages"), say("Each stage adds its own part."))
