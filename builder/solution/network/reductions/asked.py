"""Energy or power at the end of a route, and of all steps those that what is asked needs."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from builder.circuit.network import Network
from builder.quantity.formula import Formula, Ref, Sum
from builder.quantity.names import TOTAL, Name
from builder.solution.nest.stepwise import Naming
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.program import Line, needed_for


def with_works(
    steps: Sequence[NetworkStep], network: Network, naming: Naming, asked: Collection[Name]
) -> tuple[NetworkStep, ...]:
    """All steps of a route, and those for the energy or power of each element and of the whole.

    Args:
        steps: of the route.
        network: of the problem.
        naming: of the route.
        asked: what the problem asks, resolved; it decides which formula is the shortest.
    """
    if network.source is None:
        return tuple(steps)
    core = needed_for({name for name in asked if name.quantity != naming.law.work}, steps)
    core |= {Name(network.source.quantity, network.source.name)}
    by_flow = _flows_found_first(steps, naming)
    of_elements = [element.name for element in network.elements]
    lines = tuple(
        Line(naming.work(one), _work(one, naming, core, by_flow=one in by_flow))
        for one in of_elements
    )
    each = NetworkStep(naming.law.work, NetworkMove.WORK, lines, network)
    if {naming.work(one) for one in of_elements} <= set(asked):
        whole: Formula = Sum(tuple(Ref(naming.work(one)) for one in of_elements))
    else:
        driven = network.source.quantity == naming.law.flow
        whole = _work(TOTAL, naming, core, by_flow=driven)
    line = Line(naming.work(TOTAL), whole)
    total = NetworkStep(f"{naming.law.work}-total", NetworkMove.TOTAL, (line,), network)
    return (*steps, each, total)


def _flows_found_first(steps: Iterable[NetworkStep], naming: Naming) -> set[str]:
    """The elements whose flow is found before their drop, or along with it."""
    found: dict[str, str] = {}
    for step in steps:
        for name in step.found:
            if name.quantity in (naming.law.flow, naming.law.drop):
                found.setdefault(name.of, name.quantity)
    return {of for of, quantity in found.items() if quantity == naming.law.flow}


def _work(one: str, naming: Naming, known: set[Name], *, by_flow: bool) -> Formula:
    """Energy or power by the formula that uses what is known already."""
    law = naming.law
    value, flow, drop = naming.value(one), naming.flow(one), naming.drop(one)
    if flow in known and drop in known:
        return law.work_from_flow_and_drop(Ref(flow), Ref(drop))
    if flow in known or (drop not in known and by_flow):
        return law.work_from_flow(Ref(value), Ref(flow))
    return law.work_from_drop(Ref(value), Ref(drop))


def asked_steps(steps: Sequence[NetworkStep], asked: Iterable[Name]) -> tuple[NetworkStep, ...]:
    """Of all steps, those and no more lines of them than what is asked needs.

    A move that finds nothing itself is kept where a later one on the way to the equivalent needs
    it. A junction that is joined or an element that is dropped may matter to what comes after.

    Args:
        steps: all of them.
        asked: what the problem asks, resolved.
    """
    needed = needed_for(asked, steps)
    kept: list[NetworkStep] = []
    leads_on = False
    for step in reversed(steps):
        lines = tuple(line for line in step.lines if line.name in needed)
        forward = step.kind in _FORWARD
        if lines or (forward and leads_on):
            kept.append(replace(step, lines=lines) if lines != step.lines else step)
        leads_on = leads_on or (forward and bool(lines))
    return tuple(reversed(kept))


_FORWARD = frozenset({
    NetworkMove.MERGE, NetworkMove.DROP, NetworkMove.BALANCE, NetworkMove.JOIN,
    NetworkMove.STAR, NetworkMove.TRIANGLE,
})  # fmt: skip
