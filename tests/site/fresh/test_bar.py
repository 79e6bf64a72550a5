"""The bar that gives a page other numbers, in a site that was built as a teacher builds it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.conftest import Open
from tests.site.pages import FLASHER, write_unit
from tests.site.test_access import AXE

LETTERS = """\
title: Any two capacitors
circuit:
  source: V
  series:
    - C1: C
    - C2: 2*C
find: equivalent
"""
PAGE = "problems/flasher.html"
LESSON = "# A lesson\n\n```problem\nflasher\nparts: opening, solution\n```\n"
VIOLATIONS = """async () => (await axe.run(document.querySelector("main") || document, {
  rules: {"region": {enabled: false}, "target-size": {enabled: true}}})).violations.map(
  (one) => `${one.id}: ${one.nodes.map((node) => node.html).join(" ")}`)"""
GIVEN = ".sw-given"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small unit, built strictly."""
    return _built(tmp_path_factory.mktemp("unit"))


def _built(folder: Path, option: str = "") -> Path:
    write_unit(folder, {"flasher": FLASHER, "letters": LETTERS}, {"lesson.md": LESSON})
    settings = folder / "mkdocs.yml"
    text = settings.read_text(encoding="utf-8").replace(
        "[search, offline, stepwell]", f"[search, offline, stepwell: {{{option}}}]"
    )
    settings.write_text(text, encoding="utf-8")
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--site-dir", "site"]
    build = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    assert build.returncode == 0, build.stderr
    return folder / "site"


def _says(page: Page) -> str:
    return page.locator("[data-fresh-now]").inner_text().replace("\u00a0", " ")


def _opened(site: Path, visit: Open, query: str = "", **options: object) -> Page:
    page: Page = visit(site / PAGE, site, **options).page
    if query:
        page.goto((site / PAGE).as_uri() + query)
    return page


def test_another_set_is_shown_and_told(site: Path, visit: Open) -> None:
    """The button, by keyboard: the numbers change, a live region tells it, the focus stays."""
    page = _opened(site, visit)
    page.evaluate(
        "document.addEventListener('stepwell:renumbered', (e) => { window.heard = e.detail; })"
    )
    written = page.locator(GIVEN).inner_text()
    assert _says(page) == "The numbers are as written."
    button = page.get_by_role("button", name="Fresh numbers")
    button.focus()
    page.keyboard.press("Enter")
    expect(button).to_be_focused()
    fresh = page.locator(GIVEN).inner_text()
    assert fresh != written
    sets = page.locator("[data-fresh-choose] option").count() - 1
    assert 20 <= sets <= 24
    assert _says(page).startswith(f"Now with set 1 of {sets}: C₁ = ")
    assert page.locator("[data-fresh-now]").get_attribute("role") == "status"
    for told in fresh.replace("\u00a0", " ").replace("\n", ", ").split(", "):
        assert told.rpartition("= ")[2] in _says(page)
    assert page.evaluate("window.heard") == {"problem": "flasher", "set": 1}
    page.get_by_role("button", name="As written").press("Space")
    assert page.locator(GIVEN).inner_text() == written
    assert page.evaluate("window.heard.set") == 0


def test_the_link_carries_the_set(site: Path, visit: Open) -> None:
    """Opened by the link the page has the set's numbers at once, and so has a page opened again."""
    page = _opened(site, visit)
    page.get_by_label("Set").select_option("7")
    fresh = page.locator(GIVEN).inner_text()
    address = page.get_by_role("link", name="Link to set 7").evaluate("(one) => one.href")
    assert address == (site / PAGE).as_uri() + "?set=7"
    page.goto(address + "#solution")
    assert page.locator(GIVEN).inner_text() == fresh
    assert page.get_by_label("Set").input_value() == "7"
    page.get_by_role("button", name="Copy link").click()
    expect(page.locator("[data-fresh-now]")).to_contain_text(address)


@pytest.mark.parametrize(
    "query",
    ["25", "99999999999", "-1", "1.5", "1e1", "0x2", "seven", "%3Cimg%20src%3Dx%20onerror%3D%22"
     "window.hurt%3D1%22%3E", "__proto__", "%", "%E0%A4%A", "7%00", "٣", "7+7"],
)  # fmt: skip
def test_a_strange_set_is_answered_kindly(site: Path, visit: Open, query: str) -> None:
    """What names no set is told to be none, as plain text, and the page is as written."""
    visited = visit(site / PAGE, site)
    page = visited.page
    written = page.locator(GIVEN).inner_text()
    page.goto((site / PAGE).as_uri() + "?set=" + query)
    assert page.locator(GIVEN).inner_text() == written
    assert _says(page).startswith("There is no set “")
    assert "The numbers are as written." in _says(page)
    assert page.locator("[data-fresh-now] *").count() == 0
    assert page.evaluate("window.hurt") is None
    assert visited.errors == []
    page.get_by_role("button", name="Fresh numbers").click()
    assert _says(page).startswith("Now with set 1 of ")


@pytest.mark.parametrize("query", ["?set=", "?set=0", "?other=1", "?reset=3"])
def test_no_set_is_asked_for(site: Path, visit: Open, query: str) -> None:
    """Nothing is said of sets where none is asked for; other parts of an address are kept."""
    page = _opened(site, visit, query)
    assert _says(page) == "The numbers are as written."
    page.get_by_role("button", name="Fresh numbers").click()
    link = page.locator("[data-fresh-link]").get_attribute("href") or ""
    assert link.endswith("set=1")
    assert ("other=1" in link, "reset=3" in link) == ("other" in query, "reset" in query)


def test_questions_start_anew_and_are_judged_by_the_new_numbers(site: Path, visit: Open) -> None:
    """An answer that was right is forgotten; the right one of the set is right."""
    page = _opened(site, visit)
    form = page.locator('.sw-questions form[data-question="typed"]').first
    answer = form.locator(".sw-answer .sw-n").first.text_content() or ""
    form.get_by_role("textbox").fill(answer)
    form.get_by_role("button", name="Check").click()
    expect(form.locator(".sw-reply-right")).to_be_visible()
    page.get_by_role("button", name="Fresh numbers").click()
    expect(form.locator(".sw-reply")).to_have_text("")
    assert form.get_by_role("textbox").input_value() == ""
    other = form.locator(".sw-answer .sw-n").first.text_content() or ""
    assert other != answer
    form.get_by_role("textbox").fill(answer)
    form.get_by_role("button", name="Check").click()
    expect(form.locator(".sw-reply-wrong")).to_be_visible()
    form.get_by_role("textbox").fill(other)
    form.get_by_role("button", name="Check").click()
    expect(form.locator(".sw-reply-right")).to_be_visible()


def test_steps_stay_as_they_are(site: Path, visit: Open) -> None:
    """What is open stays open, what is closed stays closed."""
    page = _opened(site, visit)
    opened = "[...document.querySelectorAll('details.sw-step')].map((one) => one.open)"
    page.locator("details.sw-step > summary").nth(1).click()
    before = page.evaluate(opened)
    assert set(before) == {True, False}
    page.get_by_role("button", name="Fresh numbers").click()
    assert page.evaluate(opened) == before


def test_the_board_has_the_numbers_of_the_set(site: Path, visit: Open) -> None:
    """Slides are made when they are shown, so they have the numbers that the page has."""
    page = _opened(site, visit, "?set=5")
    page.get_by_role("button", name="Show at the board").click()
    expect(page.get_by_role("dialog", name="At the board")).to_be_visible()
    shown = page.locator(".sw-board-words .sw-given").inner_text()
    page.get_by_role("button", name="Leave").click()
    expect(page.locator(".sw-board-slide")).to_be_empty()
    page.get_by_label("Set").select_option("6")
    page.get_by_role("button", name="Show at the board").click()
    now = page.locator(".sw-board-words .sw-given").inner_text()
    assert now != shown
    assert now == page.locator(f"article {GIVEN}").first.inner_text()


def test_paper_tells_the_set(site: Path, visit: Open) -> None:
    """On paper stands which set it is, and nothing to press; nothing at all as written."""
    page = _opened(site, visit)
    page.emulate_media(media="print")
    assert not page.locator(".sw-fresh").is_visible() or (
        page.locator(".sw-fresh").inner_text().strip() == ""
    )
    page.emulate_media(media="screen")
    page.get_by_label("Set").select_option("2")
    page.emulate_media(media="print")
    sets = page.locator("[data-fresh-choose] option").count() - 1
    assert page.locator(".sw-fresh").inner_text().strip() == f"With set 2 of {sets}."
    foot = "getComputedStyle(document.documentElement).getPropertyValue('--sw-foot')"
    assert ", with set 2" in page.evaluate(foot)


def test_without_scripts_there_is_no_bar(site: Path, visit: Open) -> None:
    """The page is read as it is written."""
    page = _opened(site, visit, java_script_enabled=False)
    assert not page.locator(".sw-fresh").is_visible()
    assert "C1" in page.locator(GIVEN).inner_text()


@pytest.mark.parametrize("width", [320, 1280])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(site: Path, visit: Open, width: int, scheme: str) -> None:
    """With a set shown, axe-core finds nothing, and nothing is wider than the window."""
    page = _opened(
        site, visit, "?set=3", viewport={"width": width, "height": 800}, color_scheme=scheme
    )
    page.evaluate(AXE)
    assert page.evaluate(VIOLATIONS) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_pages_without_sets_have_no_bar(site: Path) -> None:
    """Letters have no other values, and problems in lessons stay as they are written."""
    for path in ("problems/letters.html", "lesson.html"):
        html = (site / path).read_text(encoding="utf-8")
        assert "data-fresh" not in html
        assert " data-v" not in html
    assert " data-v" in (site / PAGE).read_text(encoding="utf-8")


def test_fresh_numbers_can_be_left_out(tmp_path: Path) -> None:
    """With ``fresh: false`` no page has sets, and everything else is there."""
    html = (_built(tmp_path, "fresh: false") / PAGE).read_text(encoding="utf-8")
    assert "data-fresh" not in html
    assert "Check yourself" in html
