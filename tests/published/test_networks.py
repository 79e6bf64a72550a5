"""Every network of the named books, from YAML text to its printed digits, by every method."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from sympy import Rational

from builder.problem import read_problem_text
from builder.problem.model import NetworkProblem
from builder.quantity.exact import as_fraction
from builder.solution.network.methods import unknown_potentials
from builder.solution.network.solve import NetworkSolution, solve_network, task_of
from tests.published.networks import NETWORKS
from tests.published.resistors import UP2
from tests.published.row import SIZES, UNIT, Printed, Row, rounded_as


def read(row: Row) -> NetworkProblem:
    """The problem of a row."""
    asked = [
        f'"{printed.quantity}: {printed.of}"' if printed.quantity.islower() and "-" not in
        printed.quantity else printed.quantity
        for printed in row.printed
    ]  # fmt: skip
    circuit = "\n".join("  " + line for line in row.circuit.splitlines())
    text = f"title: As printed\ncircuit:\n{circuit}\nfind: [{', '.join(asked)}]\n"
    problem = read_problem_text(text, "as-printed.yml", UNIT)
    assert isinstance(problem, NetworkProblem)
    return problem


def by_every_method(problem: NetworkProblem) -> list[NetworkSolution]:
    """The solutions by all methods that fit."""
    if problem.method is not None:
        return [solve_network(problem)]
    methods = [None, "loops"]
    methods += ["junctions"] if unknown_potentials(task_of(problem)) else []
    methods += ["superposition"] if len(problem.network.sources) > 1 else []
    return [solve_network(replace(problem, method=method)) for method in methods]


@pytest.mark.parametrize("row", NETWORKS, ids=[row.id for row in NETWORKS])
def test_a_published_network_is_reproduced_to_its_printed_digits(row: Row) -> None:
    """Each answer, rounded to the digits of the book, is the printed one, by every method.

    Where the book carries rounded values on, the exact value is tested instead, and the printed
    one is shown to differ.
    """
    problem = read(row)
    for solution in by_every_method(problem):
        assert solution.agree
        for name, printed in zip(problem.find, row.printed, strict=True):
            value = as_fraction(solution.value(name))
            rounded, as_printed = rounded_as(printed, value)
            if printed.exact is None:
                assert rounded == as_printed, (row.source, printed)
            else:
                size = SIZES[printed.text.split(" ")[1][:-1]]
                assert value / size == Fraction(printed.exact), (row.source, printed)
                assert rounded != as_printed
                assert row.note


@pytest.mark.parametrize(
    ("emf", "inner", "power"), [("12 V", "0.5 ohm", Fraction(72)), ("3 V", "2 ohm", Fraction(9, 8))]
)
def test_a_load_equal_to_the_inner_resistance_takes_the_most(
    emf: str, inner: str, power: Fraction
) -> None:
    """The matching load is the inner resistance, and no neighbour of it takes as much.

    Source: University Physics Volume 2 (OpenStax), section 10.1, fs-id1167584633492 (R = r).
    """
    circuit = (
        f"method: equivalent-source\nload: R1\nbranches:\n"
        f"  E1: {{emf: {emf}, inner: {inner}, between: [a, g]}}\n"
        f"  R1: {{resistance: {inner}, between: [a, g]}}"
    )
    asked = (
        Printed("matching-resistance", "total", "1 Ω"),
        Printed("greatest-power", "total", "1 W"),
        Printed("power", "R1", "1 W"),
    )
    problem = read(Row("match", f"{UP2}, section 10.1", circuit, asked))
    solution = solve_network(problem)
    matched, greatest, taken = (as_fraction(solution.value(name)) for name in problem.find)
    assert greatest == taken == power
    for other in (matched * Fraction(9, 10), matched * Fraction(11, 10)):
        load = problem.network.element("R1")
        changed = replace(load, value=Rational(other.numerator, other.denominator))
        elements = tuple(changed if e is load else e for e in problem.network.elements)
        network = replace(problem.network, elements=elements)
        less = solve_network(replace(problem, network=network))
        assert as_fraction(less.value(problem.find[2])) < greatest
