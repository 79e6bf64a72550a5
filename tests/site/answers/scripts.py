"""The scripts that judge typed answers, on an empty page and on the page of a problem."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page

from builder.site.assets import SCRIPTS, STYLES, asset_files
from tests.site.pages import html_of

JUDGES = ("questions", "choice", "reading-units", "reading-numbers", "judging", "expressions",
          "judging-letters", "typed")  # fmt: skip
FILES = {Path(address).name: path for address, path in asset_files().items()}

JUDGE = """(typed, expected) => {
  if (expected.letters) return stepwell.judgeExpression(typed, expected);
  const read = list => (list || []).map(([value, what]) => [stepwell.readData(value), what]);
  return stepwell.judgeNumber(typed, {
    ...expected, turns: read(expected.turns), others: read(expected.others)});
}"""
"""Judges as a page does, which reads the numbers of turns and others where they stand."""
JUDGE_ALL = f"rows => rows.map(([typed, expected]) => ({JUDGE})(typed, expected))"


def judging_page(chromium: Browser) -> Page:
    """An empty page with the scripts that judge."""
    page = chromium.new_context(offline=True).new_page()
    page.set_content("<!doctype html><title>Judging</title>")
    for name in JUDGES:
        page.add_script_tag(path=FILES[f"{name}.js"])
    return page


def judged(page: Page, rows: list[tuple[str, dict[str, Any]]]) -> list[dict[str, Any]]:
    """The verdict on each typed answer, given the data of its question."""
    found: list[dict[str, Any]] = page.evaluate(JUDGE_ALL, [list(row) for row in rows])
    return found


def problem_file(
    folder: Path, text: str, slug: str, scripts_of: tuple[str, ...] | None = None
) -> Path:
    """A page of a problem on its own, with our styles and scripts and no theme.

    Args:
        folder: where it is written, with all that it needs.
        text: the problem.
        slug: names the page.
        scripts_of: the names of the scripts; all if left out.
    """
    for name, path in FILES.items():
        (folder / name).write_bytes(path.read_bytes())
    styles = "".join(f'<link rel="stylesheet" href="{Path(each).name}">' for each in STYLES)
    names = scripts_of or tuple(Path(each).stem for each in SCRIPTS)
    scripts = "".join(f'<script src="{name}.js" defer></script>' for name in names)
    file = folder / f"{slug}.html"
    file.write_text(
        f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{slug}</title>'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f'{styles}{scripts}</head><body><main><article class="md-typeset"><h1>{slug}</h1>'
        f"{html_of(text, slug)}</article></main></body></html>",
        encoding="utf-8",
    )
    return file
