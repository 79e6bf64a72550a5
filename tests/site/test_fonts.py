"""Everything on the unit's pages is set in the shipped type; nothing is left to the machine's."""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from builder.figure.scene import Run
from builder.figure.text_size import line_width
from builder.quantity.kinds import KINDS, QuantityKind
from tests.conftest import ROOT, Open
from tests.site.pages import VOID

FONTS = ROOT / "builder" / "site" / "fonts"
TEXT_FACES = ("stix-two-text-regular", "stix-two-text-italic", "stix-two-text-bold")
MATH_FACE = "stix-two-math"
# Code stands in the machine's own type of equal widths; the others are not shown.
NOT_IN_OUR_TYPE = {"script", "style", "code", "pre", "template", "title", "desc", "head"}
NOT_DRAWN = {"\n", "\t", "\u200b", "\u2061", "\u2062", "\u2063"}


class _Shown(HTMLParser):
    """The characters that a page shows, those of its formulas apart."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[tuple[str, dict[str, str | None]]] = []
        self.text: set[str] = set()
        self.math: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID:
            self.open.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        tags = {tag for tag, _ in self.open}
        if tags & NOT_IN_OUR_TYPE:
            return
        if "math" not in tags:
            self.text.update(data)
            return
        tag, attributes = self.open[-1]
        alone = tag == "mi" and len(data.strip()) == 1
        upright = attributes.get("mathvariant") == "normal"
        self.math.update(_in_italics(data.strip()) if alone and not upright else data)


def _in_italics(letter: str) -> str:
    """The character in which MathML sets a letter that stands alone."""
    small_h = {"h": "ℎ"}
    return small_h.get(letter, _italics().get(letter, letter))


@cache
def _italics() -> dict[str, str]:
    """Italic mathematical letters by the plain ones (Unicode, Mathematical Alphanumeric)."""
    block = [chr(code) for code in range(0x1D400, 0x1D800)]
    # Variants such as EPSILON SYMBOL are other characters.
    plain = re.compile(r"MATHEMATICAL ITALIC (SMALL|CAPITAL) \w+")
    italics = [c for c in block if plain.fullmatch(unicodedata.name(c, ""))]
    return {unicodedata.normalize("NFKC", c): c for c in italics}


@cache
def _has(face: str) -> frozenset[str]:
    return frozenset(map(chr, TTFont(FONTS / f"{face}.woff2").getBestCmap()))


def _lacking(characters: set[str], faces: tuple[str, ...]) -> dict[str, str]:
    """What each face lacks."""
    lacks = {face: characters - NOT_DRAWN - _has(face) for face in faces}
    return {face: "".join(sorted(lacking)) for face, lacking in lacks.items() if lacking}


@pytest.fixture(scope="module")
def shown(built_site: Path) -> tuple[set[str], set[str]]:
    """The characters of all pages: in text and figures, and in formulas."""
    pages = _Shown()
    files = sorted(built_site.rglob("*.html"))
    assert len(files) > 30
    for file in files:
        pages.open.clear()
        pages.feed(file.read_text(encoding="utf-8"))
    return pages.text, pages.math


def test_text_and_figures_find_every_character_in_each_face(
    shown: tuple[set[str], set[str]],
) -> None:
    """Upright, italic or bold: no character of the unit falls back to another font."""
    text, _ = shown
    assert {"κ", "τ", "″", "Ω", "≈"} <= text
    assert _lacking(text, TEXT_FACES) == {}


def test_formulas_find_every_character(shown: tuple[set[str], set[str]]) -> None:
    """Letters that MathML sets in italics are there as such, and so is all else in formulas."""
    _, math = shown
    assert {"𝜏", "𝜑", "𝑅", "⋅", "Ω"} <= math
    assert _lacking(math, (MATH_FACE,)) == {}


def test_what_scripts_and_styles_add_is_there_too() -> None:
    """Signs that a script writes or a style puts before a text are in the faces of text."""
    static = ROOT / "builder" / "site" / "static"
    # What is only read from an answer is never shown in other letters than the reader's own.
    reading = {"reading-numbers.js", "reading-units.js", "expressions.js"}
    written = [file for file in static.glob("*.js") if file.name not in reading]
    scripts = "".join(file.read_text("utf-8") for file in written)
    styles = "".join(file.read_text("utf-8") for file in static.glob("*.css"))
    added = {c for c in scripts if not c.isascii()}
    added |= set("".join(re.findall(r'content: "(.*?)"', styles))) - {"\\"}
    assert {"✓", "⚠"} <= added
    assert _lacking(added, TEXT_FACES) == {}


@pytest.mark.parametrize("kind", KINDS.values(), ids=list(KINDS))
def test_symbols_and_units_of_every_kind_are_there(kind: QuantityKind) -> None:
    """Whatever a problem asks for, its symbol is in every face, and italic in formulas."""
    assert _lacking(set(kind.symbol + kind.unit), TEXT_FACES) == {}
    assert _lacking({_in_italics(kind.symbol), *kind.unit}, (MATH_FACE,)) == {}


@pytest.mark.parametrize("letters", ["αβγδεζηθικλμνξπρστυφχψω", "ΓΔΘΛΞΠΣΦΨΩ", "½⅓⅔¼¾⅕⅙⅛"])
def test_letters_of_authors_are_there(letters: str) -> None:
    """Greek letters by which an author may call a quantity, and fractions typed as one sign."""
    assert _lacking(set(letters), TEXT_FACES) == {}
    assert _lacking({_in_italics(letter) for letter in letters}, (MATH_FACE,)) == {}


@pytest.mark.parametrize("letter", "κτφεω∞′″‴½₁⁻")
def test_figures_know_the_width_of_what_they_write(letter: str) -> None:
    """The table of widths holds the shipped faces, so that no label is laid out by a guess."""
    font = TTFont(FONTS / "stix-two-text-regular.woff2")
    advance = font["hmtx"].metrics[font.getBestCmap()[ord(letter)]][0] / font["head"].unitsPerEm
    ten = line_width((Run(letter * 10),)) / line_width((Run("0" * 10),))
    zero = font["hmtx"].metrics[font.getBestCmap()[ord("0")]][0] / font["head"].unitsPerEm
    assert ten == pytest.approx(advance / zero, rel=0.01)


# Marks the elements whose own text is not all plain ASCII, with every step open.
_MARK = r"""() => {
  document.querySelectorAll("details").forEach(part => part.open = true);
  let marked = 0;
  const ours = "article *:not(code, pre, script, style, title, desc, template)";
  for (const element of document.querySelectorAll(ours)) {
    const own = [...element.childNodes].filter(n => n.nodeType === 3).map(n => n.data).join("");
    if (/[^\x00-\x7f\u2061-\u2063]/.test(own)) { element.dataset.looked = ""; marked += 1; }
  }
  return document.fonts.ready.then(() => marked);
}"""


@pytest.mark.parametrize(
    "page",
    ["problems/tide-gauge-bucket", "problems/lantern-switched-over", "problems/charge-bridge",
     "problems/bilge-sensor-layers", "reference/formulas"],
)  # fmt: skip
def test_the_browser_takes_no_other_font(visit: Open, built_site: Path, page: str) -> None:
    """The browser itself reports the shipped families alone for all that is not plain ASCII."""
    opened = visit(built_site / f"{page}.html", built_site).page
    marked = opened.evaluate(_MARK)
    session = opened.context.new_cdp_session(opened)
    session.send("DOM.enable")
    session.send("CSS.enable")
    root = session.send("DOM.getDocument")["root"]["nodeId"]
    asked = {"nodeId": root, "selector": "[data-looked]"}
    nodes = session.send("DOM.querySelectorAll", asked)["nodeIds"]
    assert len(nodes) == marked > 10
    used = set()
    for node in nodes:
        fonts = session.send("CSS.getPlatformFontsForNode", {"nodeId": node})["fonts"]
        used |= {(font["familyName"], font["isCustomFont"]) for font in fonts}
    assert used == {("STIX Two Text", True), ("STIX Two Math", True)}
