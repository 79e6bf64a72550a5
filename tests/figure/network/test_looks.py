"""What a teacher would expect of figures of known networks."""

from __future__ import annotations

import itertools
from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest

from builder.figure.network import Arrow, NetworkDrawing, lay_out_network, places_of
from builder.figure.request import ValueText
from builder.figure.scene import Component, Scene
from builder.quantity.names import Symbol
from tests.figure.network.drawings import (
    CROSSED,
    CUBE,
    K4,
    TYPICAL,
    drawing,
    placed_drawing,
)

UPRIGHT, ACROSS = {"up", "down"}, {"left", "right"}


def parts(scene: Scene) -> dict[str, Component]:
    """The components by name."""
    return {c.id: c for c in scene.components if c.id}


def shown(name: str) -> dict[str, Component]:
    """The components of a typical network."""
    return parts(lay_out_network(drawing(TYPICAL[name])))


@pytest.mark.parametrize("name", [n for n, text in TYPICAL.items() if text[0] in "VE"])
def test_first_source_stands_at_the_left(name: str) -> None:
    """The first source stands upright with its + at the top, and nothing lies further left."""
    found = shown(name)
    lead = found["V0"] if "V0" in found else found["E1"]
    assert lead.turn == "down"
    assert lead.at.x <= min(c.at.x for c in found.values()) + 0.01


@pytest.mark.parametrize("name", ["bridge", "bridge with internal resistance"])
def test_bridge_as_teachers_draw_it(name: str) -> None:
    """A bridge has two upright arms side by side, its middle element across between them."""
    found = shown(name)
    left, right = {found["R1"].at.x, found["R3"].at.x}, {found["R2"].at.x, found["R4"].at.x}
    assert len(left) == len(right) == 1
    assert all(found[r].turn in UPRIGHT for r in ("R1", "R2", "R3", "R4"))
    assert found["R5"].turn in ACROSS
    assert min(left) < found["R5"].at.x < min(right)
    assert found["R1"].at.y == found["R2"].at.y < found["R5"].at.y < found["R3"].at.y
    assert found["R3"].at.y == found["R4"].at.y


def test_ladder_as_a_ladder() -> None:
    """Series elements of a ladder lie along the top, the others stand upright in order."""
    found = shown("ladder of five")
    along = [found[f"R{n}"] for n in (1, 3, 5, 7, 9)]
    down = [found[f"R{n}"] for n in (2, 4, 6, 8, 10)]
    assert len({c.at.y for c in along}) == 1
    assert all(c.turn in ACROSS for c in along)
    assert all(c.turn in UPRIGHT for c in down)
    for row in (along, down):
        assert [c.at.x for c in row] == sorted(c.at.x for c in row)


def test_branches_side_by_side() -> None:
    """Branches between the same two junctions are rungs in the author's order, evenly apart."""
    found = shown("rungs")
    rungs = [found[name] for name in ("V0", "R1", "R2", "R3", "R4", "R5")]
    places = [rung.at.x for rung in rungs]
    assert places == sorted(places)
    assert len({round(b - a, 3) for a, b in itertools.pairwise(places)}) == 1
    assert all(rung.turn in UPRIGHT for rung in rungs)
    assert len({rung.at.y for rung in rungs}) == 1


def test_two_windows() -> None:
    """Three chains between two junctions make two windows side by side, sources upright."""
    found = shown("two loops")
    assert found["E1"].turn == found["E2"].turn == "down"
    assert found["E1"].at.x < found["E2"].at.x < found["R3"].at.x
    assert found["R2"].at.x == found["E2"].at.x
    assert found["R3"].turn in UPRIGHT


def test_cube_is_a_square_in_a_square() -> None:
    """The cube is flattened: its inner square lies inside its outer one, joined by four spokes."""
    found = parts(lay_out_network(drawing(CUBE)))
    turns = Counter(c.turn in UPRIGHT for c in found.values())
    assert turns == {True: 4, False: 8}
    columns = sorted({c.at.x for c in found.values() if c.turn in UPRIGHT})
    assert len(columns) == 4
    across = sorted(c.at.y for c in found.values() if c.turn in ACROSS)
    assert len(set(across)) == 4
    assert Counter(across).most_common(2)[0][1] == 3


@pytest.mark.parametrize(
    ("terminals", "stubs"), [(("a", "b"), False), (("a", "c"), False), (("a", "g"), True)]
)
def test_terminals_of_the_cube(terminals: tuple[str, str], stubs: bool) -> None:
    """Terminals stand at the left, + above −; where that would cross, each ends a short wire."""
    scene = lay_out_network(drawing(CUBE, terminals=terminals))
    plus, minus = scene.terminals
    assert (plus.junction, minus.junction) == terminals
    assert not scene.hops
    if not stubs:
        assert plus.at.x == minus.at.x <= min(c.at.x for c in scene.components if c.id)
        assert plus.at.y < minus.at.y
    signs = ["".join(run.text for run in line.runs) for c in scene.components if not c.id
             for line in c.lines]  # fmt: skip
    assert signs == ["+", "−"]


@pytest.mark.parametrize("name", sorted(CROSSED))
def test_crossings_are_hops(name: str) -> None:
    """Where wires must cross, one of them hops, as few times as can be."""
    scene = lay_out_network(drawing(TYPICAL[name]))
    assert len(scene.hops) == CROSSED[name]
    for hop in scene.hops:
        under = [
            wire for wire in scene.wires
            if wire.start.x == wire.end.x == hop.at.x
            and min(wire.start.y, wire.end.y) <= hop.at.y <= max(wire.start.y, wire.end.y)
        ]  # fmt: skip
        assert under
        assert all(wire.junction != hop.junction for wire in under)


def test_elements_in_series_share_a_side() -> None:
    """Elements that follow each other stand on one side where there is room."""
    found = parts(lay_out_network(drawing("V0:a-z R1:a-z R2:a-m R3:m-z")))
    assert found["R1"].turn in UPRIGHT
    middle = parts(lay_out_network(drawing("V0:a-z R1:a-m R2:m-z R3:a-z")))
    assert middle["R1"].at.x == middle["R2"].at.x
    assert middle["R1"].at.y < middle["R2"].at.y


def test_ring_round_its_source() -> None:
    """A single loop has its source alone at the left, the others round the other three sides."""
    found = parts(lay_out_network(drawing("V0:a-d R1:a-b R2:b-c R3:c-d")))
    assert [found[name].turn in UPRIGHT for name in ("V0", "R1", "R2", "R3")] == [
        True, False, True, False
    ]  # fmt: skip
    assert found["V0"].at.x < found["R1"].at.x < found["R2"].at.x
    assert found["R1"].at.y < found["R2"].at.y < found["R3"].at.y


def test_bundles_hang_from_rails() -> None:
    """Bundles of rungs one below the other hang from straight rails, all of them upright."""
    text = "V0:a-g " + " ".join(
        f"R{n}:{ends}" for n, ends in enumerate(["a-b"] * 3 + ["b-c"] * 6 + ["c-g"] * 3, start=1)
    )
    found = parts(lay_out_network(drawing(text)))
    rows = [
        [found[f"R{n}"] for n in numbers] for numbers in ((1, 2, 3), range(4, 10), (10, 11, 12))
    ]
    for row in rows:
        assert all(c.turn in UPRIGHT for c in row)
        assert len({c.at.y for c in row}) == 1
    assert rows[0][0].at.y < rows[1][0].at.y < rows[2][0].at.y


def test_arrows_plates_and_marks_keep_the_look() -> None:
    """Whatever is written beside elements later, each keeps its direction and its neighbours."""
    asked = drawing("V0:a-b K1:a-c C1:c-d C2:d-b C3:c-b S1:d-b")
    branches = tuple(
        replace(
            b,
            marked=True,
            arrow=Arrow(True, Symbol("I", b.id)),
            plates=(ValueText("+120 µC"), ValueText("−120 µC")) if b.kind == "capacitor" else None,
        )
        for b in asked.branches
    )
    plain = parts(lay_out_network(asked))
    rich = parts(lay_out_network(replace(asked, branches=branches)))
    for one, found in plain.items():
        assert found.turn == rich[one].turn
        for other, neighbour in plain.items():
            before = (found.at.x < neighbour.at.x - 1, found.at.y < neighbour.at.y - 1)
            after = (rich[one].at.x > rich[other].at.x + 1, rich[one].at.y > rich[other].at.y + 1)
            assert not any(a and b for a, b in zip(before, after, strict=True)), (one, other)


def test_crossing_of_an_author_is_a_hop() -> None:
    """Where an author's places make wires cross, they cross as hops."""
    scene = lay_out_network(placed_drawing("crossing on purpose"))
    assert len(scene.hops) == len({hop.at for hop in scene.hops}) <= 1
    places = places_of(placed_drawing("crossing on purpose"))
    assert places["a"][0] == places["d"][0] < places["b"][0] == places["c"][0]
    assert places["a"][1] == places["b"][1] < places["c"][1] == places["d"][1]


PLACED = {
    "t": (Fraction(1), Fraction(2)),
    "l": (Fraction(0), Fraction(1)),
    "r": (Fraction(2), Fraction(1)),
    "b": (Fraction(1), Fraction(0)),
}


def test_places_of_an_author_are_kept() -> None:
    """Junctions stand in the author's columns and rows, rows counted upwards."""
    places = places_of(drawing(TYPICAL["bridge"], place=PLACED))
    assert places["l"][0] < places["t"][0] == places["b"][0] < places["r"][0]
    assert places["t"][1] < places["l"][1] == places["r"][1] < places["b"][1]


def test_hint_keeps_the_look() -> None:
    """A figure with a hint turns so that junctions stay on the side where they were."""
    plain = drawing(K4 + " V0:a-b")
    before = places_of(plain)
    swapped = before | {"c": before["d"], "d": before["c"]}
    after = places_of(drawing(K4 + " V0:a-b", hint=swapped))
    assert (before["c"][0] < before["d"][0]) != (after["c"][0] < after["d"][0])


def test_merging_in_series_keeps_the_look() -> None:
    """After two elements in series are merged, all other elements keep their order."""
    before = parts(lay_out_network(drawing("V0:t-b R1:t-l R2:t-r R3:l-b R4:r-m R6:m-b R5:l-r")))
    after = parts(lay_out_network(drawing("V0:t-b R1:t-l R2:t-r R3:l-b R46:r-b R5:l-r")))
    for one in ("V0", "R1", "R2", "R3", "R5"):
        assert before[one].turn == after[one].turn
        for other in ("V0", "R1", "R2", "R3", "R5"):
            assert (before[one].at.x < before[other].at.x) == (after[one].at.x < after[other].at.x)
            assert (before[one].at.y < before[other].at.y) == (after[one].at.y < after[other].at.y)


def test_same_drawing_same_scene() -> None:
    """The same request gives the same figure."""
    for text in TYPICAL.values():
        assert lay_out_network(drawing(text)) == lay_out_network(drawing(text))


def test_found_values_keep_the_look() -> None:
    """Values that are found make a figure larger but turn no element."""
    for text in TYPICAL.values():
        plain, rich = (
            parts(lay_out_network(drawing(text))),
            parts(lay_out_network(drawing(text, 2))),
        )
        assert {n: c.turn for n, c in plain.items()} == {n: c.turn for n, c in rich.items()}


@pytest.mark.parametrize("text", ["V0:a-b R1:a-b", "R1:a-b", "C1:a-a", "V0:a-b", "C1:a-b K1:b-a"])
def test_small_networks(text: str) -> None:
    """Networks of one or two elements are drawn, each element once."""
    asked: NetworkDrawing = drawing(text)
    scene = lay_out_network(asked)
    assert Counter(c.id for c in scene.components) == Counter(b.id for b in asked.branches)


def test_typical_figures_fit_a_phone() -> None:
    """Figures of up to seven elements are no wider than a phone, a row of rungs aside."""
    small = {n: text for n, text in TYPICAL.items() if len(text.split()) <= 7 and n != "rungs"}
    assert len(small) > 8
    for name, text in small.items():
        box = lay_out_network(drawing(text)).box
        assert box.right - box.left <= 422, name
