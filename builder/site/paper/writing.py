"""Sheets on the disk: all of their files or none, and never over a file that is not ours."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path

from builder.errors import Fault, FaultyFile
from builder.site.paper.sheet import MADE_BY, Sheet
from builder.site.printing import print_pdf
from builder.site.whole_files import write_into


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
    return write_into(folder, contents, "a folder to write the sheet into")


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
