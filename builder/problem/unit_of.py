"""Which unit a problem's file belongs to."""

from __future__ import annotations

from pathlib import Path

from builder.problem.model import Unit
from builder.problem.reader import read_unit

UNIT_FILE = "unit.yml"


def home_of(file: Path) -> Path:
    """The folder in which the unit's file stands beside the folder of a problem's file."""
    near = file if len(file.parts) > 2 or file.is_absolute() else file.absolute()
    return near.parent.parent


def unit_of(file: Path) -> Unit | None:
    """The unit that a problem's file lies in, if there is one.

    Raises:
        FaultyFile: if the unit's own file cannot be used.
    """
    described = home_of(file) / UNIT_FILE
    folder = file.absolute().parent.name
    return read_unit(described, folder=folder) if described.is_file() else None
