"""``stepwell start``: a whole new unit, ready to build."""

from __future__ import annotations

from pathlib import Path
from shlex import quote

import click

from builder.commands.paths import FilePath
from builder.commands.telling import counted, named, stop, tell
from builder.errors import StepwellError
from builder.site.starting.new_unit import start_unit


@click.command()
@click.argument("folder", type=FilePath())
@click.option("--title", default="", help="The unit's title; by default made of the folder's name.")
def start(folder: Path, title: str) -> None:
    """Make a whole new unit in FOLDER, ready to build.

    It holds one problem, a lesson that shows it, a front page, and all that a site needs.
    FOLDER must be empty or not there.

    Example: stepwell start night-lights --title "Night lights"
    """
    try:
        written = start_unit(folder, title)
    except StepwellError as error:
        stop(error)
    tell(f"{named(folder)} holds a new unit of {counted(len(written), 'file')}:")
    tell("\n".join(f"  {named(path)}" for path in written))
    go = "" if folder.resolve() == Path.cwd() else f"  cd {named(quote(str(folder)))}\n"
    tell(f"Try it:\n{go}  stepwell check\n  mkdocs build --strict\n"
         "and open site/index.html. README.md tells more.")  # fmt: skip
