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
