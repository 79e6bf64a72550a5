"""``stepwell sheet``: a worksheet and the key that matches it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from builder.commands.paths import FilePath
from builder.commands.telling import counted, kilobytes, named, stop, tell
from builder.errors import StepwellError
from builder.problem.model import LEVELS
from builder.site.paper.choosing import Choice, choose
from builder.site.paper.sets import with_set
from builder.site.paper.sheet import PAPERS, SPACES, Layout, make_sheet
from builder.site.paper.writing import write_sheet
from builder.site.printing import find_browser


@click.command()
@click.argument("problems", nargs=-1, type=FilePath(str), metavar="PROBLEM...")
@click.option("--unit", default="content", type=FilePath(), show_default=True,
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
@click.option("--out", default="sheets", type=FilePath(), show_default=True,
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
        stop(error)
    tell(f"Sheet {made.mark}: {counted(len(chosen.lessons), 'problem')}.")
    for slug in numbered.unchanged:
        tell(f"{named(slug)} has no other numbers and stays as it is written.")
    for path in written:
        tell(f"{named(path)} ({kilobytes(path.stat().st_size)})")
