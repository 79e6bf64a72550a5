"""What a teacher asks the class before a step is shown: its decision, not its sums."""

from __future__ import annotations

from collections.abc import Callable
from enum import StrEnum

from builder.circuit.law import PARALLEL
from builder.lesson.network.display import POTENTIAL, NetworkDisplay
from builder.lesson.network.source_words import acting_source
from builder.lesson.prose import Prose, say
from builder.lesson.vocabulary import vocabulary
from builder.quantity.formula import Sum, names_in
from builder.quantity.names import TOTAL
from builder.solution.network.step import NetworkMove, NetworkStep


def prompt(step: NetworkStep, display: NetworkDisplay) -> Prose:
    """A question that leads to the step and does not give it away."""
    return PROMPTERS[step.kind](step, display.within(step))


def _merge(step: NetworkStep, display: NetworkDisplay) -> Prose:
    group = step.merged[0]
    if len(step.merged) == 1 and group.equivalent == TOTAL:
        return say("What is the same for {named}: the voltage or the {flow}?",
                   named=display.elements(group.members), flow=display.law.flow)  # fmt: skip
    if group.connection == PARALLEL:
        return say("Which {ones}s share both junctions now?", ones=display.one)
    return say("Which {ones}s now follow one another with nothing joined on in between?",
               ones=display.one)  # fmt: skip


def _drop(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("Is there any {one} that nothing can flow through?", one=display.one)


def _balance(step: NetworkStep, display: NetworkDisplay) -> Prose:
    assert step.balance is not None
    first, second = step.balance.ends
    return say("Which is at the higher potential, junction {first} or junction {second}?",
               first=first, second=second)  # fmt: skip


def _join(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("Which junctions could change places without anybody noticing?")


def _spread(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("If all junctions are alike and a {flow} enters at one of them, how does it divide?",
               flow=display.law.flow)  # fmt: skip


def _star(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("Nothing can be merged here. Which three {ones}s form a triangle, and what would "
               "become of the circuit if a star stood in its place?", ones=display.one)  # fmt: skip


def _triangle(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("Nothing can be merged here. Which three {ones}s form a star, and what would "
               "become of the circuit if a triangle stood in its place?",
               ones=display.one)  # fmt: skip


def _drive(step: NetworkStep, display: NetworkDisplay) -> Prose:
    (source,) = step.network.sources
    what = "current that the source delivers" if display.law.flow == "current" else (
        "charge that the source delivers"
    )  # fmt: skip
    if source.quantity != display.law.drop:
        what = "voltage across it"
    one = display.element(step.marked[0] if step.marked else TOTAL)
    return say("Only {one} is left. Which law gives the {what}?", one=one, what=what)


def _open(step: NetworkStep, display: NetworkDisplay) -> Prose:
    flow = display.law.flow
    if step.undone is NetworkMove.MERGE:
        group = step.merged[0]
        return say("What do {named} have in common with {whom}: the voltage or the {flow}?",
                   named=display.elements(group.members), flow=flow,
                   whom=display.element(group.equivalent))  # fmt: skip
    if step.undone in (NetworkMove.STAR, NetworkMove.TRIANGLE):
        return say("What is the same for the triangle and for the star?")
    if step.undone is NetworkMove.JOIN:
        return say("What changes for the {ones}s when the joined junctions are taken apart again?",
                   ones=display.one)  # fmt: skip
    if step.undone is NetworkMove.SPREAD:
        return say("Which shares of both {flow}s does each {one} carry?", flow=flow,
                   one=display.one)  # fmt: skip
    return say("Why could {named} be left out?", named=display.elements(step.dropped)
               if step.dropped else "the wire")  # fmt: skip


def _junctions(step: NetworkStep, display: NetworkDisplay) -> Prose:
    if display.law.flow == "charge":
        return say("What do the charges add up to on plates that touch nothing else?")
    return say("What flows into a junction, and what has to flow out of it?")


def _loops(step: NetworkStep, display: NetworkDisplay) -> Prose:
    if len(step.loops) == 1:
        return say("Go once round the loop: what do the voltages add up to?")
    return say("How many loops are needed so that every {one} lies in one at least?",
               one=display.one)  # fmt: skip


def _branches(step: NetworkStep, display: NetworkDisplay) -> Prose:
    used = {name.quantity for line in step.lines for name in names_in(line.formula)}
    if POTENTIAL not in used:
        return say("Which loops pass each {one}, and in which direction?", one=display.one)
    return say("What do the potentials at both ends of a {one} tell about its {flow}?",
               one=display.one, flow=display.law.flow)  # fmt: skip


def _alone(step: NetworkStep, display: NetworkDisplay) -> Prose:
    others = tuple(source.name for source in display.network.sources
                   if source.name != acting_source(step, display))  # fmt: skip
    return say("{others} {are} turned off: a wire or a gap in {their} place?",
               others=display.elements(others), are="is" if len(others) == 1 else "are",
               their="its" if len(others) == 1 else "their")  # fmt: skip


def _add(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("Which of the parts count positive, and which negative?")


def _open_voltage(step: NetworkStep, display: NetworkDisplay) -> Prose:
    start = ("The load is taken off." if display.solution.problem.load
             else "Nothing is connected between the two points.")  # fmt: skip
    return say("{start} Which {ones}s carry a {flow} then, and which carry none?", start=start,
               ones=display.one, flow=display.law.flow)  # fmt: skip


def _inner(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("Every source is off. Which {ones}s lie side by side, seen from the two points?",
               ones=display.one)  # fmt: skip


def _load(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("Will the voltage across the load be the open voltage, more or less?")


def _match(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("Which load takes the most power: the smallest, the largest, or one in between?")


def _between(step: NetworkStep, display: NetworkDisplay) -> Prose:
    return say("Which way leads from one junction to the other, and past what?")


def _work(step: NetworkStep, display: NetworkDisplay) -> Prose:
    voc = vocabulary(display.law)
    return say("Which formula for the {work} uses only what is known by now?", work=voc.work)


def _total(step: NetworkStep, display: NetworkDisplay) -> Prose:
    law = display.law
    line = step.lines[-1]
    if line.name.quantity == law.flow:
        return say("Where do the {flow}s of all branches come together?", flow=law.flow)
    if line.name.quantity == law.value:
        return say("Which single {one} would take the same {flow} at the same voltage?",
                   one=display.one, flow=law.flow)  # fmt: skip
    if isinstance(line.formula, Sum):
        return say("How does the {work} of the whole circuit follow from its parts?",
                   work=law.work)  # fmt: skip
    return say("Seen from the source, what is the whole circuit? Which formula then gives its "
               "{work}?", work=law.work)  # fmt: skip


PROMPTERS: dict[StrEnum, Callable[[NetworkStep, NetworkDisplay], Prose]] = {
    NetworkMove.MERGE: _merge,
    NetworkMove.DROP: _drop,
    NetworkMove.BALANCE: _balance,
    NetworkMove.JOIN: _join,
    NetworkMove.SPREAD: _spread,
    NetworkMove.STAR: _star,
    NetworkMove.TRIANGLE: _triangle,
    NetworkMove.DRIVE: _drive,
    NetworkMove.OPEN: _open,
    NetworkMove.JUNCTIONS: _junctions,
    NetworkMove.LOOPS: _loops,
    NetworkMove.BRANCHES: _branches,
    NetworkMove.ALONE: _alone,
    NetworkMove.ADD: _add,
    NetworkMove.OPEN_VOLTAGE: _open_voltage,
    NetworkMove.INNER: _inner,
    NetworkMove.LOAD: _load,
    NetworkMove.MATCH: _match,
    NetworkMove.BETWEEN: _between,
    NetworkMove.WORK: _work,
    NetworkMove.TOTAL: _total,
}
"""Who asks what before each move."""
