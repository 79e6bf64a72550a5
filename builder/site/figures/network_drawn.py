"""A drawing of a network as the page shows it: its figure, and the same in sentences."""

from __future__ import annotations

from markupsafe import Markup, escape

from builder.figure.network import NetworkDrawing, describe_network, network_by_junction
from builder.quantity.names import Symbol
from builder.site.figures.pen import Pen
from builder.site.markup import symbol_html


def drawn(pen: Pen, drawing: NetworkDrawing, id: str, title: str) -> Markup:
    """A figure; ``id`` starts every id in it."""
    described = describe_network(drawing)
    return Markup(pen.circuit(drawing, id=id, title=title, description=described))


def in_sentences(drawing: NetworkDrawing) -> tuple[Markup, ...]:
    """A sentence for each junction."""
    return tuple(
        Markup("").join(symbol_html(p) if isinstance(p, Symbol) else escape(p) for p in words)
        for words in network_by_junction(drawing)
    )
