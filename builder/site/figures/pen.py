"""What draws the figures that a maker asks for: ink on the page, or a list of what they say."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Protocol

from builder.figure import Drawing, draw
from builder.figure.network import NetworkDrawing, draw_network, places_of

Places = Mapping[str, tuple[float, float]]


class Pen(Protocol):
    """Draws what it is asked to draw."""

    @property
    def padded(self) -> bool:
        """Whether figures that are drawn anew for other numbers keep pieces in reserve.

        They then have as many pieces whatever the numbers are.
        """

    def circuit(
        self, drawing: Drawing | NetworkDrawing, *, id: str, title: str, description: str
    ) -> str:
        """The figure of a circuit; ``id`` starts every id in it, unique on the page."""

    def touched(self, svg: str, how: Callable[[str], str], by: object) -> str:
        """A figure with something done to it; ``by`` is all that this depends on."""

    def places(self, drawing: NetworkDrawing) -> Places:
        """Where a figure has its junctions."""


class Ink:
    """Draws in full."""

    padded = False

    def circuit(
        self, drawing: Drawing | NetworkDrawing, *, id: str, title: str, description: str
    ) -> str:
        """The SVG of a circuit."""
        if isinstance(drawing, Drawing):
            return draw(drawing, id_prefix=id, title=title, description=description)
        return draw_network(drawing, id_prefix=id, title=title, description=description)

    def touched(self, svg: str, how: Callable[[str], str], by: object) -> str:
        """The figure with it done."""
        return how(svg)

    def places(self, drawing: NetworkDrawing) -> Places:
        """Where the layout puts them."""
        return places_of(drawing)


INK = Ink()
"""What draws figures unless something else is asked for."""
