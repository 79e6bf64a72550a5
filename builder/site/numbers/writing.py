"""The chosen numbers in the problem's file: its values change and nothing else."""

from __future__ import annotations

import codecs
import os
import shutil
import tempfile
from pathlib import Path

from builder.errors import Fault, FaultyFile
from builder.site.numbers.search import Search


def write_numbers(search: Search, number: int) -> None:
    """Write one of the sets that were found into the file of the problem.

    The new text is written beside the file and then takes its place, so that there is never half
    a file.

    Args:
        search: what was found.
        number: which set, from 1.

    Raises:
        FaultyFile: if there is no such set, if the file is no longer what was read, or if it
            cannot be written. It stays as it is then.
    """
    found = search.catch.numbers
    if not 1 <= number <= len(found):
        raise _refused(f"--write {number}", f"set {number} of {len(found)}",
                       "the number of a set in the table", "Choose one, or ask for more sets "
                       "with --best.")  # fmt: skip
    path = search.path.resolve()  # a link stays a link
    mark = codecs.BOM_UTF8 if search.raw.startswith(codecs.BOM_UTF8) else b""
    new = mark + found[number - 1].solution.problem.text.encode()
    try:
        _replace(path, search.raw, new)
    except OSError as error:
        raise _refused(str(search.path), f"a file that cannot be written ({error.strerror})",
                       "a file of yours in a folder of yours",
                       "Look at its permissions.") from error  # fmt: skip


def _replace(path: Path, old: bytes, new: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".part")
    aside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(new)
            file.flush()
            os.fsync(handle)  # else a power cut could leave the new name with nothing in it
        shutil.copymode(path, aside)
        if path.read_bytes() != old:
            raise _refused(str(path), "a file that has changed since it was read",
                           "the file as it was", "Save it in your editor, then ask for numbers "
                           "again.")  # fmt: skip
        aside.replace(path)
    finally:
        aside.unlink(missing_ok=True)


def _refused(path: str, found: str, expected: str, advice: str) -> FaultyFile:
    return FaultyFile((Fault(path, 0, 0, found, expected, advice),))
