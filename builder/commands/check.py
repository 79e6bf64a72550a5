"""``stepwell check``: solve and cross-check many problems and tell what is wrong."""

from __future__ import annotations

import sys
from contextlib import nullcontext
from itertools import islice
from pathlib import Path

import click

from builder.commands.paths import FilePath
from builder.site.checking import FEWEST_FOR_HELP
from builder.site.workers import Crew, processors


@click.command()
@click.argument("paths", nargs=-1, type=FilePath())
@click.option("--strict", is_flag=True, help="Oddities, too, end with exit code 1.")
@click.option("-q", "--quiet", is_flag=True, help="Print faults and nothing else.")
@click.option("--json", "as_json", is_flag=True, help="Print the report as JSON.")
def check(paths: tuple[Path, ...], *, strict: bool, quiet: bool, as_json: bool) -> None:
    """Solve and cross-check the problems in PATHS (files or folders; by default content).

    A fault stops a build. An oddity is allowed, and hardly what was meant. With the folder of a
    unit, unit.yml and the lesson pages are checked too. On a terminal there is a row for each
    problem; elsewhere a line for each fault and each oddity.

    Exit codes: 0 if everything can be published, 1 if there is any fault, 2 for a wrong call.

    Example: stepwell check content/problems
    """
    many = _many(paths or (Path("content"),))
    # Others load the program while this process does.
    with Crew("builder.site.checking.one") if many else nullcontext() as crew:
        from builder.commands.check_telling import Wanted, check_and_tell

        wanted = Wanted(strict=strict, quiet=quiet, as_json=as_json)
        code = check_and_tell(paths or (Path("content"),), wanted, crew)
    sys.exit(code)


def _many(paths: tuple[Path, ...]) -> bool:
    """Whether other processes would pay, by a look at the folders alone."""
    files = (file for path in paths if path.is_dir() for file in path.rglob("*.yml"))
    return processors() > 1 and len(list(islice(files, FEWEST_FOR_HELP))) == FEWEST_FOR_HELP
