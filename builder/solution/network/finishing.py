"""What is asked beside flows and drops: work, totals, voltages between points, potentials."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace

from builder.circuit.law import Law
from builder.problem.model import NetworkProblem
from builder.problem.network.asking import between_points
from builder.quantity.formula import Formula, Product, Quotient, Ref
from builder.quantity.names import TOTAL, Name
from builder.solution.network.junctions import POTENTIAL, potential
from builder.solution.network.methods import Steps, Task
from builder.solution.network.reductions.leading import leading_moves
from builder.solution.network.spreading import way_round
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.network.terms import Term, total, turned
from builder.solution.program import Line, needed_for


def finishing_steps(problem: NetworkProblem, task: Task, steps: Steps) -> Steps:
    """The steps after all flows and drops are known.

    Args:
        problem: tells what is asked.
        task: its network.
        steps: that find every flow and drop.
    """
    known = {line.name for step in steps for line in step.lines}
    return (
        *_between(problem, task, known),
        *_equivalent(problem, known),
        *_works(problem),
    )


def _between(problem: NetworkProblem, task: Task, known: Collection[Name]) -> Iterator[NetworkStep]:
    lines: list[Line] = []
    for name in dict.fromkeys(problem.find):
        points = between_points(name)
        if points is not None:
            way = _potential_terms(*points, known, task.ground)
            way = way or way_round(problem.network, problem.law, *points)
        elif name.quantity == POTENTIAL and name not in known:
            same = name.of == task.ground
            way = () if same else way_round(problem.network, problem.law, name.of, task.ground)
        else:
            continue
        lines.append(Line(name, total(way)))
    if lines:
        yield NetworkStep("between", NetworkMove.BETWEEN, tuple(lines), problem.network,
                          reference=task.ground)  # fmt: skip


def _potential_terms(
    start: str, end: str, known: Collection[Name], ground: str
) -> tuple[Term, ...]:
    """The difference of two potentials, if they are known."""
    ends: list[tuple[Term, ...]] = []
    for junction in (start, end):
        if junction != ground and potential(junction) not in known:
            return ()
        ends.append(() if junction == ground else ((True, Ref(potential(junction))),))
    return (*ends[0], *turned(ends[1]))


def _equivalent(problem: NetworkProblem, known: Collection[Name]) -> Iterator[NetworkStep]:
    """What the only source sees, where no reduction has found it."""
    law, network = problem.law, problem.network
    name = Name(law.value, TOTAL)
    if name in known or len(network.sources) != 1:
        return
    source = network.sources[0].name
    flow, drop = Ref(Name(law.flow, source)), Ref(Name(law.drop, source))
    formula = Quotient(flow, drop) if law.work == "energy" else Quotient(drop, flow)
    yield NetworkStep(f"{law.value}-total", NetworkMove.TOTAL, (Line(name, formula),), network)


def _works(problem: NetworkProblem) -> Iterator[NetworkStep]:
    network, law = problem.network, problem.law
    if not network.sources:
        return
    works = [
        Line(
            Name(law.work, element.name),
            law.work_from_flow_and_drop(
                Ref(Name(law.flow, element.name)), Ref(Name(law.drop, element.name))
            ),
        )
        for element in network.elements
    ]
    yield NetworkStep(law.work, NetworkMove.WORK, tuple(works), network)
    whole = Line(Name(law.work, TOTAL), _whole_work(problem, works))
    yield NetworkStep(f"{law.work}-total", NetworkMove.TOTAL, (whole,), network)
    delivered = [
        Line(Name(law.work, source.name), _delivered(source.name, law))
        for source in network.sources
    ]
    yield NetworkStep(f"{law.work}-delivered", NetworkMove.WORK, tuple(delivered), network)


def _whole_work(problem: NetworkProblem, works: list[Line]) -> Formula:
    """The sum of what all elements take, or, if these are not asked for, what goes in."""
    network, law = problem.network, problem.law
    if len(network.sources) == 1 and not {line.name for line in works} <= {*problem.find}:
        source = network.sources[0].name
        return law.work_from_flow_and_drop(Ref(Name(law.flow, source)), Ref(Name(law.drop, source)))
    return total([(True, Ref(line.name)) for line in works])


def _delivered(source: str, law: Law) -> Formula:
    return Product((Ref(Name(law.drop, source)), Ref(Name(law.flow, source))))


_WHOLE = frozenset({NetworkMove.JUNCTIONS, NetworkMove.LOOPS, NetworkMove.DRIVE, NetworkMove.MERGE})
"""Moves of which no line is left out: they are one thought."""


def _with_only(step: NetworkStep, lines: tuple[Line, ...]) -> NetworkStep:
    """A step without its other lines; a walk back marks only what it still finds something for."""
    if step.kind is not NetworkMove.OPEN:
        return replace(step, lines=lines)
    found = {line.name.of for line in lines}
    return replace(step, lines=lines, marked=tuple(one for one in step.marked if one in found))


def asked_steps(find: Collection[Name], steps: Steps) -> Steps:
    """The steps that what is asked needs, and of the others than equations only such lines."""
    needed = needed_for(find, steps)
    leading = leading_moves(steps, needed)
    kept: list[NetworkStep] = []
    for step in steps:
        lines = tuple(line for line in step.lines if line.name in needed)
        if step.id in leading:
            kept.append(step)
        elif lines:
            kept.append(step if step.kind in _WHOLE else _with_only(step, lines))
        elif step.kind is NetworkMove.ALONE:
            kept.append(step)
    if any(step.kind is NetworkMove.ADD for step in kept):
        return tuple(kept)
    return tuple(step for step in kept if step.kind is not NetworkMove.ALONE)
