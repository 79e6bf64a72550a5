"""What the unit's pages weigh, and how soon they show on a slow processor."""

from __future__ import annotations

import gzip
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import unquote, urlparse

from playwright.sync_api import Browser, sync_playwright

from tests.browser import find_chromium
from tests.get_browser import LAUNCH_ARGUMENTS

ROOT = Path(__file__).parent.parent.parent
KEPT = ".cache/stepwell"
SLOWER = 4
RUNS = 5
# Fonts are compressed already; everything else travels as a server would send it.
PACKED = {".woff2", ".png"}

_WATCH = """
window.largest = 0;
new PerformanceObserver(list => {
  for (const entry of list.getEntries()) window.largest = entry.startTime;
}).observe({ type: "largest-contentful-paint", buffered: true });
"""


def measure_pages() -> Iterator[str]:
    """Weigh the first visit and the further pages; time the largest page on a slow processor."""
    with tempfile.TemporaryDirectory() as folder:
        site = _built(Path(folder))
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(
                executable_path=find_chromium(), args=LAUNCH_ARGUMENTS
            )
            first = _asked_for(browser, site, site / "index.html")
            yield f"first visit: {_kilobytes(first)} kB in {len(first)} files, compressed"
            named = [path.stem for path in (ROOT / "content" / "problems").glob("*.yml")]
            pages = [site / "problems" / f"{slug}.html" for slug in named]
            problems = sorted(pages, key=lambda page: -_weight(page))
            for kind, page in (("largest", problems[0]), ("smallest", problems[-1])):
                more = _asked_for(browser, site, page) - first
                yield f"further page, the {kind}: {_kilobytes(more)} kB, compressed ({page.stem})"
            yield _speed(browser, problems[0])
            browser.close()


def _built(home: Path) -> Path:
    """The unit's site, built apart from its own folder from a copy of what is kept there."""
    shutil.copytree(ROOT / "content", home / "content")
    shutil.copy(ROOT / "mkdocs.yml", home)
    if (ROOT / KEPT).is_dir():
        shutil.copytree(ROOT / KEPT, home / KEPT)
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet"]
    subprocess.run(command, cwd=home, check=True, env=os.environ | {"PYTHONPATH": str(ROOT)})
    return home / "site"


def _asked_for(browser: Browser, site: Path, page: Path) -> set[Path]:
    """The files of the site that opening a page asks for."""
    context = browser.new_context(offline=True)
    opened = context.new_page()
    files: set[Path] = set()
    opened.on("request", lambda request: files.add(Path(unquote(urlparse(request.url).path))))
    opened.goto(page.as_uri())
    opened.wait_for_function("document.fonts.status === 'loaded'")
    context.close()
    return {file for file in files if file.is_file() and site in file.parents}


def _weight(file: Path) -> int:
    content = file.read_bytes()
    return len(content) if file.suffix in PACKED else len(gzip.compress(content, mtime=0))


def _kilobytes(files: set[Path]) -> str:
    return f"{sum(_weight(file) for file in files) / 1000:.0f}"


def _speed(browser: Browser, page: Path) -> str:
    """Largest contentful paint and time in scripts, medians over several openings."""
    paints, scripts = [], []
    for _ in range(RUNS):
        context = browser.new_context(offline=True, viewport={"width": 360, "height": 740})
        context.add_init_script(_WATCH)
        opened = context.new_page()
        session = context.new_cdp_session(opened)
        session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        session.send("Performance.enable")
        opened.goto(page.as_uri())
        opened.wait_for_timeout(1500)
        paints.append(opened.evaluate("window.largest"))
        metrics = session.send("Performance.getMetrics")["metrics"]
        scripts.append(next(m["value"] for m in metrics if m["name"] == "ScriptDuration") * 1000)
        context.close()
    return (
        f"on a processor {SLOWER} times as slow, {page.stem}: largest contentful paint "
        f"{statistics.median(paints):.0f} ms, scripts {statistics.median(scripts):.0f} ms "
        f"(medians of {RUNS})"
    )
