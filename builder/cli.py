"""The commands: each reads its arguments, calls one service and prints the result."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from builder.errors import FaultyFile, StepwellError
from builder.lesson import write_lesson
from builder.lesson.answers import answers
from builder.problem import read_problem, read_unit
from builder.problem.model import Unit
from builder.site.checking import check_all, problem_files
from builder.site.plain_text import worked_solution
from builder.site.unit_site import UNIT_FILE
from builder.solution import solve as solve_problem


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="stepwell")
def main() -> None:
    """Circuit problems written in YAML become verified worked examples."""


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print the answers as JSON, in SI units.")
def solve(file: Path, *, as_json: bool) -> None:
    """Print the worked solution of the problem in FILE.

    Example: stepwell solve content/problems/flasher-reservoir.yml

    The word in square brackets after a step is what its words are overridden by in the file.
    """
    try:
        solution = solve_problem(read_problem(file, unit=_unit_of(file)))
    except StepwellError as error:
        _stop(error)
    if as_json:
        click.echo(json.dumps(answers(solution), ensure_ascii=False, indent=2))
    else:
        click.echo(worked_solution(write_lesson(solution)), nl=False)


@main.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path))
def check(paths: tuple[Path, ...]) -> None:
    """Solve and cross-check the problems in PATHS (files or folders; by default content).

    Prints one line a fault and ends with exit code 1 if there is any.

    Example: stepwell check content/problems
    """
    try:
        files = problem_files(paths or (Path("content"),))
    except FaultyFile as error:
        _stop(error)
    faults = check_all(files, _unit_of)
    for line in faults:
        click.echo(line)
    if faults:
        click.echo(f"{_counted(len(files), 'problem')} read, {_counted(len(faults), 'fault')}.",
                   err=True)  # fmt: skip
        sys.exit(1)
    click.echo(f"{_counted(len(files), 'problem')} solved twice; everything agrees.")


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _unit_of(file: Path) -> Unit | None:
    """The unit that a problem's file lies in, if there is one."""
    described = file.parent.parent / UNIT_FILE
    return read_unit(described) if described.is_file() else None


def _stop(error: StepwellError) -> None:
    click.echo(str(error), err=True)
    sys.exit(1)
