"""Superposition: each source alone, the others replaced by a wire or a gap, then all added.

Source of the principle: the equations are linear; University Physics Volume 2 (OpenStax),
section 10.3 uses the rules from which it follows.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.circuit.network import Source
from builder.quantity.formula import Formula, Ref
from builder.quantity.names import Name
from builder.solution.network.chains import Branches
from builder.solution.network.methods import Steps, Task, given_names, usual
from builder.solution.network.parts import Part, turned_off
from builder.solution.network.renaming import as_part, share
from builder.solution.network.spreading import Spreading
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.network.terms import ZERO, Term, total
from builder.solution.program import Line


def by_superposition(task: Task) -> Steps:
    """All steps of superposition."""
    parts = {
        source.name: turned_off(task.network, task.law, source.name)
        for source in task.network.sources
    }
    steps: list[NetworkStep] = []
    for source in task.network.sources:
        steps += _alone(task, source, parts[source.name])
    return (*steps, _added(task, parts))


def _alone(task: Task, source: Source, part: Part) -> Iterator[NetworkStep]:
    law = task.law
    zeros = [
        Line(share(Name(quantity, element), source.name), ZERO)
        for element in part.idle
        for quantity in (law.drop, law.flow)
    ]
    yield NetworkStep(
        f"alone-{source.name}",
        NetworkMove.ALONE,
        tuple(zeros),
        part.network or task.network,
        before=task.network,
        members=(source.name,),
        dropped=part.idle,
        joined=part.joined,
        telling={"acting": source.name},
    )
    if part.network is None:
        return
    small = Task(part.network, law)
    inner = usual(small)[0]
    given = {Name(*name) for name in given_names(part.network, law)}
    yield from as_part(inner, source.name, source.name, given)


def _added(task: Task, parts: dict[str, Part]) -> NetworkStep:
    law = task.law
    branches: Branches = task.branches
    spread = Spreading(branches)
    for element in task.network.elements:
        terms: list[Term] = [
            (True, Ref(share(Name(law.flow, element.name), source)))
            for source, part in parts.items()
            if element.name not in part.idle
        ]
        spread.lines.append(Line(spread.flow(element.name), total(terms)))
    for element in task.network.elements:
        flow: Formula = Ref(spread.flow(element.name))
        value = Ref(Name(law.value, element.name))
        spread.lines.append(Line(spread.drop(element.name), law.drop_from(value, flow)))
    spread.sources_in_chains()
    spread.by_balance()
    spread.of_current_sources()
    return NetworkStep(
        "add",
        NetworkMove.ADD,
        tuple(spread.lines),
        task.network,
        marked=tuple(element.name for element in task.network.elements),
        telling={"parts": ",".join(parts)},
    )
