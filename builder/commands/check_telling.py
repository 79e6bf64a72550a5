"""What ``stepwell check`` does once it knows what is wanted: check, and tell what was found."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import click

from builder.commands.telling import shown, stop, tell, tell_data
from builder.commands.terminal import in_colour, is_terminal, width
from builder.errors import FaultyFile
from builder.site.checking.data import as_data
from builder.site.checking.files import to_check
from builder.site.checking.lines import lines_of, summary, told_of
from builder.site.checking.report import Report
from builder.site.checking.run import check
from builder.site.checking.table import table
from builder.site.workers import Crew

_LONG = 100
"""So many problems take long enough for a bar."""
_COLOURS = {"agree": "green", "odd": "yellow", "faulty": "red", "broken": "red"}


@dataclass(frozen=True)
class Wanted:
    """How the report is wanted.

    Attributes:
        strict: whether oddities count as faults.
        quiet: whether faults are all that is told.
        as_json: whether it is for machines.
    """

    strict: bool
    quiet: bool
    as_json: bool


def check_and_tell(paths: Iterable[Path], wanted: Wanted, crew: Crew | None) -> int:
    """Check what the paths name, print the report, and give the exit code.

    Args:
        paths: files and folders.
        wanted: how the report is wanted.
        crew: processes that help, if they were called already.
    """
    start = time.monotonic()
    try:
        found = to_check(paths)
    except FaultyFile as error:
        stop(error)
    with _progress(len(found.files)) as seen:
        report = check(found, seen, crew=crew)
    if wanted.as_json:
        tell_data(as_data(report))
    else:
        _print(report, time.monotonic() - start, quiet=wanted.quiet)
    return 1 if report.faults or (wanted.strict and report.oddities) else 0


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
            tell(line)
    if not quiet:
        took = f" ({seconds:.1f} s)" if terminal else ""
        blank = "\n" if terminal else ""
        tell(f"{blank}{summary(report)}{took}", err=bool(report.faults))


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
