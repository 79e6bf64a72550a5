"""Take the pictures of the pages again: ``python -m tests.pictures [KIND...]``.

Makes the unit, sheets and a preview, and photographs one page of each kind at three widths, by day
and by night. All of them go to ``pictures/``. What is kept in this folder: for each kind one sheet
of its six pictures, and the README's picture.
"""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Mapping
from pathlib import Path

from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser import find_chromium
from tests.get_browser import LAUNCH_ARGUMENTS
from tests.pictures.pages import KINDS, ROOT, make_pages

HERE = Path(__file__).parent
WIDTHS = (360, 768, 1440)
SCHEMES = ("light", "dark")
# A sheet shows each picture at a third of its size, and the first of a long page.
SMALLER = 3
TALLEST = 3600


def main() -> None:
    """Make the pages and take every picture, or those of the kinds that are named."""
    parser = argparse.ArgumentParser(prog="python -m tests.pictures")
    parser.add_argument("kinds", nargs="*", metavar="KIND", help=", ".join(KINDS))
    kinds = tuple(parser.parse_args().kinds) or KINDS
    if unknown := set(kinds) - set(KINDS):
        parser.error(f"no kind of page: {', '.join(sorted(unknown))}")
    into = ROOT / "pictures"
    into.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        files = make_pages(Path(folder), kinds)
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(
                executable_path=find_chromium(), args=LAUNCH_ARGUMENTS
            )
            for scheme in SCHEMES:
                for width in WIDTHS:
                    _photograph(browser, files, into, width, scheme)
            for kind in files:
                _sheet(browser, into, kind)
            if "problem" in files:
                _for_readme(browser, files["problem"], HERE / "page.png")
            browser.close()


def _photograph(
    browser: Browser, files: Mapping[str, Path], into: Path, width: int, scheme: str
) -> None:
    context = browser.new_context(
        viewport={"width": width, "height": 900},
        color_scheme="dark" if scheme == "dark" else "light",
        offline=True,
    )
    page = context.new_page()
    for kind, file in files.items():
        page.goto(file.as_uri())
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


def _for_readme(browser: Browser, problem: Path, file: Path) -> None:
    """The problem's page from its solution on, with the first two steps open."""
    context = browser.new_context(viewport={"width": 1180, "height": 1000}, offline=True)
    page = context.new_page()
    page.goto(problem.as_uri())
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
