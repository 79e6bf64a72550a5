"""Solve a problem in stages twice, compare, check."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from sympy import Integer

from builder.circuit.switching import moment, split_moment
from builder.problem.model import StagesProblem
from builder.quantity.exact import Exact
from builder.quantity.formula import names_in
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown, show
from builder.solution.check import hold_all
from builder.solution.program import needed_for, run
from builder.solution.solution import Solution, refuse_difference
from builder.solution.stages.by_potentials import by_potentials
from builder.solution.stages.checks import checks_of
from builder.solution.stages.history import History
from builder.solution.stages.step import StagesStep
from builder.solution.stages.story import Story, tell


@dataclass(frozen=True)
class StagesSolution(Solution):
    """A solved problem in stages. Names without a moment mean the end, or all stages.

    Attributes:
        problem: what was solved.
        steps, every_step: moves.
        story: what is joined, closed and held at the start and after each stage.
    """

    problem: StagesProblem
    steps: tuple[StagesStep, ...]
    every_step: tuple[StagesStep, ...]
    story: Story

    @property
    def history(self) -> History:
        """What changed when."""
        return self.story.history

    def resolve(self, name: Name) -> Name:
        """The name under which a quantity is kept."""
        return self.history.resolve(name)


def solve_stages(
    problem: StagesProblem, *, write: Callable[[StagesProblem], Story] = tell
) -> StagesSolution:
    """Solve a problem by steps, again by potentials, and check the results.

    Args:
        problem: what to solve.
        write: the method that writes all steps.

    Raises:
        Disagreement: if the two methods differ in any quantity.
        CheckFailed: if a check does not hold.
    """
    story = write(problem)
    givens = _givens(problem)
    zeros = _zeros(problem, story.steps, givens)
    start = {**{name: value for name, (value, _) in givens.items()}, **zeros}
    values = run(story.steps, start)
    second = by_potentials(problem)
    _compare(problem, story.history, values, second)
    checks = checks_of(problem, story)
    hold_all(checks, values, problem.slug)
    steps = _asked(problem, story)
    written = {name: shown for name, (_, shown) in givens.items()}
    used = {name for step in steps for line in step.lines for name in names_in(line.formula)}
    written |= {n: show(value, n.quantity) for n, value in zeros.items() if n in used}
    return StagesSolution(problem, steps, story.steps, written, values, second, checks, story)


def _givens(problem: StagesProblem) -> dict[Name, tuple[Exact, Shown]]:
    """What the problem states, in SI units and as written."""
    given: dict[Name, tuple[Exact, Shown]] = {}
    for element in problem.network.elements:
        given[Name("capacitance", element.name)] = (element.value, element.shown)
        stated = problem.charged.get(element.name)
        if stated is not None:
            name = Name(stated.quantity, moment(element.name, 0))
            given[name] = (stated.value, stated.shown)
    for battery in problem.network.sources:
        given[Name("voltage", battery.name)] = (battery.value, battery.shown)
    return given


def _zeros(
    problem: StagesProblem,
    steps: tuple[StagesStep, ...],
    givens: Mapping[Name, tuple[Exact, Shown]],
) -> dict[Name, Exact]:
    """What starts as nothing: of capacitors that are not charged at first."""
    found = {name for step in steps for name in step.found}
    zeros: dict[Name, Exact] = {}
    for element in problem.network.elements:
        for quantity in ("charge", "voltage"):
            name = Name(quantity, moment(element.name, 0))
            if name not in found and name not in givens:
                zeros[name] = Integer(0)
    return zeros


def _compare(
    problem: StagesProblem,
    history: History,
    by_steps: Mapping[Name, Exact],
    second: Mapping[Name, Exact],
) -> None:
    """Report the first quantity, in the order of the stages, in which the methods differ."""
    for name, value in second.items():
        found = by_steps.get(history.resolve(name))
        if found != value:
            raise refuse_difference(problem.slug, _called(name), name.quantity, found, value)


def _called(name: Name) -> str:
    base, stage = split_moment(name.of)
    whose = "all capacitors" if base == TOTAL else base
    return f"{whose} at the start" if stage == "0" else f"{whose} after stage {stage}"


def _asked(problem: StagesProblem, story: Story) -> tuple[StagesStep, ...]:
    """Of all steps, those and no more lines of them than what is asked needs."""
    asked = (story.history.resolve(name) for name in problem.find)
    needed = needed_for(asked, story.steps)
    kept = []
    for step in story.steps:
        lines = tuple(line for line in step.lines if line.name in needed)
        if lines:
            kept.append(replace(step, lines=lines))
    return tuple(kept)
