"""A thousand random networks: every method gives the same rationals, and they are right."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import networkx
import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.circuit.law import RESISTORS, Law
from builder.circuit.network import Network
from builder.errors import FaultyFile
from builder.problem import read_problem_text
from builder.problem.model import NetworkProblem
from builder.quantity.exact import as_fraction
from builder.quantity.names import Name
from builder.solution.network.methods import unknown_potentials
from builder.solution.network.solve import NetworkSolution, solve_network, task_of
from tests.solution.network.drawn import MOST_JUNCTIONS, tables

NETWORKS = 1000


def problem_of(law: Law, rows: str) -> NetworkProblem:
    """A problem that asks for everything."""
    text = (
        f"title: A random network\ncircuit:\n  reference: j0\n  branches:\n{rows}\n"
        f"find: [{law.flow}, {law.drop}, {law.work}, '{law.work}: total', 'potential: j1']\n"
    )
    problem = read_problem_text(text, "random.yml")
    assert isinstance(problem, NetworkProblem)
    return problem


def by_all_methods(problem: NetworkProblem) -> dict[str, NetworkSolution]:
    """The solutions by all methods that fit; of several sources the usual one is among them."""
    methods = ["loops"]
    if unknown_potentials(task_of(problem)):
        methods.append("junctions")
    if len(problem.network.sources) > 1:
        methods.append("superposition")
    solutions = {name: solve_network(replace(problem, method=name)) for name in methods}
    if len(problem.network.sources) == 1:
        solutions["usual"] = solve_network(problem)
    return solutions


def value(solution: NetworkSolution, quantity: str, of: str) -> Fraction:
    """A value that must be rational."""
    return as_fraction(solution.value(Name(quantity, of)))


@settings(
    max_examples=NETWORKS,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(tables(), st.randoms(use_true_random=False))
def test_every_method_gives_the_same_rationals_and_keeps_charge_and_energy(
    table: tuple[Law, str], chance: object
) -> None:
    """Junctions, loops, superposition, an equivalent source and the usual way all agree.

    Flows balance at every junction and works add up, both computed here again; numpy gives the
    same potentials within 1e-9.
    """
    law, rows = table
    problem = problem_of(law, rows)
    network = problem.network
    assert len(network.junctions) <= MOST_JUNCTIONS
    solutions = by_all_methods(problem)
    first, *others = solutions.values()
    names = [Name(q, e.name) for q in law.quantities for e in network.elements]
    names += [Name(q, s.name) for q in (law.flow, law.drop, law.work) for s in network.sources]
    for solution in others:
        assert all(solution.value(name) == first.value(name) for name in names)
    _keeps_charge_and_energy(first)
    _agrees_with_numpy(first)
    load = chance.choice([element.name for element in network.elements])  # type: ignore[attr-defined]
    _is_what_an_equivalent_source_drives(problem, load, first)


def _keeps_charge_and_energy(solution: NetworkSolution) -> None:
    law, network = solution.problem.law, solution.problem.network
    for junction in network.junctions:
        away = sum(
            (value(solution, law.flow, e.name) * _leaves(e.between, junction))
            for e in network.elements
        )
        brought = sum(
            (value(solution, law.flow, s.name) * _leaves(s.between, junction))
            for s in network.sources
        )
        assert away == brought
    taken = sum(value(solution, law.work, e.name) for e in network.elements)
    delivered = sum(value(solution, law.work, s.name) for s in network.sources)
    assert taken == (delivered if law is RESISTORS else delivered / 2)
    # Sources that cancel leave nothing to drive anything.
    assert taken > 0 or not any(value(solution, law.drop, e.name) for e in network.elements)
    assert taken >= 0


def _leaves(between: tuple[str, str], junction: str) -> int:
    return (between[0] == junction) - (between[1] == junction)


def _agrees_with_numpy(solution: NetworkSolution) -> None:
    """Floating-point analysis of the same network, its matrix built here."""
    law, network = solution.problem.law, solution.problem.network
    exact = {s.name: float(value(solution, law.flow, s.name)) for s in network.sources}
    exact |= {e.name: float(value(solution, law.drop, e.name)) for e in network.elements}
    floats = _by_numpy(network, law)
    size = max(map(abs, floats.values()))
    drops = max(abs(floats[e.name]) for e in network.elements)
    given = max(float(source.value) for source in network.sources)
    for name, number in floats.items():
        scale = drops if name in {e.name for e in network.elements} else size
        assert abs(number - exact[name]) <= 1e-9 * (scale if scale > 1e-12 * given else given)


def _by_numpy(network: Network, law: Law) -> dict[str, float]:
    """The drop of each element and the flow of each voltage source."""
    at = {junction: row for row, junction in enumerate(network.junctions)}
    volts = [source for source in network.sources if source.quantity == law.drop]
    weights = {e.name: float(law.weight(e.value)) for e in network.elements}
    unit = float(np.median(list(weights.values())))
    size = len(at) + len(volts)
    matrix, right = np.zeros((size, size)), np.zeros(size)
    for e in network.elements:
        here, there = at[e.between[0]], at[e.between[1]]
        matrix[[here, there], [here, there]] += weights[e.name] / unit
        matrix[[here, there], [there, here]] -= weights[e.name] / unit
    for source in network.sources:
        plus, minus = at[source.between[0]], at[source.between[1]]
        if source.quantity != law.drop:
            right[plus] += float(source.value) / unit
            right[minus] -= float(source.value) / unit
    for row, source in enumerate(volts, start=len(at)):
        plus, minus = at[source.between[0]], at[source.between[1]]
        matrix[[plus, minus], row] = -1, 1
        matrix[row, [plus, minus]] = 1, -1
        right[row] = float(source.value)
    kept = np.arange(size) != at[network.terminals[1]]
    solved = np.zeros(size)
    solved[kept] = np.linalg.solve(matrix[np.ix_(kept, kept)], right[kept])
    found = {
        e.name: float(solved[at[e.between[0]]] - solved[at[e.between[1]]]) for e in network.elements
    }
    return found | {
        source.name: float(solved[row]) * unit for row, source in enumerate(volts, start=len(at))
    }


def _is_what_an_equivalent_source_drives(
    problem: NetworkProblem, load: str, usual: NetworkSolution
) -> None:
    """The load meets the equivalent of everything else as it meets the network itself."""
    points = problem.network.element(load).between
    asked = replace(problem, method="equivalent-source", load=load, points=points)
    if not _joined_without(problem, load):
        with pytest.raises(FaultyFile, match="hangs on current sources alone"):
            solve_network(asked)
        return
    solution = solve_network(asked)
    flow = Name(problem.law.flow, load)
    assert solution.value(flow) == usual.value(flow)


def _joined_without(problem: NetworkProblem, load: str) -> bool:
    """Whether the open voltage exists: no part hangs on current sources alone."""
    graph = networkx.Graph()
    graph.add_nodes_from(problem.network.junctions)
    graph.add_edges_from(e.between for e in problem.network.elements if e.name != load)
    volts = (s for s in problem.network.sources if s.quantity == problem.law.drop)
    graph.add_edges_from(source.between for source in volts)
    return bool(networkx.is_connected(graph))


def test_junction_equations_are_refused_where_no_potential_is_unknown() -> None:
    """A network whose sources give every potential has no junction equation."""
    rows = (
        "    E1: {emf: 9 V, between: [j0, j1]}\n    E2: {emf: 6 V, between: [j2, j1]}\n"
        "    R1: {resistance: 3 ohm, between: [j0, j2]}\n"
        "    R2: {resistance: 3 ohm, between: [j0, j1]}\n"
        "    R3: {resistance: 3 ohm, between: [j2, j1]}"
    )
    problem = replace(problem_of(RESISTORS, rows), method="junctions", method_at=(3, 11))
    with pytest.raises(FaultyFile) as caught:
        solve_network(problem)
    assert str(caught.value) == (
        "random.yml:3:11: found method: junctions, which does not lead to the end here; expected "
        "a method that fits, such as loops or superposition. Its sources give every potential "
        "already, or there is but one loop. Leave the method out to have the shortest way taken."
    )
