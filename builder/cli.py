"""The commands: each reads its arguments, calls one service and prints the result."""

from __future__ import annotations

import json
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click

from builder.errors import FaultyFile, StepwellError
from builder.lesson import write_lesson
from builder.lesson.answers import answers
from builder.problem import read_problem, read_unit
from builder.problem.model import LEVELS, Unit
from builder.site.checking import check_all, problem_files
from builder.site.numbers.report import as_data, table
from builder.site.numbers.search import LONG_SEARCH, look, prepare
from builder.site.numbers.wishes import Wishes
from builder.site.numbers.writing import write_numbers
from builder.site.paper.choosing import Choice, choose
from builder.site.paper.key_table import key_data, key_of, key_text
from builder.site.paper.sets import with_set
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
@click.option("--set", "number", default=0, type=click.IntRange(min=0), metavar="N",
              help="With the numbers of that set; stepwell key shows all sets.")  # fmt: skip
@click.option("--title", default="", help="The title line; by default the unit's title.")
@click.option("--paper", type=click.Choice(tuple(PAPERS)), default="a4", show_default=True)
@click.option("--space", type=click.Choice(tuple(SPACES)), default="medium", show_default=True,
              help="Room to work below each problem; page gives each a page.")  # fmt: skip
@click.option("--blank", is_flag=True, help="Leave the room to work without lines.")
@click.option("--out", default="sheets", type=click.Path(path_type=Path), show_default=True,
              help="The folder to write into.")  # fmt: skip
@click.option("--pdf", is_flag=True, help="Make PDFs too, by an installed Chromium or Chrome.")
@click.option("--force", is_flag=True, help="Overwrite files that are no sheets.")
def sheet(problems: tuple[str, ...], unit: Path, out: Path, number: int, **given: Any) -> None:
    """Write a worksheet of chosen problems and the key that matches it, ready to print.

    A PROBLEM is a file, or its name without .yml. Without any, --level and --objective choose.
    Worksheet and key carry the same mark, made of what both say.

    Example: stepwell sheet flasher-reservoir lantern-ladder --title "Week 3" --pdf
    """
    try:
        browser = find_browser() if given["pdf"] else None
        chosen = choose(unit, Choice(problems, given["level"], given["objective"]))
        layout = Layout(given["paper"], given["space"], not given["blank"])
        numbered = with_set(chosen, number)
        made = make_sheet(numbered.chosen, given["title"], layout)
        written = write_sheet(made, out, browser=browser, force=given["force"])
    except StepwellError as error:
        _stop(error)
    click.echo(f"Sheet {made.mark}: {_counted(len(chosen.lessons), 'problem')}.")
    for slug in numbered.unchanged:
        click.echo(f"{slug} has no other numbers and stays as it is written.")
    for path in written:
        click.echo(f"{path} ({_kilobytes(path.stat().st_size)})")


@main.command()
@click.argument("problems", nargs=-1, required=True, metavar="PROBLEM...")
@click.option("--unit", default="content", type=click.Path(path_type=Path), show_default=True,
              help="The folder of unit.yml and problems/.")  # fmt: skip
@click.option("--json", "as_json", is_flag=True, help="Print them as JSON, in SI units.")
def key(problems: tuple[str, ...], unit: Path, *, as_json: bool) -> None:
    """Print the answers of every set of fresh numbers of PROBLEM.

    A PROBLEM is a file, or its name without .yml. Set 0 is the problem as it is written; the
    others have the numbers that they have on its page, in its links, and on sheets.

    Example: stepwell key flasher-reservoir
    """
    try:
        keys = [key_of(*pair) for pair in choose(unit, Choice(problems, command="key")).lessons]
    except StepwellError as error:
        _stop(error)
    if as_json:
        click.echo(json.dumps([key_data(one) for one in keys], ensure_ascii=False, indent=2))
        return
    width = shutil.get_terminal_size().columns
    click.echo("\n".join(key_text(one, width) for one in keys), nl=False)


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


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--series", metavar="SERIES",
              help="Take all elements from a series: E3, E6, E12 or E24.")  # fmt: skip
@click.option("--vary", multiple=True, metavar="NAME=VALUES",
              help='What one value may be: C1=E24, V0="5 V to 14 V step 1 V", R2="10 ohm, 15 ohm". '
              "May be given several times.")  # fmt: skip
@click.option("--keep", multiple=True, metavar="WHAT=HOW",
              help='What must be so: charge="1 uC to 100 uC", order=same. May be given several '
              "times.")  # fmt: skip
@click.option("--digits", type=click.IntRange(1, 6),
              help="Significant digits that any number of the steps may need; by default those "
              "that the problem shows.")  # fmt: skip
@click.option("--best", type=click.IntRange(1, 200), default=10, show_default=True,
              help="How many sets to print.")  # fmt: skip
@click.option("--write", is_flag=False, flag_value=1, type=int, metavar="[N]",
              help="Write set N into FILE, by default the best; the rest of it stays.")  # fmt: skip
@click.option("--json", "as_json", is_flag=True, help="Print the sets as JSON.")
def numbers(file: Path, **given: Any) -> None:
    """Look for values with which every number in the solution of FILE comes out clean.

    Values that --series and --vary do not name stay. Without either, the file's vary: says what
    may vary, else round values near those in the file are tried. Values that are equal in the
    file stay equal, unless --vary names both.

    Example: stepwell numbers flasher.yml --series E12 --vary V0="5 V to 14 V step 1 V"
    """
    wishes = Wishes(given["series"], given["vary"], given["keep"])
    try:
        search = prepare(file, _unit_of(file), wishes, given["digits"])
        with _progress(search.hunt.grid.size) as seen:
            search = look(search, given["best"], seen)
        if given["write"] is not None:
            write_numbers(search, given["write"])
    except StepwellError as error:
        _stop(error)
    if given["as_json"]:
        click.echo(json.dumps(as_data(search, given["write"]), ensure_ascii=False, indent=2))
        return
    click.echo(table(search), nl=False)
    if given["write"] is not None:
        click.echo(f"Set {given['write']} stands in {file} now.")


@contextmanager
def _progress(sets: int) -> Iterator[Callable[[int], None]]:
    """A bar for a long search, if somebody sits at a terminal."""
    if sets < LONG_SEARCH or not sys.stderr.isatty():
        yield lambda _: None
        return
    with click.progressbar(length=sets, label="Looking", file=sys.stderr) as bar:
        yield bar.update


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
