"""Take the pictures of the unit's pages again: ``python -m tests.pictures``.

Builds the unit and photographs one page of each kind at three widths, by day and by night.
All of them go to ``pictures/``; the README's picture is kept in this folder.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from tests.browser import find_chromium
from tests.get_browser import LAUNCH_ARGUMENTS

ROOT = Path(__file__).parent.parent.parent
KINDS = {
    "front": "index.html",
    "lesson": "sharing-a-junction.html",
    "list": "problems/index.html",
    "problem": "problems/flasher-reservoir.html",
    "caution": "problems/rescue-lamp-bank.html",
}
WIDTHS = (360, 768, 1440)
SCHEMES = ("light", "dark")


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
            _sheet(browser, site, ROOT / "pictures")
            _for_readme(browser, site, Path(__file__).parent / "page.png")
            browser.close()


def _sheet(browser: Browser, site: Path, into: Path) -> None:
    into.mkdir(exist_ok=True)
    for width in WIDTHS:
        for scheme in SCHEMES:
            context = browser.new_context(
                viewport={"width": width, "height": 900},
                color_scheme="dark" if scheme == "dark" else "light",
                offline=True,
            )
            page = context.new_page()
            for kind, path in KINDS.items():
                page.goto((site / path).as_uri())
                page.evaluate("document.querySelectorAll('.sw-step').forEach(s => s.open = true)")
                page.wait_for_function("document.fonts.status === 'loaded'")
                picture = into / f"{kind}-{width}-{scheme}.png"
                page.screenshot(path=str(picture), full_page=True)
            context.close()


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
