"""The bytes of a file as text."""

from __future__ import annotations

import codecs

from builder.errors import FaultyFile
from builder.problem.faults.gathering import LINE_END, START, Faults, Mark
from builder.problem.limits import LARGEST_FILE


def decode(raw: bytes, faults: Faults) -> str:
    """The text of a file.

    Raises:
        FaultyFile: if the file is too large or is no text in UTF-8.
    """
    if len(raw) > LARGEST_FILE:
        raise too_large(faults)
    if raw.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        faults.add(START, "a file in the encoding UTF-16", "text in UTF-8", _SAVE_AS_UTF8)
        raise faults.as_error()
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8-sig", "replace")
        faults.add(
            place_after(before), "a byte that is no UTF-8 text", "text in UTF-8", _SAVE_AS_UTF8
        )
        raise faults.as_error() from None


_SAVE_AS_UTF8 = "Save the file again as plain text with the encoding UTF-8."


def too_large(faults: Faults) -> FaultyFile:
    """The fault of a file that is larger than any problem."""
    faults.add(START, f"a file of more than {LARGEST_FILE // 1024} KiB",
               f"at most {LARGEST_FILE // 1024} KiB",
               "Check that it is the right file.")  # fmt: skip
    return faults.as_error()


def place_after(before: str) -> Mark:
    """The place that follows a text from the start of a file."""
    lines = LINE_END.split(before)
    return Mark(len(lines), len(lines[-1]) + 1)
