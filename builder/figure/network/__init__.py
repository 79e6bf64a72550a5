"""How a general network is drawn, and how it is told in words."""

from __future__ import annotations

from builder.figure.network.layout import lay_out_network, places_of
from builder.figure.network.request import Arrow, Branch, LoopArrow, NetworkDrawing
from builder.figure.network.words import describe_network, network_by_junction
from builder.figure.svg import to_svg

__all__ = [
    "Arrow",
    "Branch",
    "LoopArrow",
    "NetworkDrawing",
    "describe_network",
    "draw_network",
    "lay_out_network",
    "network_by_junction",
    "places_of",
]


def draw_network(drawing: NetworkDrawing, *, id_prefix: str, title: str, description: str) -> str:
    """The SVG of a network, to stand in a page or alone.

    Args:
        drawing: what to show.
        id_prefix: goes before every id in it; unique among the figures of a page.
        title: the figure's accessible name.
        description: its text alternative, such as ``describe_network`` gives.

    Returns:
        One ``svg`` element. Elements are ``g`` with ``data-element``, sources ``g`` with
        ``data-source``, numbers with a key carry it in ``data-q``, and wires and dots name
        their junction in ``data-junction``.
    """
    return to_svg(
        lay_out_network(drawing), id_prefix=id_prefix, title=title, description=description
    )
