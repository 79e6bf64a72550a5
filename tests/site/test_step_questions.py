"""Questions about steps in a real browser: their order, the faulty line, the first move."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.conftest import Open
from tests.lesson.network.networks import LESSONS, problem_text
from tests.site.answering import answer_every_question
from tests.site.pages import FLASHER, page_of, write_unit
from tests.site.test_access import AXE, RUN_AXE

FORMS = ("order", "faulty-line")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small unit, built: a nest and a network."""
    unit, site = tmp_path_factory.mktemp("unit"), tmp_path_factory.mktemp("site")
    bridge = problem_text(*LESSONS["balanced"])
    write_unit(unit, {"flasher": FLASHER, "bridge": bridge})
    settings = unit / "mkdocs.yml"
    plain = settings.read_text(encoding="utf-8")
    settings.write_text(plain.replace("stepwell]", "{stepwell: {fresh: false}}]"), encoding="utf-8")
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--site-dir", str(site)]
    subprocess.run(command, cwd=unit, check=True, capture_output=True)
    return site


@pytest.fixture
def page(folder: Path, visit: Open) -> Iterator[Page]:
    """The nest's page, opened from its folder; no error and no request that leaves it."""
    visited = visit(folder / "problems/flasher.html", folder)
    yield visited.page
    assert visited.errors == []
    assert visited.strays == []


def form_of(page: Page, kind: str) -> Locator:
    """The question of that form."""
    return page.locator(f"form[data-question={kind}]")


def goals(form: Locator) -> list[str]:
    """The rows from first to last."""
    return form.locator(".sw-order-goal").all_inner_texts()


def rows(form: Locator) -> list[str | None]:
    """The rows by their places in the solution."""
    return [row.get_attribute("data-row") for row in form.locator(".sw-order > li").all()]


def press(page: Page, *keys: str) -> None:
    """Keys one after the other."""
    for key in keys:
        page.keyboard.press(key)


def test_steps_are_put_in_order_by_keyboard_alone(page: Page) -> None:
    """Number keys put rows in their places, Tab leads out of the list, Enter checks."""
    form = form_of(page, "order")
    form.locator(".sw-order button[tabindex='0']").focus()
    press(page, "Home")
    for place in range(len(rows(form))):
        at = rows(form).index(str(place))
        press(page, "Home", *["ArrowDown"] * at, str(place + 1))
        assert rows(form)[place] == str(place)
    press(page, "Tab")
    expect(form.get_by_role("button", name="Check")).to_be_focused()
    press(page, "Enter")
    expect(form.locator(".sw-reply")).to_have_text(
        "Right. Every step uses only what is known by then."
    )


def test_buttons_move_a_row_and_keep_the_focus(page: Page) -> None:
    """Enter on a button moves its row; the button stays focused, and the move is told."""
    form = form_of(page, "order")
    first, second = goals(form)[:2]
    form.get_by_role("button", name=f"Down: {first}").focus()
    press(page, "Enter")
    assert goals(form)[:2] == [second, first]
    expect(form.get_by_role("button", name=f"Down: {first}")).to_be_focused()
    expect(form.locator(".sw-order-moved")).to_have_text(f"{first}: now 2 of {len(goals(form))}.")
    press(page, "ArrowLeft")
    expect(form.get_by_role("button", name=f"Up: {first}")).to_be_focused()
    press(page, "Space")
    assert goals(form)[:2] == [first, second]
    press(page, "Enter")
    expect(form.locator(".sw-order-moved")).to_have_text(f"It is 1 of {len(goals(form))}.")
    assert goals(form)[:2] == [first, second]


def test_the_list_has_one_stop_for_the_tab_key(page: Page) -> None:
    """From there arrow keys go on; the ends of the list are told as such."""
    form = form_of(page, "order")
    assert form.locator(".sw-order button[tabindex='0']").count() == 1
    ends = form.locator(".sw-order button[aria-disabled='true']")
    assert ends.count() == 2


def test_the_first_use_before_it_is_found_is_told(page: Page) -> None:
    """The reply names the step and what it lacks; a move takes the reply away."""
    form = form_of(page, "order")
    form.get_by_role("button", name="Check").click()
    reply = form.locator(".sw-reply")
    expect(reply).to_contain_text("Not yet. “")
    expect(reply).to_contain_text("” needs the ")
    expect(reply).to_contain_text(", which nobody has found yet.")
    form.locator(".sw-order button[data-move='1']").first.click()
    expect(reply).to_have_text("")


def test_another_right_order_is_right(page: Page) -> None:
    """The energy of the whole may come before the walk back."""
    form = form_of(page, "order")
    last = str(len(rows(form)) - 1)
    form.locator(".sw-order button").first.focus()
    for place, row in enumerate(["0", "1", "2", last]):
        press(page, "Home", *["ArrowDown"] * rows(form).index(row), str(place + 1))
    for place in range(4, len(rows(form))):
        row = str(place - 1)
        press(page, "Home", *["ArrowDown"] * rows(form).index(row), str(place + 1))
    form.get_by_role("button", name="Check").click()
    expect(form.locator(".sw-reply")).to_contain_text("yours works just as well")


def test_other_numbers_put_the_rows_back(page: Page) -> None:
    """What was moved and answered is so no longer."""
    form = form_of(page, "order")
    before = rows(form)
    form.locator(".sw-order button[data-move='1']").first.click()
    form.get_by_role("button", name="Check").click()
    page.evaluate(
        "document.dispatchEvent(new CustomEvent('stepwell:renumbered',"
        " {detail: {problem: 'flasher', set: 2}}))"
    )
    assert rows(form) == before
    expect(form.locator(".sw-reply")).to_have_text("")


def test_the_faulty_line_is_found_by_keyboard_alone(page: Page) -> None:
    """Arrows go from line to line; each wrong pick is told on which side of the fault it is."""
    form = form_of(page, "faulty-line")
    reply = form.locator(".sw-reply")
    form.get_by_role("button", name="Check").click()
    expect(reply).to_have_text("Choose one of the lines first.")
    states = [line.get_attribute("data-state") for line in form.locator("input[data-state]").all()]
    form.locator("input[data-state]").first.focus()
    press(page, "Space")
    for at, state in enumerate(states):
        if at:
            press(page, "ArrowDown")
        press(page, "Enter")
        after = at > states.index("fault")
        expect(reply).to_contain_text(
            {
                "fault": "Right. The mistake: ",
                "misled": "That line is right for what came before; the fault is earlier.",
                "fine": "Nothing is wrong in that line; the fault is earlier."
                if after
                else "That line is right. Go on to the next one.",
            }[str(state)]
        )
        assert (reply.locator("a").count() == 1) == (state == "fault")


def test_the_reply_leads_to_the_step_that_has_it_right(page: Page) -> None:
    """The link opens the step."""
    form = form_of(page, "faulty-line")
    form.locator("input[data-state=fault]").check()
    form.get_by_role("button", name="Check").click()
    target = form.get_attribute("data-fault-step")
    form.locator(".sw-reply a").click()
    expect(page.locator(f"#{target}")).to_have_attribute("open", "")


def test_every_question_of_the_small_unit_can_be_answered(folder: Path, visit: Open) -> None:
    """Wrong and right are told apart on both pages."""
    for slug in ("flasher", "bridge"):
        assert answer_every_question(visit(folder / f"problems/{slug}.html", folder).page) >= 5


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 1280])
def test_axe_finds_nothing(folder: Path, visit: Open, scheme: str, width: int) -> None:
    """With replies shown and answers open, by day and by night; nothing scrolls sideways."""
    size = {"width": width, "height": 800}
    visited = visit(folder / "problems/bridge.html", folder, viewport=size, color_scheme=scheme)
    page = visited.page
    for kind in FORMS:
        form = form_of(page, kind)
        if kind == "faulty-line":
            form.locator("input").first.check()
        form.get_by_role("button", name="Check").click()
        form.locator(".sw-answer summary").click()
    page.add_script_tag(content=AXE)
    for kind in FORMS:
        found = page.evaluate(RUN_AXE, f"form[data-question={kind}]")
        assert found["violations"] == []
    wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
    assert wide <= 0


def test_what_can_be_pressed_is_large_enough(folder: Path, visit: Open) -> None:
    """At least 24 pixels in both directions, on a small screen too."""
    size = {"width": 320, "height": 800}
    page = visit(folder / "problems/bridge.html", folder, viewport=size).page
    for button in form_of(page, "order").locator("button").all():
        box = button.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 24


def test_without_scripts_all_can_be_read(folder: Path, visit: Open) -> None:
    """No button shows; the right order and the mistake stand in a native details."""
    page = visit(folder / "problems/flasher.html", folder, java_script_enabled=False).page
    for kind in FORMS:
        form = form_of(page, kind)
        assert not any(button.is_visible() for button in form.locator("button").all())
        form.locator(".sw-answer summary").click()
    order = form_of(page, "order").locator(".sw-answer li")
    assert order.first.inner_text().startswith("Merge C2 and C3, which share both junctions")
    assert any("needs the " in text for text in order.all_inner_texts())
    expect(form_of(page, "faulty-line").locator(".sw-answer")).to_contain_text(
        "is the first wrong one. The mistake: "
    )


def test_wrong_numbers_are_marked() -> None:
    """Every number of the worked lines carries a name; the wrong ones that of the question."""
    html = str(page_of(FLASHER).filled("parts/self-check.html"))
    part = html[html.index('data-question="faulty-line"') :]
    lines = part[: part.index("</fieldset>")]
    assert 'data-q="wrong:faulty-line:' in lines
    assert lines.count('class="sw-n') == lines.count("data-q=")


def test_on_paper_there_is_room_for_the_order(page: Page) -> None:
    """Buttons go, and each row has an empty box for its number."""
    page.emulate_media(media="print")
    form = form_of(page, "order")
    assert not any(button.is_visible() for button in form.locator(".sw-order-moves").all())
    box = form.locator(".sw-order > li").first.evaluate(
        "row => { const s = getComputedStyle(row, '::before');"
        " return [s.borderTopStyle, s.content]; }"
    )
    assert box == ["solid", '""']
