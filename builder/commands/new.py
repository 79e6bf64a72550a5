"""``stepwell new``: a new problem, ready to be changed."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from textwrap import indent

import click

from builder.commands.paths import FilePath
from builder.commands.telling import named, stop, tell
from builder.errors import StepwellError
from builder.problem.model import LEVELS
from builder.site.starting.draft import NotThat, draft
from builder.site.starting.guided import guided
from builder.site.starting.kinds import KINDS, kind_list
from builder.site.starting.new_problem import place_for, write_problem


def _list(ctx: click.Context, _param: click.Parameter, value: bool) -> None:
    if value:
        click.echo(kind_list())
        ctx.exit()


@click.command(epilog="\b\nKinds:\n" + indent(kind_list(), "  "))
@click.argument("name")
@click.option("--kind", type=click.Choice(tuple(KINDS)), metavar="KIND",
              help="What the problem is about; the kinds are listed below.")  # fmt: skip
@click.option("--title", default="", help="Its heading; by default that of the ready problem.")
@click.option("--level", type=click.Choice(LEVELS), help="How hard it is; by default core.")
@click.option("--unit", default="content", type=FilePath(), show_default=True,
              help="The folder of unit.yml and problems/.")  # fmt: skip
@click.option("--force", is_flag=True, help="Overwrite a problem of that name.")
@click.option("--list", is_flag=True, is_eager=True, expose_value=False, callback=_list,
              help="List the kinds and go no further.")  # fmt: skip
def new(name: str, kind: str | None, title: str, level: str | None, unit: Path, *,
        force: bool) -> None:  # fmt: skip
    """Make a new problem, ready to build and to be changed: problems/NAME.yml.

    With --kind the file holds a short problem of that kind, whose comments say what may be
    changed. Without it, at a terminal, a few questions are asked first.

    Example: stepwell new pontoon-lamps --kind resistors
    """
    if kind is None and not sys.stdin.isatty():
        raise click.UsageError(f"There is no terminal to ask at, so name a kind with --kind: "
                               f"{', '.join(KINDS)}.")  # fmt: skip
    try:
        place = place_for(name, unit, force=force)
        if kind is None:
            made = guided(place, _ask, tell, title=title, level=level or "")
        else:
            made = draft(KINDS[kind], place.slug, place.unit, title=title, level=level or "core")
        file = write_problem(made, place)
    except StepwellError as error:
        stop(error)
    there = named(file)
    tell(f"{there} is there. Change it in any editor, then see what comes of it:\n"
         f"  stepwell check {there}\n  stepwell solve {there}")  # fmt: skip


def _ask(question: str, otherwise: str, check: Callable[[str], object]) -> str:
    """Ask at the terminal until the answer can be taken."""

    def taken(typed: str) -> str:
        try:
            check(typed.strip())
        except NotThat as trouble:
            raise click.UsageError(named(str(trouble))) from None
        return typed.strip()

    answer: str = click.prompt(question, default=otherwise, value_proc=taken)
    return answer
