"""Files that a command writes: all of them whole, or none."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from builder.errors import Fault, FaultyFile


def write_into(folder: Path, contents: Mapping[Path, bytes], wanted: str) -> tuple[Path, ...]:
    """Write several files into a folder that ``--out`` names.

    Args:
        folder: made if it is not there.
        contents: by the place of each file.
        wanted: what the folder is for, as a fault says what it expected.

    Returns:
        The files written.

    Raises:
        FaultyFile: if the folder cannot be written; none of the files is then.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        write_together(contents)
    except OSError as error:
        raise FaultyFile((Fault(
            str(folder), 0, 0, f"a folder that cannot be written ({error.strerror})", wanted,
            "Name another one with --out.",
        ),)) from error  # fmt: skip
    return tuple(contents)


def write_together(contents: Mapping[Path, bytes]) -> None:
    """Write several files in full beside their places, then move all into place.

    Raises:
        OSError: if one cannot be written; none is in place then, and nothing is left over.
    """
    aside: dict[Path, Path] = {}
    try:
        for path, content in contents.items():
            with tempfile.NamedTemporaryFile(
                dir=path.parent, prefix=".", suffix=".part", delete=False
            ) as file:
                aside[path] = Path(file.name)
                file.write(content)
            aside[path].chmod(0o666 & ~_umask())
        for path, whole in aside.items():
            whole.replace(path)
    finally:
        for whole in aside.values():
            whole.unlink(missing_ok=True)


def _umask() -> int:
    """The permissions that the user's new files go without."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
