"""Fixtures that all tests share: a browser, a page that is cut off the network, the built unit."""

from __future__ import annotations

import fcntl
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    ConsoleMessage,
    Page,
    Request,
    WebError,
    sync_playwright,
)

import tests.strategies  # noqa: F401 - loads the profile of hypothesis for every test
from tests.browser import find_chromium
from tests.contexts import Contexts
from tests.get_browser import LAUNCH_ARGUMENTS

ROOT = Path(__file__).parent.parent


@dataclass
class Visit:
    """A page opened from a folder without a network, and what was noticed on it.

    Attributes:
        page: the open page.
        folder: the folder that it may read.
        errors: messages of the console's errors and of uncaught exceptions.
        requests: the address of every request.
    """

    page: Page
    folder: Path
    errors: list[str] = field(default_factory=list)
    requests: list[str] = field(default_factory=list)

    def watch(self, context: BrowserContext) -> Callable[[], None]:
        """Note what happens in the context; what is returned makes an end of it."""

        def request(sent: Request) -> None:
            self.requests.append(sent.url)

        def weberror(error: WebError) -> None:
            self.errors.append(str(error.error))

        def console(message: ConsoleMessage) -> None:
            if message.type == "error":
                self.errors.append(message.text)

        def end() -> None:
            context.remove_listener("request", request)
            context.remove_listener("weberror", weberror)
            context.remove_listener("console", console)

        context.on("request", request)
        context.on("weberror", weberror)
        context.on("console", console)
        return end

    @property
    def strays(self) -> list[str]:
        """The requests that left the folder."""
        home = self.folder.resolve().as_uri() + "/"
        inside = (home, "data:", "blob:", "about:")
        return [address for address in self.requests if not address.startswith(inside)]


Open = Callable[..., Visit]


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """A headless Chromium, started once; a missing one fails the test."""
    path = find_chromium()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=LAUNCH_ARGUMENTS)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def contexts(chromium: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Contexts]:
    """Contexts of the browser, lent to one test after the other."""
    blank = tmp_path_factory.mktemp("blank") / "blank.html"
    blank.write_text("<!doctype html><title>Nothing</title>", encoding="utf-8")
    lender = Contexts(chromium, blank)
    yield lender
    lender.close()


@contextmanager
def visits(contexts: Contexts) -> Iterator[Open]:
    """Opens files, each in a context of its own: ``visit(file, folder=None, **options) -> Visit``.

    The network is off. ``folder`` is what the page may read, by default the file's own folder.
    The options are those of Playwright's ``new_context``, e.g. ``java_script_enabled=False``.
    """
    with ExitStack() as afterwards:

        def open_file(file: Path, folder: Path | None = None, **options: Any) -> Visit:
            context = contexts.lend(**options)
            afterwards.callback(contexts.take_back, context)
            opened = Visit(context.new_page(), folder or file.parent)
            afterwards.callback(opened.watch(context))
            opened.page.goto(file.resolve().as_uri())
            return opened

        yield open_file


@pytest.fixture
def visit(contexts: Contexts) -> Iterator[Open]:
    """Opens files as ``visits`` does; they are closed after the test."""
    with visits(contexts) as open_file:
        yield open_file


@pytest.fixture(scope="session")
def built_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the unit, built strictly and once for all workers of a run."""
    shared = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        shared = shared.parent
    site, done = shared / "site", shared / "site.done"
    with (shared / "site.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not done.exists():
            _build(site)
            done.touch()
    return site


def _build(site: Path) -> None:
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--site-dir", str(site)]
    build = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    if build.returncode != 0:
        pytest.fail(f"the unit does not build:\n{build.stdout}{build.stderr}", pytrace=False)
