"""The symbols and what schemdraw keeps in its modules."""

from __future__ import annotations

from typing import Any

import pytest
import schemdraw
from schemdraw import drawing_stack
from schemdraw import elements as shapes
from schemdraw import schemdraw as state

from builder.figure.symbols import stamp, stamp_kind

KINDS = ("capacitor", "resistor-iec", "resistor-ieee", "battery", "current-source")


@pytest.mark.parametrize("kind", KINDS)
def test_wires_can_meet_a_symbol(kind: str) -> None:
    """A symbol is centred, and its strokes reach both places where its wires end."""
    shape = stamp(kind)
    points = [p for path in shape.paths for p in path.points]
    rings = [x for ring in shape.circles for x in (-ring.radius, ring.radius)]
    across = {round(p.x, 1) for p in points} | {round(x, 1) for x in rings}
    assert {-round(shape.half_length, 1), round(shape.half_length, 1)} <= across
    ys = [p.y for p in points]
    assert min(ys) == pytest.approx(-max(ys))


@pytest.mark.parametrize(
    ("element", "symbols", "kind"),
    [
        ("resistor", "iec", "resistor-iec"),
        ("resistor", "ieee", "resistor-ieee"),
        ("capacitor", "iec", "capacitor"),
        ("capacitor", "ieee", "capacitor"),
    ],
)
def test_symbol_sets(element: str, symbols: str, kind: str) -> None:
    """Resistors differ between the symbol sets: a box by IEC 60617, a zigzag by IEEE 315."""
    assert stamp_kind(element, symbols) == kind
    assert len(stamp("resistor-iec").paths[0].points) == 6
    assert len(stamp("resistor-ieee").paths[0].points) == 8


def test_schemdraw_is_left_as_it_was() -> None:
    """Neither schemdraw's style nor an open drawing is touched, and neither changes a symbol."""
    expected = stamp("capacitor")
    kept = dict(state.schemdrawstyle)
    try:
        schemdraw.config(unit=7, color="red", lw=9)
        style = dict(state.schemdrawstyle)
        with schemdraw.Drawing(canvas="svg", show=False) as drawing:
            resistor: Any = shapes.Resistor
            mine = resistor()
            before = dict(drawing_stack.drawing_stack)
            stamp.cache_clear()
            assert stamp("capacitor") == expected
            assert dict(drawing_stack.drawing_stack) == before == {drawing: mine}
        assert state.schemdrawstyle == style
        assert len(drawing.elements) == 1
    finally:
        state.schemdrawstyle.clear()
        state.schemdrawstyle.update(kept)


@pytest.mark.parametrize("kind", ["switch-open", "switch-closed", "ammeter", "gap", "wire"])
def test_wires_can_meet_switches_meters_and_gaps(kind: str) -> None:
    """Their strokes reach both places where wires end, and none lies outside their room."""
    shape = stamp(kind)
    points = [p for path in shape.paths for p in path.points]
    reach = [p.x for p in points]
    reach += [ring.centre.x + side * ring.radius for ring in shape.circles for side in (-1, 1)]
    assert min(reach) == pytest.approx(-shape.half_length)
    assert max(reach) == pytest.approx(shape.half_length)
    assert all(abs(p.y) <= shape.half_height + 0.01 for p in points)
    assert all(ring.radius <= shape.half_height + 0.01 for ring in shape.circles)


def test_switch_closes() -> None:
    """The blade of an open switch ends above its second contact, that of a closed one on it."""
    (opened,), (closed,) = stamp("switch-open").paths, stamp("switch-closed").paths
    assert min(p.y for p in opened.points) < -10
    assert {p.y for p in closed.points} == {0.0}
    contact = max(stamp("switch-closed").circles)
    assert closed.points[-1].x == pytest.approx(contact.centre.x - contact.radius)


def test_ground_hangs_down() -> None:
    """The ground symbol starts at (0, 0) and gets narrower downwards."""
    shape = stamp("ground")
    assert shape.paths[0].points[0] == (0.0, 0.0)
    bars = [path.points[-2:] for path in shape.paths]
    heights = [bar[0].y for bar in bars]
    widths = [abs(bar[1].x - bar[0].x) for bar in bars]
    assert heights == sorted(heights)
    assert widths == sorted(widths, reverse=True)
    assert shape.half_length == pytest.approx(heights[-1])
