"""Names, grounds, arrows, loop arrows, plates and traces in figures of networks."""

from __future__ import annotations

import math
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from builder.figure.network import (
    Arrow,
    LoopArrow,
    NetworkDrawing,
    draw_network,
    lay_out_network,
    places_of,
)
from builder.figure.request import ValueText
from builder.figure.scene import Box, Component, Point, Scene
from builder.quantity.names import Symbol
from tests.figure.network.drawings import TYPICAL, drawing, full_drawing

SVG = "{http://www.w3.org/2000/svg}"


def component(scene: Scene, name: str) -> Component:
    """The component of that name."""
    (found,) = [c for c in scene.components if c.id == name]
    return found


def words(found: Component) -> list[str]:
    """The lines of a component."""
    return ["".join(run.text for run in line.runs) for line in found.lines]


def middle(box: Box) -> Point:
    """The middle of a box."""
    return Point((box.left + box.right) / 2, (box.top + box.bottom) / 2)


def test_names_stand_beside_their_junctions() -> None:
    """Each name is nearer to its own junction than to any other."""
    asked = full_drawing()
    places = places_of(asked)
    names = lay_out_network(asked).names
    assert sorted(name.junction for name in names) == sorted(asked.junction_names)
    for name in names:
        at = middle(name.line.box)
        near = min(places, key=lambda j: math.dist(places[j], at))
        assert near == name.junction
        assert math.dist(places[near], at) < 30


def test_named_junction_has_a_dot() -> None:
    """A junction that is named has a dot though only two wires meet there."""
    plain = lay_out_network(drawing(TYPICAL["two loops"]))
    named = lay_out_network(drawing(TYPICAL["two loops"], junction_names={"a": "A"}))
    assert [d.junction for d in plain.dots].count("a") == 0
    assert [d.junction for d in named.dots].count("a") == 1


@pytest.mark.parametrize("junction", ["t", "l", "r", "b"])
def test_ground_hangs_from_its_junction(junction: str) -> None:
    """The ground symbol starts on a wire of its junction, whichever that is."""
    scene = lay_out_network(drawing(TYPICAL["bridge"], grounded=junction))
    (ground,) = scene.grounds
    assert ground.junction == junction
    assert any(
        min(w.start.x, w.end.x) - 0.1 <= ground.at.x <= max(w.start.x, w.end.x) + 0.1
        and min(w.start.y, w.end.y) - 0.1 <= ground.at.y <= max(w.start.y, w.end.y) + 0.1
        for w in scene.wires
        if w.junction == junction
    )


@pytest.mark.parametrize(
    ("junctions", "as_listed", "clockwise"),
    [
        (("t", "r", "l"), True, True),
        (("t", "r", "l"), False, False),
        (("t", "l", "r"), True, False),
        (("l", "r", "b"), True, True),
    ],
)
def test_loop_arrow_turns_as_listed(
    junctions: tuple[str, ...], as_listed: bool, clockwise: bool
) -> None:
    """A loop arrow lies in its loop and runs through the junctions as they are listed."""
    loop = LoopArrow(Symbol("I", "a"), junctions, as_listed)
    asked = drawing(TYPICAL["bridge"], loops=(loop,))
    (curl,) = lay_out_network(asked).curls
    assert curl.clockwise is clockwise
    places = [places_of(asked)[junction] for junction in junctions]
    assert min(x for x, _ in places) < curl.centre.x < max(x for x, _ in places)
    assert min(y for _, y in places) < curl.centre.y < max(y for _, y in places)


def test_loop_of_two_branches_by_their_names() -> None:
    """Where branches join the same junctions, their names tell which loop is meant."""
    text = "V0:a-b R1:a-b R2:a-b"
    loop = LoopArrow(Symbol("I", "a"), ("a", "R2", "b", "R1"))
    scene = lay_out_network(drawing(text, loops=(loop,)))
    (curl,) = scene.curls
    assert component(scene, "R1").at.x < curl.centre.x < component(scene, "R2").at.x
    assert curl.clockwise


def test_loop_without_branches() -> None:
    """A loop that no branches close is refused, with both junctions named."""
    loop = LoopArrow(Symbol("I", "a"), ("t", "b", "l", "r"))
    with pytest.raises(ValueError, match=r"from l to r|from r to t"):
        lay_out_network(drawing("V0:t-b R1:t-l R2:l-b R3:b-r R4:r-t", loops=(loop,)))


@pytest.mark.parametrize(("forward", "turn"), [(True, "right"), (False, "left")])
def test_current_arrow_on_its_wire(forward: bool, turn: str) -> None:
    """A current arrow lies on the wire of its branch and points its way."""
    asked = drawing(TYPICAL["bridge"])
    branches = tuple(
        replace(b, arrow=Arrow(forward, Symbol("I", "5"))) if b.id == "R5" else b
        for b in asked.branches
    )
    scene = lay_out_network(replace(asked, branches=branches))
    (head,) = scene.heads
    element = component(scene, "R5")
    assert (head.of, head.turn, head.at.y) == ("R5", turn, element.at.y)
    assert "I5" in words(element)


def test_polarity_and_plates() -> None:
    """The + or the first plate's charge stands at the side of the branch's first junction."""
    asked = drawing("V0:a-b C1:b-a C2:a-b")
    branches = tuple(
        replace(b, plates=(ValueText("+24 µC"), ValueText("−24 µC")))
        if b.id == "C1"
        else replace(b, polarity=True)
        for b in asked.branches
    )
    scene = lay_out_network(replace(asked, branches=branches))
    first, second = component(scene, "C1"), component(scene, "C2")
    lines = dict(zip(words(first), first.lines, strict=True))
    assert lines["+24 µC"].at.y > lines["−24 µC"].at.y
    signs = dict(zip(words(second), second.lines, strict=True))
    assert signs["+"].at.y < signs["−"].at.y


@pytest.mark.parametrize(
    ("text", "name", "letter"), [("V0:a-b A1:a-b", "A1", "A"), ("V0:a-b U1:a-b", "U1", "V")]
)
def test_meters_carry_their_letter(text: str, name: str, letter: str) -> None:
    """The letter of a meter stands in the middle of its circle."""
    found = component(lay_out_network(drawing(text)), name)
    (line,) = found.lines
    assert words(found) == [letter]
    assert middle(line.box) == pytest.approx(found.at)


def markup(asked: NetworkDrawing) -> ElementTree.Element:
    """The figure as a tree."""
    return ElementTree.fromstring(
        draw_network(asked, id_prefix="n", title="Network", description="A network.")
    )


def test_groups_carry_their_names() -> None:
    """Elements and sources are groups that carry their names; wires carry their junctions."""
    asked = full_drawing()
    root = markup(asked)
    groups = root.findall(f"{SVG}g")
    assert {g.get("data-element") for g in groups} - {None} == {"R1", "R2", "R3", "R4", "R5"}
    assert [g.get("data-source") for g in groups if g.get("class") == "sw-source"] == ["V0"]
    wires = [p for p in root.findall(f"{SVG}path") if p.get("class") == "sw-wire"]
    assert sorted(w.get("data-junction", "") for w in wires) == ["b", "l", "r", "t"]
    keys = [span.get("data-q") for span in root.iter(f"{SVG}tspan") if span.get("data-q")]
    assert sorted(keys) == sorted(v.key for b in asked.branches if b.label for v in b.label.values)  # type: ignore[type-var]


def test_joined_junctions_are_traced_alike() -> None:
    """All junctions of a set are traced in one look, those of another set in another."""
    joined = (frozenset({"l", "r"}), frozenset({"t"}))
    root = markup(drawing(TYPICAL["bridge"], joined=joined))
    traces = {p.get("data-traces"): p.get("data-trace") for p in root.findall(f"{SVG}path")}
    assert traces == {None: None, "l": "a", "r": "a", "t": "b"}


def test_marked_elements_are_framed() -> None:
    """A marked element is thicker, has a class and a dashed frame that holds all its texts."""
    asked = drawing(TYPICAL["bridge"])
    branches = tuple(replace(b, marked=b.id in ("R5", "V0")) for b in asked.branches)
    scene = lay_out_network(replace(asked, branches=branches))
    assert len(scene.frames) == 2
    for found in (component(scene, "R5"), component(scene, "V0")):
        assert found.marked
        assert any(
            frame.left < line.box.left and line.box.right < frame.right
            and frame.top < line.box.top and line.box.bottom < frame.bottom
            for frame in scene.frames
            for line in found.lines[:1]
        )  # fmt: skip
