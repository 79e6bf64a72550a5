"""Checking one problem: whether it can be read, solved twice alike, and taught."""

from __future__ import annotations

import traceback
from dataclasses import dataclass
from pathlib import Path

from builder.errors import FaultyFile, StepwellError
from builder.lesson.apart import telling_apart
from builder.lesson.kinds import write_lesson
from builder.lesson.odd import odd_about
from builder.lesson.words import refuse_strange_ids
from builder.problem.faults.teaching import shown_in
from builder.problem.model import (
    NestProblem,
    NetworkProblem,
    Problem,
    StagesProblem,
    TransientProblem,
    Unit,
)
from builder.problem.reader import read_problem
from builder.problem.relations.model import RelationsProblem
from builder.problem.relations.unknowns import UnknownProblem
from builder.quantity.symbolic import is_symbolic
from builder.site.checking.report import About, Checked, Solved
from builder.solution import Solution, solve

_KINDS: dict[type[Problem], tuple[str, str]] = {
    NestProblem: ("nest", "series, parallel"),
    NetworkProblem: ("network", "network"),
    UnknownProblem: ("unknown", "unknown element"),
    RelationsProblem: ("relations", "equations"),
    StagesProblem: ("stages", "switches"),
    TransientProblem: ("transient", "RC circuit"),
}


@dataclass(frozen=True)
class Task:
    """A problem to check.

    Attributes:
        path: its file.
        unit: that it belongs to, if that is known.
    """

    path: str
    unit: Unit | None


def check_problem(task: Task) -> Checked:
    """What is wrong with a problem, and what is odd about it."""
    try:
        return _checked(task)
    except FaultyFile as error:
        return Checked(task.path, faults=error.faults)
    except StepwellError as error:
        return Checked(task.path, broke=error.told())
    except Exception as error:  # noqa: BLE001 - the other files are checked all the same
        return Checked(task.path, broke=_broke(task.path, error))


def _checked(task: Task) -> Checked:
    problem = read_problem(Path(task.path), unit=task.unit)
    about = About(problem.title, problem.objectives)
    try:
        solution = solve(problem)
        _refuse_what_cannot_be_taught(solution)
    except FaultyFile as error:
        return Checked(task.path, about=about, faults=shown_in(problem.text, error).faults)
    kind, called = _called(solution)
    solved = Solved(kind, called, len(solution.steps), len(problem.find))
    return Checked(task.path, solved, about, oddities=odd_about(solution))


def _refuse_what_cannot_be_taught(solution: Solution) -> None:
    """Tell what is wrong with an author's words and wishes, which only a solution shows.

    A lesson is written only where a wish hangs on it: that takes ten times as long as to solve.
    """
    problem = solution.problem
    refuse_strange_ids(problem, tuple(dict.fromkeys(step.id for step in solution.every_step)))
    if problem.keep.apart:
        telling_apart(write_lesson(solution))


def _called(solution: Solution) -> tuple[str, str]:
    """The kind of a problem in one word, and in a teacher's."""
    problem = solution.problem
    kind, called = _KINDS[type(problem)]
    if isinstance(problem, NestProblem) and any(map(is_symbolic, solution.values.values())):
        return kind, "with letters"
    if isinstance(problem, NetworkProblem) and problem.method == "equivalent-source":
        return kind, "equivalent source"
    if isinstance(problem, RelationsProblem) and problem.plates is not None:
        return kind, "plates"
    return kind, called


def _broke(path: str, error: Exception) -> str:
    last = traceback.extract_tb(error.__traceback__)[-1]
    where = f"{Path(last.filename).name}, line {last.lineno}"
    what = f"{type(error).__name__}: {error}".rstrip(": ")
    return (f"{path}: Stepwell itself failed here ({what}; in {where}). This is a fault in "
            f"Stepwell: please report it with the file.")  # fmt: skip
