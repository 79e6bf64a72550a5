"""Where a figure has ink: its box without the room that it keeps for longer numbers."""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree import ElementTree

from builder.figure.scene import Box
from builder.figure.text_size import ASCENT, DESCENT, SLACK, TYPE_SIZE, written_width

_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
_STROKE = 1.5
Spot = tuple[float, float]


def ink_box(figure: str) -> Box:
    """The smallest box round all that a figure shows, with the usual slack for other fonts.

    Args:
        figure: the SVG of one figure, as this layer draws it: lines, circles, rectangles and
            texts, moved but not turned.
    """
    spots = list(_spots(ElementTree.fromstring(figure), (0.0, 0.0)))
    across, down = [x for x, _ in spots], [y for _, y in spots]
    return Box(min(across), min(down), max(across), max(down))


def _spots(part: ElementTree.Element, moved: Spot) -> Iterator[Spot]:
    """Corners of what a part of a figure shows."""
    kind = part.tag.rpartition("}")[2]
    if found := _NUMBER.findall(part.get("transform", "")):
        moved = (moved[0] + float(found[0]), moved[1] + float(found[1]))
    if kind == "text":
        yield from _of_text(part, moved)
        return
    for left, top, right, bottom in _boxes(kind, part):
        yield left - _STROKE + moved[0], top - _STROKE + moved[1]
        yield right + _STROKE + moved[0], bottom + _STROKE + moved[1]
    for inner in part:
        yield from _spots(inner, moved)


def _boxes(kind: str, part: ElementTree.Element) -> Iterator[tuple[float, float, float, float]]:
    if kind == "path":
        numbers = [float(number) for number in _NUMBER.findall(part.get("d", ""))]
        for x, y in zip(numbers[::2], numbers[1::2], strict=True):
            yield x, y, x, y
    elif kind == "circle":
        x, y, r = (float(part.get(name, 0)) for name in ("cx", "cy", "r"))
        yield x - r, y - r, x + r, y + r
    elif kind == "rect" and part.get("class") != "sw-hit":
        x, y, w, h = (float(part.get(name, 0)) for name in ("x", "y", "width", "height"))
        yield x, y, x + w, y + h


def _of_text(text: ElementTree.Element, moved: Spot) -> Iterator[Spot]:
    size = float(text.get("font-size", TYPE_SIZE))
    width = written_width(text.text or "", size)
    for run in text:
        slanted = run.get("font-style") == "italic"
        own = float(run.get("font-size", size))
        width += written_width(run.text or "", own, italic=slanted)
        width += written_width(run.tail or "", size)
    width *= SLACK
    x, y = float(text.get("x", 0)) + moved[0], float(text.get("y", 0)) + moved[1]
    left = x - width * {"middle": 0.5, "end": 1.0}.get(text.get("text-anchor", ""), 0.0)
    scale = size / TYPE_SIZE
    yield left, y - ASCENT * scale
    yield left + width, y + DESCENT * scale
