"""The page at the board: one step at a time, by keyboard, with a question before each."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Page, expect

from tests.conftest import Open

FLASHER = "problems/flasher-reservoir.html"
NAME = "Show at the board"
TWICE = """(() => {
  const ids = [...document.querySelectorAll('[id]')].map(node => node.id);
  return ids.filter((id, i) => ids.indexOf(id) !== i);
})()"""
LINKED = """[...document.querySelectorAll('.sw-board [aria-labelledby]')].every(node =>
  node.getAttribute('aria-labelledby').split(' ').every(id =>
    document.getElementById(id).closest('.sw-board')))"""


def _place(page: Page) -> str:
    return page.locator(".sw-board-place").inner_text()


def _heading(page: Page) -> str:
    return page.locator(".sw-board h2").inner_text()


def _at_the_board(page: Page) -> None:
    button = page.get_by_role("button", name=NAME)
    button.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("dialog", name="At the board")).to_be_visible()
    page.wait_for_function("document.activeElement.matches('.sw-board h2')")


PREDICTED = (
    "Which capacitors share both junctions with C2? Pick them in the figure.",
    "Rank C1, C2 and C3 by the charge on each, the largest first. Equal ones share a place.",
    "What is the right first move?",
)


def test_a_solution_is_shown_by_keyboard_alone(built_site: Path, visit: Open) -> None:
    """All slides come in order forwards and backwards, each step after its question."""
    visited = visit(built_site / FLASHER, built_site, viewport={"width": 1280, "height": 720})
    page = visited.page
    _at_the_board(page)
    assert page.get_by_role("dialog", name="At the board").get_attribute("aria-label") == (
        "At the board: Two reservoirs behind one lamp"
    )
    keys = ["ArrowRight", "PageDown", "Space", "Enter"]
    slides = [(_place(page), _heading(page))]
    while page.locator(".sw-board-next").is_enabled():
        page.keyboard.press(keys[len(slides) % 4])
        slides.append((_place(page), _heading(page)))
        assert page.evaluate(TWICE) == []
        assert page.evaluate(LINKED)
        assert page.evaluate("document.activeElement.matches('.sw-board h2')")
    steps = [f"Step {number} of 6" for number in range(1, 7)]
    assert [place for place, _ in slides] == [
        "The problem", *["Predict first"] * 6,
        *(place for step in steps for place in (step, step)), "The checks", "The checks",
    ]  # fmt: skip
    assert [heading for _, heading in slides[1:11]] == [
        *[heading for heading in PREDICTED for _ in range(2)],
        "Which capacitors share both junctions?",
        "Merge C2 and C3, which share both junctions",
        "What is the same for C1 and C23: the voltage or the charge?",
        "Merge what is left, C1 and C23",
    ]
    assert slides[-2][1] == "Does it add up? What must be true of these results?"
    page.keyboard.press("ArrowRight")
    assert (_place(page), _heading(page)) == slides[-1]
    for slide, key in zip(reversed(slides[:-1]), ["ArrowLeft", "PageUp"] * 11, strict=False):
        page.keyboard.press(key)
        assert (_place(page), _heading(page)) == slide
    page.keyboard.press("End")
    assert _heading(page) == "It adds up"
    page.keyboard.press("Home")
    assert _place(page) == "The problem"
    assert visited.errors == []
    assert visited.strays == []


def test_a_question_gives_no_result_away(built_site: Path, visit: Open) -> None:
    """The slide before a step shows neither its result nor its traces, the next one both."""
    page = visit(built_site / FLASHER, built_site, viewport={"width": 1280, "height": 720}).page
    _at_the_board(page)
    stage = page.locator(".sw-board-slide")
    expect(stage).not_to_contain_text("88.0 µC")
    for _ in range(7):
        page.keyboard.press("ArrowRight")
    expect(stage.locator("svg")).to_have_count(1)
    expect(stage.locator(".sw-trace")).to_have_count(0)
    expect(stage).not_to_contain_text("30.0")
    page.keyboard.press("ArrowRight")
    expect(stage.locator("svg")).to_have_count(2)
    expect(stage.locator(".sw-trace")).to_have_count(4)
    expect(stage.locator(".sw-step-words")).to_contain_text("30.0")
    page.keyboard.press("ArrowRight")
    expect(stage.locator(".sw-so-far")).to_contain_text("Known so far")


def test_the_board_keeps_the_focus_and_gives_it_back(built_site: Path, visit: Open) -> None:
    """Tab stays inside, Escape leaves to the button, and the place is kept for coming back."""
    page = visit(built_site / FLASHER, built_site).page
    _at_the_board(page)
    for _ in range(8):
        page.keyboard.press("ArrowRight")
    seen = set()
    for _ in range(8):
        page.keyboard.press("Tab")
        seen.add(page.evaluate("document.activeElement.textContent"))
        # Where a page ends, browsers hand the focus to their own bar: the body stands for it.
        assert page.evaluate(
            "!!document.activeElement.closest('body:not(:focus-within), .sw-board')"
        )
    assert {"Back", "Next", "Leave"} <= seen
    for name in ("Back", "Next", "Leave"):
        box = (
            page.get_by_role("dialog", name="At the board")
            .get_by_role("button", name=name)
            .bounding_box()
        )
        assert box is not None
        assert min(box["height"], box["width"]) >= 44
    page.locator(".sw-board h2").focus()
    page.keyboard.press("Escape")
    expect(page.locator("dialog.sw-board")).to_be_hidden()
    expect(page.get_by_role("button", name=NAME)).to_be_focused()
    page.wait_for_function("document.fullscreenElement === null")
    _at_the_board(page)
    assert _place(page) == "Step 1 of 6"
    page.get_by_role("dialog", name="At the board").get_by_role("button", name="Leave").click()
    expect(page.get_by_role("button", name=NAME)).to_be_focused()


def test_the_board_fills_the_window_where_full_screen_is_refused(
    built_site: Path, visit: Open
) -> None:
    """A browser that refuses full screen shows the slides over the whole window."""
    page = visit(built_site / FLASHER, built_site, viewport={"width": 1024, "height": 700}).page
    page.evaluate(
        """() => {
          document.documentElement.requestFullscreen = () => Promise.reject(new TypeError('no'));
        }"""
    )
    _at_the_board(page)
    assert page.locator("dialog.sw-board").bounding_box() == {
        "x": 0, "y": 0, "width": 1024, "height": 700,
    }  # fmt: skip
    page.set_viewport_size({"width": 320, "height": 640})
    page.keyboard.press("End")
    assert page.evaluate(
        "(s => s.scrollWidth - s.clientWidth)(document.querySelector('.sw-board-slide'))"
    ) <= 0  # fmt: skip


def test_without_scripts_there_is_no_board(built_site: Path, visit: Open) -> None:
    """Without scripts there is no button for the board, and no question to a class to be read."""
    page = visit(built_site / FLASHER, built_site, java_script_enabled=False).page
    expect(page.get_by_role("button", name=NAME)).to_have_count(0)
    page.locator("details.sw-step summary").first.click()
    expect(page.get_by_text("Which capacitors share both junctions?").first).to_be_hidden()


def test_a_lesson_shows_its_problem_at_the_board(built_site: Path, visit: Open) -> None:
    """A problem embedded in a lesson can be shown, even without its own figure."""
    page = visit(built_site / "sharing-a-junction.html", built_site).page
    button = page.get_by_role("button", name=NAME).first
    button.click()
    expect(page.get_by_role("dialog", name="At the board")).to_be_visible()
    page.wait_for_function("document.activeElement.matches('.sw-board h2')")
    assert _place(page) == "The problem"
    expect(page.locator(".sw-board svg")).to_have_count(1)
    page.keyboard.press("Escape")
    # Its slide is taken away when the board has been left, by an event of its own.
    expect(page.locator(".sw-board-slide")).to_be_empty()
    page.evaluate("document.querySelectorAll('.sw-opening, form').forEach(node => node.remove())")
    page.keyboard.press("Enter")
    page.wait_for_function("document.activeElement.matches('.sw-board h2')")
    assert _place(page).startswith("Step 1 of")
    expect(page.locator(".sw-board svg")).to_have_count(1)
