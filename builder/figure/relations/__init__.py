"""Figures of problems without a circuit: what follows from what, and plates with their filling."""

from builder.figure.relations.chain import Chip, Link, describe_chain, draw_chain
from builder.figure.relations.plates import Panel, PanelPart, describe_plates, draw_plates

__all__ = [
    "Chip",
    "Link",
    "Panel",
    "PanelPart",
    "describe_chain",
    "describe_plates",
    "draw_chain",
    "draw_plates",
]
