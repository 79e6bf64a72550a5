"""The numbers in a request for a figure: found, and replaced, without anything being drawn."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import overload

from builder.figure.network.request import Branch, NetworkDrawing
from builder.figure.request import Drawing, Label, ValueText

Put = Callable[[ValueText], ValueText]
"""What stands in a number's place."""


@overload
def with_numbers(drawing: Drawing, put: Put) -> Drawing: ...
@overload
def with_numbers(drawing: NetworkDrawing, put: Put) -> NetworkDrawing: ...
def with_numbers(drawing: Drawing | NetworkDrawing, put: Put) -> Drawing | NetworkDrawing:
    """The same request with other numbers.

    Args:
        drawing: what is asked for.
        put: called for every number, always in the same order.
    """
    if isinstance(drawing, Drawing):
        labels = {of: _label(label, put) for of, label in drawing.labels.items()}
        source = None if drawing.source is None else _label(drawing.source, put)
        return replace(drawing, labels=labels, source=source)
    return replace(
        drawing,
        branches=tuple(_branch(branch, put) for branch in drawing.branches),
        levels={junction: put(level) for junction, level in drawing.levels.items()},
    )


def _label(label: Label, put: Put) -> Label:
    return Label(label.symbol, tuple(map(put, label.values)))


def _branch(branch: Branch, put: Put) -> Branch:
    label, arrow, plates = branch.label, branch.arrow, branch.plates
    return replace(
        branch,
        label=None if label is None else _label(label, put),
        arrow=arrow
        if arrow is None or arrow.text is None
        else replace(arrow, text=put(arrow.text)),
        plates=None if plates is None else (put(plates[0]), put(plates[1])),
    )
