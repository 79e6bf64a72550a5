"""PDF by way of an installed browser, which knows our styles, fonts and formulas already."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import tempfile
from collections.abc import Mapping
from pathlib import Path

from builder.errors import NoBrowser, PrintingFailed

VARIABLE = "STEPWELL_BROWSER"
"""Names the browser to print with, before all that is found."""

NAMES = (
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
    "microsoft-edge",
)
_SECONDS = 120
_QUIET = (
    "--headless",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-extensions",
    "--disable-sync",
    "--no-default-browser-check",
    "--no-first-run",
    "--no-pdf-header-footer",
)
# The browser writes the time of printing; a fixed one of equal length keeps every offset right.
_DATE = re.compile(rb"/(CreationDate|ModDate) \(D:\d{14}([^)]*)\)")
_FIXED_DATE = rb"/\1 (D:19800101000000\2)"
# It also numbers the cells of tables by what it has done before, in rising order.
_CELL = re.compile(rb"\(node(\d{8})\)")


def find_browser(environment: Mapping[str, str] = os.environ) -> str:
    """The browser to print with: what ``$STEPWELL_BROWSER`` names, else one on the PATH.

    Raises:
        NoBrowser: if there is none, or none where the variable says.
    """
    path = environment.get("PATH", os.defpath)
    if named := environment.get(VARIABLE, "").strip():
        found = shutil.which(named, path=path)
        if found is None:
            raise NoBrowser(VARIABLE, NAMES, named)
        return found
    for name in NAMES:
        if found := shutil.which(name, path=path):
            return found
    raise NoBrowser(VARIABLE, NAMES)


def print_pdf(page: Path, browser: str) -> bytes:
    """A page of HTML as PDF, on the paper that its styles ask for; same page, same bytes.

    Args:
        page: must be whole in itself: the browser runs without a profile of its user.
        browser: the program, as from ``find_browser``.

    Raises:
        PrintingFailed: if the browser yields no PDF.
    """
    with tempfile.TemporaryDirectory(prefix="stepwell-") as folder:
        made = Path(folder) / "page.pdf"
        done = run_browser(browser, page, f"--print-to-pdf={made}")
        content = made.read_bytes() if made.is_file() else b""
    if not content.startswith(b"%PDF-"):
        raise PrintingFailed(browser, trouble_of(done))
    return _reproducible(content)


def run_browser(browser: str, page: Path, *asked: str) -> subprocess.CompletedProcess[str]:
    """Let a browser open a page, without a window and without the profile of its user.

    Args:
        browser: the program, as from ``find_browser``.
        page: a file that is whole in itself.
        asked: options that say what is to be done with it.

    Raises:
        PrintingFailed: if the browser does not start, or does not end.
    """
    with tempfile.TemporaryDirectory(prefix="stepwell-", ignore_cleanup_errors=True) as folder:
        command = [
            browser,
            *_QUIET,
            # A browser that root has started refuses to run in its sandbox.
            *(["--no-sandbox"] if _is_root() else []),
            f"--user-data-dir={folder}/profile",
            *asked,
            page.resolve().as_uri(),
        ]
        try:
            return subprocess.run(  # noqa: S603 - the user's own browser, without a shell
                command, stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False,
                timeout=_SECONDS,
            )  # fmt: skip
        except subprocess.TimeoutExpired:
            raise PrintingFailed(browser, f"it took longer than {_SECONDS} seconds") from None
        except OSError as error:
            raise PrintingFailed(browser, error.strerror or str(error)) from error


def trouble_of(done: subprocess.CompletedProcess[str]) -> str:
    """What a browser said last before it ended without a result."""
    return _last_line(done.stderr) or f"exit code {done.returncode}"


def _reproducible(pdf: bytes) -> bytes:
    """The same PDF without what differs from run to run; every part keeps its length."""
    cells = sorted(set(_CELL.findall(pdf)))
    numbers = {cell: b"(node%08d)" % number for number, cell in enumerate(cells, start=1)}
    return _CELL.sub(lambda match: numbers[match[1]], _DATE.sub(_FIXED_DATE, pdf))


def _is_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0


def _last_line(text: str) -> str:
    lines = text.strip().splitlines()
    return lines[-1].strip()[:200] if lines else ""
