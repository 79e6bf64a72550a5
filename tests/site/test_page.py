"""The parts of a problem's page as markup."""

from __future__ import annotations

import json
import re

import markdown
import pytest

from builder.quantity.names import Name
from builder.quantity.show import show
from builder.site.latex import ATTRIBUTES, ELEMENTS
from builder.site.page import PARTS, skeleton
from tests.site.pages import CIRCUITS, FLASHER, Markup, html_of, page_of

MATHML = re.compile(r"<math.*?</math>", re.DOTALL)
OUR_ATTRIBUTES = {"aria-label", "class", "data-q", "data-of"}


@pytest.mark.parametrize("slug", CIRCUITS)
def test_markup_is_well_formed_and_ids_are_unique(slug: str) -> None:
    """Every tag closes where it should, and no id stands twice on a page."""
    page = Markup(html_of(CIRCUITS[slug], slug))
    assert page.faults == []
    ids = [attributes["id"] for _, attributes in page.tags if "id" in attributes]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("slug", CIRCUITS)
def test_formulas_are_mathml_core(slug: str) -> None:
    """Formulas hold only what MathML Core lays out, and our marks."""
    formulas = MATHML.findall(html_of(CIRCUITS[slug], slug))
    assert formulas
    for formula in formulas:
        for tag, attributes in Markup(formula).tags:
            assert tag in ELEMENTS
            assert set(attributes) <= ATTRIBUTES | OUR_ATTRIBUTES


@pytest.mark.parametrize("slug", CIRCUITS)
def test_units_and_indexes_are_upright(slug: str) -> None:
    """In formulas only the letters of quantities are ``mi``, which browsers set in italics."""
    letters = re.findall(r"<mi[^>]*>([^<]*)</mi>", html_of(CIRCUITS[slug], slug))
    assert letters
    assert set(letters) <= set("CQVURIP")


@pytest.mark.parametrize("slug", CIRCUITS)
def test_every_number_of_the_solution_is_marked(slug: str) -> None:
    """A number with a unit stands nowhere but in an element that names its quantity."""
    html = html_of(CIRCUITS[slug], slug)
    page = page_of(CIRCUITS[slug], slug)
    known = {name.key for name in page.lesson.solution.values}
    keys = re.findall(r'data-q="([^"]+)"', html)
    assert keys
    assert {key for key in keys if not key.startswith("wrong:")} <= known
    words = re.sub(r'<span class="sw-n"[^>]*>[^<]*</span>', "", html)
    words = re.sub(r"<svg.*?</svg>|<math.*?</math>|<p class=\"sw-(?:fine|source)\".*?</p>", "",
                   words, flags=re.DOTALL)  # fmt: skip
    text = re.sub(r"<[^>]+>", " ", words)
    assert re.findall(r"\d[ \u00a0]?[µmkn]?[FCVJΩAW]\b", text) == []


def test_shown_numbers_are_those_of_the_solution() -> None:
    """Each marked number is the exact value of its quantity at the shown digits."""
    page = page_of(FLASHER)
    html = html_of(FLASHER)
    found = re.findall(r'<span class="sw-n" data-q="([^":]+):([^":]+)">([^<]+)</span>', html)
    assert len(found) > 20
    givens = set(page.lesson.solution.givens)
    for quantity, of, text in found:
        name = Name(quantity, of)
        expected = (
            page.lesson.display.shown(name)
            if name in givens
            else show(page.lesson.solution.values[name], quantity, 3)
        )
        assert text.replace("\u00a0", " ") == expected.text


def test_skeleton_has_a_heading_and_a_place_for_each_part() -> None:
    """The Markdown of a page holds the headings and one placeholder for each part."""
    page = page_of(FLASHER)
    written = skeleton(page.lesson.solution.problem, page.lesson)
    for part in PARTS:
        if part.applies(page.lesson):
            assert written.count(f'"flasher/{part.id}"') == 1
            assert part.heading in written


def test_a_hostile_title_stays_text() -> None:
    """A title with markup and Markdown in it is shown as it was typed."""
    hostile = FLASHER.replace(
        "Two reservoirs behind one lamp", "'<script>alert(1)</script> *not* [x](javascript:1)'"
    )
    page = page_of(hostile)
    first = skeleton(page.lesson.solution.problem, page.lesson).splitlines()[0]
    shown = "<h1>&lt;script&gt;alert(1)&lt;/script&gt; *not* [x](javascript:1)</h1>"
    assert markdown.markdown(first) == shown


def test_typed_questions_carry_what_the_browser_needs() -> None:
    """A typed question ships its value in SI units with all digits, its unit, and what else is."""
    tags = Markup(html_of(FLASHER)).tags
    expected = [
        json.loads(str(attributes["data-expected"]))
        for tag, attributes in tags
        if tag == "form" and "data-expected" in attributes
    ]
    energy = next(item for item in expected if item["noun"] == "energy")
    others = energy.pop("others")
    assert energy == {"value": "7.2e-4", "digits": 3, "unit": "J", "noun": "energy"}
    # Its number stands on the page under that key.
    assert ["energy:C1", ["the energy stored in ", ["C", "1"]]] in others
