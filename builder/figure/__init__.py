"""How a circuit is drawn, and how it is told in words."""

from __future__ import annotations

from pathlib import Path

from builder.figure.by_junction import describe_by_junction
from builder.figure.layout import lay_out
from builder.figure.request import Drawing, Label, ValueText
from builder.figure.svg import to_svg
from builder.figure.words import describe

__all__ = [
    "STYLE_SHEET",
    "Drawing",
    "Label",
    "ValueText",
    "describe",
    "describe_by_junction",
    "draw",
]

STYLE_SHEET = Path(__file__).parent / "figure.css"


def draw(drawing: Drawing, *, id_prefix: str, title: str, description: str) -> str:
    """The SVG of a circuit, to stand in a page or alone.

    Args:
        drawing: what to show.
        id_prefix: goes before every id in it; unique among the figures of a page.
        title: the figure's accessible name: ``The circuit after merging C2 and C3``.
        description: its text alternative, such as ``describe`` gives.

    Returns:
        One ``svg`` element. Elements are ``g`` with ``data-element``, numbers with a key carry
        it in ``data-q``, and wires and dots name their junction in ``data-junction`` as
        ``builder.circuit.between.lay_between`` does.
    """
    return to_svg(lay_out(drawing), id_prefix=id_prefix, title=title, description=description)
