"""The reply to a typed answer, as a reader meets it on the page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.conftest import Open, Visit
from tests.site.answers.scripts import JUDGES, problem_file
from tests.site.answers.test_expected import PROBLEMS
from tests.site.formulas.test_symbols_page import TWINS
from tests.site.pages import FLASHER, html_of
from tests.site.test_access import RUN_AXE

AXE = Path(__file__).parent.parent / "axe.min.js"


@pytest.fixture
def flasher(tmp_path: Path, visit: Open) -> Visit:
    """The page of the flasher, opened from its folder."""
    return visit(
        problem_file(tmp_path, FLASHER, "flasher"), viewport={"width": 1000, "height": 900}
    )


def form_for(page: Page, what: str) -> Locator:
    """The form of the self-check that asks for something."""
    return page.locator(".sw-questions form[data-question=typed]").filter(has_text=what).first


def answer(form: Locator, typed: str) -> str:
    """Type, press Enter, and read the reply."""
    form.get_by_role("textbox").fill(typed)
    form.get_by_role("textbox").press("Enter")
    return form.get_by_role("status").inner_text().replace("\u00a0", " ")


def test_a_wrong_turn_is_told_and_its_step_opened(flasher: Visit) -> None:
    """What was done and why it is tempting, without the number, and a link that opens the step."""
    form = form_for(flasher.page, "the charge on C3")
    entry = form.locator(".sw-turns li").first
    number = (entry.locator(".sw-turn-number").text_content() or "").replace("\u00a0", " ")
    reply = answer(form, number)
    assert reply.startswith("Not yet. ")
    assert "gives this." in reply
    assert number not in reply
    link = form.get_by_role("status").get_by_role("link")
    step = flasher.page.locator(f"#{entry.get_attribute('data-look')}")
    expect(step).not_to_have_attribute("open", "")
    link.press("Enter")
    expect(step).to_have_attribute("open", "")
    assert flasher.errors == []


def test_hints_come_one_by_one_and_never_the_answer(flasher: Visit) -> None:
    """First what its step is for, then the step itself; the same answer again is no new attempt."""
    form = form_for(flasher.page, "the charge on C3")
    first = answer(form, "71 µC")
    assert first == (
        "Not yet. That is not the value. The step that finds it is called “Walk back to C2 and C3”."
        " What would you do there?"
    )
    expect(form.get_by_role("status").get_by_role("link")).to_have_count(0)
    assert answer(form, "71 µC") == first
    second = answer(form, "73 µC")
    assert "Open that step and compare it with what you did." in second
    expect(form.get_by_role("status").get_by_role("link")).to_have_count(1)
    assert "32" not in first + second


def test_what_was_right_stays_shown(flasher: Visit) -> None:
    """A later wrong answer does not wipe out the right one; other numbers do."""
    form = form_for(flasher.page, "the charge on C3")
    assert answer(form, "32 uC") == "Right. It is 32.0 µC."
    assert answer(form, "71 uC").endswith("Your earlier answer, 32 uC, was right.")
    assert answer(form, "").endswith("Your earlier answer, 32 uC, was right.")
    flasher.page.evaluate("document.querySelectorAll('form').forEach(stepwell.startAnew)")
    expect(form.get_by_role("status")).to_have_text("")
    assert "earlier" not in answer(form, "71 uC")


def test_another_quantity_is_named_with_its_symbol(tmp_path: Path, visit: Open) -> None:
    """The total energy asked, that of C1 given: its symbol is written as everywhere."""
    page = visit(problem_file(tmp_path, FLASHER, "flasher")).page
    form = form_for(page, "the total energy")
    assert "the energy stored in C1" in answer(form, "480 uJ")
    symbol = form.locator(".sw-reply .sw-sym")
    assert symbol.first.inner_html() == "<i>C</i><sub>1</sub>"


# Types each answer and each wrong number as the page itself tells them.
TYPE_WHAT_IS_TOLD = """() => {
  const ask = (form, typed) => {
    form.querySelector('input').value = typed;
    form.requestSubmit();
    return form.querySelector('.sw-reply').textContent;
  };
  const forms = [...document.querySelectorAll('form[data-question=typed]')];
  document.querySelectorAll('details').forEach(box => { box.open = true; });
  return forms.map(form => ({
    right: ask(form, form.querySelector('.sw-answer-is').innerText),
    turns: [...form.querySelectorAll('.sw-turns li:not([hidden])')].map(item => {
      const typed = item.querySelector('.sw-turn-number').innerText;
      return [typed, item.querySelector('.sw-turn-words').textContent, ask(form, typed)];
    }),
  }));
}"""


@pytest.mark.parametrize("file", PROBLEMS, ids=[file.stem for file in PROBLEMS])
def test_a_page_takes_what_it_tells(tmp_path: Path, visit: Open, file: Path) -> None:
    """The answer as shown is right, the number of a wrong turn is answered by its words."""
    text = re.sub(r"(?m)^objectives:.*\n", "", file.read_text(encoding="utf-8"))
    visited = visit(problem_file(tmp_path, text, file.stem, JUDGES))
    told = visited.page.evaluate(TYPE_WHAT_IS_TOLD)
    for form in told:
        assert form["right"].startswith("Right. It is "), form
        for typed, words, reply in form["turns"]:
            alike = [other for number, other, _ in form["turns"] if number == typed]
            near = reply.startswith("Right.") and "one off" in reply
            assert near or any(other in reply for other in alike), (typed, words, reply)
    assert visited.errors == []


def test_two_problems_on_a_page_are_kept_apart(tmp_path: Path, visit: Open) -> None:
    """What another problem's C1 stores is no value of this problem's."""
    file = problem_file(tmp_path, FLASHER, "flasher", JUDGES)
    other = html_of(FLASHER.replace("12 V", "24 V"), "other")
    page = file.read_text(encoding="utf-8").replace(
        "</article>", f'<div data-part-of="other">{other}</div></article>'
    )
    file.write_text(page, encoding="utf-8")
    forms = visit(file).page.locator(".sw-questions form").filter(has_text="the total energy")
    # C1 stores 480 µJ of 720 µJ; at 24 V all energies are four times as large.
    assert "the energy stored in C1" in answer(forms.first, "480 uJ")
    assert "the energy stored in C1" in answer(forms.last, "1.92 mJ")
    assert "the energy stored in C1" not in answer(forms.last, "480 uJ")
    assert "the energy stored in C1" not in answer(forms.first, "1.92 mJ")


def test_letters_are_typed_and_answered(tmp_path: Path, visit: Open) -> None:
    """An expression is accepted in any form, and shown as the page writes it."""
    visited = visit(problem_file(tmp_path, TWINS, "twins"))
    form = form_for(visited.page, "the total energy")
    assert answer(form, "3/4 C V^2 / 2") == "Right. It is 3CV²/8."
    assert answer(form, "E = 3 C V² / 8") == "Right. It is 3CV²/8."
    assert answer(form, "3CV/8").startswith("Not yet. ")
    assert "Write the answer with C and V." in answer(form, "3QV/8")
    assert visited.errors == []


def test_the_reply_is_announced_and_tied_to_its_help(flasher: Visit) -> None:
    """A live region is there before it speaks; the box has its label and its line of help."""
    form = form_for(flasher.page, "the charge on C3")
    box = form.get_by_role("textbox")
    assert form.get_by_role("status").inner_text() == ""
    assert "charge on C" in form.locator("label").inner_text()
    how = box.get_attribute("aria-describedby")
    expect(flasher.page.locator(f"#{how}")).to_contain_text("Any prefix will do")
    for attribute, value in (("autocomplete", "off"), ("autocapitalize", "none"),
                             ("spellcheck", "false"), ("inputmode", "text")):  # fmt: skip
        assert box.get_attribute(attribute) == value


def test_without_scripts_the_turns_can_be_read(tmp_path: Path, visit: Open) -> None:
    """The answer opens natively, with every wrong turn and where it leads."""
    page = visit(problem_file(tmp_path, FLASHER, "flasher"), java_script_enabled=False).page
    form = form_for(page, "the charge on C3")
    expect(form.get_by_role("textbox")).to_be_hidden()
    form.get_by_text("Show the answer").click()
    form.get_by_text("Wrong turns and where they lead").click()
    for item in form.locator(".sw-turns li:not([hidden])").all():
        expect(item).to_be_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("text", "slug"), [(FLASHER, "flasher"), (TWINS, "twins")])
def test_axe_and_a_narrow_screen(
    tmp_path: Path, visit: Open, text: str, slug: str, scheme: str
) -> None:
    """At 320 pixels, with replies shown: no rule broken, nothing wider, all done by keys."""
    visited = visit(problem_file(tmp_path, text, slug), color_scheme=scheme,
                    viewport={"width": 320, "height": 700})  # fmt: skip
    page = visited.page
    typed = {
        "flasher": ["120 uC", "66 kg", "-4 V", "720 uJ"],
        "twins": ["CV", "2CV/", "V/4", "3CV"],
    }
    forms = page.locator(".sw-questions form[data-question=typed]").all()
    assert len(forms) > 1
    for form, text_ in zip(forms, typed[slug], strict=False):
        form.get_by_role("textbox").focus()
        page.keyboard.type(text_)
        page.keyboard.press("Enter")
        expect(form.get_by_role("status")).not_to_have_text("")
        form.locator(".sw-answer > summary").focus()
        page.keyboard.press("Enter")
        expect(form.locator(".sw-answer-is")).to_be_visible()
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    assert visited.errors == []
    page.add_script_tag(path=AXE)
    found = page.evaluate(RUN_AXE, ".sw-questions")
    assert found["violations"] == []
    assert visited.strays == []
