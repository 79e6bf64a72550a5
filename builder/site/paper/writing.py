"""Sheets on the disk: all of their files or none, and never over a file that is not ours."""

from __future__ import annotations

import os
import re
import tempfile
from pathlib import Path

from builder.errors import Fault, FaultyFile
from builder.site.paper.sheet import MADE_BY, Sheet
from builder.site.printing import print_pdf


def write_sheet(
    sheet: Sheet, folder: Path, *, browser: str | None = None, force: bool = False
) -> tuple[Path, ...]:
    """Write worksheet and key as HTML, and as PDF if there is a browser to print them.

    Args:
        sheet: what to write.
        folder: made if it is not there.
        browser: prints the PDFs; None for no PDFs.
        force: whether files that are not ours may be overwritten.

    Returns:
        The files written: worksheet and key, then their PDFs.

    Raises:
        FaultyFile: if the folder cannot be written, or a file in it is not ours.
        PrintingFailed: if the browser yields no PDF. Nothing is written then.
    """
    stem = _stem(sheet.title) + (f"-set-{sheet.number}" if sheet.number else "")
    pages = {f"{stem}-worksheet": sheet.worksheet, f"{stem}-key": sheet.key}
    contents = {folder / f"{name}.html": page.encode() for name, page in pages.items()}
    printed = [folder / f"{name}.pdf" for name in pages] if browser else []
    if not force:
        _refuse_strangers([*contents, *printed])
    if browser:
        contents |= dict(zip(printed, _printed(pages, browser), strict=True))
    try:
        folder.mkdir(parents=True, exist_ok=True)
        write_together(contents)
    except OSError as error:
        raise FaultyFile((Fault(
            str(folder), 0, 0, f"a folder that cannot be written ({error.strerror})",
            "a folder to write the sheet into", "Name another one with --out.",
        ),)) from error  # fmt: skip
    return tuple(contents)


def write_together(contents: dict[Path, bytes]) -> None:
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


def _printed(pages: dict[str, str], browser: str) -> list[bytes]:
    with tempfile.TemporaryDirectory(prefix="stepwell-") as folder:
        made = []
        for name, page in pages.items():
            file = Path(folder) / f"{name}.html"
            file.write_text(page, encoding="utf-8")
            made.append(print_pdf(file, browser))
    return made


def _refuse_strangers(paths: list[Path]) -> None:
    """A page is ours if it says so; a PDF is ours if it lies beside such a page."""
    for path in paths:
        if path.exists() and not _is_ours(path.with_suffix(".html")):
            raise FaultyFile((Fault(
                str(path), 0, 0, "a file that is no sheet of Stepwell",
                "no file, or an earlier sheet to replace",
                "Move it away, choose another --title or --out, or overwrite it with --force.",
            ),))  # fmt: skip


def _is_ours(page: Path) -> bool:
    try:
        with page.open("rb") as file:
            return MADE_BY.encode() in file.read(1000)
    except OSError:
        return False


def _stem(title: str) -> str:
    return re.sub(r"\W+", "-", title.lower()).strip("-_")[:60] or "sheet"
