"""Figures measured in a real browser."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from builder.circuit.tree import leaves
from builder.figure import Drawing, draw
from builder.figure.layout import lay_out
from builder.figure.text_size import line_width
from tests.figure.drawings import random_drawing

FONTS = Path(__file__).parents[2] / "builder" / "site" / "fonts"
MEASURE = Path(__file__).with_name("measure.js").read_text(encoding="utf-8")
DRAWINGS = [random_drawing(seed) for seed in range(1000, 1200)]
FACES = "".join(
    f'@font-face {{ font-family: "STIX Two Text"; font-style: {style}; '
    f'src: url("{(FONTS / f"stix-two-text-{face}.woff2").as_uri()}") }}\n'
    for face, style in (("regular", "normal"), ("italic", "italic"))
)

# The families that stand behind the shipped ones in a figure's font list.
TIMES_LIKE = {"Times New Roman", "Times", "Liberation Serif"}

Report = dict[str, Any]


def page_of_figures(folder: Path, style: str, count: int = len(DRAWINGS)) -> Path:
    """A page with the first drawings."""
    figures = "\n".join(
        draw(asked, id_prefix=f"f{number}", title="Circuit", description="A circuit.")
        for number, asked in enumerate(DRAWINGS[:count])
    )
    path = folder / "figures.html"
    path.write_text(
        f'<!doctype html><meta charset="utf-8"><style>{style}</style>{figures}', encoding="utf-8"
    )
    return path


def measured(page: Page, path: Path) -> list[Report]:
    """What the browser measures in each figure, once its fonts are there."""
    page.goto(path.as_uri())
    page.evaluate("document.fonts.ready.then(() => true)")
    reports: list[Report] = page.evaluate(MEASURE)
    return reports


def faces_in_use(page: Page) -> set[str]:
    """The font families that the browser took for the first line of text."""
    session = page.context.new_cdp_session(page)
    session.send("DOM.enable")
    session.send("CSS.enable")
    root = session.send("DOM.getDocument")["root"]["nodeId"]
    text = session.send("DOM.querySelector", {"nodeId": root, "selector": "text"})["nodeId"]
    fonts = session.send("CSS.getPlatformFontsForNode", {"nodeId": text})["fonts"]
    return {font["familyName"] for font in fonts}


@pytest.fixture(scope="module")
def reports(chromium: Browser, tmp_path_factory: pytest.TempPathFactory) -> list[Report]:
    """The measures of 200 random circuits in the shipped font."""
    page = chromium.new_page()
    found = measured(page, page_of_figures(tmp_path_factory.mktemp("figures"), FACES))
    loaded = page.evaluate("[...document.fonts].map((face) => face.status)")
    assert loaded == ["loaded", "loaded"]
    page.close()
    return found


def test_nothing_touches(reports: list[Report]) -> None:
    """In 200 random circuits no text lies on a stroke or on text, and no wires cross."""
    assert len(reports) == len(DRAWINGS) == 200
    assert sum(len(report["texts"]) for report in reports) > 5000
    assert sum(report["strokes"] for report in reports) > 10000
    faults = {number: r["faults"] for number, r in enumerate(reports) if r["faults"]}
    assert faults == {}


def test_all_is_there_once(reports: list[Report]) -> None:
    """In 200 random circuits every element, name and value is shown exactly once."""
    for asked, report in zip(DRAWINGS, reports, strict=True):
        assert Counter(name for name, _ in report["elements"]) == Counter(leaves(asked.tree))
        labelled = [*asked.labels.values(), *([asked.source] if asked.source else [])]
        wanted = Counter((v.key, v.text) for label in labelled for v in label.values)
        assert Counter(map(tuple, report["values"])) == wanted
        for name, text in report["elements"]:
            symbol = asked.labels[name].symbol
            assert text.replace("\u2002", " ").split()[0] == symbol.letter + symbol.index
            assert text.split().count(symbol.letter + symbol.index) == 1


def test_room_kept_for_text_is_enough(reports: list[Report]) -> None:
    """No line comes out wider than the room that the layout keeps for it."""
    for asked, report in zip(DRAWINGS, reports, strict=True):
        lines = [line for component in lay_out(asked).components for line in component.lines]
        assert len(lines) == len(report["texts"])
        for line, shown in zip(lines, report["texts"], strict=True):
            assert 0 < shown["length"] <= line_width(line.runs)


def test_nothing_touches_in_a_fallback_font(chromium: Browser, tmp_path: Path) -> None:
    """Where the shipped font is missing, figures in a serif like Times are still clear."""
    page = chromium.new_page()
    found = measured(page, page_of_figures(tmp_path, ""))
    faces = faces_in_use(page)
    page.close()
    assert faces & TIMES_LIKE, f"{faces} are used: install fonts-liberation to measure fallbacks"
    assert [report["faults"] for report in found if report["faults"]] == []


@pytest.mark.parametrize(
    ("harm", "fault"),
    [
        ("t => t.setAttribute('x', +t.getAttribute('x') - 20)", "lies on"),
        ("t => t.setAttribute('y', +t.getAttribute('y') + 19)", "lies on text"),
        ("t => t.setAttribute('x', -900)", "lies outside"),
    ],
)
def test_measure_sees_faults(chromium: Browser, tmp_path: Path, harm: str, fault: str) -> None:
    """The measure finds text that was moved onto something on purpose."""
    page = chromium.new_page()
    measured(page, page_of_figures(tmp_path, FACES, count=8))
    page.eval_on_selector("[data-element]:has(text[x]) text:not([text-anchor])", harm)
    found = page.evaluate(MEASURE)
    page.close()
    assert any(fault in text for report in found for text in report["faults"])


def test_measure_sees_crossings(chromium: Browser, tmp_path: Path) -> None:
    """The measure finds a wire that was led across others on purpose."""
    page = chromium.new_page()
    measured(page, page_of_figures(tmp_path, FACES, count=8))
    page.eval_on_selector(
        ".sw-wire", "wire => wire.setAttribute('d', wire.getAttribute('d') + 'M-99 50L999 50')"
    )
    found = page.evaluate(MEASURE)
    page.close()
    assert any("cross" in text for report in found for text in report["faults"])


def asked_for_marks() -> list[Drawing]:
    """The random drawings that have marks, to know that some do."""
    return [asked for asked in DRAWINGS if asked.marked]


def test_random_drawings_cover_what_may_be_asked() -> None:
    """The 200 random circuits include every kind of element, source, symbol set and mark."""
    assert {asked.element for asked in DRAWINGS} == {"capacitor", "resistor"}
    assert {asked.symbols for asked in DRAWINGS} == {"iec", "ieee"}
    assert {asked.source_quantity for asked in DRAWINGS} == {"voltage", "current", "charge", None}
    assert {len(leaves(asked.tree)) for asked in DRAWINGS} >= {2, 20}
    assert len(asked_for_marks()) > 50
