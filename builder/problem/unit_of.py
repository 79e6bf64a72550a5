"""Which unit a problem's file belongs to."""

from __future__ import annotations

from pathlib import Path

from builder.problem.model import Unit
from builder.problem.reader import read_unit

UNIT_FILE = "unit.yml"


def unit_of(file: Path) -> Unit | None:
    """The unit that a problem's file lies in, if there is one.

    Raises:
        FaultyFile: if the unit's own file cannot be used.
    """
    described = file.parent.parent / UNIT_FILE
    return read_unit(described, folder=file.parent.name) if described.is_file() else None
