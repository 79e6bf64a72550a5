"""Solve relations step by step, again as one system, compare, and check."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from builder.problem.relations.model import RelationsProblem
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.symbolic import same
from builder.solution.check import hold_all
from builder.solution.program import run
from builder.solution.relations.checks import RelationCheck, checks_of
from builder.solution.relations.second import solutions_of
from builder.solution.relations.step import RelationStep
from builder.solution.relations.walk import needed_steps, walk
from builder.solution.solution import Solution, refuse_difference

WHOLE_SYSTEM = "whole-system"
OTHER_ORDER = "other-order"


@dataclass(frozen=True)
class RelationsSolution(Solution):
    """Solved relations.

    Attributes:
        problem: what was solved.
        steps, every_step: the moves.
        checks: one for each relation.
        method: how ``second`` was found: ``whole-system`` (Gröbner's basis), or ``other-order``
            where the relations are no polynomials.
    """

    problem: RelationsProblem
    steps: tuple[RelationStep, ...]
    every_step: tuple[RelationStep, ...]
    checks: tuple[RelationCheck, ...]
    method: str

    @property
    def agree(self) -> bool:
        """Whether both methods give the same values, by algebra."""
        return all(same(self.values[name], value) for name, value in self.second.items())


def write_steps(problem: RelationsProblem) -> tuple[RelationStep, ...]:
    """All steps of a problem, what is asked first and what it needs before it."""
    steps = walk(problem).steps
    return needed_steps(steps, (*problem.find, *problem.unknowns))


def solve_relations(
    problem: RelationsProblem,
    *,
    write_steps: Callable[[RelationsProblem], tuple[RelationStep, ...]] = write_steps,
) -> RelationsSolution:
    """Solve relations by steps, again as a whole, and check the results.

    Args:
        problem: what to solve.
        write_steps: the method that writes all steps.

    Raises:
        FaultyFile: if the relations have no single solution that is possible.
        Disagreement: if the two methods differ in any quantity.
        CheckFailed: if a relation does not hold.
    """
    known = {stated.name: stated.value for stated in problem.quantities if stated.known}
    every_step = write_steps(problem)
    values = run(every_step, known)
    method, second = _second(problem, known, values)
    for name in problem.unknowns:
        if name not in second or not same(values[name], second[name]):
            raise refuse_difference(problem.slug, name.of, name.quantity, values[name],
                                    second.get(name, "nothing"))  # fmt: skip
    checks = checks_of(problem.relations)
    hold_all(checks, values, problem.slug)
    return RelationsSolution(
        problem=problem,
        steps=needed_steps(every_step, problem.find),
        every_step=every_step,
        givens={s.name: s.shown for s in problem.quantities if s.shown is not None},
        values=values,
        second=second,
        checks=checks,
        method=method,
    )


def _second(
    problem: RelationsProblem, known: Mapping[Name, Exact], values: Mapping[Name, Exact]
) -> tuple[str, Mapping[Name, Exact]]:
    """What the second method finds: of several solutions the one that is nearest to the steps'.

    Solutions that differ in nothing but the sign of what may have either, or in what the author
    chose, are all right; so the one that agrees in most quantities is compared.
    """
    every = solutions_of(problem, known)
    if every is None:
        other = replace(problem, relations=problem.relations[::-1])
        return OTHER_ORDER, {name: walk(other).known[name] for name in problem.unknowns}
    if not every:
        return WHOLE_SYSTEM, {}
    return WHOLE_SYSTEM, max(
        every, key=lambda one: sum(same(one[name], values[name]) for name in problem.unknowns)
    )
