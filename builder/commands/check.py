"""``stepwell check``: solve and cross-check many problems and tell what is wrong."""

from __future__ import annotations

import json
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from builder.commands.telling import shown, stop
from builder.commands.terminal import in_colour, is_terminal, width
from builder.errors import FaultyFile
from builder.site.checking.data import as_data
from builder.site.checking.files import to_check
from builder.site.checking.lines import lines_of, summary, told_of
from builder.site.checking.report import Report
from builder.site.checking.run import check as check_all
from builder.site.checking.table import table

_LONG = 100
"""So many problems take long enough for a bar."""
_COLOURS = {"agree": "green", "odd": "yellow", "faulty": "red", "broken": "red"}


@click.command()
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path))
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
    start = time.monotonic()
    try:
        found = to_check(paths or (Path("content"),))
    except FaultyFile as error:
        stop(error)
    with _progress(len(found.files)) as seen:
        report = check_all(found, seen)
    if as_json:
        click.echo(json.dumps(as_data(report), ensure_ascii=False, indent=2))
    else:
        _print(report, time.monotonic() - start, quiet=quiet)
    sys.exit(1 if report.faults or (strict and report.oddities) else 0)


def _print(report: Report, seconds: float, *, quiet: bool) -> None:
    terminal = is_terminal()
    if terminal and not quiet:
        for row in table(report, width(), _painted if in_colour() else _plain):
            click.echo(row, color=True)
    if terminal:
        for told in told_of(report, odd=not quiet):
            click.echo(f"\n{shown(told, on=sys.stdout)}", color=True)
    else:
        for line in lines_of(report, odd=not quiet):
            click.echo(line)
    if not quiet:
        took = f" ({seconds:.1f} s)" if terminal else ""
        blank = "\n" if terminal else ""
        click.echo(f"{blank}{summary(report)}{took}", err=bool(report.faults))


def _painted(text: str, verdict: str) -> str:
    return click.style(text, fg=_COLOURS[verdict])


def _plain(text: str, _: str) -> str:
    return text


@contextmanager
def _progress(problems: int) -> Iterator[Callable[[], None]]:
    """A bar for a long check, if somebody sits at a terminal."""
    if problems < _LONG or not sys.stderr.isatty():
        yield lambda: None
        return
    # The time that is left cannot be told from the start, which is slow, as processes are started.
    with click.progressbar(
        length=problems, label="Checking", show_eta=False, file=sys.stderr
    ) as bar:
        yield lambda: bar.update(1)
