"""The reference pages: what they show, of what a unit uses and no more."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree

import pytest

from builder.figure.symbols import _KINDS
from builder.problem import read_problem_text
from builder.site.reference import FORMULAS, GLOSSARY, SYMBOLS, Reference
from builder.site.symbol_chart import symbols
from tests.conftest import Open
from tests.site.pages import FLASHER, HEATER, LEFTOVERS, Markup

CURRENT = (
    "title: Shunt\ncircuit:\n  source: 2 A\n  series: [{R1: 1 ohm}, {R2: 2 ohm}]\nfind: power\n"
)
BY_SLUG = {"flasher": FLASHER, "heater": HEATER, "leftovers": LEFTOVERS, "shunt": CURRENT}
PLACE = re.compile(r'data-stepwell-made="reference/([^"]+)"')


def reference(*slugs: str, style: str = "iec") -> Reference:
    """The reference pages of a unit of these problems."""
    problems = tuple(read_problem_text(BY_SLUG[slug], f"{slug}.yml") for slug in slugs)
    return Reference(problems, style)


def html_of(pages: Reference, path: str) -> str:
    """All parts of one page, as HTML."""
    ids = PLACE.findall(pages.pages()[path])
    return "\n".join(str(pages.part(id, lambda path: path)) for id in ids)


def letters_in(html: str) -> set[str]:
    """The letters of quantities in all formulas."""
    return set(re.findall(r"<mi>(\w)</mi>", html))


def rules_in(html: str) -> list[str]:
    """The headings of the rules."""
    return [rule.replace("\u00a0", " ") for rule in re.findall(r"<dt>([^<]+)</dt>", html)]


@pytest.mark.parametrize(
    ("slugs", "letters", "rules"),
    [
        (["leftovers"], {"C"},
         ["Capacitors side by side (in parallel)", "Capacitors in a chain (in series)"]),
        (["flasher"], {"C", "Q", "V", "U"},
         ["One capacitor", "Capacitors side by side (in parallel)",
          "Capacitors in a chain (in series)", "Energy of one capacitor"]),
        (["shunt"], {"R", "I", "V", "P"},
         ["One resistor", "Resistors in a chain (in series)", "Power of one resistor"]),
        (["leftovers", "shunt"], {"C", "R", "I", "V", "P"},
         ["Capacitors side by side (in parallel)", "Capacitors in a chain (in series)",
          "One resistor", "Resistors in a chain (in series)", "Power of one resistor"]),
    ],
)  # fmt: skip
def test_formulas_are_those_that_are_used(
    slugs: list[str], letters: set[str], rules: list[str]
) -> None:
    """The sheet holds the laws, connections and quantities of the problems, and no others."""
    html = html_of(reference(*slugs), FORMULAS)
    assert rules_in(html) == rules
    assert letters_in(html) == letters


def test_formulas_are_written_as_solutions_write_them() -> None:
    """Reciprocals stand on both sides, and a half is a fraction before its factors."""
    html = html_of(reference("flasher"), FORMULAS)
    lines = re.findall(r'<math class="sw-sheet-line".*?</math>', html)
    texts = ["".join(ElementTree.fromstring(line).itertext()) for line in lines]
    plain = [text.replace("\u2062", "").replace("\u2061", "") for text in texts]
    assert plain == [
        "Q=CV", "V=QC",
        "V=V1=V2=V3", "Q=Q1+Q2+Q3", "Ceq=C1+C2+C3",
        "Q=Q1=Q2=Q3", "V=V1+V2+V3", "1Ceq=1C1+1C2+1C3",
        "U=12QV", "U=12CV2", "U=Q22C",
    ]  # fmt: skip
    assert lines[7].count("<mfrac>") == 4


def test_words_link_to_a_problem_that_shows_them() -> None:
    """An example is the first problem that shows its word best, at the part where it is met."""
    pages = reference("leftovers", "shunt", "heater", "flasher")
    parts = {
        word: str(pages.part(f"glossary/{word}", lambda path: path))
        for word in ("charge", "power", "walk-back", "current", "check", "in-series")
    }
    found = {word: re.findall(r'href="([^"]+)"', html)[0] for word, html in parts.items()}
    assert found == {
        "charge": "problems/flasher.md",
        "power": "problems/shunt.md",
        "walk-back": "problems/leftovers.md",
        "current": "problems/heater.md",
        "check": "problems/leftovers.md#checks",
        "in-series": "problems/leftovers.md",
    }


@pytest.mark.parametrize(
    ("slugs", "there", "missing"),
    [
        (["flasher"], ["Capacitor", "Battery or supply", "Junction dot"],
         ["Resistor", "Current source", "Terminals"]),
        (["shunt"], ["Resistor", "Current source"],
         ["Capacitor", "Battery or supply", "Junction dot", "Terminals"]),
        (["leftovers"], ["Capacitor", "Terminals"], ["Battery or supply", "Resistor"]),
    ],
)  # fmt: skip
def test_the_chart_shows_the_symbols_that_are_used(
    slugs: list[str], there: list[str], missing: list[str]
) -> None:
    """A symbol that no figure of the unit has is left out; wires are always explained."""
    called = [one.called for one in symbols(reference(*slugs).used, "iec")]
    assert {*there, "Wire", "Crossing without a dot"} <= set(called)
    assert set(called).isdisjoint(missing)


class _Everything(frozenset[str]):
    """A unit that uses whatever can be used."""

    def __contains__(self, word: object) -> bool:
        return True


def _places(node: ElementTree.Element, left: float = 0.0) -> Iterator[float]:
    """How far to the right each shape and each text of a picture stands."""
    moved = re.match(r"translate\((-?[\d.]+)", node.get("transform", ""))
    left += float(moved[1]) if moved else 0
    yield from (left + float(node.attrib[name]) for name in ("x", "cx") if name in node.attrib)
    for inner in node:
        yield from _places(inner, left)


def test_the_chart_draws_the_shapes_of_the_figures() -> None:
    """Each stamp of the figures is in a chart, and the resistor has the style of the unit."""
    used = _Everything()
    drawn = {style: {s.called: str(s.drawing) for s in symbols(used, style)}
             for style in ("iec", "ieee")}  # fmt: skip
    assert drawn["iec"]["Resistor"] != drawn["ieee"]["Resistor"]
    assert drawn["iec"]["Capacitor"] == drawn["ieee"]["Capacitor"]
    stamped = {picture for charts in drawn.values() for picture in charts.values()
               if "translate" in picture}  # fmt: skip
    assert len(stamped) == len(_KINDS) + len({"switch-closed", "ground"})
    for picture in (*drawn["iec"].values(), *drawn["ieee"].values()):
        box = [float(n) for n in ElementTree.fromstring(picture).attrib["viewBox"].split()]
        assert all(-1 <= x <= box[2] for x in _places(ElementTree.fromstring(picture)))
    # The long line of the battery is its + side, and the sign stands there.
    battery = ElementTree.fromstring(drawn["iec"]["Battery or supply"])
    signs = {node.text: float(node.attrib["x"]) for node in battery if node.tag.endswith("text")}
    assert signs["+"] < 48 < signs["−"]


def test_the_pages_are_sound() -> None:
    """Every part closes its tags, and every placeholder has its part and its search words."""
    pages = reference(*BY_SLUG)
    for path in (FORMULAS, GLOSSARY, SYMBOLS):
        assert Markup(html_of(pages, path)).faults == []
        for id in PLACE.findall(pages.pages()[path]):
            assert len(pages.search_words(id)) > 20


def test_a_unit_without_problems_has_nothing_to_look_up() -> None:
    """The pages say so instead of standing empty."""
    for markdown in reference().pages().values():
        assert "There are no problems yet" in markdown
        assert PLACE.findall(markdown) == []


def test_the_search_finds_words_and_the_navigation_leads_to_them(
    built_site: Path, visit: Open
) -> None:
    """Typing a word that only the glossary explains finds its entry; the pages stay in sight."""
    visited = visit(built_site / "index.html", built_site)
    page = visited.page
    page.get_by_role("textbox", name="Search").click()
    page.get_by_role("textbox", name="Search").press_sequentially("coulombs")
    found = page.locator(".md-search-result__item a[href*='reference/']")
    found.first.wait_for(state="attached")
    addresses = found.evaluate_all("links => links.map(link => link.href)")
    assert any("glossary.html#charge" in address for address in addresses), addresses
    page.goto((built_site / "reference" / "symbols.html").as_uri())
    side = page.locator("nav a[href='formulas.html']").first
    assert side.inner_text().strip() == "Formula sheet"
    assert visited.strays == []
    assert visited.errors == []
