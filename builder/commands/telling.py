"""How every command tells what it did, and how it stops."""

from __future__ import annotations

import re
import sys
from typing import NoReturn, TextIO

import click

from builder.commands.terminal import in_colour
from builder.errors import StepwellError

_PLACE = re.compile(r"^\S.*?:\d+:\d+(?=: (?:found|odd))", re.MULTILINE)
_MARK = re.compile(r"^( +\| *)(\^+)$", re.MULTILINE)


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
