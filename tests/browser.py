"""Where the browser for the tests is."""

from __future__ import annotations

import shutil
from pathlib import Path

from playwright.sync_api import sync_playwright

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")


def find_chromium() -> str:
    """The path of an installed Chromium or Chrome, else of Playwright's own download.

    Raises:
        RuntimeError: if there is none.
    """
    for name in NAMES:
        if path := shutil.which(name):
            return path
    with sync_playwright() as playwright:
        downloaded = playwright.chromium.executable_path
    if Path(downloaded).exists():
        return downloaded
    raise RuntimeError(
        "These tests measure pages in a real browser, and no Chromium was found: looked for "
        f"{', '.join(NAMES)} on the PATH and for {downloaded}. Run the tests through "
        "`make test`, which gets one."
    )
