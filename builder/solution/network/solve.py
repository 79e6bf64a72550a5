"""Solve a network twice, compare, check: nothing leaves here that did not agree."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace

from builder.circuit.law import Law
from builder.errors import Fault, FaultyFile
from builder.problem.faults.gathering import one_of
from builder.problem.model import REDUCTIONS, NetworkProblem
from builder.problem.network.asking import (
    GREATEST,
    INNER,
    MATCHED,
    POTENTIAL,
    between_points,
)
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Ref
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown
from builder.quantity.symbolic import same
from builder.solution.check import Check, hold_all
from builder.solution.network.checks import checks_of
from builder.solution.network.equivalent_source import by_equivalent_source, equivalent_steps
from builder.solution.network.finishing import asked_steps, finishing_steps
from builder.solution.network.methods import (
    JUNCTIONS,
    LOOPS,
    NAMED,
    Steps,
    Task,
    by_loops,
    by_reduction,
    method_of,
    usual,
)
from builder.solution.network.renaming import substituted, with_refs
from builder.solution.network.second_values import second_values
from builder.solution.network.step import NetworkStep
from builder.solution.network.superposition import by_superposition
from builder.solution.program import run
from builder.solution.solution import Solution, refuse_difference

SUPERPOSITION, EQUIVALENT_SOURCE = "superposition", "equivalent-source"
_WHY_NOT = {
    "merge": "No two elements that are left lie in series or in parallel",
    "balance": "No bridge in it is balanced",
    "symmetry": "No symmetry in it makes junctions equal",
    "delta-star": "No triangle or star in it leads on",
    JUNCTIONS: "Its sources give every potential already, or there is but one loop",
    EQUIVALENT_SOURCE: "Without the load a part of it hangs on current sources alone, or on "
    "nothing",
}


@dataclass(frozen=True)
class NetworkSolution(Solution):
    """A solved network.

    Every element has its value, drop, flow and work; every source its flow (out of the +
    terminal) and its work (delivered; negative where it is charged). Drops and flows count from
    an element's first junction to its second, and may be negative.

    Attributes:
        problem: what was solved.
        steps, every_step: moves through the network.
        method: the method that was taken.
    """

    problem: NetworkProblem
    steps: tuple[NetworkStep, ...]
    every_step: tuple[NetworkStep, ...]
    method: str

    def resolve(self, name: Name) -> Name:
        """The name under which a quantity is kept: ``total`` and the only source share theirs."""
        return _resolved(name, self.problem, self.values)


def _resolved(name: Name, problem: NetworkProblem, known: Mapping[Name, object]) -> Name:
    if name in known or len(problem.network.sources) != 1:
        return name
    (source,) = problem.network.sources
    law = problem.law
    other = {TOTAL: source.name, source.name: TOTAL}.get(name.of)
    if other is None or name.quantity not in (law.flow, law.drop):
        return name
    return Name(name.quantity, other)


def givens_of(problem: NetworkProblem) -> dict[Name, tuple[Exact, Shown]]:
    """The quantities that a problem states, in SI units and as written."""
    network = problem.network
    given = {
        Name(problem.law.value, element.name): (element.value, element.shown)
        for element in network.elements
    }
    for source in network.sources:
        given[Name(source.quantity, source.name)] = (source.value, source.shown)
    return given


def solve_network(problem: NetworkProblem) -> NetworkSolution:
    """Solve a network by the method that is asked for or the shortest, and by analysis.

    Raises:
        FaultyFile: if the method that the author asks for does not lead to the end.
        Disagreement: if two methods differ in any quantity.
        CheckFailed: if a check does not hold.
    """
    givens = givens_of(problem)
    known = {name: value for name, (value, _) in givens.items()}
    task = task_of(problem)
    core, method = _core(problem, task)
    every_step = _whole(problem, task, core)
    values = run(every_step, known)
    second = second_values(problem)
    _compare(problem, values, second)
    if method == JUNCTIONS and problem.network.sources:
        _compare(problem, run(_whole(problem, task, by_loops(task)), known), second)
    checks = _checks(problem, values)
    hold_all(checks, values, problem.slug)
    asked = [_resolved(name, problem, values) for name in problem.find]
    _refuse_missing(problem, asked, values)
    steps = asked_steps(asked, every_step)
    written = {name: shown for name, (_, shown) in givens.items()}
    return NetworkSolution(problem, steps, every_step, written, values, second, checks, method)


def task_of(problem: NetworkProblem) -> Task:
    """What has to be solved, with the junctions whose potentials are asked for."""
    keep: set[str] = set()
    for name in problem.find:
        points = between_points(name)
        if points is not None:
            keep.update(points)
        elif name.quantity == POTENTIAL:
            keep.add(name.of)
    task = Task(problem.network, problem.law, problem.reference, frozenset(keep))
    return replace(task, show_ground=Name(POTENTIAL, task.ground) in problem.find)


def _core(problem: NetworkProblem, task: Task) -> tuple[Steps, str]:
    """The steps to all flows and drops, or to the equivalent alone without a source."""
    method = problem.method
    if not problem.network.sources:
        reduced = by_reduction(task, method) if method else equivalent_steps(task)
        if reduced is None:
            raise _misfit(problem)
        return reduced, method or method_of(reduced)
    if method is None:
        return usual(task)
    if method == SUPERPOSITION:
        return by_superposition(task), method
    if method == EQUIVALENT_SOURCE:
        steps = _by_equivalent_source(problem, task)
    else:
        steps = NAMED[method](task) if method in NAMED else by_reduction(task, method)
    if steps is None:
        raise _misfit(problem)
    return steps, method


def _by_equivalent_source(problem: NetworkProblem, task: Task) -> Steps | None:
    """What two points see; all flows are found as well, for the checks and other questions."""
    assert problem.points is not None
    steps = by_equivalent_source(task, problem.points, problem.load)
    if steps is None:
        return None
    found = {line.name for step in steps for line in step.lines}
    rest: list[NetworkStep] = []
    for step in usual(task)[0]:
        lines = tuple(line for line in step.lines if line.name not in found)
        if lines:
            rest.append(replace(step, lines=lines))
    return (*steps, *rest)


def _whole(problem: NetworkProblem, task: Task, core: Steps) -> Steps:
    """The steps with all that follows from flows and drops."""
    if not problem.network.sources:
        return core
    known = {line.name for step in core for line in step.lines}
    aliases = _aliases(problem, known)
    ends = finishing_steps(problem, task, core)
    return (*core, *(substituted(step, aliases) for step in ends))


def _aliases(problem: NetworkProblem, known: Mapping[Name, object] | set[Name]) -> (
    dict[Name, Formula]
):  # fmt: skip
    """The flow and drop of an only source that a reduction keeps under ``total``."""
    law: Law = problem.law
    names = [Name(q, s.name) for s in problem.network.sources for q in (law.flow, law.drop)]
    table = dict.fromkeys(known)
    pairs = {name: _resolved(name, problem, table) for name in names}
    given = {Name(s.quantity, s.name) for s in problem.network.sources}
    return {name: Ref(kept) for name, kept in pairs.items() if kept != name and name not in given}


def _checks(problem: NetworkProblem, values: Mapping[Name, Exact]) -> tuple[Check, ...]:
    if not problem.network.sources:
        return ()
    aliases = _aliases(problem, values)
    checks = checks_of(problem.network, problem.law)
    if not aliases:
        return checks
    return tuple(
        replace(check, left=with_refs(check.left, aliases), right=with_refs(check.right, aliases))
        for check in checks
    )


def _misfit(problem: NetworkProblem) -> FaultyFile:
    """The fault of a method that does not lead to the end."""
    method = problem.method or ""
    line, column = problem.method_at
    fitting: tuple[str, ...] = (*REDUCTIONS, JUNCTIONS, LOOPS)
    if not problem.network.sources:
        fitting = REDUCTIONS
    elif len(problem.network.sources) > 1:
        fitting = (JUNCTIONS, LOOPS, SUPERPOSITION)
    others = [name for name in fitting if name != method]
    fault = Fault(
        problem.path, line, column, f"method: {method}, which does not lead to the end here",
        f"a method that fits, such as {one_of(others)}",
        f"{_WHY_NOT.get(method, 'It does not fit')}. Leave the method out to have the shortest "
        "way taken.",
    )  # fmt: skip
    return FaultyFile((fault,))


def _refuse_missing(
    problem: NetworkProblem, asked: Collection[Name], values: Mapping[Name, Exact]
) -> None:
    """Refuse questions for what an equivalent source without anything inside does not have.

    Raises:
        FaultyFile: at the first of them.
    """
    for name in asked:
        if name not in values:
            noun = {INNER: "inner", MATCHED: "matching", GREATEST: "greatest"}.get(name.of, name.of)
            fault = Fault(
                problem.path, *problem.find_at,
                f"a question for the {noun} {KINDS[name.quantity].noun}",
                "a quantity that has a bound",
                "Sources alone hold the voltage between the two points, whatever is connected "
                "there. Ask for another quantity, or choose other points.",
            )  # fmt: skip
            raise FaultyFile((fault,))


def _compare(
    problem: NetworkProblem, by_steps: Mapping[Name, Exact], second: Mapping[Name, Exact]
) -> None:
    """Report the first quantity in which the methods differ."""
    for name, value in second.items():
        found = by_steps.get(_resolved(name, problem, by_steps))
        if found is None or not same(found, value):
            raise refuse_difference(problem.slug, name.of, name.quantity, found, value)
