"""A real ``mkdocs serve`` and a real browser: edited, faulty, mended, with no reload by hand."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, expect

from tests.site.pages import FLASHER, HEATER, write_unit

AXE = (Path(__file__).parent / "axe.min.js").read_text(encoding="utf-8")
LONGEST = 60_000
"""Milliseconds for a rebuild on a busy machine."""


@contextmanager
def serving(folder: Path) -> Iterator[str]:
    """Serve the unit in a folder; the address of its front. It has to end on Ctrl-C."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        place = f"127.0.0.1:{free.getsockname()[1]}"
    # Without --livereload the MkDocs of today does not look for edits.
    command = [sys.executable, "-m", "mkdocs", "serve", "--livereload", "--dev-addr", place]
    with (folder / "told.txt").open("w", encoding="utf-8") as log:
        server = subprocess.Popen(
            command, cwd=folder, stdout=log, stderr=log, start_new_session=True,
            env=os.environ | {"NO_MKDOCS_2_WARNING": "1"},
        )  # fmt: skip
    try:
        while "Serving on" not in (folder / "told.txt").read_text(encoding="utf-8"):
            assert server.poll() is None, (folder / "told.txt").read_text(encoding="utf-8")
            time.sleep(0.1)
        yield f"http://{place}/"
        assert server.poll() is None
    finally:
        server.send_signal(signal.SIGINT)
        server.wait(30)


def test_an_edit_shows_by_itself(chromium: Browser, tmp_path: Path) -> None:
    """A fault is shown in place of its problem, and the problem once the fault is mended."""
    write_unit(tmp_path, {"flasher": FLASHER, "heater": HEATER})
    problem = tmp_path / "content" / "problems" / "flasher.yml"
    context = chromium.new_context()
    page = context.new_page()
    with serving(tmp_path) as address:
        page.goto(f"{address}problems/flasher.html")
        expect(page.locator("h1")).to_contain_text("Two reservoirs behind one lamp")
        problem.write_text(FLASHER.replace("22 uF", "22"), encoding="utf-8")
        expect(page.locator("h1")).to_contain_text("flasher.yml", timeout=LONGEST)
        expect(page.locator(".sw-faulty mark")).to_have_text("22")
        frame = page.locator(".sw-faulty")
        assert frame.evaluate("element => getComputedStyle(element).borderTopStyle") == "solid"
        page.evaluate(f"{AXE};0")
        # Of the article alone: what is round it is looked at in test_access.py.
        looked = page.evaluate("axe.run('article').then(found => found.violations.map(v => v.id))")
        assert looked == []
        problem.write_text(FLASHER.replace("Two res", "New res"), encoding="utf-8")
        expect(page.locator("h1")).to_contain_text("New reservoirs", timeout=LONGEST)
        expect(page.locator(".sw-faulty")).to_have_count(0)
        page.goto(f"{address}problems/index.html")
        expect(page.locator(".sw-card")).to_have_count(2)
        problem.rename(problem.with_name("lamp.yml"))
        expect(page.locator('.sw-card a[href="lamp.html"]')).to_have_count(1, timeout=LONGEST)
        expect(page.locator(".sw-card")).to_have_count(2)
    told = (tmp_path / "told.txt").read_text(encoding="utf-8")
    assert told.count("content/problems/flasher.yml:11:15") == 1
    assert "Traceback" not in told
    context.close()
