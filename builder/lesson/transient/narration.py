"""What a teacher says at each step of a circuit that charges or discharges."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from builder.lesson.prose import NumberOf, Prose, Relation, SymbolOf, listed, say, sentences
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.vocabulary import PREPOSITIONS
from builder.lesson.words import Words
from builder.problem.transient.moments import CONSTANT, END, START, at, moment_of
from builder.quantity.exact import Exact
from builder.quantity.formula import Amount, names_in
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name
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
    store = display.elements(step.about)
    goal = say("See what {store} holds when the change comes", store=store)
    jump = say("The voltage of a capacitor cannot jump: that would take a charge that arrives all "
               "at once, and the resistors let charge through only bit by bit.")  # fmt: skip
    last = step.lines[-1]
    if isinstance(last.formula, Amount):
        empty = say("{store} starts without charge, so it starts without voltage.",
                    store=store)  # fmt: skip
        return Words(goal, sentences(empty, jump))
    if step.instant is None:
        told = say("Its charge is given, and {law}.", law=Relation("V = Q/C"))
        return Words(goal, sentences(told, jump))
    rest = say("Before the change everything has been at rest for long: no current flows into "
               "{store}, which is a gap.", store=store)  # fmt: skip
    along = _along(step, display)
    keeps = say("At the change {store} keeps that voltage.", store=store)
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
    store = display.elements(step.about)
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
    if not step.about:
        return Words(
            say("Find what flows long after"),
            say("With a gap in place of {store}, only resistors and sources are left.",
                store=display.store),
        )  # fmt: skip
    gap = display.elements(step.about)
    goal = say("Find the voltage that {store} is heading for", store=gap)
    reason = say("Long after the change nothing changes any more: no current flows into {store}, "
                 "as if there were a gap in its place.", store=gap)  # fmt: skip
    return Words(goal, sentences(reason, _along(step, display)))


def _start(step: TransientStep, display: TransientDisplay) -> Words:
    values = display.solution.values
    held = tuple(id for id in step.about if values[at("voltage", id, START)] != 0)
    empty = tuple(id for id in step.about if id not in held)
    told = [_empty(empty, display)] if empty else []
    if held:
        told.append(_as_batteries(held, display))
    goal = say("Find what flows at the first instant")
    return Words(goal, sentences(*told, _ways(step, display), _idle(step, display)))


def _empty(ids: tuple[str, ...], display: TransientDisplay) -> Prose:
    if len(ids) == 1:
        return say("At the first instant {store} is still empty: there is no voltage across it, "
                   "just as across a wire. So we put a wire in its place.",
                   store=display.elements(ids))  # fmt: skip
    return say("At the first instant {all} are still empty: there is no voltage across them, just "
               "as across a wire. So we put a wire in place of each.",
               all=display.elements(ids))  # fmt: skip


def _as_batteries(ids: tuple[str, ...], display: TransientDisplay) -> Prose:
    volts = listed([NumberOf(at("voltage", id, START)) for id in ids])
    if len(ids) == 1:
        return say("At the first instant {store} still holds {volts}. For that instant it acts as "
                   "a battery of that voltage.", store=display.elements(ids),
                   volts=volts)  # fmt: skip
    return say("At the first instant {all} still hold {volts}. For that instant each acts as a "
               "battery of its voltage.", all=display.elements(ids), volts=volts)  # fmt: skip


def _by_equations(step: TransientStep) -> Prose:
    """How what flows is found where nothing can be merged."""
    if not step.statements:
        return ()
    used = {name.quantity for s in step.statements for name in names_in(s.left)}
    if "potential" in used:
        return say("What flows into each junction flows out of it again, which gives an equation "
                   "for each unknown potential.")  # fmt: skip
    return say("Once round each loop the voltages add up to those of its sources, which gives an "
               "equation for the current in each loop.")  # fmt: skip


def _ways(step: TransientStep, display: TransientDisplay) -> Prose:
    """By which law several sources are taken together, if the step does so."""
    if any(name.quantity == "potential" for name in step.found):
        return say("Several sources act, so we balance what flows at each junction.")
    known = {*display.members, *display.sources, TOTAL}
    loops = any(
        name.quantity == "current" and moment_of(name)[0].partition("|")[0] not in known
        for name in step.found
    )
    if not loops or step.instant is None or all(len(b.sources) < 2 for b in step.instant.blocks):
        return ()
    return say("Several sources act, so we go round each loop: all voltages round it add up to "
               "zero.")  # fmt: skip


def _idle(step: TransientStep, display: TransientDisplay) -> Prose:
    found = {name.of.partition("@")[0] for name in step.found}
    idle = tuple(name for name in step.idle if name in found)
    if not idle:
        return ()
    return say("Nothing flows through {all}.", all=display.elements(idle))


def _seen(step: TransientStep, display: TransientDisplay) -> Words:
    goal = say("Find the resistance that {store} sees", store=display.store)
    what = say("How fast {store} {does} depends on all the resistors that its current meets. We "
               "take {store} out and look in from its two ends.", store=display.store,
               does="discharges" if _falls(display) else "charges")  # fmt: skip
    sources = tuple(display.sources.values())
    off: Prose = ()
    if "voltage" in sources:
        off = say("A battery holds its voltage whatever flows, so for a change of the current it "
                  "is no more than a wire.")  # fmt: skip
    if len(step.about) == 1:
        one = say("Only {one} is seen.", one=display.element(step.about[0]))
        return Words(goal, sentences(what, off, one))
    return Words(goal, sentences(what, off))


def _ends(display: TransientDisplay) -> tuple[Exact, Exact]:
    """What the only store holds at first and at last."""
    values, store = display.solution.values, display.solution.store.id
    return values[at("voltage", store, START)], values[at("voltage", store, END)]


def _falls(display: TransientDisplay) -> bool:
    start, end = _ends(display)
    return bool(abs(end) < abs(start))


def _constant(step: TransientStep, display: TransientDisplay) -> Words:
    tau = SymbolOf(CONSTANT)
    falls = _falls(display)
    drives = say("What is {left} drives the current through the resistance, and the current {does} "
                 "the capacitor. So the less is {short}, the slower it goes on.",
                 left="left of the voltage" if falls else "still missing of the voltage",
                 short="left" if falls else "missing",
                 does="empties" if falls else "fills")  # fmt: skip
    product = say("How slow it is altogether is told by the product of resistance and capacitance: "
                  "the time constant {tau}.", tau=tau)  # fmt: skip
    if _ends(display)[1] == 0:
        remark = say("After one {tau} the voltage has fallen to 37\u00a0% of what it was, after "
                     "five to less than 1\u00a0%.", tau=tau)  # fmt: skip
    else:
        remark = say("After one {tau} the voltage has gone 63\u00a0% of its way, after five more "
                     "than 99\u00a0%.", tau=tau)  # fmt: skip
    return Words(say("Find the time constant"), sentences(drives, product), remark)


def _at(step: TransientStep, display: TransientDisplay) -> Words:
    if step.about:
        goal = say("Find the voltage across {store} {when}", store=display.store,
                   when=display.at(step.when))  # fmt: skip
        return Words(goal, _left_at(step, display))
    found = {moment_of(name)[0] for name in step.found}
    through = tuple(one for one in display.resistors if one in found)
    goal = say("Find what goes through {all} {when}", all=display.elements(through),
               when=display.at(step.when))  # fmt: skip
    reason = say("Every current and every voltage of the circuit follows the same exponential, "
                 "each from its own first value to its own last.")  # fmt: skip
    return Words(goal, reason)


def _left_at(step: TransientStep, display: TransientDisplay) -> Prose:
    """How the share that is left gives the voltage."""
    start, end = _ends(display)
    left = Relation("e^(−t/τ)")
    if _told_before(step, display):
        return say("As before, what is left to go shrinks by {left}.", left=left)
    if end == 0:
        return say("By the time {t} the voltage has shrunk to the share {left} of what it was at "
                   "first.", t=SymbolOf(Name("time", step.when)), left=left)  # fmt: skip
    still = say("By the time {t} the share {left} of the way is still to go", left=left,
                t=SymbolOf(Name("time", step.when)))  # fmt: skip
    if start == 0:
        return say("{still}, and all the rest is done.", still=still)
    return say("{still}. So we start from where the voltage is heading, and add that share of the "
               "whole way.", still=still)  # fmt: skip


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
    left = Relation("e^(−t/τ)")
    if share is not None:
        told = f"{float(share * 100):g}\u00a0%"
        goal = say("Find when {one} has gone {share} of its way", one=one, share=told)
        reason = say("The share that is left by then is {left}. The logarithm undoes the "
                     "exponential: it tells the exponent. Turning the fraction over takes away "
                     "the minus sign.", left=left)  # fmt: skip
        return Words(goal, reason)
    level = Name("voltage", line.name.of)
    goal = say("Find when {one} reaches {level}", one=one, level=NumberOf(level))
    reason = say("What is still to go at {level}, over the whole way, is {left}. The logarithm "
                 "undoes the exponential: it tells the exponent. Turning the fraction over takes "
                 "away the minus sign.", left=left, level=NumberOf(level))  # fmt: skip
    return Words(goal, reason)


def _work(step: TransientStep, display: TransientDisplay) -> Words:
    kinds = {name.quantity for name in step.found}
    told = {
        "charge": say("A capacitor holds its capacitance times its voltage as charge."),
        "energy": say("A capacitor stores ½CV²: while it charged, its voltage climbed from zero, "
                      "so each bit of charge crossed half of it on average."),
        "power": say("A resistor turns energy into heat at the rate of its voltage times its "
                     "current."),
    }  # fmt: skip
    goals: list[Prose | str] = []
    for kind in (kind for kind in told if kind in kinds):
        ids = {moment_of(name)[0] for name in step.found if name.quantity == kind}
        whose = display.elements(tuple(one for one in display.members if one in ids))
        goals.append(say("the {noun} {word} {whom}", noun=KINDS[kind].noun,
                         word=PREPOSITIONS[kind], whom=whose))  # fmt: skip
    goal = say("Find {what}", what=listed(goals))
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
