"""Get a Chromium that really starts, for the tests in a browser.

Run as ``python -m tests.get_browser FOLDER``. What is installed comes first, then Debian's package
(as root), then the download of Playwright. A small script called ``chromium`` is written into
FOLDER: with FOLDER first on the PATH, every test finds the browser that was checked.
"""

from __future__ import annotations

import os
import shlex
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from playwright.sync_api import Error, sync_playwright

from tests.browser import NAMES

LAUNCH_ARGUMENTS = (
    "--no-sandbox",  # root cannot use the sandbox
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
)
ADVICE = (
    "No Chromium that starts was found, and none could be installed, so the tests cannot run. "
    "Install one and try again: on Debian, sudo apt install chromium; elsewhere, "
    "sudo .venv/bin/python -m playwright install --with-deps chromium"
)

Obtain = Callable[[], None]


def main(folder: Path) -> int:
    """Write the script into ``folder``; the exit status tells whether a browser was found."""
    browser = get((_nothing, _from_debian, _from_playwright), _candidates)
    if browser is None:
        print(ADVICE, file=sys.stderr)
        return 1
    folder.mkdir(parents=True, exist_ok=True)
    script = folder / "chromium"
    script.write_text(f'#!/bin/sh\nexec {shlex.quote(browser)} "$@"\n', encoding="utf-8")
    script.chmod(0o755)
    print(f"Browser for the tests: {browser}")
    return 0


def get(ways: Iterable[Obtain], candidates: Callable[[], Iterable[str]]) -> str | None:
    """The first candidate that starts, after as few ``ways`` of getting one as need be."""
    refused: set[str] = set()
    for obtain in ways:
        obtain()
        for path in candidates():
            if path in refused:
                continue
            if (trouble := why_not(path)) is None:
                return path
            refused.add(path)
            print(f"{path} does not start: {trouble}", file=sys.stderr)
    return None


def why_not(path: str) -> str | None:
    """What goes wrong when ``path`` is started and shows a page, headless; None if nothing does.

    A file of that name may be there and yet be no browser: Ubuntu's packages are stubs that
    ask for a snap.
    """
    with sync_playwright() as playwright:
        try:
            browser = playwright.chromium.launch(
                executable_path=path, args=LAUNCH_ARGUMENTS, timeout=60_000
            )
            page = browser.new_page()
            page.set_content("<title>buoy</title>")
            title = page.title()
            browser.close()
        except Error as error:
            return str(error).split("\n", maxsplit=1)[0]
    return None if title == "buoy" else f"it showed a page titled {title!r}"


def _candidates() -> Iterator[str]:
    for name in NAMES:
        if path := shutil.which(name):
            yield path
    with sync_playwright() as playwright:
        downloaded = playwright.chromium.executable_path
    if Path(downloaded).exists():
        yield downloaded


def _nothing() -> None:
    """What is installed already comes first."""


def _from_debian() -> None:
    if os.geteuid() == 0 and shutil.which("apt-get"):
        _run("apt-get", "update")
        _run("apt-get", "install", "-y", "chromium")


def _from_playwright() -> None:
    install = (sys.executable, "-m", "playwright", "install")
    # The libraries that the browser needs come from the system's packages, which only root may
    # add; they may be there already.
    if os.geteuid() != 0 or not _run(*install, "--with-deps", "chromium"):
        _run(*install, "chromium")


def _run(*command: str) -> bool:
    """Whether a command succeeds; where it does not, the next way is tried."""
    print("Getting a browser:", shlex.join(command), flush=True)
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    done = subprocess.run(
        command, env=environment, stdin=subprocess.DEVNULL, stdout=sys.stderr, check=False
    )
    return done.returncode == 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1])))
