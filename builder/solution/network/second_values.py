"""What the independent second method says of a problem."""

from __future__ import annotations

from dataclasses import replace

from sympy import Integer

from builder.circuit.law import Law
from builder.circuit.network import Network, Source
from builder.problem.model import NetworkProblem
from builder.problem.network.asking import (
    GREATEST,
    INNER,
    MATCHED,
    OPEN,
    POTENTIAL,
    between_points,
)
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown
from builder.solution.network.ground import ground_of
from builder.solution.network.second import analyse, by_analysis

_ONE_VOLT = Shown("1", "V", exact=True)


def second_values(problem: NetworkProblem) -> dict[Name, Exact]:
    """Every quantity of a problem that analysis of the raw network yields, in SI units.

    Args:
        problem: its equivalent is found where it has one source at most, and the quantities of
            an equivalent source where two points are told.
    """
    network, law = problem.network, problem.law
    found: dict[Name, Exact] = {}
    if network.sources:
        found |= by_analysis(network, law)
        found |= _of_junctions(problem)
    if problem.method == "equivalent-source" and problem.points is not None:
        found |= _of_equivalent_source(problem, problem.points)
    elif len(network.sources) <= 1:
        points = network.sources[0].between if network.sources else network.terminals
        found[Name(law.value, TOTAL)] = seen_from(replace(network, sources=()), law, points)
    return found


def _of_junctions(problem: NetworkProblem) -> dict[Name, Exact]:
    """Potentials, and voltages between two junctions, as far as they are asked for."""
    if not any(name.quantity == POTENTIAL or between_points(name) for name in problem.find):
        return {}
    potentials, _ = analyse(problem.network, problem.law)
    ground = ground_of(problem.network, problem.reference)
    found: dict[Name, Exact] = {}
    for name in problem.find:
        points = between_points(name)
        if points is not None:
            found[name] = potentials[points[0]] - potentials[points[1]]
        elif name.quantity == POTENTIAL:
            found[name] = potentials[name.of] - potentials[ground]
    return found


def _of_equivalent_source(problem: NetworkProblem, points: tuple[str, str]) -> dict[Name, Exact]:
    network, law = problem.network, problem.law
    rest = tuple(element for element in network.elements if element.name != problem.load)
    open_network = replace(network, elements=rest, terminals=points)
    potentials, _ = analyse(open_network, law)
    volts = potentials[points[0]] - potentials[points[1]]
    inner = seen_from(open_network, law, points)
    found = {Name(law.drop, OPEN): volts}
    if law.work == "power" or inner != 0:
        found[Name(law.value, INNER)] = inner
    if law.work == "power" and inner != 0:
        found[Name(law.value, MATCHED)] = inner
        # Half the open voltage is left for a load that equals what is inside.
        found[Name(law.work, GREATEST)] = (volts / 2) ** 2 / inner
    return found


def seen_from(network: Network, law: Law, points: tuple[str, str]) -> Exact:
    """The value of the one element that two points see with all sources off.

    Args:
        network: its voltage sources count as wires, its current sources as gaps.
        law: of its elements.
        points: between which 1 V is put.

    Returns:
        In SI units; 0 where wires join the points.

    Raises:
        ZeroDivisionError: if nothing joins the points.
    """
    at = {junction: junction for junction in network.junctions}
    for source in network.sources:
        if source.quantity == law.drop:
            keep, gone = (at[end] for end in source.between)
            at = {junction: keep if now == gone else now for junction, now in at.items()}
    plus, minus = (at[point] for point in points)
    if plus == minus:
        return Integer(0)
    moved = [
        replace(element, between=(at[element.between[0]], at[element.between[1]]))
        for element in network.elements
    ]
    reached = {minus}
    while True:
        more = {end for e in moved if reached & set(e.between) for end in e.between}
        if more <= reached:
            break
        reached |= more
    elements = tuple(e for e in moved if e.between[0] in reached and e.between[0] != e.between[1])
    test = Source("1 V", law.drop, Integer(1), _ONE_VOLT, (plus, minus))
    _, flows = analyse(Network(elements, (plus, minus), (test,)), law)
    if flows[test.name] == 0:
        raise ZeroDivisionError("nothing joins the two points")
    # A weight is a capacitance, or one over a resistance: the law's own step takes it back.
    return law.weight(flows[test.name])
