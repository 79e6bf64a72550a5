"""The unit's own site in a real browser, opened from its folder with the network off."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.conftest import Open, Visit, visits
from tests.contexts import Contexts
from tests.site.answering import answer_every_question

FLASHER = "problems/flasher-reservoir.html"
ROOT = Path(__file__).parent.parent.parent
PROBLEMS = sorted(path.stem for path in (ROOT / "content" / "problems").glob("*.yml"))
PAGES = [
    "index.html", "sharing-a-junction.html", "problems/index.html", "problems/by-objective.html",
    "reference/formulas.html", "reference/glossary.html", "reference/symbols.html",
    *(f"problems/{slug}.html" for slug in PROBLEMS),
]  # fmt: skip


@pytest.fixture(scope="module", params=PAGES)
def opened(request: pytest.FixtureRequest, contexts: Contexts, built_site: Path) -> Iterator[Visit]:
    """Each page of the unit, opened once for the tests that look at every page."""
    with visits(contexts) as visit:
        yield visit(built_site / request.param, built_site)


def test_pages_ask_for_nothing_outside(opened: Visit) -> None:
    """Every page opens from its folder without an error and without a request outside."""
    opened.page.wait_for_function("document.fonts.status === 'loaded'")
    assert opened.errors == []
    assert opened.strays == []


def test_every_question_knows_its_answer(opened: Visit) -> None:
    """On every page the shown answer, typed in, is right, and just one option of each choice."""
    questions = answer_every_question(opened.page)
    assert questions >= (2 if Path(opened.page.url).stem in PROBLEMS else 0)
    assert opened.errors == []


@pytest.mark.parametrize("path", PAGES)
def test_pages_fit_a_narrow_screen_by_night(built_site: Path, visit: Open, path: str) -> None:
    """At 320 pixels nothing makes a page scroll sideways, with all steps open; nor any error."""
    narrow = {"viewport": {"width": 320, "height": 640}, "color_scheme": "dark"}
    visited = visit(built_site / path, built_site, **narrow)
    visited.page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })")
    assert visited.page.evaluate("document.documentElement.scrollWidth") <= 320
    visited.page.wait_for_function("document.fonts.status === 'loaded'")
    assert visited.errors == []
    assert visited.strays == []


def test_steps_open_one_by_one(built_site: Path, visit: Open) -> None:
    """Steps are closed at first, open one after the other, and all at once."""
    page = visit(built_site / FLASHER, built_site).page
    steps = page.locator("details.sw-step")
    opened = page.locator("details.sw-step[open]")
    assert steps.count() == 6
    expect(opened).to_have_count(0)
    next_step = page.get_by_role("button", name="Open the next step")
    for number in range(1, 7):
        next_step.click()
        expect(opened).to_have_count(number)
        expect(steps.nth(number - 1).locator("svg").last).to_be_visible()
    expect(next_step).to_be_disabled()
    page.get_by_role("button", name="Close all steps").click()
    expect(opened).to_have_count(0)
    page.get_by_role("button", name="Open all steps").click()
    expect(opened).to_have_count(6)


RIGHT_ANSWERS = [
    # C23 = 30 µF, Ceq = 10 µF, Q = 120 µC, V3 = 4 V, Q3 = 8 µF · 4 V = 32 µC.
    "32 µC", "32.0 µC", "32 μC", "32uC", "0.032 mC", "0,032 mC", "32000 nC", "3.2e-5 C",
    "3.2E-5 C", "3.2×10^-5 C", "3.2 x 10^-5 C", "3.2·10⁻⁵ C", "0.000032 C", "32 microcoulombs",
    "320/10 uC", " 32  µC ", "+32 µC",
]  # fmt: skip
WRONG_ANSWERS = {
    "32 mC": "The digits are right, but that is a thousand times too large: look at m and µ.",
    "3.2 µC": "The digits are right, but that is ten times too small: look at the decimal point.",
    "120 µC": "Taking the whole charge of C2 and C3 together for C3 gives this.",
    "-32 µC": "The size is right, the sign is not.",
    "30 µC": "Rounded to one significant digit that is right. Give three significant digits.",
    "32": "The digits are right, but a charge needs a unit after the number.",
    "32 µV": "The digits are right, but “µV” is a unit of voltage; a charge is measured in C.",
    "5 quux": "“quux” is no unit known here. A charge is measured in C.",
    "many": "That is no number with a unit.",
    "1/0 C": "A number divided by zero has no value.",
    "1e999 C": "That power of ten is beyond all measure.",
    "<img src=x onerror=alert(1)>": "That is no number with a unit.",
    "5 <b>µC</b>": "“<b>µC</b>” is no unit known here.",
    "5 constructor": "“constructor” is no unit known here.",
}


def test_a_right_answer_is_accepted_in_any_unit(built_site: Path, visit: Open) -> None:
    """The charge on C3 is accepted however its number and unit are spelled."""
    page = visit(built_site / FLASHER, built_site).page
    form = page.locator(".sw-questions form[data-question=typed]").filter(
        has_text="the charge on C3"
    )
    for answer in RIGHT_ANSWERS:
        form.get_by_role("textbox").fill(answer)
        form.get_by_role("button", name="Check").click()
        told = form.get_by_role("status").inner_text().replace("\u00a0", " ")
        assert (answer, told) == (answer, "Right. It is 32.0 µC.")


def test_a_wrong_answer_is_told_why(built_site: Path, visit: Open) -> None:
    """A wrong answer gets its reason, as plain text, and a link to the step to look at again."""
    visited = visit(built_site / FLASHER, built_site)
    form = visited.page.locator(".sw-questions form[data-question=typed]").filter(
        has_text="the charge on C3"
    )
    status = form.get_by_role("status")
    for answer, reply in WRONG_ANSWERS.items():
        form.get_by_role("textbox").fill(answer)
        form.get_by_role("textbox").press("Enter")
        told = status.inner_text()
        assert told.startswith(f"Not yet. {reply}"), (answer, told)
        assert status.locator("img, script").count() == 0
    form.get_by_role("textbox").fill("120 µC")
    form.get_by_role("textbox").press("Enter")
    status.get_by_role("link", name="Look again at “Walk back to C2 and C3”.").click()
    expect(visited.page.locator("#flasher-reservoir-open-C23")).to_have_attribute("open", "")
    assert visited.errors == []


def test_nothing_answered_is_no_mistake(built_site: Path, visit: Open) -> None:
    """An empty answer is asked for again, without a verdict."""
    page = visit(built_site / FLASHER, built_site).page
    form = page.locator(".sw-questions form[data-question=typed]").first
    form.get_by_role("button", name="Check").click()
    expect(form.get_by_role("status")).to_have_text("Type a number and a unit first.")


def test_a_choice_names_the_mistake(built_site: Path, visit: Open) -> None:
    """A wrong option is answered with the mistake that leads to it, the right one with yes."""
    page = visit(built_site / FLASHER, built_site).page
    choices = page.locator(".sw-questions form[data-question=choice]")
    form = choices.filter(has_text="Which of these is the equivalent capacitance?")
    status = form.get_by_role("status")
    form.get_by_role("button", name="Check").click()
    expect(status).to_have_text("Choose one of the answers first.")
    form.get_by_label("45.0 µF").check()
    form.get_by_role("button", name="Check").click()
    expect(status).to_contain_text("Not yet. Adding C1 and C23 gives this.")
    form.get_by_label("10.0 µF").check()
    form.get_by_role("button", name="Check").click()
    expect(status).to_contain_text("Right.")
    expect(status).not_to_contain_text("Not yet")


def test_everything_can_be_read_without_scripts(built_site: Path, visit: Open) -> None:
    """With scripts disabled every step opens natively and shows words, formulas and figure."""
    page = visit(built_site / FLASHER, built_site, java_script_enabled=False).page
    steps = page.locator("details.sw-step")
    for number in range(6):
        step = steps.nth(number)
        step.locator("> summary").click()
        expect(step.locator("math").first).to_be_visible()
        expect(step.locator("svg").last).to_be_visible()
        expect(step.locator(".sw-step-words p").first).to_be_visible()
    first = page.locator("form.sw-question").first
    expect(first.get_by_role("button", name="Check")).to_be_hidden()
    first.get_by_text("Show the answer").click()
    expect(first.locator(".sw-answer li").first).to_be_visible()
    typed_form = page.locator(".sw-questions form[data-question=typed]").first
    expect(typed_form.get_by_role("textbox")).to_be_hidden()


def test_a_link_to_a_step_opens_it(built_site: Path, visit: Open) -> None:
    """Arriving at a page by the address of a step finds the step open."""
    page = visit(built_site / FLASHER, built_site).page
    page.goto((built_site / FLASHER).as_uri() + "#flasher-reservoir-charge")
    page.reload()
    expect(page.locator("#flasher-reservoir-charge")).to_have_attribute("open", "")


def test_the_search_works_from_the_folder(built_site: Path, visit: Open) -> None:
    """Typing a word of a scenario finds its problem, without a server."""
    visited = visit(built_site / "index.html", built_site)
    page = visited.page
    page.get_by_role("textbox", name="Search").click()
    page.get_by_role("textbox", name="Search").press_sequentially("foghorn")
    result = page.locator(".md-search-result__item a").first
    expect(result).to_have_attribute("href", re.compile(r"/problems/foghorn-three-chain\.html"))
    assert visited.strays == []


def test_steps_and_questions_work_by_keyboard(built_site: Path, visit: Open) -> None:
    """Opening a step and answering a choice need no mouse."""
    page = visit(built_site / FLASHER, built_site).page
    page.locator("details.sw-step summary").first.focus()
    page.keyboard.press("Enter")
    expect(page.locator("details.sw-step").first).to_have_attribute("open", "")
    form = page.locator("form[data-question=choice]").first
    form.get_by_role("radio").first.focus()
    page.keyboard.press("Space")
    options = form.get_by_role("radio").all()
    right = [option.get_attribute("data-right") is not None for option in options].index(True)
    for _ in range(right):
        page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    expect(form.get_by_role("status")).to_contain_text("Right.")


def test_shipped_fonts_are_used(built_site: Path, visit: Open) -> None:
    """Text and formulas are set in the fonts that the site brings along."""
    page = visit(built_site / FLASHER, built_site).page
    page.wait_for_function("document.fonts.status === 'loaded'")
    loaded = page.evaluate(
        "[...document.fonts].filter(f => f.status === 'loaded').map(f => f.family)"
    )
    assert {"STIX Two Text", "STIX Two Math"} <= {family.strip('"') for family in loaded}
