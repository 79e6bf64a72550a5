"""One door for all kinds of problems."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from builder.errors import FaultyFile
from builder.problem.faults.teaching import shown_in
from builder.problem.model import (
    NestProblem,
    NetworkProblem,
    Problem,
    StagesProblem,
    TransientProblem,
)
from builder.problem.relations.model import RelationsProblem
from builder.problem.relations.unknowns import UnknownProblem
from builder.solution.nest.solve import solve_nest
from builder.solution.network.solve import solve_network
from builder.solution.relations.solve import solve_relations
from builder.solution.relations.unknown import solve_unknown
from builder.solution.solution import Solution
from builder.solution.stages.solve import solve_stages
from builder.solution.transient.solve import solve_transient

SOLVERS: dict[type[Problem], Callable[[Any], Solution]] = {
    NestProblem: solve_nest,
    NetworkProblem: solve_network,
    UnknownProblem: solve_unknown,
    RelationsProblem: solve_relations,
    StagesProblem: solve_stages,
    TransientProblem: solve_transient,
}
"""How each kind of problem is solved."""


def solve(problem: Problem) -> Solution:
    """Solve a problem twice by independent methods, compare, and check the results.

    Raises:
        Disagreement: if the two methods differ in any quantity.
        CheckFailed: if a check does not hold.
        FaultyFile: if only solving shows that the problem has no single answer.
    """
    try:
        return SOLVERS[type(problem)](problem)
    except FaultyFile as error:
        raise shown_in(problem.text, error) from None
