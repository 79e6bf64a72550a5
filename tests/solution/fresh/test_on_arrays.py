"""Whole solutions of every kind, computed over arrays: the same as exactly."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings

from builder.circuit.law import Law
from builder.errors import FaultyFile
from builder.problem import read_problem
from builder.problem.model import NestProblem
from builder.quantity.arrays import ManySets
from builder.quantity.clean import UNCLEAN, digits_of, digits_of_each
from builder.quantity.symbolic import is_symbolic
from builder.solution import Solution, solve
from builder.solution.fresh.stream import fresh_solutions
from builder.solution.nest.solve import solve_nest
from builder.solution.stages.solve import solve_stages
from builder.solution.transient.solve import solve_transient
from tests.solution.network.drawn import tables
from tests.solution.network.test_random_networks import by_all_methods, problem_of
from tests.solution.stages.drawing import random_problems
from tests.solution.transient.circuits import random_circuit
from tests.strategies import problems

CONTENT = sorted(Path("content/problems").glob("*.yml"))


def compare(solution: Solution) -> None:
    """Run the program of a solution over arrays and hold it against the exact values.

    What comes out of a difference has the rounding of the numbers that it is the difference of:
    those of its kind say how large they are.
    """
    lines = [line for step in solution.every_step for line in step.lines]
    defined = {line.name for line in lines}
    given_values = {n: float(v) for n, v in solution.values.items() if n not in defined}
    sets = ManySets.of({name: [value, value] for name, value in given_values.items()})
    for line in lines:
        sets.values[line.name] = sets.value(line.formula)
    for name in defined:
        exact = float(solution.values[name])
        largest = max(
            abs(float(value))
            for other, value in solution.values.items()
            if other.quantity == name.quantity
        )
        for found in sets.values[name]:
            assert found == pytest.approx(exact, rel=1e-12, abs=1e-12 * largest), name


@pytest.mark.parametrize("path", CONTENT, ids=lambda path: path.stem)
def test_every_problem_of_the_unit(path: Path) -> None:
    """All kinds of problems; the digits that floating point counts are the exact ones.

    Letters have no numbers, and so no other ones.
    """
    solution = solve(read_problem(path))
    if any(map(is_symbolic, solution.values.values())):
        assert not list(fresh_solutions(solution))
        return
    compare(solution)
    for name, value in solution.values.items():
        (counted,) = digits_of_each(ManySets.of({name: [float(value)]}).values[name])
        assert counted == digits_of(value) <= UNCLEAN, name


@settings(max_examples=60)
@given(problems())
def test_random_nests(problem: NestProblem) -> None:
    """Nests of up to thirty elements."""
    compare(solve_nest(problem))


@settings(max_examples=40)
@given(tables())
def test_random_networks_by_every_method(drawn: tuple[Law, str]) -> None:
    """Networks of several sources: equations, superposition and reductions alike."""
    try:
        solutions = by_all_methods(problem_of(*drawn))
    except FaultyFile:
        return
    for solution in solutions.values():
        compare(solution)


def test_random_switching() -> None:
    """Capacitors that share their charge, one stage after the other."""
    for problem in random_problems(60, seed=9):
        compare(solve_stages(problem))


def test_random_charging() -> None:
    """Exponentials and logarithms."""
    done = 0
    for seed in range(60):
        try:
            solution = solve_transient(random_circuit(seed))
        except FaultyFile:
            continue
        compare(solution)
        done += 1
    assert done > 20
