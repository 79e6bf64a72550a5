"""The commands: each reads its arguments, calls one service and prints the result."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import click

from builder.errors import FaultyFile, StepwellError
from builder.lesson import write_lesson
from builder.lesson.answers import answers
from builder.problem import read_problem, read_unit
from builder.problem.model import LEVELS, Unit
from builder.site.checking import check_all, problem_files
from builder.site.paper.choosing import Choice, choose
from builder.site.paper.sheet import PAPERS, SPACES, Layout, make_sheet
from builder.site.paper.writing import write_sheet
from builder.site.plain_text import worked_solution
from builder.site.printing import find_browser
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


@main.command()
@click.argument("problems", nargs=-1, metavar="PROBLEM...")
@click.option("--unit", default="content", type=click.Path(path_type=Path), show_default=True,
              help="The folder of unit.yml and problems/.")  # fmt: skip
@click.option("--level", type=click.Choice(LEVELS), help="Only problems of this level.")
@click.option("--objective", help="Only problems that train this objective.")
@click.option("--title", default="", help="The title line; by default the unit's title.")
@click.option("--paper", type=click.Choice(tuple(PAPERS)), default="a4", show_default=True)
@click.option("--space", type=click.Choice(tuple(SPACES)), default="medium", show_default=True,
              help="Room to work below each problem; page gives each a page.")  # fmt: skip
@click.option("--blank", is_flag=True, help="Leave the room to work without lines.")
@click.option("--out", default="sheets", type=click.Path(path_type=Path), show_default=True,
              help="The folder to write into.")  # fmt: skip
@click.option("--pdf", is_flag=True, help="Make PDFs too, by an installed Chromium or Chrome.")
@click.option("--force", is_flag=True, help="Overwrite files that are no sheets.")
def sheet(problems: tuple[str, ...], unit: Path, out: Path, **given: Any) -> None:
    """Write a worksheet of chosen problems and the key that matches it, ready to print.

    A PROBLEM is a file, or its name without .yml. Without any, --level and --objective choose.
    Worksheet and key carry the same mark, made of what both say.

    Example: stepwell sheet flasher-reservoir lantern-ladder --title "Week 3" --pdf
    """
    try:
        browser = find_browser() if given["pdf"] else None
        chosen = choose(unit, Choice(problems, given["level"], given["objective"]))
        layout = Layout(given["paper"], given["space"], not given["blank"])
        made = make_sheet(chosen, given["title"], layout)
        written = write_sheet(made, out, browser=browser, force=given["force"])
    except StepwellError as error:
        _stop(error)
    click.echo(f"Sheet {made.mark}: {_counted(len(chosen.lessons), 'problem')}.")
    for path in written:
        click.echo(f"{path} ({_kilobytes(path.stat().st_size)})")


@main.command()
@click.option("--site", type=click.Path(path_type=Path),
              help="A site that is built already; by default one is built.")  # fmt: skip
@click.option("--config", default="mkdocs.yml", type=click.Path(path_type=Path), show_default=True,
              help="What to build.")  # fmt: skip
@click.option("--out", default="unit.zip", type=click.Path(path_type=Path), show_default=True,
              help="The zip to write.")  # fmt: skip
@click.option("--force", is_flag=True, help="Overwrite a file that is no packed unit.")
def pack(site: Path | None, config: Path, out: Path, *, force: bool) -> None:
    """Put the whole unit into one zip that opens from any folder, without a network.

    Whoever unpacks it opens START-HERE.html. Nothing is written if a page asks for anything
    outside the zip, or if a link leads nowhere.

    Example: stepwell pack --out harbour-lights.zip
    """
    from builder.site.pack import pack as pack_unit  # brings all of the host

    try:
        packed = pack_unit(out, site=site, config=config, force=force)
    except StepwellError as error:
        _stop(error)
    click.echo(f"{packed.path}: {_counted(packed.files, 'file')}, {_kilobytes(packed.unpacked)}, "
               f"zipped {_kilobytes(packed.zipped)}; asks nothing of any other host.")  # fmt: skip


def _kilobytes(size: int) -> str:
    return f"{size / 1000:.0f} kB"


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def _unit_of(file: Path) -> Unit | None:
    """The unit that a problem's file lies in, if there is one."""
    described = file.parent.parent / UNIT_FILE
    return read_unit(described, folder=file.parent.name) if described.is_file() else None


def _stop(error: StepwellError) -> None:
    click.echo(str(error), err=True)
    sys.exit(1)
