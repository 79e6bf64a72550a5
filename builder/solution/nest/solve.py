"""Solve a nest twice, compare, check: nothing leaves here that did not agree."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property

from builder.circuit.tree import groups, leaves
from builder.problem.model import NestProblem
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown
from builder.quantity.symbolic import same
from builder.solution.check import hold_all
from builder.solution.nest.checks import checks_of
from builder.solution.nest.limits import Limit, limits_of
from builder.solution.nest.step import NestStep
from builder.solution.nest.stepwise import Naming, all_steps, asked_steps, naming_of
from builder.solution.nodal import by_nodes
from builder.solution.program import run
from builder.solution.solution import Solution, refuse_difference


@dataclass(frozen=True)
class NestSolution(Solution):
    """A solved nest; ``second`` comes from the nodal method, ``of`` being ``total`` for the whole.

    Attributes:
        problem: what was solved.
        steps, every_step: moves through the nest.
        limits: what answers with symbols come close to at the extremes of single elements.
    """

    problem: NestProblem
    steps: tuple[NestStep, ...]
    every_step: tuple[NestStep, ...]
    limits: tuple[Limit, ...] = ()

    @cached_property
    def naming(self) -> Naming:
        """How the quantities are named."""
        return naming_of(self.problem)

    def resolve(self, name: Name) -> Name:
        """The name under which a quantity is kept; ``total`` stands for the whole circuit."""
        return self.naming.resolve(name)


def givens_of(problem: NestProblem) -> dict[Name, tuple[Exact, Shown]]:
    """The quantities that a problem states, in SI units and as written."""
    given = {
        Name(problem.law.value, element.name): (element.value, element.shown)
        for element in problem.network.elements
    }
    source = problem.network.source
    if source is not None:
        given[Name(source.quantity, source.name)] = (source.value, source.shown)
    return given


def solve_nest(
    problem: NestProblem,
    *,
    write_steps: Callable[[NestProblem], tuple[NestStep, ...]] = all_steps,
) -> NestSolution:
    """Solve a nest by steps, again by nodes, and check the results.

    Args:
        problem: what to solve.
        write_steps: the method that writes all steps.

    Raises:
        Disagreement: if the two methods differ in any quantity.
        CheckFailed: if a check does not hold, or a limit is not that of the altered circuit.
    """
    givens = givens_of(problem)
    every_step = write_steps(problem)
    values = run(every_step, {name: value for name, (value, _) in givens.items()})
    inner = {g.id: leaves(g) for g in groups(problem.tree) if g.id != problem.tree.id}
    nodal = by_nodes(problem.network, problem.law, inner)
    _compare(problem, values, nodal)
    checks = checks_of(problem, values)
    hold_all(checks, values, problem.slug)
    steps = asked_steps(problem, every_step)
    written = {name: shown for name, (_, shown) in givens.items()}
    limits = limits_of(problem, values)
    return NestSolution(problem, steps, every_step, written, values, nodal, checks, limits)


def _compare(
    problem: NestProblem, by_steps: Mapping[Name, Exact], nodal: Mapping[Name, Exact]
) -> None:
    """Report the first quantity, in the order of the steps, in which the methods differ."""
    naming = naming_of(problem)
    wrong = [
        name
        for name, value in nodal.items()
        if naming.resolve(name) not in by_steps or not same(by_steps[naming.resolve(name)], value)
    ]
    if not wrong:
        return
    order = {name: position for position, name in enumerate(by_steps)}
    first = min(wrong, key=lambda name: order.get(naming.resolve(name), -1))
    found = by_steps.get(naming.resolve(first))
    called = _called(first, problem)
    raise refuse_difference(problem.slug, called, first.quantity, found, nodal[first])


def _called(name: Name, problem: NestProblem) -> str:
    if name.of == TOTAL and len(leaves(problem.tree)) > 1:
        return "the whole circuit"
    return name.of
