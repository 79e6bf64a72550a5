"""Figures of chains of steps and of plates, read back as drawings."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest

from builder.figure import ValueText
from builder.figure.relations import (
    Chip,
    Link,
    Panel,
    PanelPart,
    describe_chain,
    describe_plates,
    draw_chain,
    draw_plates,
)
from builder.quantity.names import Symbol

SVG = "{http://www.w3.org/2000/svg}"
AREA = Chip(Symbol("A"), "8 cm²", "=", "area:A", "given")
GAP = Chip(Symbol("d"), "1 mm", "=", "length:d", "given")
OPEN = Chip(Symbol("C"), "7.08 pF", "≈", "capacitance:C", "open")
FOUND = Chip(Symbol("C"), "7.08 pF", "≈", "capacitance:C", "new")
KAPPA = ValueText("4", Symbol("κ", "1"), "=", "ratio:kappa1")
VOLTS = ValueText("12 V", Symbol("V"), "=", "voltage:V")


def drawn(svg: str) -> ET.Element:
    """The figure as a tree."""
    return ET.fromstring(svg)


def texts(figure: ET.Element) -> list[str]:
    """Every line of text, in the order of the figure."""
    return ["".join(text.itertext()) for text in figure.iter(f"{SVG}text")]


def chain(*links: Link) -> ET.Element:
    """A chain of steps."""
    return drawn(draw_chain(links, id_prefix="p", title="t", description="d"))


def plates(**more: object) -> Panel:
    """Two plates on a battery with a layer of glass over air."""
    parts = (PanelPart((ValueText("glass"), KAPPA), 0.5), PanelPart((), 0.5, empty=True))
    given: dict[str, object] = {
        "title": "", "side_by_side": False, "parts": parts, "driven": "battery",
        "source": VOLTS, "gap": None, "area": None, "charges": 6, "known": (),
    }  # fmt: skip
    return Panel(**{**given, **more})  # type: ignore[arg-type]


def test_an_unknown_stands_as_a_question_until_it_is_found() -> None:
    """The number of what is not found yet appears nowhere in the figure, nor in its words."""
    before, after = Link((AREA, GAP), (OPEN,)), Link((AREA, GAP), (FOUND,))
    assert texts(chain(before)) == ["A = 8 cm²", "d = 1 mm", "C = ?"]
    assert texts(chain(after)) == ["A = 8 cm²", "d = 1 mm", "C ≈ 7.08 pF"]
    assert "7.08" not in describe_chain((before,))
    assert describe_chain((after,)) == "C ≈ 7.08 pF follows from A = 8 cm² and d = 1 mm."


def test_numbers_of_a_chain_carry_the_keys_of_their_quantities() -> None:
    """A page can be renumbered without being drawn again."""
    keys = [part.get("data-q") for part in chain(Link((AREA,), (FOUND,))).iter(f"{SVG}tspan")]
    assert [key for key in keys if key] == ["area:A", "capacitance:C"]


@pytest.mark.parametrize(
    ("driven", "circles", "charges"), [("battery", 0, 6), ("cut-off", 2, 6), ("terminals", 2, 9)]
)
def test_plates_show_what_drives_them_and_how_much_they_hold(
    driven: str, circles: int, charges: int
) -> None:
    """A battery has its symbol, open ends have terminals; as many + as − lie on the plates."""
    panel = plates(driven=driven, charges=charges)
    figure = drawn(draw_plates(panel, id_prefix="p", title="t", description="d"))
    assert len(list(figure.iter(f"{SVG}circle"))) == circles
    signs = texts(figure)
    assert signs.count("−") == charges
    assert signs.count("+") == charges + (driven == "battery")


def test_only_what_is_filled_is_tinted_and_labelled() -> None:
    """Glass has its tint and its κ; what is empty stays empty."""
    figure = drawn(draw_plates(plates(), id_prefix="p", title="t", description="d"))
    assert len(list(figure.iter(f"{SVG}rect"))) == 1
    assert "glass" in texts(figure)
    assert any("κ1 = 4" in text for text in texts(figure))
    assert describe_plates(plates()) == (
        "Between two plates lie, one on the other: a filling (glass, κ₁ = 4); nothing. A battery "
        "is connected. V = 12 V."
    )


@pytest.mark.parametrize("driven", ["battery", "cut-off"])
def test_everything_is_drawn_in_the_colour_of_the_page_and_inside_the_figure(driven: str) -> None:
    """No colour of its own but the mark's, and no line of text that starts outside."""
    known = (ValueText("283 pF", Symbol("C", "1"), "≈", "capacitance:C1"),) * 5
    panel = plates(driven=driven, known=known, gap=VOLTS, area=VOLTS)
    figure = drawn(draw_plates(panel, id_prefix="p", title="t", description="d"))
    colours = {part.get(key) for part in figure.iter() for key in ("stroke", "fill")}
    assert colours <= {None, "currentColor", "none"}
    left, top, width, height = map(float, figure.get("viewBox", "").split())
    for text in figure.iter(f"{SVG}text"):
        x, y = float(text.get("x", "nan")), float(text.get("y", "nan"))
        assert left <= x <= left + width
        assert top <= y <= top + height
