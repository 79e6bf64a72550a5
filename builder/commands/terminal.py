"""What the terminal that a command writes to can show."""

from __future__ import annotations

import os
import shutil
import sys
from typing import TextIO

_WIDEST = 100
"""Longer rows are hard to follow."""


def is_terminal() -> bool:
    """Whether a person reads what is printed."""
    return sys.stdout.isatty()


def width() -> int:
    """How many columns it has."""
    return min(_WIDEST, shutil.get_terminal_size().columns)


def in_colour(on: TextIO | None = None) -> bool:
    """Whether colours are shown and wanted: never in a file, nor where ``NO_COLOR`` is set.

    Args:
        on: where it is printed; what a command prints if None.

    The variable is that of no-color.org: it counts if it is not empty, whatever it says.
    """
    plain = os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb"
    return (on or sys.stdout).isatty() and not plain
