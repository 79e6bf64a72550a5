"""Progress: kept by the browser, saved to a file, read from one."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.conftest import Open
from tests.site.answering import open_first_step
from tests.site.test_front import answer_right

PAIR = "problems/buoy-spare-capacitor.html"
KEY = "stepwell:progress:Harbour Lights"


def _kept(page: Page) -> Any:
    return page.evaluate(f"JSON.parse(localStorage.getItem('{KEY}'))")


def _load(page: Page, name: str, text: str) -> None:
    page.locator("[data-progress-file]").set_input_files(
        {"name": name, "mimeType": "application/json", "buffer": text.encode()}
    )


def test_progress_goes_through_a_file(built_site: Path, visit: Open, tmp_path: Path) -> None:
    """Saved, forgotten and read again, it is what it was; what was done since is not lost."""
    visited = visit(built_site / PAIR, built_site)
    page = visited.page
    answer_right(page)
    before = _kept(page)
    assert before["buoy-spare-capacitor"]["done"] is True
    page.goto((built_site / "index.html").as_uri())
    with page.expect_download() as started:
        page.get_by_role("button", name="Save my progress to a file").press("Enter")
    assert started.value.suggested_filename == "harbour-lights-progress.json"
    saved = tmp_path / "progress.json"
    started.value.save_as(saved)
    page.evaluate("localStorage.clear()")
    page.goto((built_site / "problems/flasher-reservoir.html").as_uri())
    open_first_step(page)
    page.goto((built_site / "index.html").as_uri())
    with page.expect_file_chooser() as asked:
        page.get_by_role("button", name="Read progress from a file").press("Enter")
    asked.value.set_files(saved)
    says = page.locator("[data-progress-says]")
    expect(says).to_contain_text("Read from the file, and added to what was noted here.")
    expect(says).to_contain_text("1 of ")
    assert _kept(page) == before | {
        "flasher-reservoir": {"right": [], "done": False, "fresh": {}, "sets": []}
    }
    assert visited.errors == []


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "That is no file of progress"),
        ("[1, 2]", "That is no file of progress"),
        ('{"format": "other", "problems": {}}', "That is no file of progress"),
        ('{"format": "stepwell-progress", "version": 2, "problems": {}}', "a newer edition"),
        (
            json.dumps({"format": "stepwell-progress", "version": 1, "problems": {},
                        "unit": "<img src=x onerror=alert(1)>"}),
            "another unit, “<img src=x onerror=alert(1)>”",
        ),
        (" " * 1_000_001, "far too long"),
    ],
)  # fmt: skip
def test_what_is_no_file_of_progress_changes_nothing(
    text: str, says: str, built_site: Path, visit: Open
) -> None:
    """Whatever else is chosen is refused in a sentence, as text, and nothing is lost."""
    visited = visit(built_site / PAIR, built_site)
    page = visited.page
    open_first_step(page)
    before = _kept(page)
    page.goto((built_site / "index.html").as_uri())
    _load(page, "some.json", text)
    place = page.locator("[data-progress-says]")
    expect(place).to_contain_text(says)
    expect(place).to_contain_text("Nothing was changed.")
    expect(place.locator("*")).to_have_count(0)
    assert _kept(page) == before
    assert visited.errors == []


def test_strange_entries_of_a_file_are_left_out(built_site: Path, visit: Open) -> None:
    """Only what these pages write themselves is taken over."""
    page = visit(built_site / "index.html", built_site).page
    strange = (
        '{"format": "stepwell-progress", "version": 1, "unit": "Harbour Lights", "problems": '
        '{"__proto__": {"done": true}, "a": 3, "flasher-reservoir": {"right": ["q1", 7, null], '
        '"done": "yes", "fresh": {"2": ["q1"], "x": ["q2"], "__proto__": ["q3"]}, '
        '"sets": [2, "x", -1, 2]}}}'
    )
    _load(page, "strange.json", strange)
    expect(page.locator("[data-progress-says]")).to_contain_text("Read from the file")
    assert _kept(page) == {
        "flasher-reservoir": {"right": ["q1"], "done": False, "fresh": {"2": ["q1"]}, "sets": [2]}
    }
    assert page.evaluate("({}).done") is None
    card = page.locator('.sw-path [data-problem="flasher-reservoir"] [data-done]')
    expect(card).to_have_text("✓ done with 1 fresh set")


def test_what_was_right_before_is_marked(built_site: Path, visit: Open) -> None:
    """Coming back to a page, each question that was answered right says so."""
    page = visit(built_site / PAIR, built_site).page
    answer_right(page, most=1)
    page.reload()
    marks = page.locator(".sw-questions .sw-was-right")
    expect(marks.first).to_have_text("✓ Answered right before.")
    expect(marks.last).to_have_text("")
    expect(page.locator("[data-keeps]")).to_have_text(
        "What you answer is noted in this browser alone; nothing is sent anywhere."
    )
