"""The equivalent of everything seen from two points: one source and one element in series.

Source: University Physics Volume 2 (OpenStax), section 10.1, for the matching load (R = r); the
equivalent itself is common practice of the trade.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sympy import Integer

from builder.circuit.law import SERIES, Law
from builder.circuit.network import Network, Source
from builder.problem.network.asking import GREATEST, INNER, MATCHED, OPEN
from builder.quantity.formula import (
    Amount,
    Formula,
    Num,
    Product,
    Quotient,
    Ref,
    Square,
)
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown
from builder.solution.network.methods import (
    Steps,
    Task,
    by_junctions,
    by_loops,
    by_reduction,
    given_names,
    usual,
)
from builder.solution.network.parts import without_load, without_sources
from builder.solution.network.renaming import as_part, share, substituted, with_refs
from builder.solution.network.spreading import way_round
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.network.terms import ZERO, total
from builder.solution.program import Line

TEST = "test"
"""The source of 1 V that measures what no reduction finds."""


def by_equivalent_source(task: Task, points: tuple[str, str], load: str | None) -> Steps | None:
    """The open voltage, what is seen with the sources off, the load, and the best load.

    Args:
        task: connected also without the load.
        points: the two points; of a load its junctions, the first first.
        load: the element that is taken out and meets the equivalent, or None.

    Returns:
        None if parts of the network without its load hang on current sources alone.
    """
    if not holds_without(task.network, task.law, load):
        return None
    steps = [*_opened(task, points, load), *_looked_in(task, points, load)]
    if load is not None:
        steps.append(_loaded(task, load, soft=_is_soft(steps)))
    if task.law.work == "power" and _is_soft(steps):
        steps.append(_matched(task))
    return tuple(steps)


def holds_without(network: Network, law: Law, load: str | None) -> bool:
    """Whether elements and voltage sources alone join everything, a load left out."""
    pairs = [element.between for element in network.elements if element.name != load]
    pairs += [source.between for source in network.sources if source.quantity == law.drop]
    reached = {network.terminals[0]}
    while True:
        more = {end for pair in pairs if reached & set(pair) for end in pair} | reached
        if more == reached:
            return reached == set(network.junctions)
        reached = more


def _is_soft(steps: list[NetworkStep]) -> bool:
    """Whether the equivalent source has something inside, so that its voltage gives way."""
    return any(line.name.of == INNER and line.formula != ZERO
               for step in steps for line in step.lines)  # fmt: skip


def _opened(task: Task, points: tuple[str, str], load: str | None) -> Iterator[NetworkStep]:
    law, network = task.law, task.network
    part = without_load(network, load)
    if part.network is not None:
        small = Task(part.network, law, reference=_if_there(task.reference, part.network))
        given = {Name(*name) for name in given_names(part.network, law)}
        yield from as_part(usual(small)[0], OPEN, "opened", given)
    elements = tuple(element for element in network.elements if element.name != load)
    open_network = Network(elements, points, network.sources)
    volts = {Name(law.drop, source.name) for source in network.sources
             if source.quantity == law.drop}  # fmt: skip
    idle = {Name(law.drop, name) for name in part.idle}
    swapped: dict[Name, Formula] = {
        Name(law.drop, part_name): Ref(share(Name(law.drop, part_name), OPEN))
        for part_name in (element.name for element in elements)
    }
    way = tuple(
        (added, formula if formula.name in volts else with_refs(formula, swapped))
        for added, formula in way_round(open_network, law, *points)
        if isinstance(formula, Ref) and formula.name not in idle
    )
    yield NetworkStep(
        "open-voltage",
        NetworkMove.OPEN_VOLTAGE,
        (Line(Name(law.drop, OPEN), total(way)),),
        open_network,
        before=network,
        members=(load,) if load else (),
        telling={"points": ",".join(points)},
    )


def _if_there(reference: str | None, network: Network) -> str | None:
    return reference if reference in network.junctions else None


def _looked_in(task: Task, points: tuple[str, str], load: str | None) -> Iterator[NetworkStep]:
    law, network = task.law, task.network
    part = without_sources(network, law, points, load)
    whole: Formula = ZERO
    if part.network is not None:
        given = {Name(*name) for name in given_names(part.network, law)}
        steps = equivalent_steps(Task(part.network, law))
        yield from as_part(steps, INNER, "off", given)
        whole = Ref(share(Name(law.value, TOTAL), INNER))
    elif law.work == "energy":
        return  # sources alone hold the voltage: the capacitance inside has no bound
    yield NetworkStep(
        f"inner-{law.value}",
        NetworkMove.INNER,
        (Line(Name(law.value, INNER), whole),),
        part.network or network,
        before=network,
        dropped=part.idle,
        joined=part.joined,
        telling={"points": ",".join(points)},
    )


def equivalent_steps(task: Task) -> Steps:
    """The steps to the equivalent of a network without a source, seen from its terminals."""
    reduced = by_reduction(task)
    if reduced is not None:
        if any(line.name == Name(task.law.value, TOTAL) for s in reduced for line in s.lines):
            return reduced
        (only,) = task.network.elements
        line = Line(Name(task.law.value, TOTAL), Ref(Name(task.law.value, only.name)))
        return (*reduced, _total_step(task, line))
    return _by_test(task)


def _total_step(task: Task, line: Line) -> NetworkStep:
    id = f"{task.law.value}-total"
    return NetworkStep(id, NetworkMove.TOTAL, (line,), task.network)


def _by_test(task: Task) -> Steps:
    """The equivalent as what lets 1 V drive a certain flow."""
    law = task.law
    one = Shown("1", "V", exact=True)
    source = Source(TEST, law.drop, Integer(1), one, task.network.terminals)
    driven = Network(task.network.elements, task.network.terminals, (source,))
    small = Task(driven, law, reference=task.network.terminals[1])
    volt: dict[Name, Formula] = {Name(law.drop, TEST): Amount(Integer(1), law.drop)}
    solved = by_junctions(small) or by_loops(small)
    renamed = [substituted(step, volt) for step in solved]
    flow, drop = Ref(Name(law.flow, TEST)), Amount(Integer(1), law.drop)
    value = Quotient(flow, drop) if law.work == "energy" else Quotient(drop, flow)
    return (*renamed, _total_step(task, Line(Name(law.value, TOTAL), value)))


def _loaded(task: Task, load: str, *, soft: bool) -> NetworkStep:
    law = task.law
    inner, own = Ref(Name(law.value, INNER)), Ref(Name(law.value, load))
    open_drop = Ref(Name(law.drop, OPEN))
    flow, drop = Name(law.flow, load), Name(law.drop, load)
    if soft:
        chain = law.merged(SERIES, (inner, own))
        lines = (
            Line(flow, law.flow_from(chain, open_drop)),
            Line(drop, law.drop_from(own, Ref(flow))),
        )
    else:
        lines = (Line(drop, open_drop), Line(flow, law.flow_from(own, Ref(drop))))
    return NetworkStep(
        f"load-{load}", NetworkMove.LOAD, lines, task.network, marked=(load,), members=(load,)
    )


def _matched(task: Task) -> NetworkStep:
    law = task.law
    inner, drop = Name(law.value, INNER), Name(law.drop, OPEN)
    four = Product((Num(Fraction(4)), Ref(inner)))
    lines = (
        Line(Name(law.value, MATCHED), Ref(inner)),
        Line(Name(law.work, GREATEST), Quotient(Square(Ref(drop)), four)),
    )
    return NetworkStep("match", NetworkMove.MATCH, lines, task.network)
