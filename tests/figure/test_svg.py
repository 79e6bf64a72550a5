"""Figures as SVG text."""

from __future__ import annotations

import re
import time
from collections import Counter
from collections.abc import Iterable
from xml.etree import ElementTree

import pytest

from builder.circuit.between import lay_between
from builder.circuit.tree import Leaf, in_series, leaves
from builder.figure import STYLE_SHEET, Drawing, Label, ValueText, describe, draw
from builder.quantity.names import Symbol
from tests.figure.drawings import BATTERY, circuit, drawing, labels

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = '"><script>alert(\'buoy & "lamp"\')</script>'


def parsed(asked: Drawing, prefix: str = "fig") -> ElementTree.Element:
    """The figure, read as XML."""
    return ElementTree.fromstring(
        draw(asked, id_prefix=prefix, title="Circuit", description="Two in series.")
    )


def texts(element: ElementTree.Element) -> list[str]:
    """The lines of text in ``element``."""
    return ["".join(line.itertext()) for line in element.iter(SVG + "text")]


def element_groups(svg: ElementTree.Element) -> dict[str, ElementTree.Element]:
    """The groups of the elements by name."""
    return {g.attrib["data-element"]: g for g in svg.iter(SVG + "g") if "data-element" in g.attrib}


def test_accessible_name_and_description() -> None:
    """A figure is an image with a title and a description, tied to it by their ids."""
    svg = parsed(drawing("C1+C2"), "step-3")
    assert svg.attrib["role"] == "img"
    ids = {node.attrib["id"]: (node.tag, node.text) for node in svg.iter() if "id" in node.attrib}
    assert svg.attrib["aria-labelledby"].split() == list(ids)
    assert ids == {
        "step-3-title": (SVG + "title", "Circuit"),
        "step-3-desc": (SVG + "desc", "Two in series."),
    }


def test_ids_of_figures_on_one_page_differ() -> None:
    """With different prefixes, no id comes twice, even if a prefix has spaces in it."""
    pages = [draw(drawing("C1|C2"), id_prefix=prefix, title="t", description="d")
             for prefix in ("a", "b", "part one")]  # fmt: skip
    ids = re.findall(r'\bid="([^"]*)"', "".join(pages))
    assert Counter(ids).most_common(1)[0][1] == 1
    assert not [name for name in ids if " " in name]


def test_label_lines_of_a_horizontal_and_a_vertical_element() -> None:
    """Name and value share a line above a horizontal element, and have two beside a vertical."""
    asked = drawing("C1+C2", values=3)
    groups = element_groups(parsed(asked))
    own, flow, drop = (value.text for value in asked.labels["C1"].values)
    signs = [value.sign for value in asked.labels["C1"].values]
    assert texts(groups["C1"]) == [
        f"C1\u2002{own}",
        f"Q1 {signs[1]} {flow}",
        f"V1 {signs[2]} {drop}",
    ]
    own, flow, drop = (value.text for value in asked.labels["C2"].values)
    signs = [value.sign for value in asked.labels["C2"].values]
    assert texts(groups["C2"]) == ["C2", own, f"Q2 {signs[1]} {flow}", f"V2 {signs[2]} {drop}"]


def test_letters_lean_and_indices_stand() -> None:
    """The letter of a symbol is italic, its index upright, smaller and lowered."""
    label = Label(Symbol("R", "load"), (ValueText("8 Ω"),))
    svg = parsed(Drawing(Leaf("R_load"), "resistor", {"R_load": label}))
    letter, index = list(element_groups(svg)["R_load"].iter(SVG + "tspan"))[:2]
    assert (letter.text, letter.attrib) == ("R", {"font-style": "italic"})
    assert index.text == "load"
    assert float(index.attrib["dy"]) > 0
    assert float(index.attrib["font-size"]) < 15


def test_rounded_own_value_is_introduced_as_such() -> None:
    """An own value that was rounded carries ≈, an exact one stands alone."""
    for sign, shown in (("≈", "≈ 6.67 µF"), ("=", "6.67 µF")):
        label = Label(Symbol("C", "eq"), (ValueText("6.67 µF", None, sign),))
        svg = parsed(Drawing(Leaf("C_eq"), "capacitor", {"C_eq": label}))
        assert texts(element_groups(svg)["C_eq"]) == ["Ceq", shown]


@pytest.mark.parametrize(
    ("values", "shown"),
    [
        ((ValueText("66 µC"),), ["Q0 = 66 µC"]),
        ((ValueText("66 µC", Symbol("Q", "0"), "≈"),), ["Q0 ≈ 66 µC"]),
        ((), ["Q0"]),
    ],
)
def test_total_charge_stands_between_terminals(
    values: tuple[ValueText, ...], shown: list[str]
) -> None:
    """A charged circuit has two open terminals with its charge between them."""
    source = Label(Symbol("Q", "0"), values)
    svg = parsed(Drawing(Leaf("C1"), "capacitor", {}, source, "charge"))
    (group,) = (g for g in svg.iter(SVG + "g") if g.attrib.get("class") == "sw-source")
    assert texts(group) == [*shown, "+", "−"]
    assert len([c for c in svg.iter(SVG + "circle") if c.attrib["class"] == "sw-terminal"]) == 2


def test_numbers_carry_their_quantity() -> None:
    """Every number with a key can be found by it, and holds the number with its unit alone."""
    asked = drawing("C1+(C2|C3)", values=3)
    numbers = {
        node.attrib["data-q"]: node.text for node in parsed(asked).iter() if "data-q" in node.attrib
    }
    labelled = (*asked.labels.values(), BATTERY)
    assert numbers == {value.key: value.text for label in labelled for value in label.values}


def test_wires_name_their_junctions() -> None:
    """There is one path for each junction, named as the circuit names it."""
    tree = circuit("R1+(R2|(R3+R4))+R5")
    svg = parsed(Drawing(tree, "resistor", labels(tree), BATTERY, "voltage"))
    drawn = Counter(
        path.attrib["data-junction"]
        for path in svg.iter(SVG + "path")
        if path.attrib.get("class") == "sw-wire"
    )
    assert drawn == Counter({end for ends in lay_between(tree).values() for end in ends})


def test_marks_do_not_rest_on_colour() -> None:
    """What is marked differs by a class, by thicker lines and by a dashed frame."""
    tree = circuit("C1+(C2|C3)")
    marked = frozenset({"C2", "C3"})
    svg = parsed(Drawing(tree, "capacitor", labels(tree), BATTERY, "voltage", marked))
    groups = element_groups(svg)
    assert {
        name for name, g in groups.items() if "sw-marked" in g.attrib["class"].split()
    } == marked
    widths = {
        name: float(symbol.attrib.get("stroke-width", svg.attrib["stroke-width"]))
        for name, g in groups.items()
        for symbol in g.iter(SVG + "g")
        if symbol.attrib.get("class") == "sw-symbol"
    }
    assert widths["C2"] == widths["C3"] > widths["C1"]
    (frame,) = (r for r in svg.iter(SVG + "rect") if r.attrib["class"] == "sw-frame")
    assert frame.attrib["stroke-dasharray"]


def test_colours_follow_the_page() -> None:
    """Nothing but marks has a colour of its own, so that light and dark schemes both work."""
    tree = circuit("R1+(R2|R3)")
    for symbols in ("iec", "ieee"):
        asked = Drawing(tree, "resistor", labels(tree, 3), BATTERY, "voltage", symbols=symbols)
        text = draw(asked, id_prefix="f", title="t", description="d")
        paints = set(re.findall(r'\b(?:stroke|fill)="([^"]*)"', text))
        assert paints == {"currentColor", "none"}
    assert ".sw-marked" in STYLE_SHEET.read_text(encoding="utf-8")


def all_strings(nodes: Iterable[ElementTree.Element]) -> set[str]:
    """All text and all attribute values."""
    found: set[str] = set()
    for node in nodes:
        found |= {node.text or "", node.tail or "", *node.attrib.values()}
    return found


def test_hostile_text_stays_text() -> None:
    """Names, values, keys and titles with markup in them come out as they were typed."""
    value = ValueText(f"1{HOSTILE}", Symbol(f"2{HOSTILE}", f"3{HOSTILE}"), "=", f"4{HOSTILE}")
    label = Label(Symbol(f"5{HOSTILE}", f"6{HOSTILE}"), (value,))
    tree = in_series("all", Leaf(f"7{HOSTILE}"), Leaf("C2"))
    asked = Drawing(tree, "capacitor", {f"7{HOSTILE}": label}, label, "voltage")
    told = describe(tree, "capacitor", asked.labels, label, "voltage")
    text = draw(asked, id_prefix=f"8{HOSTILE}", title=f"9{HOSTILE}", description=told)
    assert "<script" not in text
    nodes = list(ElementTree.fromstring(text).iter())
    assert all_strings(nodes) >= {f"{n}{HOSTILE}" for n in (1, 2, 3, 4, 5, 6, 7, 9)} | {told}
    assert {node.tag for node in nodes} <= {
        SVG + name for name in
        ("svg", "title", "desc", "g", "path", "circle", "rect", "text", "tspan")
    }  # fmt: skip


def test_same_request_same_bytes() -> None:
    """A figure is the same each time it is drawn."""
    first, second = (
        draw(drawing("R1+(R2|R3)", 3), id_prefix="f", title="t", description="d") for _ in "ab"
    )
    assert first == second


def test_quick_enough_for_many_figures_a_page() -> None:
    """A figure of eight elements takes a few milliseconds at most, even on a slow machine."""
    asked = drawing("(R1+R2)|R3|(R4+(R5|R6|(R7+R8)))")
    assert len(leaves(asked.tree)) == 8
    times = []
    for _ in range(20):
        start = time.process_time()
        draw(asked, id_prefix="f", title="t", description="d")
        times.append(time.process_time() - start)
    assert min(times) < 0.004
