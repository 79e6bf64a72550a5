"""The unit's pages on paper: what is left of them, and where a sheet may end."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.conftest import Open

FLASHER = "problems/flasher-reservoir.html"
LADDER = "problems/lantern-ladder.html"
MM = 96 / 25.4
# What is left of a sheet between its margins: 16 mm at the sides and the top, 18 mm below.
PAPERS = {"A4": (210 - 32, 297 - 34), "Letter": (215.9 - 32, 279.4 - 34)}

VISIBLE = """selector => [...document.querySelectorAll(selector)].filter(
    e => e.checkVisibility() && e.getBoundingClientRect().height > 0).length"""
TALLEST = """selector => Math.max(...[...document.querySelectorAll(selector)].map(
    e => e.getBoundingClientRect().height))"""
# Colours of all text and of all that lies under it, of what is shown.
COLOURS = """() => {
  const shown = [...document.querySelectorAll('article *')].filter(
      e => e.checkVisibility() && [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim()));
  const grounds = ['html', 'body', 'article', '.sw-plate', '.sw-step', '.sw-question'];
  return {
    text: [...new Set(shown.map(e => getComputedStyle(e).color))],
    ground: [...new Set(grounds.flatMap(s => [...document.querySelectorAll(s)])
        .map(e => getComputedStyle(e).backgroundColor))],
  };
}"""
CUT = """() => {
  const boxes = [...document.querySelectorAll(
      '.sw-step-body math, .sw-step-body svg, .sw-opening svg')];
  const width = document.documentElement.clientWidth;
  return boxes.map(e => e.getBoundingClientRect()).filter(
      b => b.width > 0 && (b.right > width + 1 || b.left < -1)).length;
}"""
OVERLAPS = """() => [...document.querySelectorAll('.sw-step-body')].filter(body => {
  const all = selector => [...body.querySelectorAll(selector)].map(
      e => e.getBoundingClientRect()).filter(b => b.width > 0);
  return all('math').some(m => all('svg').some(f => m.left < f.right && f.left < m.right
      && m.top < f.bottom - 1 && f.top < m.bottom - 1));
}).length"""


def pages_in(pdf: bytes) -> int:
    """How many sheets a PDF has."""
    return len(re.findall(rb"/Type\s*/Page(?![a-zA-Z])", pdf))


def on_paper(page: Page, paper: str) -> None:
    """Lay a page out as it is printed on a paper."""
    width, height = PAPERS[paper]
    page.set_viewport_size({"width": round(width * MM), "height": round(height * MM)})
    page.emulate_media(media="print")


def lightness(colour: str) -> float:
    """From 0 for black to 1 for white; what lets all through counts as white."""
    red, green, blue, *rest = (float(n) for n in re.findall(r"[\d.]+", colour))
    through = rest[0] if rest else 1.0
    return 1 - through * (1 - (0.2126 * red + 0.7152 * green + 0.0722 * blue) / 255)


@pytest.mark.parametrize("path", [FLASHER, LADDER])
def test_a_page_prints_whole_and_clean(built_site: Path, visit: Open, path: str) -> None:
    """Steps lie open, nothing to press is left, no figure or formula is wider than the sheet."""
    visited = visit(built_site / path, built_site, color_scheme="dark")
    page = visited.page
    steps = page.locator("details.sw-step").count()
    for paper, (_, height) in PAPERS.items():
        on_paper(page, paper)
        assert page.evaluate(VISIBLE, ".sw-step-words") == steps
        assert page.evaluate(VISIBLE, ".sw-step-figures .sw-plate svg") >= steps
        assert page.evaluate(VISIBLE, "details.sw-answer .sw-n") > 0
        pressed = "button, input, select, header, footer, nav, [class*=sidebar], .sw-onward"
        assert page.evaluate(VISIBLE, pressed) == 0
        assert page.evaluate(CUT) == 0
        assert page.evaluate(OVERLAPS) == 0
        # Each of these is kept on one sheet, which works only if it is no taller than one.
        for whole in (".sw-step", ".sw-plate", ".sw-opening", ".sw-question"):
            assert page.evaluate(TALLEST, whole) < height * MM, whole
    colours = page.evaluate(COLOURS)
    assert max(map(lightness, colours["text"])) < 0.45
    assert min(map(lightness, colours["ground"])) > 0.999
    assert visited.errors == []


def test_nothing_is_torn_apart(built_site: Path, visit: Open) -> None:
    """Figures, steps and questions are kept whole, and headings with what follows them."""
    page = visit(built_site / FLASHER, built_site).page
    on_paper(page, "A4")
    style = """([selector, property]) => [...new Set([...document.querySelectorAll(selector)].map(
        e => getComputedStyle(e)[property]))]"""
    for whole in (".sw-plate", ".sw-plate svg", ".sw-step", ".sw-question", ".sw-checks > li"):
        assert page.evaluate(style, [whole, "breakInside"]) == ["avoid"], whole
    for heading in ("h1", "h2", ".sw-step summary", "legend"):
        assert page.evaluate(style, [heading, "breakAfter"]) == ["avoid"], heading


def test_two_buttons_print_with_or_without_the_solution(built_site: Path, visit: Open) -> None:
    """Either button prints; afterwards the page is as it was."""
    page = visit(built_site / FLASHER, built_site).page
    page.evaluate("""() => { window.seen = []; window.print = () => {
        window.dispatchEvent(new Event('beforeprint'));
        window.seen.push([document.documentElement.className.includes('sw-problem-only'),
            document.querySelectorAll('details.sw-step[open]').length]);
        window.dispatchEvent(new Event('afterprint')); }; }""")
    page.locator("details.sw-step summary").first.click()
    for name, problem_only in (
        ("Print with the solution", False),
        ("Print the problem only", True),
    ):
        page.get_by_role("button", name=name).click()
        assert page.evaluate("window.seen.pop()") == [problem_only, 6]
        assert page.locator("html.sw-problem-only").count() == 0
        assert page.locator("details.sw-step[open]").count() == 1
        assert page.locator("details.sw-answer[open]").count() == 0


def test_without_scripts_there_are_no_buttons_but_open_steps(built_site: Path, visit: Open) -> None:
    """Printing from the browser's menu needs no script."""
    page = visit(built_site / FLASHER, built_site, java_script_enabled=False).page
    assert page.get_by_role("button", name="Print").count() == 0
    with_script = visit(built_site / FLASHER, built_site).page
    assert pages_in(page.pdf(format="A4")) == pages_in(with_script.pdf(format="A4")) > 3


def test_the_problem_alone_tells_no_answer(built_site: Path, visit: Open) -> None:
    """Without the solution a page has neither results nor replies, and room for answers."""
    page = visit(built_site / FLASHER, built_site).page
    full = {paper: pages_in(page.pdf(format=paper)) for paper in PAPERS}
    for paper in PAPERS:
        # Printing takes the class away again.
        page.evaluate("document.documentElement.classList.add('sw-problem-only')")
        on_paper(page, paper)
        told = page.locator("article").inner_text()
        # 32.0 µC on C3 and 720 µJ in all are asked and in no option.
        assert "32.0" not in told
        assert "720" not in told
        assert "Solution" not in told
        assert "flasher board" in told
        typed = page.locator(".sw-questions form[data-question=typed]")
        assert typed.count() == 4
        for form in typed.all():
            box = form.bounding_box()
            assert box is not None
            assert box["height"] > 18 * MM
        assert pages_in(page.pdf(format=paper)) < full[paper]


def test_the_foot_of_a_sheet_names_page_and_unit(built_site: Path, visit: Open) -> None:
    """The page's title, with the unit's, is handed to the margin of the sheet."""
    page = visit(built_site / FLASHER, built_site).page
    foot = page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--sw-foot')")
    assert foot == '"Two reservoirs behind one lamp - Harbour Lights"'
