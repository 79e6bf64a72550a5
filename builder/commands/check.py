"""``stepwell check``: solve and cross-check many problems and tell what is wrong."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from builder.commands.telling import counted, stop
from builder.errors import FaultyFile
from builder.problem.unit_of import unit_of
from builder.site.checking import check_all, problem_files


@click.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path))
def check(paths: tuple[Path, ...]) -> None:
    """Solve and cross-check the problems in PATHS (files or folders; by default content).

    Prints one line a fault and ends with exit code 1 if there is any.

    Example: stepwell check content/problems
    """
    try:
        files = problem_files(paths or (Path("content"),))
    except FaultyFile as error:
        stop(error)
    faults = check_all(files, unit_of)
    for line in faults:
        click.echo(line)
    if faults:
        click.echo(f"{counted(len(files), 'problem')} read, {counted(len(faults), 'fault')}.",
                   err=True)  # fmt: skip
        sys.exit(1)
    click.echo(f"{counted(len(files), 'problem')} solved twice; everything agrees.")
