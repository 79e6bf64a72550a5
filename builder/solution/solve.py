"""Solve a problem twice, compare, check: nothing leaves here that did not agree."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from builder.circuit.tree import groups, leaves
from builder.errors import CheckFailed, Disagreement
from builder.problem.model import Problem
from builder.quantity.exact import Exact
from builder.quantity.formula import evaluate
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name
from builder.solution.checks import Check, checks_of
from builder.solution.nodal import by_nodes
from builder.solution.program import Step, run
from builder.solution.stepwise import all_steps, asked_steps, naming_of


@dataclass(frozen=True)
class Solution:
    """A problem with its verified results.

    Attributes:
        problem: what was solved.
        steps: the steps that what is asked needs.
        every_step: all steps that the circuit allows; they define every name in ``values``.
        givens: the quantities that the problem states.
        values: every quantity of every element, equivalent and the whole, in SI units.
        by_nodes: what the nodal method found, ``of`` being ``total`` for the whole circuit.
        checks: all hold.
    """

    problem: Problem
    steps: tuple[Step, ...]
    every_step: tuple[Step, ...]
    givens: tuple[Name, ...]
    values: Mapping[Name, Exact]
    by_nodes: Mapping[Name, Exact]
    checks: tuple[Check, ...]

    @property
    def agree(self) -> bool:
        """Whether the steps and the nodal method give the same values, all of them exactly."""
        return all(self.value(name) == value for name, value in self.by_nodes.items())

    def value(self, name: Name) -> Exact:
        """The value of a quantity; ``total`` stands for the whole circuit."""
        return self.values[naming_of(self.problem).resolve(name)]


def givens_of(problem: Problem) -> dict[Name, Exact]:
    """The quantities that a problem states, with their values in SI units."""
    given = {
        Name(problem.law.value, element.name): element.value for element in problem.network.elements
    }
    source = problem.network.source
    if source is not None:
        given[Name(source.quantity, source.name)] = source.value
    return given


def solve(
    problem: Problem, *, write_steps: Callable[[Problem], tuple[Step, ...]] = all_steps
) -> Solution:
    """Solve a problem by steps, again by nodes, and check the results.

    Args:
        problem: what to solve.
        write_steps: the method that writes all steps.

    Raises:
        Disagreement: if the two methods differ in any quantity.
        CheckFailed: if a check does not hold.
    """
    givens = givens_of(problem)
    every_step = write_steps(problem)
    values = run(every_step, givens)
    inner = {g.id: leaves(g) for g in groups(problem.tree) if g.id != problem.tree.id}
    nodal = by_nodes(problem.network, problem.law, inner)
    _compare(problem, values, nodal)
    checks = checks_of(problem, values)
    for check in checks:
        if not check.holds(values):
            raise CheckFailed(
                problem.slug,
                f"{check.kind} {', '.join(check.about)}",
                str(evaluate(check.left, values)),
                str(evaluate(check.right, values)),
            )
    steps = asked_steps(problem, every_step)
    return Solution(problem, steps, every_step, tuple(givens), values, nodal, checks)


def _compare(problem: Problem, by_steps: Mapping[Name, Exact], nodal: Mapping[Name, Exact]) -> None:
    """Report the first quantity, in the order of the steps, in which the methods differ."""
    naming = naming_of(problem)
    wrong = [name for name, value in nodal.items() if by_steps.get(naming.resolve(name)) != value]
    if not wrong:
        return
    order = {name: position for position, name in enumerate(by_steps)}
    first = min(wrong, key=lambda name: order.get(naming.resolve(name), -1))
    kind, found = KINDS[first.quantity], by_steps.get(naming.resolve(first))
    raise Disagreement(
        problem.slug,
        f"{kind.noun} of {_called(first, problem)}",
        "missing" if found is None else f"{found} {kind.unit}",
        f"{nodal[first]} {kind.unit}",
    )


def _called(name: Name, problem: Problem) -> str:
    if name.of == TOTAL and len(leaves(problem.tree)) > 1:
        return "the whole circuit"
    return name.of
