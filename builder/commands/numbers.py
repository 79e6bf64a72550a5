"""``stepwell numbers``: values with which every number of a solution comes out clean."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click

from builder.commands.paths import FilePath
from builder.commands.telling import named, stop, tell, tell_data
from builder.errors import StepwellError
from builder.problem.unit_of import unit_of
from builder.site.numbers.report import as_data, table
from builder.site.numbers.search import LONG_SEARCH, look, prepare
from builder.site.numbers.wishes import Wishes
from builder.site.numbers.writing import write_numbers


@click.command()
@click.argument("file", type=FilePath())
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
        search = prepare(file, unit_of(file), wishes, given["digits"])
        with progress(search.hunt.grid.size) as seen:
            search = look(search, given["best"], seen)
        if given["write"] is not None:
            write_numbers(search, given["write"])
    except StepwellError as error:
        stop(error)
    if given["as_json"]:
        tell_data(as_data(search, given["write"]))
        return
    tell(table(search), end="")
    if given["write"] is not None:
        tell(f"Set {given['write']} stands in {named(file)} now.")


@contextmanager
def progress(sets: int) -> Iterator[Callable[[int], None]]:
    """A bar for a long search, if somebody sits at a terminal."""
    if sets < LONG_SEARCH or not sys.stderr.isatty():
        yield lambda _: None
        return
    with click.progressbar(length=sets, label="Looking", file=sys.stderr) as bar:
        yield bar.update
