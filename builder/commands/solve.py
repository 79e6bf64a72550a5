"""``stepwell solve``: the worked solution of one problem, in a terminal or as data."""

from __future__ import annotations

from pathlib import Path

import click

from builder.commands.paths import FilePath
from builder.commands.telling import stop, tell, tell_data
from builder.errors import StepwellError
from builder.lesson import write_lesson
from builder.lesson.answers import answers
from builder.problem import read_problem
from builder.problem.unit_of import unit_of
from builder.site.plain_text import worked_solution
from builder.solution import solve as solve_problem


@click.command()
@click.argument("file", type=FilePath())
@click.option("--json", "as_json", is_flag=True, help="Print the answers as JSON, in SI units.")
def solve(file: Path, *, as_json: bool) -> None:
    """Print the worked solution of the problem in FILE.

    Example: stepwell solve content/problems/flasher-reservoir.yml

    The word in square brackets after a step is what its words are overridden by in the file.
    """
    try:
        solution = solve_problem(read_problem(file, unit=unit_of(file)))
    except StepwellError as error:
        stop(error)
    if as_json:
        tell_data(answers(solution))
    else:
        tell(worked_solution(write_lesson(solution)), end="")
