"""Worked examples with gaps, in the browser: one step blank, then more, down to the problem."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Locator, Page, expect

from tests.conftest import Open

PAGE = "problems/flasher-reservoir.html"


def _fill(step: Locator) -> None:
    """Fill every blank of a step as its own answers tell, by keyboard."""
    for form in step.locator(".sw-gaps form").all():
        shown = form.locator(".sw-answer .sw-n").first.text_content() or ""
        form.get_by_role("textbox").fill(shown)
        form.get_by_role("textbox").press("Enter")


def _blank(page: Page) -> list[str | None]:
    steps = page.locator("details.sw-step-blank:visible").all()
    return [step.get_attribute("id") for step in steps]


def test_the_last_steps_are_left_blank_and_filled(built_site: Path, visit: Open) -> None:
    """By keyboard: one blank, filled, then one more by the button that offers it."""
    visited = visit(built_site / PAGE, built_site)
    page = visited.page
    steps = page.locator("details.sw-step")
    choose = page.get_by_label("Leave blank for me")
    says = page.locator(".sw-gaps-says")
    choose.focus()
    page.keyboard.press("ArrowDown")
    expect(says).to_have_text("The last step is yours.")
    last = steps.last
    assert _blank(page) == [last.get_attribute("id")]
    expect(last.locator(".sw-step-body")).to_be_hidden()
    expect(last.locator(".sw-step-yours")).to_have_text("yours")
    _fill(last)
    expect(says).to_have_text("All blanks filled.")
    expect(last.locator(".sw-step-body")).to_be_visible()
    more = page.get_by_role("button", name="One more blank")
    more.focus()
    page.keyboard.press("Enter")
    expect(choose).to_be_focused()
    expect(says).to_have_text("The last 2 steps are yours.")
    assert len(_blank(page)) == 2
    expect(last.get_by_role("textbox").first).to_have_value("")
    choose.select_option("0")
    assert _blank(page) == []
    expect(last.locator(".sw-step-body")).to_be_visible()
    expect(page.locator(".sw-gaps:visible")).to_have_count(0)
    assert visited.errors == []


def test_a_wrong_filling_stays_blank(built_site: Path, visit: Open) -> None:
    """Nothing of the step shows before it is right, and no link leads to the step itself."""
    page = visit(built_site / PAGE, built_site).page
    page.get_by_label("Leave blank for me").select_option("1")
    last = page.locator("details.sw-step").last
    form = last.locator(".sw-gaps form").first
    form.get_by_role("textbox").fill("123 mJ")
    form.get_by_role("textbox").press("Enter")
    expect(form.get_by_role("status")).to_contain_text("Not yet.")
    expect(last.locator(".sw-step-body")).to_be_hidden()
    own = last.get_attribute("id")
    expect(form.locator(f'a[href="#{own}"]')).to_have_count(0)


def test_down_to_the_bare_problem(built_site: Path, visit: Open) -> None:
    """Only what is asked is left, without plan and goals; once found, the whole solution shows."""
    visited = visit(built_site / PAGE, built_site)
    page = visited.page
    page.get_by_label("Leave blank for me").select_option(label="all: the bare problem")
    expect(page.locator(".sw-plan")).to_be_hidden()
    expect(page.locator(".sw-step-goal:visible")).to_have_count(0)
    for step in page.locator("details.sw-step-blank:visible").all():
        expect(step.locator(".sw-step-yours")).to_have_text("what is asked")
    asked = [
        step
        for step in page.locator("details.sw-step").all()
        if step.locator("[data-asked]").count()
    ]
    assert len(_blank(page)) == len(asked) > 1
    for step in asked:
        _fill(step)
    expect(page.locator(".sw-gaps-says")).to_have_text(
        "All found, from the bare problem. The steps are shown again."
    )
    expect(page.locator("details.sw-step:visible")).to_have_count(
        page.locator("details.sw-step").count()
    )
    expect(page.locator(".sw-plan")).to_be_visible()
    assert visited.errors == []


def test_without_scripts_nothing_is_blank(built_site: Path, visit: Open) -> None:
    """The solution stands as it is."""
    page = visit(built_site / PAGE, built_site, java_script_enabled=False).page
    expect(page.locator(".sw-gaps:visible")).to_have_count(0)
    page.locator("details.sw-step > summary").last.click()
    expect(page.locator(".sw-step-body").last).to_be_visible()
