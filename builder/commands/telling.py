"""How every command tells what it did, and how it stops.

Whatever a command prints goes through here: titles, names of files and what was typed may hold
signs that a terminal would obey, and those are named instead.
"""

from __future__ import annotations

import json
import re
import sys
from pathlib import Path
from typing import Any, NoReturn, TextIO

import click

from builder.commands.terminal import in_colour
from builder.errors import StepwellError
from builder.pointing import harmless, obeyed

_PLACE = re.compile(r"^\S.*?:\d+:\d+(?=: (?:found|odd))", re.MULTILINE)
_MARK = re.compile(r"^( +\| *)(\^+)$", re.MULTILINE)


def tell(text: str, *, err: bool = False, end: str = "\n") -> None:
    """Print a text, which ends no line but where it says so and does nothing to a terminal.

    Args:
        text: one line or several.
        err: whether it goes where errors go.
        end: what stands after it.
    """
    click.echo(_harmless_lines(text) + end, err=err, nl=False)


def tell_data(data: Any) -> None:
    """Print data as JSON that says every sign, with an escape for what a terminal would obey."""
    text = json.dumps(data, ensure_ascii=False, indent=2)
    click.echo("\n".join(
        "".join(json.dumps(sign)[1:-1] if obeyed(sign) else sign for sign in line)
        for line in text.split("\n")
    ))  # fmt: skip


def named(path: Path | str) -> str:
    """A file, or anything else that has a name, in one line."""
    return harmless(str(path))


def _harmless_lines(text: str) -> str:
    return "\n".join(map(harmless, text.split("\n")))


def stop(error: StepwellError) -> NoReturn:
    """Print what went wrong and end with exit code 1."""
    click.echo(shown(error.told(), on=sys.stderr), err=True, color=True)
    sys.exit(1)


def shown(told: str, on: TextIO) -> str:
    """What is told of a file, with places and marks in colour where colours are wanted.

    Whoever sees no colours reads the same: a place comes first, and a mark is a row of carets.

    Args:
        told: faults or oddities, as they tell themselves.
        on: where it is printed.
    """
    told = _harmless_lines(told)
    if not in_colour(on):
        return told
    placed = _PLACE.sub(lambda place: click.style(place.group(), bold=True), told)
    return _MARK.sub(lambda mark: mark[1] + click.style(mark[2], fg="red", bold=True), placed)


def counted(number: int, noun: str) -> str:
    """``1 problem``, ``2 problems``."""
    return f"{number} {noun}{'' if number == 1 else 's'}"


def kilobytes(size: int) -> str:
    """A size in bytes as people read it."""
    return f"{size / 1000:.0f} kB"
