"""How every command tells what it did, and how it stops."""

from __future__ import annotations

import sys
from typing import NoReturn

import click

from builder.errors import StepwellError


def stop(error: StepwellError) -> NoReturn:
    """Print what went wrong and end with exit code 1."""
    click.echo(error.told(), err=True)
    sys.exit(1)


def counted(number: int, noun: str) -> str:
    """``1 problem``, ``2 problems``."""
    return f"{number} {noun}{'' if number == 1 else 's'}"


def kilobytes(size: int) -> str:
    """A size in bytes as people read it."""
    return f"{size / 1000:.0f} kB"
