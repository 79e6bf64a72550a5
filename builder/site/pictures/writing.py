"""Pictures on the disk: whole or not at all, and never over a file that is not ours."""

from __future__ import annotations

from pathlib import Path

from builder.errors import Fault, FaultyFile
from builder.site.pictures.drawing import MADE_BY
from builder.site.whole_files import write_together


def place_of(problem: Path, out: Path | None, step: int | None, ending: str) -> Path:
    """Where a picture goes: as its author says, else into this folder under the problem's name."""
    if out is not None:
        return out
    after = f"-step-{step}" if step is not None else ""
    return Path(f"{problem.stem}{after}{ending}")


def write_picture(content: bytes, out: Path, *, force: bool = False) -> None:
    """Write a picture.

    Args:
        content: an SVG or a PNG.
        out: the file; its folder is made if it is not there.
        force: whether a file that is no picture of ours may be overwritten.

    Raises:
        FaultyFile: if there is such a file, or if it cannot be written.
    """
    if out.exists() and not force and not _is_ours(out):
        raise _fault(out, "a file that is no picture of Stepwell",
                     "no file, or an earlier picture to replace",
                     "Choose another --out, or overwrite it with --force.")  # fmt: skip
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        write_together({out: content})
    except OSError as error:
        raise _fault(out, f"a place that cannot be written ({error.strerror})",
                     "a place for the picture", "Name another one with --out.",
                     ) from error  # fmt: skip


def _is_ours(out: Path) -> bool:
    try:
        with out.open("rb") as file:
            return MADE_BY.encode() in file.read(200)
    except OSError:
        return False


def _fault(path: Path, found: str, expected: str, advice: str) -> FaultyFile:
    return FaultyFile((Fault(str(path), 0, 0, found, expected, advice),))
