"""Random circuits in stages, solved three times by independent means."""

from __future__ import annotations

from collections import Counter

import numpy
import pytest

from builder.circuit.network import Element, Source
from builder.circuit.switching import (
    Switch,
    junctions_of,
    moment,
    wire_up,
)
from builder.problem.model import StagesProblem
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.solution.stages.checks import StagesCheck
from builder.solution.stages.solve import StagesSolution
from builder.solution.stages.story import closed_switches
from tests.solution.stages.building import solved
from tests.solution.stages.drawing import random_problems

NETWORKS = 250


def _least_energy(
    problem: StagesProblem, closed: frozenset[str], before: dict[str, float]
) -> dict[str, float]:
    """The charges at which stored minus delivered energy is least, by numpy.

    Unknown are the charges that move through each capacitor, battery and closed switch; at
    each junction they add up to nothing. The conditions of Lagrange are one linear system.
    """
    network = problem.network
    links: list[Element | Source | Switch] = [
        *network.elements, *network.sources,
        *(s for s in problem.switches if s.name in closed),
    ]  # fmt: skip
    junctions = junctions_of(network, problem.switches)
    kirchhoff = numpy.zeros((len(junctions), len(links)))
    for column, link in enumerate(links):
        kirchhoff[junctions.index(link.between[0]), column] += 1
        kirchhoff[junctions.index(link.between[1]), column] -= 1
    scale = 1e-6
    stiffness, pull = numpy.zeros((len(links), len(links))), numpy.zeros(len(links))
    for column, link in enumerate(links):
        if isinstance(link, Element):
            stiffness[column, column] = scale / float(link.value)
            pull[column] = -before[link.name] / float(link.value)
        elif isinstance(link, Source):
            pull[column] = -float(link.value)
    size = len(links)
    matrix = numpy.zeros((size + len(junctions), size + len(junctions)))
    matrix[:size, :size] = stiffness
    matrix[:size, size:] = kirchhoff.T
    matrix[size:, :size] = kirchhoff
    right = numpy.concatenate([pull, numpy.zeros(len(junctions))])
    moved = numpy.linalg.lstsq(matrix, right, rcond=None)[0] * scale
    return {e.name: before[e.name] + moved[column] for column, e in enumerate(network.elements)}


def _charges(solution: StagesSolution, stage: int) -> dict[str, Exact]:
    names = [element.name for element in solution.problem.network.elements]
    return {name: solution.value(Name("charge", moment(name, stage))) for name in names}


@pytest.fixture(scope="module")
def solutions() -> list[StagesSolution]:
    """Random problems, each solved by both methods and checked (or it would have raised)."""
    return [solved(problem) for problem in random_problems(NETWORKS)]


def test_both_methods_give_the_same_rationals(solutions: list[StagesSolution]) -> None:
    """Every charge, voltage and energy of every stage agrees, and every case occurs."""
    moves = Counter[str]()
    for solution in solutions:
        assert solution.agree
        stages, batteries = len(solution.problem.stages), len(solution.problem.network.sources)
        assert len(solution.second) == (
            (stages + 1) * (3 * len(solution.problem.network.elements) + 1)
            + stages * (2 * batteries + 1)
        )
        moves.update({step.kind.value for step in solution.every_step})
    rare = ("short", "battery", "share", "round", "equations", "turn", "start", "lost")
    assert all(moves[move] >= 5 for move in rare), moves


def test_isolated_islands_keep_their_charge(solutions: list[StagesSolution]) -> None:
    """On every island of every stage the plates hold together what they held before."""
    counted = 0
    for solution in solutions:
        problem = solution.problem
        for stage, closed in enumerate(closed_switches(problem)[1:], start=1):
            wiring = wire_up(problem.network, problem.switches, closed)
            turn = problem.stages[stage - 1].turn
            before, after = _charges(solution, stage - 1), _charges(solution, stage)
            total: Counter[str] = Counter()
            for element in problem.network.elements:
                name = element.name
                gained = after[name] - before[name] * (-1 if name in turn else 1)
                first, second = wiring.islands_of(element)
                total[first] += gained
                total[second] -= gained
            assert all(gained == 0 for gained in total.values())
            counted += len(total)
    assert counted > NETWORKS


def test_the_energy_balances_exactly_and_nothing_is_won(solutions: list[StagesSolution]) -> None:
    """Stored before and delivered is stored after and lost; the loss is never negative."""
    lossy = 0
    for solution in solutions:
        for stage in range(1, len(solution.problem.stages) + 1):
            stored = [solution.value(Name("energy", moment(TOTAL, s))) for s in (stage - 1, stage)]
            delivered = sum(solution.value(Name("energy", moment(b.name, stage)))
                            for b in solution.problem.network.sources)  # fmt: skip
            lost = solution.value(Name("energy", moment("lost", stage)))
            assert stored[0] + delivered == stored[1] + lost
            assert lost >= 0
            lossy += bool(lost > 0)
    assert lossy >= 100


def test_the_least_energy_is_where_the_charges_settle(solutions: list[StagesSolution]) -> None:
    """The minimum of the energy, found by numpy, lies at the same charges, within 1e-9."""
    for solution in solutions:
        problem = solution.problem
        for stage, closed in enumerate(closed_switches(problem)[1:], start=1):
            turn = problem.stages[stage - 1].turn
            before = {name: float(-q if name in turn else q)
                      for name, q in _charges(solution, stage - 1).items()}  # fmt: skip
            found = _least_energy(problem, closed, before)
            after = {name: float(q) for name, q in _charges(solution, stage).items()}
            size = max(map(abs, [*after.values(), *before.values()]), default=0) or 1
            assert all(abs(found[name] - q) <= 1e-9 * size for name, q in after.items())


def test_checks_of_every_kind_are_made(solutions: list[StagesSolution]) -> None:
    """Islands, loops, the heat and its sign are all checked somewhere."""
    kinds = {check.kind for solution in solutions for check in solution.checks}
    assert kinds == set(StagesCheck)
