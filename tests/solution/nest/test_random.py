"""Random series-parallel networks, solved four times by independent means."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from enum import StrEnum
from fractions import Fraction
from random import Random

import networkx
import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.circuit.between import find_tree
from builder.circuit.law import CAPACITORS, LAWS, PARALLEL, Law
from builder.circuit.naming import name_groups
from builder.circuit.tree import Group, groups, leaves
from builder.problem.model import NestProblem
from builder.quantity.exact import Exact, as_fraction
from builder.quantity.names import TOTAL, Name
from builder.solution.nest.checks import CheckKind, checks_of
from builder.solution.nest.solve import givens_of, solve_nest
from builder.solution.nest.step import StepKind
from builder.solution.nest.stepwise import all_steps, naming_of
from builder.solution.nodal import by_nodes
from builder.solution.program import needed_for, run
from tests.strategies import problems

WITHIN = 1e-9


def _values_given(problem: NestProblem) -> dict[Name, Exact]:
    return {name: value for name, (value, _) in givens_of(problem).items()}


def _resistance_distance(problem: NestProblem) -> float:
    """The equivalent by the pseudo-inverse of the Laplacian, as networkx computes it.

    Capacitors add as conductances do, so C_eq = 1/R_eq of the network with R = 1/C.
    """
    capacitors = problem.law is CAPACITORS
    graph = networkx.MultiGraph()
    for element in problem.network.elements:
        value = float(element.value)
        graph.add_edge(*element.between, resistance=1 / value if capacitors else value)
    found = networkx.resistance_distance(
        graph, *problem.network.terminals, weight="resistance", invert_weight=True
    )
    return 1 / float(found) if capacitors else float(found)


@pytest.mark.parametrize("law", LAWS.values(), ids=list(LAWS))
def test_two_methods_and_all_checks_agree_on_a_thousand_networks_of_each_law(law: Law) -> None:
    """Steps and nodal results are the same rationals; checks hold; the graph library agrees."""
    sizes: Counter[int] = Counter()

    @settings(max_examples=1000)
    @given(problems(laws=(law,)))
    def solved_alike(problem: NestProblem) -> None:
        sizes[len(problem.network.elements)] += 1
        values = run(all_steps(problem), _values_given(problem))
        inner = {group.id: leaves(group) for group in groups(problem.tree) if group.id != TOTAL}
        nodal = by_nodes(problem.network, law, inner)
        naming = naming_of(problem)
        assert {name.of for name in nodal} == {
            *(element.name for element in problem.network.elements),
            *(group.id for group in groups(problem.tree)),
        }
        for name, value in nodal.items():
            assert as_fraction(values[naming.resolve(name)]) == as_fraction(value), name
        for name in problem.find:
            assert naming.resolve(name) in values
        kinds: Counter[StrEnum] = Counter()
        for check in checks_of(problem, values):
            kinds[check.kind] += 1
            assert check.holds(values), check
        assert kinds[CheckKind.BOUND] == len(list(groups(problem.tree)))
        assert kinds[CheckKind.WORK] == kinds[CheckKind.EQUIVALENT] == 1
        assert kinds[CheckKind.JUNCTION] == len(problem.network.junctions) - 2
        equivalent = float(nodal[Name(law.value, TOTAL)])
        assert _resistance_distance(problem) == pytest.approx(equivalent, rel=WITHIN, abs=0)

    solved_alike()
    assert sum(sizes.values()) >= 1000
    assert min(sizes) == 2
    assert max(sizes) == 30


@settings(max_examples=100)
@given(problems())
def test_a_float_solution_of_the_laplacian_agrees(problem: NestProblem) -> None:
    """Numpy's own solution of the nodal equations gives each voltage and flow within 1e-9."""
    law, network = problem.law, problem.network
    assert network.source is not None
    row = {junction: n for n, junction in enumerate(network.junctions)}
    weights = [
        float(e.value) if law is CAPACITORS else 1 / float(e.value) for e in network.elements
    ]
    laplacian = numpy.zeros((len(row), len(row)))
    for element, weight in zip(network.elements, weights, strict=True):
        i, j = row[element.between[0]], row[element.between[1]]
        laplacian[[i, j], [i, j]] += weight
        laplacian[[i, j], [j, i]] -= weight
    plus, minus = row[network.terminals[0]], row[network.terminals[1]]
    brought = numpy.zeros(len(row))
    brought[plus] = 1.0
    kept = [n for n in range(len(row)) if n != minus]
    volts = numpy.zeros(len(row))
    volts[kept] = numpy.linalg.solve(laplacian[numpy.ix_(kept, kept)], brought[kept])
    given = float(network.source.value)
    volts *= given / volts[plus] if network.source.quantity == law.drop else given
    values = solve_nest(problem).values
    for element, weight in zip(network.elements, weights, strict=True):
        drop = volts[row[element.between[0]]] - volts[row[element.between[1]]]
        exact = float(values[Name(law.drop, element.name)])
        assert drop == pytest.approx(exact, rel=WITHIN, abs=WITHIN * volts[plus])
        flow = float(values[Name(law.flow, element.name)])
        assert weight * drop == pytest.approx(flow, rel=WITHIN, abs=WITHIN * weight * volts[plus])


@settings(max_examples=100)
@given(problems(most=12), st.randoms(use_true_random=False))
def test_a_flat_list_of_branches_is_solved_the_same_way(
    problem: NestProblem, chance: Random
) -> None:
    """The tree found from shuffled branches gives the same value of every element."""
    flat = {element.name: element.between for element in problem.network.elements}
    names = sorted(flat)
    chance.shuffle(names)
    found = name_groups(
        find_tree({name: flat[name] for name in names}, problem.network.terminals),
        problem.law.letter,
    )
    again, nested = solve_nest(replace(problem, tree=found)), solve_nest(problem)
    for name in problem.find:
        assert again.value(name) == nested.value(name)


@settings(max_examples=150)
@given(problems(most=12), st.data())
def test_the_steps_hold_what_is_asked_and_no_more(
    problem: NestProblem, data: st.DataObject
) -> None:
    """Whatever is asked, every line is needed, no less will do, and the values are the same."""
    asked = data.draw(st.lists(st.sampled_from(problem.find), min_size=1, max_size=4, unique=True))
    sliced = replace(problem, find=tuple(asked))
    solution = solve_nest(sliced)
    naming = naming_of(sliced)
    wanted = {naming.resolve(name) for name in asked}
    values = run(solution.steps, _values_given(sliced))
    lines = [line.name for step in solution.steps for line in step.lines]
    assert wanted <= set(values)
    assert len(set(lines)) == len(lines)
    assert set(lines) <= needed_for(wanted, solution.steps)
    everything = solve_nest(problem).values
    assert all(values[name] == everything[name] for name in lines)


@settings(max_examples=150)
@given(problems(most=12), st.data())
def test_each_step_shows_the_circuit_after_it(problem: NestProblem, data: st.DataObject) -> None:
    """A merge leaves one element for its group, an opening brings its members back."""
    asked = data.draw(st.lists(st.sampled_from(problem.find), min_size=1, max_size=4, unique=True))
    solution = solve_nest(replace(problem, find=tuple(asked)))
    assert len({step.id for step in solution.steps}) == len(solution.steps)
    for step in solution.steps:
        shown = set(leaves(step.circuit))
        assert set(step.marked) <= shown
        if step.kind is StepKind.MERGE:
            assert step.group is not None
            assert step.marked == (step.group.id,)
        if step.kind is StepKind.OPEN:
            assert step.group is not None
            assert step.marked
            assert set(step.marked) <= {part.id for part in step.group.parts}
            assert step.group.id not in shown
        if step.kind is StepKind.DRIVE:
            assert step.marked == tuple(leaves(step.circuit)) == (problem.tree.id,)


@settings(max_examples=100)
@given(problems())
def test_the_equivalent_lies_beyond_its_members(problem: NestProblem) -> None:
    """Each group's equivalent is larger than all members where values add, else smaller."""
    solution = solve_nest(problem)
    law = problem.law
    for group in groups(problem.tree):
        assert isinstance(group, Group)
        members = [as_fraction(solution.values[Name(law.value, p.id)]) for p in group.parts]
        whole = as_fraction(solution.values[Name(law.value, group.id)])
        adds = (group.connection == PARALLEL) == (law is CAPACITORS)
        assert whole == sum(members) if adds else whole == 1 / sum(1 / m for m in members)
        assert whole > max(members) if adds else whole < min(members)
        assert isinstance(whole, Fraction)
