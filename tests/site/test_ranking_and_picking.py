"""Questions answered by places and by picking in the figure, in the browser."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from builder.lesson import write_lesson
from builder.problem import read_problem, read_unit
from builder.site.assets import SCRIPTS, STYLES, asset_files
from builder.site.page import PARTS, ProblemPage
from builder.solution import solve
from tests.conftest import Open
from tests.site.pages import FLASHER, Markup, page_of
from tests.site.test_access import AXE, RUN_AXE

CONTENT = Path(__file__).parents[2] / "content"
# R1 and R4 carry the same, R2 and R3 share it: 1, 1, 2 and 3 in some order.
HEATER = """\
title: Two heaters behind two wires
circuit:
  source: 24 V
  series:
    - R1: 2 ohm
    - parallel:
        - R2: 30 ohm
        - R3: 20 ohm
    - R4: 2 ohm
find: [current]
"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a page of a few parts for each of two problems, by our own style alone."""
    folder = tmp_path_factory.mktemp("ranking")
    for address, path in asset_files().items():
        (folder / address).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(path, folder / address)
    links = "".join(f'<link rel="stylesheet" href="{style}">' for style in STYLES)
    links += "".join(f'<script defer src="{script}"></script>' for script in SCRIPTS)
    for slug, text in (("flasher", FLASHER), ("heater", HEATER)):
        page = page_of(text, slug)
        parts = [part for part in PARTS if part.id in ("opening", "predict")]
        told = "".join(f'<div data-part="{part.id}">{page.part(part)}</div>' for part in parts)
        (folder / f"{slug}.html").write_text(
            f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{slug}</title>'
            f'<meta name="viewport" content="width=device-width, initial-scale=1">{links}</head>'
            f"<body><main><article><h1>{slug}</h1>{told}</article></main></body></html>",
            encoding="utf-8",
        )
    return folder


def _form(page: Page, kind: str) -> Locator:
    return page.locator(f"form[data-question={kind}]")


def _give(form: Locator, places: list[int]) -> None:
    """Choose a place for each, by pressing, and check."""
    rows = form.get_by_role("radiogroup").all()
    assert len(rows) == len(places)
    for row, place in zip(rows, places, strict=True):
        row.get_by_role("radio").nth(place - 1).check()
    form.get_by_role("button", name="Check").click()


def _places(form: Locator) -> list[int]:
    """The right places."""
    return [int(row.get_attribute("data-place") or 0) for row in form.locator(".sw-rank").all()]


def test_ranking_by_keyboard_alone(pages: Path, visit: Open) -> None:
    """Tab from row to row, arrows within one, Enter to check; the reply is a live region."""
    visited = visit(pages / "flasher.html")
    page, form = visited.page, _form(visited.page, "ranking")
    form.get_by_role("radio").first.focus()
    for place in _places(form):
        page.keyboard.press("Space")
        for _ in range(place - 1):
            page.keyboard.press("ArrowRight")
        page.keyboard.press("Tab")
    expect(form.get_by_role("button", name="Check")).to_be_focused()
    page.keyboard.press("Enter")
    expect(form.get_by_role("status")).to_contain_text("Right. ")
    expect(form.get_by_role("status")).to_contain_text(" > ")
    assert visited.errors == []
    assert visited.strays == []


def test_the_first_two_that_are_out_of_order_are_named(pages: Path, visit: Open) -> None:
    """With the reason why they compare as they do; unanswered, nothing is judged."""
    form = _form(visit(pages / "flasher.html").page, "ranking")
    form.get_by_role("button", name="Check").click()
    expect(form.get_by_role("status")).to_have_text(
        "Give each of them a place first; equal ones share one.")  # fmt: skip
    _give(form, [1, 1, 1])
    expect(form.get_by_role("status")).to_contain_text("Not yet. Compare C1 and C")
    expect(form.get_by_role("status")).to_contain_text("only a part")


def test_places_may_be_skipped_after_a_tie(pages: Path, visit: Open) -> None:
    """1, 1, 2, 3 says the same as 1, 1, 3, 4; 1, 2, 3, 4 does not."""
    form = _form(visit(pages / "heater.html").page, "ranking")
    right = _places(form)
    assert len(right) == 4
    assert sorted(right) == [1, 1, 2, 3]
    _give(form, right)
    expect(form.get_by_role("status")).to_contain_text("Right. ")
    _give(form, [place + (place > 1) for place in right])
    expect(form.get_by_role("status")).to_contain_text("Right. ")
    _give(form, [1, 2, 3, 4])
    expect(form.get_by_role("status")).to_contain_text("Not yet. ")


def test_ranking_and_picking_by_touch(pages: Path, visit: Open) -> None:
    """On a phone of 320 pixels: chips of 44, the figure's own symbols, and nothing runs off."""
    page = visit(pages / "flasher.html", has_touch=True, is_mobile=True,
                 viewport={"width": 320, "height": 640}).page  # fmt: skip
    form = _form(page, "ranking")
    for row, place in zip(form.locator(".sw-rank").all(), _places(form), strict=True):
        row.locator("label").nth(place - 1).tap()
    form.get_by_role("button", name="Check").tap()
    expect(form.get_by_role("status")).to_contain_text("Right. ")
    form = _form(page, "pick")
    for box in form.locator("input[data-right]").all():
        node = form.locator(f'[data-element="{box.get_attribute("value")}"] .sw-hit')
        node.tap()
        expect(box).to_be_checked()
    form.get_by_role("button", name="Check").tap()
    expect(form.get_by_role("status")).to_contain_text("Right. ")
    for chip in page.locator(".sw-place, .sw-pick").all():
        size = chip.bounding_box()
        assert size is not None
        assert min(size["width"], size["height"]) >= 44
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


def test_picking_by_keyboard_alone(pages: Path, visit: Open) -> None:
    """Tab between the boxes, Space to pick; the figure shows what is picked, and where one is."""
    visited = visit(pages / "flasher.html")
    page, form = visited.page, _form(visited.page, "pick")
    boxes = form.get_by_role("checkbox")
    boxes.first.focus()
    page.keyboard.press("Tab")
    page.keyboard.press("Shift+Tab")
    for number in range(boxes.count()):
        box = boxes.nth(number)
        expect(box).to_be_focused()
        drawn = form.locator(f'[data-element="{box.get_attribute("value")}"]')
        assert "sw-pick-here" in (drawn.get_attribute("class") or "").split()
        if box.get_attribute("data-right") is not None:
            page.keyboard.press("Space")
            assert "sw-picked" in (drawn.get_attribute("class") or "").split()
        page.keyboard.press("Tab")
        assert "sw-pick-here" not in (drawn.get_attribute("class") or "").split()
    expect(form.get_by_role("button", name="Check")).to_be_focused()
    page.keyboard.press("Enter")
    expect(form.get_by_role("status")).to_contain_text("Right. ")
    assert visited.errors == []


def test_what_is_missed_and_what_is_too_much_is_told(pages: Path, visit: Open) -> None:
    """Each with its reason; then the junctions can be traced, and with other numbers all is new."""
    page = visit(pages / "flasher.html").page
    form = _form(page, "pick")
    trace = form.locator(".sw-pick-trace")
    form.get_by_role("button", name="Check").click()
    expect(form.get_by_role("status")).to_contain_text("Pick at least one first")
    expect(trace).to_be_hidden()
    form.locator("input:not([data-right])").first.check()
    form.get_by_role("button", name="Check").click()
    reply = form.get_by_role("status")
    expect(reply).to_contain_text("Picked too much: C1 shares only one junction with C")
    expect(reply).to_contain_text("Missed: C")
    expect(form.locator(".sw-trace").first).to_be_hidden()
    trace.click()
    expect(form.locator(".sw-trace").first).to_be_visible()
    expect(trace).to_have_attribute("aria-pressed", "true")
    page.evaluate("document.dispatchEvent(new CustomEvent('stepwell:renumbered'))")
    expect(trace).to_be_hidden()
    expect(form.locator(".sw-trace").first).to_be_hidden()
    expect(form.locator(".sw-picked")).to_have_count(0)
    expect(form.locator(".sw-reply")).to_be_empty()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_in_them(pages: Path, visit: Open, scheme: str) -> None:
    """Neither before nor after they are answered, with the junctions traced."""
    page = visit(pages / "flasher.html").page
    # The night palette is the theme's, told to it by this attribute.
    by_night = "document.body.dataset.mdColorScheme = 'slate'"
    page.evaluate(by_night if scheme == "dark" else "0")
    page.evaluate("document.body.style.background = 'var(--sw-paper)'")
    page.evaluate("document.body.style.color = 'var(--sw-ink)'")
    page.evaluate(AXE)
    assert page.evaluate(RUN_AXE, "[data-part=predict]")["violations"] == []
    _give(_form(page, "ranking"), [1, 2, 2])
    form = _form(page, "pick")
    form.get_by_role("checkbox").first.check()
    form.get_by_role("button", name="Check").click()
    form.locator(".sw-pick-trace").click()
    assert page.evaluate(RUN_AXE, "[data-part=predict]")["violations"] == []


def test_a_palette_of_the_readers_own_shows_what_is_picked(pages: Path, visit: Open) -> None:
    """By the system's colour for what is marked, and by a thicker line."""
    page = visit(pages / "flasher.html", forced_colors="active").page
    form = _form(page, "pick")
    hit = form.locator(".sw-pick-me .sw-hit").first
    look = "node => [getComputedStyle(node).stroke, getComputedStyle(node).strokeWidth]"
    plain = hit.evaluate(look)
    form.get_by_role("checkbox").first.check()
    page.evaluate("document.activeElement.blur()")
    picked = hit.evaluate(look)
    assert picked != plain
    assert picked[1] == "2.5px"
    chip = form.locator(".sw-pick span").first
    assert chip.evaluate("node => getComputedStyle(node).borderTopWidth") == "3px"


def test_without_a_script_the_answers_can_be_read(pages: Path, visit: Open) -> None:
    """The figure, the boxes and the places stand there; the answer opens; no button is dead."""
    page = visit(pages / "flasher.html", java_script_enabled=False).page
    for kind, words in (("pick", "shares both junctions with"), ("ranking", " > ")):
        form = _form(page, kind)
        expect(form.get_by_role("button")).to_have_count(0)
        form.locator("summary").click()
        expect(form.locator(".sw-answer")).to_contain_text(words)
    expect(_form(page, "pick").locator("svg")).to_be_visible()
    expect(_form(page, "pick").locator(".sw-trace").first).to_be_hidden()


def test_few_questions_come_before_the_solution() -> None:
    """Three at most on any page of the unit, and no two ids are the same."""
    unit = read_unit(CONTENT / "unit.yml")
    for path in sorted((CONTENT / "problems").glob("*.yml")):
        lesson = write_lesson(solve(read_problem(path, unit=unit)))
        page = ProblemPage(lesson, unit, path.stem)
        assert bool(lesson.predict) + len(lesson.before) <= 3
        tags = [attrs for part in PARTS for _, attrs in Markup(str(page.part(part))).tags]
        ids = [attrs["id"] for attrs in tags if "id" in attrs]
        assert len(ids) == len(set(ids)), path
