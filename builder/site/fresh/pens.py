"""Pens for pages that will be renumbered: one lists what figures say, one draws them with marks.

The layout of a figure takes far longer than all else on a page. So the figures of the sets are not
drawn at all: what they are asked to show is taken apart into texts, which may differ, and the rest,
which must not. Only the page's own figures are drawn, with room for the texts of every set.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from html import escape

from builder.figure import Drawing, ValueText
from builder.figure.lettering import number_runs
from builder.figure.network import NetworkDrawing
from builder.figure.request import Slot
from builder.figure.scene import Run
from builder.figure.text_size import run_width
from builder.figure.texts import with_numbers
from builder.site.figures.pen import INK, Places

AnyDrawing = Drawing | NetworkDrawing
Rooms = Mapping[tuple[str, int], tuple[float, ...]]
"""The room for each piece of each number that varies: by the figure's id and the number's place."""

_NOTHING_YET = Slot(0, ())
_MOST_WIDER = 30.0
"""How much wider than the own number another one may be, in user units: about four digits."""


@dataclass
class Lister:
    """Lists what the figures of a lesson say.

    Attributes:
        shapes: what was asked for apart from texts, in order.
        numbers: the pieces of every number, by the figure's id and the number's place in it.
    """

    shapes: list[object] = field(default_factory=list)
    numbers: dict[tuple[str, int], tuple[Run, ...]] = field(default_factory=dict)
    padded: bool = True
    _runs: dict[tuple[str, str, str, bool], tuple[Run, ...]] = field(default_factory=dict)

    def circuit(self, drawing: AnyDrawing, *, id: str, title: str, description: str) -> str:
        """Its texts in the order of the request, in an element that stands for the figure."""
        texts: list[str] = []

        def put(value: ValueText) -> ValueText:
            place = len(texts)
            runs = self._runs_of(value)
            self.numbers[id, place] = runs
            texts.append("".join(_listed(run, place, at) for at, run in enumerate(runs)))
            return ValueText("" if value.expression is None else "letters", value.symbol)

        self.shapes.append((id, with_numbers(drawing, put)))
        return (
            f'<svg data-figure="{escape(id)}"><title>{escape(title)}</title>'
            f"<desc>{escape(description)}</desc>{''.join(texts)}</svg>"
        )

    def _runs_of(self, value: ValueText) -> tuple[Run, ...]:
        """The pieces of a number; what is found in one step stands in all later figures too."""
        if value.expression is not None:
            return number_runs(replace(value, slot=_NOTHING_YET))
        key = (value.text, value.sign, value.key, value.symbol is None)
        if key not in self._runs:
            self._runs[key] = number_runs(replace(value, slot=_NOTHING_YET))
        return self._runs[key]

    def touched(self, svg: str, how: Callable[[str], str], by: object) -> str:
        """The list as it is; what the touch depends on is noted."""
        self.shapes.append(by)
        return svg

    def places(self, drawing: NetworkDrawing) -> Places:
        """None: a list needs no layout."""
        return {}


def _listed(run: Run, place: int, at: int) -> str:
    return f'<tspan data-m="{place}.{at}" data-style="{run.style}">{escape(run.text)}</tspan>'


@dataclass(frozen=True)
class Marker:
    """Draws figures in full, with a mark and with room at every number that varies."""

    rooms: Rooms
    padded: bool = True

    def circuit(self, drawing: AnyDrawing, *, id: str, title: str, description: str) -> str:
        """The figure with its marks."""
        return INK.circuit(self._marked(drawing, id), id=id, title=title, description=description)

    def _marked(self, drawing: AnyDrawing, id: str) -> AnyDrawing:
        place = -1

        def put(value: ValueText) -> ValueText:
            nonlocal place
            place += 1
            rooms = self.rooms.get((id, place))
            return value if rooms is None else replace(value, slot=Slot(place, rooms))

        return with_numbers(drawing, put)

    def touched(self, svg: str, how: Callable[[str], str], by: object) -> str:
        """The figure with it done."""
        return how(svg)

    def places(self, drawing: NetworkDrawing) -> Places:
        """Where the layout puts them."""
        return INK.places(drawing)


def rooms_for(listers: Sequence[Lister]) -> Rooms:
    """The room for every number that varies between lists of the same figures."""
    first, *others = listers
    found: dict[tuple[str, int], tuple[float, ...]] = {}
    for key, runs in first.numbers.items():
        every = [runs, *(other.numbers[key] for other in others)]
        if len({tuple(run.text for run in each) for each in every}) > 1:
            found[key] = tuple(max(map(run_width, pieces)) for pieces in zip(*every, strict=True))
    return found


def too_wide(first: Lister, other: Lister) -> bool:
    """Whether a number of another list would spoil the figure that has the first one's layout."""
    return any(
        sum(map(run_width, other.numbers[key])) - sum(map(run_width, runs)) > _MOST_WIDER
        for key, runs in first.numbers.items()
    )
