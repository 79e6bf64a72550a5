"""What a teacher says at each step: its goal, the reason it is allowed, what to notice."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from builder.circuit.switching import split_moment
from builder.lesson.prose import Prose, Relation, capitalised, number_word, say, sentences
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.energy_words import delivered, lost, stored
from builder.lesson.stages.plates import comes_in, each_holds, signs_of, turned_over
from builder.lesson.words import Words
from builder.solution.stages.step import StagesMove, StagesStep

Q_CV, V_QC = Relation("Q = CV"), Relation("V = Q/C")


def narrate(step: StagesStep, display: StagesDisplay) -> Words:
    """The words of a step, with what was done before it if it opens a stage."""
    words = _NARRATORS[step.kind](step, display)
    opening = _opening(step, display)
    return Words(words.goal, sentences(opening, words.reason), words.remark)


def _opening(step: StagesStep, display: StagesDisplay) -> Prose:
    """What is done before the first step of a stage, and before it where nothing moved."""
    steps = display.solution.steps
    first = next(other for other in steps if other.stage == step.stage)
    if first.id != step.id or step.kind in _ACCOUNT:
        return ()
    if step.stage == 0:
        rests = say("Before anything is switched, all charge has come to rest.")
        return () if step.kind in (StagesMove.START, StagesMove.BATTERY) else rests
    quiet = range(display.history.before(step.stage) + 1, step.stage)
    told = [_nothing_moves(stage, display) for stage in quiet]
    done = say("{now}{done}.", now="Now " if told or step.stage > 1 else "First ",
               done=display.done(step.stage))  # fmt: skip
    if display.history.last == 1:
        done = capitalised(say("{done}.", done=display.done(1)))
    return sentences(*told, done)


def _nothing_moves(stage: int, display: StagesDisplay) -> Prose:
    what = display.solution.problem.stages[stage - 1]
    if what.open and not what.close and not what.turn:
        return say("When {done}, no charge moves: the plates are cut off as they are, and keep "
                   "what they hold.", done=display.done(stage))  # fmt: skip
    return say("When {done}, no charge moves: no loop is closed in which voltages differ.",
               done=display.done(stage))  # fmt: skip


def _start(step: StagesStep, display: StagesDisplay) -> Words:
    named, one = display.elements(step.members), len(step.members) == 1
    found = {line.name.quantity for line in step.lines}
    starts = say("{named} {start} charged", named=named, start="starts" if one else "start")
    if len(found) > 1:
        goal = say("Find the charges and voltages of {named} at the start", named=named)
        reason = say("{starts}. Where the voltage is stated, {q_cv} gives the charge; where the "
                     "charge is stated, {v_qc} gives the voltage.",
                     starts=starts, q_cv=Q_CV, v_qc=V_QC)  # fmt: skip
    elif "charge" in found:
        goal = say("Find the {charge} on {named} at the start",
                   charge="charge" if one else "charges", named=named)  # fmt: skip
        reason = say("{starts}, and {relation} tells how much {each} + plate holds. Just as much "
                     "is missing on the other plate.", starts=starts, relation=Q_CV,
                     each="its" if one else "each")  # fmt: skip
    else:
        goal = say("Find the {voltage} across {named} at the start",
                   voltage="voltage" if one else "voltages", named=named)  # fmt: skip
        reason = say("{starts}. What the plates hold is stated, and {relation} turns it into a "
                     "voltage.", starts=starts, relation=V_QC)  # fmt: skip
    at_first = display.solution.story.charges[0]
    empty = tuple(name for name in display.members if at_first[name] == 0)
    if not empty:
        return Words(goal, reason)
    nothing = say("{empty} {hold} nothing yet.", empty=display.elements(empty),
                  hold="holds" if len(empty) == 1 else "hold")  # fmt: skip
    return Words(goal, sentences(reason, nothing))


def _battery(step: StagesStep, display: StagesDisplay) -> Words:
    named, one = display.elements(step.members), len(step.members) == 1
    batteries = display.elements(step.batteries)
    if step.stage == 0:
        rests = say("Before anything is switched, {named} {has} been straight across {batteries} "
                    "for long, so the voltages agree. The charge on {each} plates follows from "
                    "{relation}.", named=named, has="has" if one else "have", batteries=batteries,
                    each="its" if one else "their", relation=Q_CV)  # fmt: skip
        return Words(say("Find the {charge} on {named} at the start", named=named,
                         charge="charge" if one else "charges"), rests)  # fmt: skip
    goal = say("Let {batteries} charge {named}", batteries=batteries, named=named)
    if display.told_before(step):
        again = say("Once more {named} {sit} across {batteries}, and charge flows until the "
                    "voltages agree.", named=named, sit="sits" if one else "sit",
                    batteries=batteries)  # fmt: skip
        return Words(say("{goal} again", goal=goal), again, turned_over(step, display))
    if len(step.batteries) == 1:
        across = say("{named} then {sit} straight across {battery}: the same two junctions.",
                     named=named, sit="sits" if one else "sit", battery=batteries)  # fmt: skip
    else:
        across = say("Between the plates of {named} then lie batteries and wire alone.",
                     named=named)  # fmt: skip
    follows = say("Charge flows until the voltages agree, whatever the wires resist, and then "
                  "rests. The charge on {each} plates follows from {relation}.",
                  each="its" if one else "their", relation=Q_CV)  # fmt: skip
    return Words(goal, sentences(across, follows), turned_over(step, display))


def _short(step: StagesStep, display: StagesDisplay) -> Words:
    named, one = display.elements(step.members), len(step.members) == 1
    return Words(
        say("Let {named} discharge", named=named),
        say("A bare wire now joins the two plates of {named}. Both plates are one junction, so no "
            "voltage can stay between them, and the charge of one fills the lack on the other.",
            named=named if one else say("each of {named}", named=named)),
    )  # fmt: skip


def _island(step: StagesStep, display: StagesDisplay) -> Words:
    count = number_word(len(step.members))
    goal = say("Count the charge on the plates that are joined")
    if len(step.members) == 2:
        whose = say("one of {both}", both=display.elements(step.members, "and one of"))
    else:
        whose = say("one each of {all}", all=display.elements(step.members))
    if display.told_before(step):
        again = say("Again {count} plates, {whose}, make one island, and its charge cannot "
                    "leave.", count=count, whose=whose)  # fmt: skip
        return Words(goal, sentences(again, comes_in(step, display)))
    one_of_each = say("That makes one island of {count} plates, {whose}: they are joined by "
                      "wire, and around them are only gaps.", count=count, whose=whose)  # fmt: skip
    kept = say("Charge can move from plate to plate, but none can leave, so the sum after is the "
               "sum before.")  # fmt: skip
    return Words(goal, sentences(one_of_each, kept, comes_in(step, display)))


def _share(step: StagesStep, display: StagesDisplay) -> Words:
    named, two = display.elements(step.members), len(step.members) == 2
    goal = say("Find the one voltage at which {named} settle", named=named)
    if display.told_before(step):
        again = say("As before, the same voltage comes to be across {all}, and {relation} gives it "
                    "from the charge of the island and the sum of the capacitances.",
                    all="both" if two else "all", relation=V_QC)  # fmt: skip
        return Words(goal, again, turned_over(step, display))
    reason = say("{named} now share both junctions, so charge moves until the same voltage is "
                 "across {all}. Side by side their capacitances add, and {relation} gives the "
                 "voltage at which they hold just the charge of the island.",
                 named=named, all="both" if two else "all", relation=V_QC)  # fmt: skip
    return Words(goal, reason, turned_over(step, display))


def _chain(step: StagesStep, display: StagesDisplay) -> Words:
    goal = say("See the loop as one chain")
    parts = display.elements((*step.members, *step.batteries))
    if display.told_before(step):
        return Words(goal, say("Again {parts} form a single loop, and the capacitors act as one "
                               "chain.", parts=parts))  # fmt: skip
    reason = say("{parts} form a single loop without a branch. Whatever charge passes one of them "
                 "passes all, so for that charge the {count} capacitors act as one: their "
                 "reciprocals add up, as in any chain.",
                 parts=parts, count=number_word(len(step.members)))  # fmt: skip
    return Words(goal, reason)


def _round(step: StagesStep, display: StagesDisplay) -> Words:
    goal = say("Find the charge that goes round")
    held = signs_of(step, display)
    if not any(held.values()):
        return Words(goal, say("All of the chain starts empty, so it takes the whole voltage of "
                               "{battery}.", battery=display.elements(step.batteries)))  # fmt: skip
    what = (say("the voltage of {battery} and what is there already", battery=display.elements(
            step.batteries)) if step.batteries else say("the voltages that are there"))  # fmt: skip
    return Words(goal, say("What drives it is the difference between {what}. It flows until, round "
                           "the loop, nothing is left over: the chain takes up just that "
                           "difference.", what=what))  # fmt: skip


def _equations(step: StagesStep, display: StagesDisplay) -> Words:
    goal = say("Write down islands and loops, and solve")
    islands = [one for one in step.statements if one.about]
    count = len(islands)
    keeps = ("one island keeps its charge: on it" if count == 1
             else f"{number_word(count)} islands keep their charges: on each")  # fmt: skip
    reason = say("There are several loops, so we ask for all voltages at once. First, {keeps}, the "
                 "charge of a capacitor counts as plus where the figure marks its + side, and as "
                 "minus where it marks its − side. Second, round every loop the voltages must "
                 "agree with the batteries. That is just one equation for each voltage.",
                 keeps=keeps)  # fmt: skip
    return Words(goal, reason, turned_over(step, display))


def _charges(step: StagesStep, display: StagesDisplay) -> Words:
    whose = tuple(dict.fromkeys(split_moment(name.of)[0] for name in step.found))
    goal = say("Walk back to {named}", named=display.elements(whose))
    if all(name.quantity == "charge" for name in step.found):
        goal = say("Walk back to the {charges} on {named}", named=display.elements(whose),
                   charges="charge" if len(whose) == 1 else "charges")  # fmt: skip
    if not step.direction:
        gives = say("The voltage of each is known, and {relation} gives its charge.",
                    relation=Q_CV)  # fmt: skip
        return Words(goal, sentences(gives, each_holds(whose, step.stage, display)))
    held = signs_of(step, display)
    passed = (say("Through each of them goes the same charge. It adds to what is there, or takes "
                  "from it where it arrives at the other plate.") if any(held.values())
              else say("Through each of them goes the same charge, and that is what each "
                       "holds."))  # fmt: skip
    volts = any(name.quantity == "voltage" for name in step.found)
    then = say("The voltages then follow from {relation}.", relation=V_QC) if volts else ()
    return Words(goal, sentences(passed, then), turned_over(step, display))


def _turn(step: StagesStep, display: StagesDisplay) -> Words:
    named = display.elements(step.members)
    return Words(
        say("Put {named} back the other way round", named=named),
        say("{named} is taken out with its charge and put back with its plates changed about. "
            "Nothing can flow, but seen from the circuit the sign has turned.", named=named),
    )  # fmt: skip


_ACCOUNT = (StagesMove.STORED, StagesMove.DELIVERED, StagesMove.LOST)
_NARRATORS: dict[StrEnum, Callable[[StagesStep, StagesDisplay], Words]] = {
    StagesMove.START: _start,
    StagesMove.BATTERY: _battery,
    StagesMove.SHORT: _short,
    StagesMove.ISLAND: _island,
    StagesMove.SHARE: _share,
    StagesMove.CHAIN: _chain,
    StagesMove.ROUND: _round,
    StagesMove.EQUATIONS: _equations,
    StagesMove.CHARGES: _charges,
    StagesMove.TURN: _turn,
    StagesMove.STORED: stored,
    StagesMove.DELIVERED: delivered,
    StagesMove.LOST: lost,
}
