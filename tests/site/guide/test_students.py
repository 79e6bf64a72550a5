"""The page for students says what they find, and that is what they find."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.conftest import Open
from tests.site.answers.scripts import judged, judging_page
from tests.site.answers.table import QUESTIONS
from tests.site.answers.test_expressions import C, V, data_of
from tests.site.guide.texts import PAGES, codes

STUDENTS = PAGES["students.md"]
FLASHER = "problems/flasher-reservoir.html"
AT_FRONT = ("Save my progress to a file", "Read progress from a file", "Forget my progress")


def _section(heading: str) -> str:
    return STUDENTS.split(f"\n## {heading}\n", 1)[1].split("\n## ", 1)[0]


def test_what_is_said_to_be_right_is_right(chromium: Browser) -> None:
    """Each spelling of the page is right for the value that it speaks of."""
    table, rest = _section("Type an answer").split("\nOne more or less", 1)
    codes_of_parts, letters = rest.split("If the answer is in letters", 1)
    rows = [(typed, QUESTIONS["charge"]) for typed in codes(table)]
    parts = {"4k7": ("Ω", "4.7e3"), "4R7": ("Ω", "4.7"), "10n": ("F", "1e-8")}
    assert codes(codes_of_parts) == list(parts)
    for typed, (unit, value) in parts.items():
        rows.append((typed, {"value": value, "digits": 3, "unit": unit, "noun": "value"}))
    spellings = codes(letters)[:-2]
    assert codes(letters)[-2:] == ["C1", "C_1"]
    rows += [(typed, data_of(2 * C * V / 3, (C, V))) for typed in spellings]
    assert len(rows) == 13 + 3 + 4
    page = judging_page(chromium)
    verdicts = judged(page, rows)
    page.context.close()
    assert [
        row[0] for row, verdict in zip(rows, verdicts, strict=True) if not verdict["right"]
    ] == []


def test_every_label_it_names_is_there(built_site: Path, visit: Open) -> None:
    """What stands between quotation marks is written on a page, word for word."""
    named = {" ".join(label.split()) for label in re.findall(r"“([^”]+)”", STUDENTS)}
    assert named > set(AT_FRONT)
    visited = visit(built_site / FLASHER, built_site)
    said = visited.page.locator("article").inner_text()
    assert sorted(label for label in named - set(AT_FRONT) if label not in said) == []
    visited.page.evaluate("document.querySelector('.sw-step').open = true")
    visited.page.wait_for_function("localStorage.getItem('stepwell:progress:Harbour Lights')")
    visited.page.goto((built_site / "index.html").as_uri())
    for label in AT_FRONT:
        assert visited.page.get_by_role("button", name=label).count() == 1


@pytest.mark.parametrize("heading", ["Does it add up?", "Watch for", "Check yourself"])
def test_the_parts_it_speaks_of_are_there(built_site: Path, heading: str) -> None:
    """The page that is described has these headings."""
    html = (built_site / FLASHER).read_text(encoding="utf-8")
    assert re.search(rf"<h2[^>]*>{re.escape(heading)}</h2>", html)


def test_the_keys_at_the_board_are_those_in_the_table(built_site: Path, visit: Open) -> None:
    """Each key of the table does what is said of it."""
    page = visit(built_site / FLASHER, built_site).page
    page.get_by_role("button", name="Show at the board").click()
    page.locator("dialog[open]").wait_for()

    def slide() -> int:
        titles = page.evaluate(
            "[document.querySelector('.sw-board-slide').textContent,"
            " document.querySelector('.sw-board-place').textContent]"
        )
        if titles not in seen:
            seen.append(titles)
        return seen.index(titles)

    seen: list[list[str]] = []
    here = slide()
    for key in ("ArrowRight", "Space", "PageDown", "Enter"):
        page.keyboard.press(key)
        assert slide() == here + 1, key
        here += 1
    for key in ("ArrowLeft", "PageUp"):
        page.keyboard.press(key)
        assert slide() == here - 1, key
        here -= 1
    page.keyboard.press("Home")
    assert slide() == 0
    page.keyboard.press("End")
    assert page.get_by_role("button", name="Next", exact=True).is_disabled()
    page.keyboard.press("Escape")
    page.locator("dialog[open]").wait_for(state="detached")
    told = " ".join(re.findall(r"^\| (.*?) \|", _section("Show it at the board"), re.MULTILINE))
    for key in (
        "Right arrow",
        "Space",
        "Page Down",
        "Enter",
        "Left arrow",
        "Page Up",
        "Home",
        "End",
        "Esc",
    ):
        assert key in told


def test_nothing_is_kept_but_what_it_says(built_site: Path, visit: Open) -> None:
    """No cookie, no request out of the folder; the browser keeps progress and light or dark."""
    visited = visit(built_site / FLASHER, built_site)
    page = visited.page
    page.get_by_role("button", name="Open all steps").click()
    page.locator("form[data-question=typed]:visible input").first.fill("66 uC")
    page.locator("form[data-question=typed]:visible button").first.click()
    assert page.context.cookies() == []
    assert visited.strays == []
    kept = page.evaluate("Object.keys(localStorage)")
    progress = "stepwell:progress:Harbour Lights"
    assert progress in kept
    assert all(name == progress or name.endswith("/.__palette") for name in kept), kept
