"""The plan of a solution in a line or two."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from enum import StrEnum

from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import Prose, Written, capitalised, number_word, say, sentences
from builder.lesson.vocabulary import vocabulary
from builder.solution.network.step import NetworkMove, NetworkStep


def plan(display: NetworkDisplay) -> Prose:
    """What will be done, in order, before any detail; the author's own plan if there is one."""
    problem = display.solution.problem
    if problem.plan:
        return (Written(problem.plan),)
    steps = display.solution.steps
    if not steps:
        return say("What is asked is given already.")
    kinds = {step.kind for step in steps}
    for kind, tell in _BY_EQUATIONS:
        if kind in kinds:
            return sentences(tell(display), *_endings(display))
    return sentences(_reducing(steps, display), *_endings(display))


def _by_junctions(display: NetworkDisplay) -> Prose:
    step = _first(NetworkMove.JUNCTIONS, display)
    flow = display.law.flow
    if len(step.statements) == 1:
        return say("Write down how the {flow}s balance at the junction whose potential is unknown, "
                   "and solve for that potential. Every {flow} then follows from it.",
                   flow=flow)  # fmt: skip
    return say("Write down how the {flow}s balance at each junction whose potential is unknown, "
               "and solve these equations together. Every {flow} then follows from the "
               "potentials.", flow=flow)  # fmt: skip


def _by_loops(display: NetworkDisplay) -> Prose:
    loops = len(_first(NetworkMove.LOOPS, display).loops)
    if loops == 1:
        return say("Go once round the loop, add up its voltages, and solve for the {flow}.",
                   flow=display.law.flow)  # fmt: skip
    return say("Give each of the {count} loops a {flow} of its own, add up the voltages round each "
               "of them, and solve the equations together.", count=number_word(loops),
               flow=display.law.flow)  # fmt: skip


def _by_superposition(display: NetworkDisplay) -> Prose:
    count = len(display.network.sources)
    others = "the other is" if count == 2 else "the others are"
    return say("Let each of the {count} sources act alone while {others} turned off, then add up "
               "what they do.", count=number_word(count), others=others)  # fmt: skip


def _by_equivalent_source(display: NetworkDisplay) -> Prose:
    kinds = {step.kind for step in display.solution.steps}
    start = say("Seen from the two points, everything is one source with one resistance: find its "
                "open voltage, then its inner resistance.")  # fmt: skip
    if NetworkMove.LOAD in kinds:
        start = sentences(start, say("Then connect the load to it."))
    if NetworkMove.MATCH in kinds:
        start = sentences(start, say("Last, choose the load that takes the most power."))
    return start


def _first(kind: NetworkMove, display: NetworkDisplay) -> NetworkStep:
    return next(step for step in display.solution.steps if step.kind is kind)


_BY_EQUATIONS: tuple[tuple[NetworkMove, Callable[[NetworkDisplay], Prose]], ...] = (
    (NetworkMove.ALONE, _by_superposition),
    (NetworkMove.OPEN_VOLTAGE, _by_equivalent_source),
    (NetworkMove.INNER, _by_equivalent_source),
    (NetworkMove.JUNCTIONS, _by_junctions),
    (NetworkMove.LOOPS, _by_loops),
)
"""The first of these moves that occurs tells the method."""


def _reducing(steps: tuple[NetworkStep, ...], display: NetworkDisplay) -> Prose:
    """Each kind of move once, in the order in which it is first made."""
    kinds = list(dict.fromkeys(step.kind for step in steps))
    told = [_MOVES[kind](display) for kind in kinds if kind in _MOVES]
    if NetworkMove.DRIVE in kinds:
        (source,) = display.network.sources
        voc = vocabulary(display.law)
        its = voc.flow if source.quantity == display.law.drop else "voltage"
        told.append(say("find the {its} of the whole", its=its))
    if NetworkMove.OPEN in kinds:
        told.append(say("walk back to the single elements"))
    return say("{moves}.", moves=capitalised(_in_order(told))) if told else ()


def _in_order(told: list[Prose]) -> Prose:
    if len(told) == 1:
        return told[0]
    row: Prose = told[0]
    for part in told[1:-1]:
        row = say("{row}, {part}", row=row, part=part)
    return say("{row}, then {last}", row=row, last=told[-1])


_MOVES: dict[StrEnum, Callable[[NetworkDisplay], Prose]] = {
    NetworkMove.BALANCE: lambda display: say("use that the bridge is balanced"),
    NetworkMove.JOIN: lambda display: say("join the junctions that are alike by symmetry"),
    NetworkMove.SPREAD: lambda display: say(
        "let the {flow} spread evenly by symmetry", flow=display.law.flow
    ),
    NetworkMove.STAR: lambda display: say("turn a triangle into a star"),
    NetworkMove.TRIANGLE: lambda display: say("turn a star into a triangle"),
    NetworkMove.DROP: lambda display: say("take out what carries nothing"),
    NetworkMove.MERGE: lambda display: say("merge until one {one} is left", one=display.one),
}


def _endings(display: NetworkDisplay) -> Iterator[Prose]:
    found = {name.quantity for step in display.solution.steps for name in step.found}
    if display.law.work in found and not any(
        step.kind is NetworkMove.MATCH for step in display.solution.steps
    ):
        yield say("The {work} comes last.", work=display.law.work)
