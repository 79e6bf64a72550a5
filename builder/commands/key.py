"""``stepwell key``: the answers of every set of fresh numbers."""

from __future__ import annotations

import shutil
from pathlib import Path

import click

from builder.commands.paths import FilePath
from builder.commands.telling import stop, tell, tell_data
from builder.errors import StepwellError
from builder.site.paper.choosing import Choice, choose
from builder.site.paper.key_table import key_data, key_of, key_text


@click.command()
@click.argument("problems", nargs=-1, required=True, type=FilePath(str), metavar="PROBLEM...")
@click.option("--unit", default="content", type=FilePath(), show_default=True,
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
        stop(error)
    if as_json:
        tell_data([key_data(one) for one in keys])
        return
    width = shutil.get_terminal_size().columns
    tell("\n".join(key_text(one, width) for one in keys), end="")
