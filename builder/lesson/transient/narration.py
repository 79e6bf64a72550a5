"""What a teacher says at each step of a circuit that charges or discharges."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from builder.lesson.prose import NumberOf, Prose, Relation, SymbolOf, say, sentences
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.words import Words
from builder.problem.transient.moments import CONSTANT, END, START, at
from builder.quantity.formula import Amount
from builder.quantity.names import Name
from builder.solution.transient.step import TransientMove, TransientStep


def narrate(step: TransientStep, display: TransientDisplay) -> Words:
    """The words of a step."""
    return _NARRATORS[step.kind](step, display)


def _store(step: TransientStep, display: TransientDisplay) -> Words:
    return Words(
        say("Merge {all} into one capacitor", all=display.elements(display.capacitors)),
        say("Nothing but the capacitors themselves is joined to the points between them, so seen "
            "from the resistors they are one capacitor."),
    )  # fmt: skip


def _before(step: TransientStep, display: TransientDisplay) -> Words:
    goal = say("See what {store} holds when the change comes", store=display.store)
    jump = say("The voltage of a capacitor cannot jump: that would take a charge that arrives all "
               "at once, and the resistors let charge through only bit by bit.")  # fmt: skip
    last = step.lines[-1]
    if isinstance(last.formula, Amount):
        empty = say("{store} starts without charge, so it starts without voltage.",
                    store=display.store)  # fmt: skip
        return Words(goal, sentences(empty, jump))
    if step.instant is None:
        told = say("Its charge is given, and {law}.", law=Relation("V = Q/C"))
        return Words(goal, sentences(told, jump))
    rest = say("Before the change everything has been at rest for long: no current flows into "
               "{store}, which is a gap.", store=display.store)  # fmt: skip
    along = _along(step, display)
    keeps = say("At the change {store} keeps that voltage.", store=display.store)
    return Words(goal, sentences(rest, along, keeps), jump)


def _along(step: TransientStep, display: TransientDisplay) -> Prose:
    """Along which way a voltage across the gap is added up."""
    live = tuple(name for name in step.path if name not in step.idle)
    idle = tuple(name for name in step.path if name in step.idle)
    through: Prose = ()
    if idle:
        through = say("{all} {carry} no current, so there is no voltage across {it}.",
                      all=display.elements(idle), carry="carries" if len(idle) == 1 else "carry",
                      it="it" if len(idle) == 1 else "them")  # fmt: skip
    store = display.store
    if not live:
        told = say("No source acts on {store} then, so its two ends are at one potential and it "
                   "has no voltage.", store=store)  # fmt: skip
    elif len(live) == 1 and idle:
        told = say("So {store} has the same voltage as {one}.", store=store,
                   one=display.element(live[0]))  # fmt: skip
    elif len(live) == 1:
        told = say("{store} lies straight across {one}, so it has the same voltage.", store=store,
                   one=display.element(live[0]))  # fmt: skip
    else:
        told = say("The voltage of {store} is what we climb or fall on the way through {all}.",
                   store=store, all=display.elements(live))  # fmt: skip
    return sentences(through, told)


def _end(step: TransientStep, display: TransientDisplay) -> Words:
    gap = display.store
    if not step.path and not step.about:
        goal = say("Find what flows long after")
        reason = say("With {store} as a gap, only resistors and sources are left.", store=gap)
        return Words(goal, reason)
    goal = say("Find the voltage that {store} is heading for", store=gap)
    reason = say("Long after the change nothing changes any more: no current flows into {store}, as "
                 "if there were a gap in its place.", store=gap)  # fmt: skip
    return Words(goal, sentences(reason, _along(step, display)))


def _start(step: TransientStep, display: TransientDisplay) -> Words:
    held = display.solution.values[at("voltage", display.solution.store.id, START)]
    goal = say("Find what flows at the first instant")
    if held == 0:
        reason = say("At the first instant {store} is still empty: there is no voltage across it, "
                     "just as across a wire. So we put a wire in its place.",
                     store=display.store)  # fmt: skip
    else:
        reason = say("At the first instant {store} still holds {volts}. For that instant it acts "
                     "as a battery of that voltage.", store=display.store,
                     volts=NumberOf(at("voltage", display.solution.store.id, START)))  # fmt: skip
    return Words(goal, sentences(reason, _idle(step, display)))


def _idle(step: TransientStep, display: TransientDisplay) -> Prose:
    found = {name.of.partition("@")[0] for name in step.found}
    idle = tuple(name for name in step.idle if name in found)
    if not idle:
        return ()
    return say("Nothing flows through {all}.", all=display.elements(idle))


def _seen(step: TransientStep, display: TransientDisplay) -> Words:
    goal = say("Find the resistance that {store} sees", store=display.store)
    what = say("How fast {store} charges depends on all the resistors that its current meets. We "
               "take {store} out and look in from its two ends.", store=display.store)  # fmt: skip
    sources = tuple(display.sources.values())
    off: Prose = ()
    if "voltage" in sources:
        off = say("A battery holds its voltage whatever flows, so for a change of the current it "
                  "is no more than a wire.")  # fmt: skip
    if len(step.about) == 1:
        one = say("Only {one} is seen.", one=display.element(step.about[0]))
        return Words(goal, sentences(what, off, one))
    return Words(goal, sentences(what, off))


def _constant(step: TransientStep, display: TransientDisplay) -> Words:
    tau = SymbolOf(CONSTANT)
    reason = say("The current is what is left to go, in volts, over the resistance, and the "
                 "voltage climbs by the current over the capacitance. So the speed falls as the "
                 "rest falls, and the time that it all takes is measured by the product of both: "
                 "the time constant {tau}.", tau=tau)  # fmt: skip
    start, end = (display.solution.values[at("voltage", display.solution.store.id, when)]
                  for when in (START, END))  # fmt: skip
    if end == 0 and start != 0:
        remark = say("After one {tau} the voltage has fallen to 37\u00a0% of what it was, after "
                     "five to less than 1\u00a0%.", tau=tau)  # fmt: skip
    else:
        remark = say("After one {tau} the voltage has gone 63\u00a0% of its way, after five more "
                     "than 99\u00a0%.", tau=tau)  # fmt: skip
    return Words(say("Find the time constant"), reason, remark)


def _at(step: TransientStep, display: TransientDisplay) -> Words:
    names = [name for name in step.found if name.of.partition("@")[0] not in ("",)]
    asked = [n for n in names if n in display.solution.problem.find] or names
    whose = {name.of.partition("@")[0] for name in asked}
    if step.about:
        goal = say("Find the voltage across {store} {when}", store=display.store,
                   when=display.at(step.when))  # fmt: skip
    else:
        through = display.elements(tuple(sorted(whose)))
        goal = say("Find what goes through {all} {when}", all=through,
                   when=display.at(step.when))  # fmt: skip
    reason = say("What starts at one value and heads for another covers all but the share "
                 "{left} of the way. Here is the time over the time constant: put both "
                 "in.", left=Relation("e^(−t/τ)"))  # fmt: skip
    if _told_before(step, display):
        reason = say("As before, what is left of the way shrinks by {left}.",
                     left=Relation("e^(−t/τ)"))  # fmt: skip
    return Words(goal, reason)


def _told_before(step: TransientStep, display: TransientDisplay) -> bool:
    for other in display.solution.steps:
        if other.id == step.id:
            return False
        if other.kind is TransientMove.AT:
            return True
    return False


def _reach(step: TransientStep, display: TransientDisplay) -> Words:
    (line,) = step.lines
    share = display.solution.problem.shares.get(line.name)
    one = display.element(line.name.of.partition(">")[0])
    if share is not None:
        told = f"{float(share * 100):g}\u00a0%"
        goal = say("Find when {one} has gone {share} of its way", one=one, share=told)
        reason = say("The share that is left is {left}. The logarithm undoes the exponential: it "
                     "tells the power of e.", left=Relation("e^(−t/τ)"))  # fmt: skip
        return Words(goal, reason)
    level = Name("voltage", line.name.of)
    goal = say("Find when {one} reaches {level}", one=one, level=NumberOf(level))
    reason = say("What is left of the way then, over the whole way, is {left}. The logarithm "
                 "undoes the exponential; turning the fraction over takes away the minus sign.",
                 left=Relation("e^(−t/τ)"))  # fmt: skip
    return Words(goal, reason)


def _work(step: TransientStep, display: TransientDisplay) -> Words:
    kinds = {name.quantity for name in step.found}
    told = {
        "charge": say("A capacitor holds its capacitance times its voltage."),
        "energy": say("It stores ½CV²: while it charged, its voltage climbed from zero, so each "
                      "bit of charge crossed half of it on average."),
        "power": say("A resistor turns energy into heat at the rate of its voltage times its "
                     "current."),
    }  # fmt: skip
    nouns = {"charge": "charge", "energy": "energy", "power": "power"}
    goal = say("Find the {what}", what=" and the ".join(nouns[k] for k in nouns if k in kinds))
    return Words(goal, sentences(*(told[kind] for kind in told if kind in kinds)))


_NARRATORS: dict[StrEnum, Callable[[TransientStep, TransientDisplay], Words]] = {
    TransientMove.STORE: _store,
    TransientMove.BEFORE: _before,
    TransientMove.START: _start,
    TransientMove.END: _end,
    TransientMove.SEEN: _seen,
    TransientMove.CONSTANT: _constant,
    TransientMove.AT: _at,
    TransientMove.REACH: _reach,
    TransientMove.WORK: _work,
}
