"""Take the pictures of the unit's pages again: ``python -m tests.pictures``.

Builds the unit and photographs one page of each kind at three widths, by day and by night. All
of them go to ``pictures/``. What is kept in this folder: for each kind one sheet of its six
pictures, and the README's picture.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser import find_chromium
from tests.get_browser import LAUNCH_ARGUMENTS

ROOT = Path(__file__).parent.parent.parent
HERE = Path(__file__).parent
KINDS = {
    "front": "index.html",
    "lesson": "sharing-a-junction.html",
    "list": "problems/index.html",
    "problem": "problems/flasher-reservoir.html",
    "caution": "problems/rescue-lamp-bank.html",
    "letters": "problems/flasher-any-size.html",
    "unknown": "problems/capacitor-without-a-mark.html",
    "network": "problems/bench-bridge-astray.html",
    "source": "problems/sensor-supply.html",
    "stages": "problems/tide-gauge-bucket.html",
    "transient": "problems/lantern-switched-over.html",
    "relations": "problems/two-wires-in-one-heater.html",
    "plates": "problems/bilge-sensor-layers.html",
    "formulas": "reference/formulas.html",
    "glossary": "reference/glossary.html",
    "symbols": "reference/symbols.html",
    "board": "problems/solar-panel-heater.html",
}
WIDTHS = (360, 768, 1440)
SCHEMES = ("light", "dark")
# A sheet shows each picture at a third of its size, and the first of a long page.
SMALLER = 3
TALLEST = 3600


def main() -> None:
    """Build the unit and take every picture."""
    with tempfile.TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--site-dir", str(site)]
        subprocess.run(command, cwd=ROOT, check=True)
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(
                executable_path=find_chromium(), args=LAUNCH_ARGUMENTS
            )
            into = ROOT / "pictures"
            into.mkdir(exist_ok=True)
            for scheme in SCHEMES:
                for width in WIDTHS:
                    _photograph(browser, site, into, width, scheme)
            for kind in KINDS:
                _sheet(browser, into, kind)
            _for_readme(browser, site, HERE / "page.png")
            browser.close()


def _photograph(browser: Browser, site: Path, into: Path, width: int, scheme: str) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 900},
        color_scheme="dark" if scheme == "dark" else "light",
        offline=True,
    )
    page = context.new_page()
    for kind, path in KINDS.items():
        page.goto((site / path).as_uri())
        if kind == "board":
            _go_to_the_board(page)
        else:
            page.evaluate("document.querySelectorAll('.sw-step').forEach(s => s.open = true)")
        page.wait_for_function("document.fonts.status === 'loaded'")
        page.screenshot(path=str(_picture(into, kind, width, scheme)), full_page=kind != "board")
    context.close()


def _go_to_the_board(page: Page) -> None:
    """Open the board and go on to the second step of the solution."""
    page.get_by_role("button", name="Show at the board").click()
    for _ in range(6):
        page.keyboard.press("ArrowRight")


def _picture(into: Path, kind: str, width: int, scheme: str) -> Path:
    return into / f"{kind}-{width}-{scheme}.png"


def _sheet(browser: Browser, into: Path, kind: str) -> None:
    """The six pictures of a kind side by side, small."""
    images = "".join(
        f'<div style="max-height:{TALLEST // SMALLER}px;overflow:hidden;flex:none">'
        f'<img src="{_picture(into, kind, width, scheme).as_uri()}" width="{width // SMALLER}">'
        "</div>"
        for width in WIDTHS
        for scheme in SCHEMES
    )
    page_file = into / f"{kind}.html"
    page_file.write_text(
        "<body style='margin:8px;display:flex;gap:8px;background:#777;align-items:flex-start'>"
        f"{images}</body>",
        encoding="utf-8",
    )
    page = browser.new_page(viewport={"width": 1780, "height": 400})
    page.goto(page_file.as_uri())
    page.screenshot(path=str(HERE / f"{kind}.jpg"), full_page=True, type="jpeg", quality=70)
    page.close()


def _for_readme(browser: Browser, site: Path, file: Path) -> None:
    """The problem's page from its solution on, with the first two steps open."""
    context = browser.new_context(viewport={"width": 1180, "height": 1000}, offline=True)
    page = context.new_page()
    page.goto((site / KINDS["problem"]).as_uri())
    page.add_style_tag(content=".md-header, .md-sidebar { display: none !important; }")
    for _ in range(2):
        page.get_by_role("button", name="Open the next step").click()
    page.evaluate("document.activeElement.blur()")
    page.wait_for_function("document.fonts.status === 'loaded'")
    page.locator("#solution").scroll_into_view_if_needed()
    page.evaluate("document.getElementById('solution').scrollIntoView()")
    page.screenshot(path=str(file))
    context.close()


if __name__ == "__main__":
    main()
