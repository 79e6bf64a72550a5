"""The pieces of a figure, before they are written as SVG."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable, Iterator
from itertools import combinations

import pytest

from builder.circuit.between import MINUS, PLUS, lay_between
from builder.circuit.tree import Leaf, Tree, in_parallel, in_series, leaves
from builder.figure import Drawing
from builder.figure.layout import lay_out
from builder.figure.scene import Box, Component, Point, Scene, Wire
from builder.figure.symbols import stamp
from tests.figure.drawings import BATTERY, circuit, drawing, labels, random_drawing

SEEDS = range(60)
SCENES = [(seed, random_drawing(seed), lay_out(random_drawing(seed))) for seed in SEEDS]
EACH = pytest.mark.parametrize(
    ("asked", "scene"), [pytest.param(d, s, id=f"seed {n}") for n, d, s in SCENES]
)
DIRECTIONS = {"right": (1.0, 0.0), "left": (-1.0, 0.0), "down": (0.0, 1.0)}


def on(wire: Wire, point: Point) -> bool:
    """Whether a wire passes or ends at a point."""
    xs, ys = sorted((wire.start.x, wire.end.x)), sorted((wire.start.y, wire.end.y))
    near = 0.01
    return xs[0] - near <= point.x <= xs[1] + near and ys[0] - near <= point.y <= ys[1] + near


def wire_ends(component: Component) -> tuple[Point, Point]:
    """Where the wires of a symbol end: at its + side and at its − side."""
    half, (x, y) = stamp(component.stamp).half_length, DIRECTIONS[component.turn]
    at = component.at
    return Point(at.x - half * x, at.y - half * y), Point(at.x + half * x, at.y + half * y)


def nets(scene: Scene) -> list[set[int]]:
    """The wires, by number, that hang together, told by their places alone."""
    found: list[set[int]] = []
    for number, wire in enumerate(scene.wires):
        touching = [
            net
            for net in found
            if any(
                on(wire, p) or on(scene.wires[other], q)
                for other in net
                for p in (scene.wires[other].start, scene.wires[other].end)
                for q in (wire.start, wire.end)
            )
        ]
        found = [net for net in found if net not in touching]
        found.append({number}.union(*touching))
    return found


def ways_out(scene: Scene, point: Point) -> int:
    """In how many of the four directions wires leave a point."""
    step = 0.5
    neighbours = [
        Point(point.x + dx * step, point.y + dy * step)
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))
    ]
    at = [wire for wire in scene.wires if on(wire, point)]
    return sum(any(on(wire, neighbour) for wire in at) for neighbour in neighbours)


def overlap(a: Box, b: Box) -> bool:
    """Whether two boxes share room."""
    near = 0.01
    return (
        a.left < b.right - near
        and b.left < a.right - near
        and a.top < b.bottom - near
        and b.top < a.bottom - near
    )


def text_boxes(scene: Scene) -> Iterator[Box]:
    """The room of all lines of text."""
    return (line.box for component in scene.components for line in component.lines)


@EACH
def test_each_element_once(asked: Drawing, scene: Scene) -> None:
    """Every element stands in the figure once, with all its values."""
    shown = Counter(component.id for component in scene.components if component.id)
    assert shown == Counter(leaves(asked.tree))
    for component in scene.components:
        if component.id:
            keys = [run.key for line in component.lines for run in line.runs if run.key]
            assert keys == [value.key for value in asked.labels[component.id].values]


@EACH
def test_wires_are_upright(asked: Drawing, scene: Scene) -> None:
    """Every wire runs along or across, and has a length."""
    for wire in scene.wires:
        assert (wire.start.x == wire.end.x) != (wire.start.y == wire.end.y)


@EACH
def test_drawn_network_is_the_circuit(asked: Drawing, scene: Scene) -> None:
    """The wires, followed by their places, join the elements as the circuit does."""
    hanging = nets(scene)
    names = [{scene.wires[number].junction for number in net} for net in hanging]
    assert all(len(name) == 1 for name in names), "a wire touches another junction's"
    assert len(hanging) == len({wire.junction for wire in scene.wires}), "a junction is torn"

    def junction_at(point: Point) -> str:
        (name,) = {wire.junction for wire in scene.wires if on(wire, point)}
        return name

    drawn = {c.id: tuple(map(junction_at, wire_ends(c))) for c in scene.components if c.id}
    assert drawn == lay_between(asked.tree)


@EACH
def test_dots_exactly_where_three_wires_meet(asked: Drawing, scene: Scene) -> None:
    """A junction dot stands where three or more wires meet, and nowhere else."""
    points = {Point(round(p.x, 3), round(p.y, 3)) for w in scene.wires for p in (w.start, w.end)}
    meeting = {point for point in points if ways_out(scene, point) >= 3}
    dots = [Point(round(dot.at.x, 3), round(dot.at.y, 3)) for dot in scene.dots]
    assert len(dots) == len(set(dots))
    assert set(dots) == meeting
    assert all(
        dot.junction == w.junction for dot in scene.dots for w in scene.wires if on(w, dot.at)
    )


@EACH
def test_text_stands_free(asked: Drawing, scene: Scene) -> None:
    """No text lies on other text, on a wire, on a symbol or outside the figure."""
    boxes = list(text_boxes(scene))
    assert not [pair for pair in combinations(boxes, 2) if overlap(*pair)]
    wires = [
        Box(
            min(w.start.x, w.end.x) - 1,
            min(w.start.y, w.end.y) - 1,
            max(w.start.x, w.end.x) + 1,
            max(w.start.y, w.end.y) + 1,
        )
        for w in scene.wires
    ]
    bodies = [component.body for component in scene.components if component.stamp]
    assert not [(t, s) for t in boxes for s in wires + bodies if overlap(t, s)]
    room = scene.box
    assert all(room.left <= b.left and b.right <= room.right for b in boxes)
    assert all(room.top <= b.top and b.bottom <= room.bottom for b in boxes)


@pytest.mark.parametrize("quantity", ["voltage", "current", "charge", None])
def test_plus_is_above_minus_at_the_left(quantity: str | None) -> None:
    """The + stands above the − at the left, and each on its own junction's side."""
    scene = lay_out(drawing("C1+(C2|C3)", source=quantity))
    source = scene.components[0]
    signs = {line.runs[0].text: line.box for line in source.lines if line.anchor == "middle"}
    assert set(signs) == {PLUS, MINUS}
    assert signs[PLUS].bottom < signs[MINUS].top
    assert all(source.at.x < c.at.x for c in scene.components[1:])
    if quantity in ("voltage", "current"):
        ends = zip((PLUS, MINUS), wire_ends(source), strict=True)
        for name, end in ends:
            assert {w.junction for w in scene.wires if on(w, end)} == {name}
    else:
        assert [(end.junction, end.at.y > 0) for end in scene.terminals] == [
            (PLUS, False),
            (MINUS, True),
        ]


def test_battery_has_its_long_plate_at_plus() -> None:
    """The first plate of a battery, at its + end, is the longer one."""
    plates = sorted(stamp("battery").paths, key=lambda path: path.points[0].x)
    heights = [abs(path.points[0].y - path.points[1].y) for path in plates]
    assert heights[0] > heights[1]
    assert heights == [heights[0], heights[1]] * 2


def test_current_arrow_points_to_plus() -> None:
    """The arrow of a current source has its tip towards the + end."""
    (head,) = (path for path in stamp("current-source").paths if path.filled)
    xs = sorted(point.x for point in head.points)
    assert xs[0] < xs[1] == pytest.approx(xs[2])


@pytest.mark.parametrize(
    "text",
    ["C1", "C1+C2", "C1|C2", "C1+(C2|C3)", "C1|C2|C3", "(C1|C2)+C3", "C1|(C2+C3)",
     "(C1+C2)|(C3+C4)", "C1+(C2|(C3+C4))", "C1+C2+(C3|C4)+C5", "(C1|C2)+(C3|C4|C5)"],
)  # fmt: skip
def test_simple_circuits_fit_a_phone(text: str) -> None:
    """Circuits of up to five elements in up to three levels are at most 420 units wide."""
    box = lay_out(drawing(text)).box
    assert box.right - box.left <= 420


@pytest.mark.parametrize("text", ["C1+(C2|C3)", "(R1|R2)+R3", "R1|(R2+(R3|R4))"])
def test_shape_stays_while_values_are_found(text: str) -> None:
    """An element keeps its direction when values and marks are added."""
    plain, full = drawing(text), drawing(text, values=3)
    marked = Drawing(full.tree, full.element, full.labels, BATTERY, "voltage",
                     frozenset(leaves(full.tree)[-2:]))  # fmt: skip
    turns = [[c.turn for c in lay_out(d).components] for d in (plain, full, marked)]
    assert turns[0] == turns[1] == turns[2]


def test_marked_group_has_one_frame() -> None:
    """A marked group is framed once as a whole, a marked equivalent alone."""
    asked = drawing("C1+(C2|C3)+C4")
    group = Drawing(asked.tree, "capacitor", asked.labels, marked=frozenset({"C2", "C3"}))
    one = Drawing(asked.tree, "capacitor", asked.labels, marked=frozenset({"C4"}))
    assert len(lay_out(asked).frames) == 0
    assert len(lay_out(group).frames) == 1
    assert len(lay_out(one).frames) == 1


def test_deeper_and_larger_than_promised() -> None:
    """Thirty elements in ten levels are drawn, and the network is still the circuit's."""
    tree = circuit("R1+R2+R3")
    for level in range(9):
        join = in_parallel if level % 2 == 0 else in_series
        fresh = [Leaf(f"R{4 + level * 3 + n}") for n in range(3)]
        tree = join(f"g{level}", *fresh, tree)
    asked = Drawing(tree, "resistor", labels(tree, 3), BATTERY, "voltage")
    test_drawn_network_is_the_circuit(asked, lay_out(asked))
    test_text_stands_free(asked, lay_out(asked))


@pytest.mark.parametrize("join", [in_parallel, in_series])
def test_five_hundred_in_one_group(join: Callable[..., Tree]) -> None:
    """A group of five hundred elements takes well under two seconds."""
    tree = join("all", *(Leaf(f"R{n}") for n in range(500)))
    start = time.process_time()
    scene = lay_out(Drawing(tree, "resistor", labels(tree), BATTERY, "voltage"))
    assert time.process_time() - start < 2
    assert len(scene.components) == 501
