"""The steps as they are read: what is known, the circuit in sight, pointing, traces."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.conftest import Open

FLASHER = "problems/flasher-reservoir.html"
LONG_STEP = "problems/workbench-three-lamps.html"
OPEN_ALL = "document.querySelectorAll('details.sw-step').forEach(step => { step.open = true; })"


def _settled(visit: Open, file: Path, site: Path, width: int, height: int = 800) -> Page:
    page = visit(file, site, viewport={"width": width, "height": height}).page
    page.wait_for_function("document.fonts.status === 'loaded'")
    return page


def _figure_top(page: Page, step: int, scrolled: int) -> float:
    """Where the figure's plate begins when the step's body is ``scrolled`` pixels gone."""
    return float(
        page.evaluate(
            """([step, scrolled]) => {
              const body = document.querySelectorAll('.sw-step-body')[step];
              window.scrollTo(0, body.getBoundingClientRect().top + scrollY + scrolled);
              return body.querySelector('.sw-step-side figure').getBoundingClientRect().top;
            }""",
            [step, scrolled],
        )
    )


def test_the_circuit_stays_in_sight_beside_long_words(built_site: Path, visit: Open) -> None:
    """While the words of a long step are scrolled, its figure stays whole below the header."""
    page = _settled(visit, built_site / LONG_STEP, built_site, 1280)
    page.evaluate(OPEN_ALL)
    header = page.evaluate("document.querySelector('header').getBoundingClientRect().bottom")
    words, side = page.evaluate(
        """['.sw-step-words', '.sw-step-side'].map(
             name => document.querySelector(name).offsetHeight)"""
    )
    assert words - side > 100
    for scrolled in (0, 50, 100):
        assert _figure_top(page, 0, scrolled) >= header
    page.add_style_tag(content=".sw-step-side { position: static !important; }")
    assert _figure_top(page, 0, 100) < header


@pytest.mark.parametrize("width", [1280, 360])
def test_opening_a_step_moves_nothing_above_it(built_site: Path, visit: Open, width: int) -> None:
    """What stands above a step, its own summary included, stays where it is when it opens."""
    page = _settled(visit, built_site / FLASHER, built_site, width)
    page.evaluate("document.querySelectorAll('.sw-step')[3].scrollIntoView({block: 'center'})")
    moved = page.evaluate(
        """async () => {
          const all = [...document.querySelectorAll('article *')];
          const step = document.querySelectorAll('details.sw-step')[3];
          const above = all.filter(node => node.getBoundingClientRect().height > 0
            && (step.compareDocumentPosition(node) & Node.DOCUMENT_POSITION_PRECEDING)
            && !node.contains(step));
          above.push(step.querySelector('summary'));
          const places = () => above.map(node => {
            const box = node.getBoundingClientRect(); return [box.left, box.top, box.width];
          });
          const before = places();
          step.open = true;
          await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
          const after = places();
          const worst = before.map((place, i) =>
            Math.max(...place.map((value, k) => Math.abs(value - after[i][k]))));
          return [above.length, Math.max(...worst)];
        }"""
    )
    assert moved[0] > 100
    assert moved[1] == 0


def test_what_is_asked_and_known_stands_in_each_step(built_site: Path, visit: Open) -> None:
    """Without scripts too, an open step says what is asked and what earlier steps found."""
    page = visit(built_site / FLASHER, built_site, java_script_enabled=False).page
    steps = page.locator("details.sw-step")
    told = []
    for number in range(3):
        steps.nth(number).locator("> summary").click()
        told.append(steps.nth(number).locator(".sw-so-far").inner_text().splitlines())
    asked = (
        "Asked: the equivalent capacitance; the charge on each capacitor; the voltages across "
        "C1 and C2; the total energy."
    )
    known = [line.replace("\u00a0", " ") for lines in told for line in lines[1:] if line]
    assert [lines[0] for lines in told] == [asked] * 3
    assert known == [
        "Known so far: C23 = 30.0 µF.",
        "Known so far: C23 = 30.0 µF, Ceq = 10.0 µF.",
    ]


def test_pointing_marks_symbol_and_element(built_site: Path, visit: Open) -> None:
    """A symbol marks its element, an element its symbols, and a focused goal all it names."""
    visited = visit(built_site / FLASHER, built_site, viewport={"width": 1280, "height": 800})
    page = visited.page
    page.evaluate(OPEN_ALL)
    step = page.locator("#flasher-reservoir-open-C23")
    element = step.locator('svg [data-element="C2"]')
    pointed = re.compile("sw-pointed")
    step.locator('.sw-step-words math [data-of="C2"]').first.hover()
    expect(element).to_have_class(pointed)
    expect(step.locator('svg [data-element="C3"]')).not_to_have_class(pointed)
    expect(page.locator("#flasher-reservoir-open-total svg .sw-pointed")).to_have_count(0)
    step.locator('svg [data-element="C3"] .sw-hit').hover()
    expect(element).not_to_have_class(pointed)
    expect(step.locator('.sw-step-words p [data-of="C3"]').first).to_have_class(pointed)
    page.mouse.move(2, 2)
    expect(page.locator(".sw-pointed")).to_have_count(0)
    page.locator("#flasher-reservoir-open-total > summary").focus()
    page.keyboard.press("Tab")
    expect(step.locator("> summary")).to_be_focused()
    expect(step.locator("svg g.sw-pointed")).to_have_count(2)
    page.get_by_role("button", name="Close all steps").focus()
    expect(page.locator(".sw-pointed")).to_have_count(0)
    opening = page.locator(".sw-opening")
    opening.locator('.sw-given [data-of="V0"]').hover()
    expect(opening.locator(".sw-source")).to_have_class(pointed)
    assert visited.errors == []


LUMINANCES = """['.sw-trace-a', '.sw-trace-b', '.sw-plate'].map(name => {
  const style = getComputedStyle(document.querySelector('.sw-step-side ' + name));
  const colour = name === '.sw-plate' ? style.backgroundColor : style.stroke;
  const [r, g, b] = colour.match(/[\\d.]+/g).map(Number).map(c => c / 255).map(
    c => c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
})"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_traces_stand_out_from_the_paper(built_site: Path, visit: Open, scheme: str) -> None:
    """Both looks keep a contrast of 3 to 1 and more (WCAG 2.2, 1.4.11), and differ in pattern."""
    page = visit(built_site / FLASHER, built_site, color_scheme=scheme).page
    *traces, paper = page.evaluate(LUMINANCES)
    for trace in traces:
        lighter, darker = max(trace, paper), min(trace, paper)
        assert (lighter + 0.05) / (darker + 0.05) >= 3
    dashes = page.evaluate(
        """['a', 'b'].map(look =>
             getComputedStyle(document.querySelector('.sw-trace-' + look)).strokeDasharray)"""
    )
    assert dashes[0] == "none"
    assert dashes[1] != "none"


def test_the_numbers_of_a_formula_line_up(built_site: Path, visit: Open) -> None:
    """In every formula the relations stand below each other, and so does what follows them."""
    page = _settled(visit, built_site / FLASHER, built_site, 1280)
    page.evaluate(OPEN_ALL)
    lefts = page.evaluate(
        """[...document.querySelectorAll('.sw-step mtable')].map(table => [1, 2].map(column =>
          [...table.querySelectorAll(':scope > mtr')].map(row =>
            Math.round(row.children[column].firstElementChild.getBoundingClientRect().left))))"""
    )
    assert len(lefts) == 6
    assert all(len(set(column)) == 1 for table in lefts for column in table)
    assert sum(len(table[0]) for table in lefts) > 12


def test_a_step_fits_a_narrow_screen(built_site: Path, visit: Open) -> None:
    """At 320 pixels an open step carries its own figures and nothing scrolls the page sideways."""
    page = _settled(visit, built_site / "problems/lantern-ladder.html", built_site, 320, 640)
    page.evaluate(OPEN_ALL)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    for step in page.locator("details.sw-step").all():
        assert step.locator("svg").count() >= 1
        known = step.locator(".sw-so-far").bounding_box()
        words = step.locator(".sw-step-words").bounding_box()
        figure = step.locator("figure").first.bounding_box()
        assert known is not None
        assert words is not None
        assert figure is not None
        assert known["y"] < words["y"] < figure["y"]
