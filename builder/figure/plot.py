"""A curve that starts at one value and comes closer and closer to another.

Axes with units and ticks, the curve, the line that it comes close to, the time constant with the
share of the way that is done by then, and any other times. Every text stands outside the axes,
so that none touches a line.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from builder.figure.relations.canvas import figure, filled_up, line, n, text, unseen
from builder.figure.scene import Box, Point, Run, TextLine
from builder.figure.text_size import ASCENT, LINE, line_width
from builder.quantity.names import Symbol

WIDTH, HEIGHT = 232.0, 168.0
"""The room between the axes, in user units."""
CONSTANTS, MOST_CONSTANTS = 5.0, 6.0
"""How many time constants the axis shows, and how many at most for a time that is asked for."""
_POINTS = 72
_TICK, _GAP, _ROOM_ABOVE = 4.0, 7.0, 1.12
_STEPS = (1.0, 2.0, 5.0, 10.0)
_MOST_TICKS = 6
_DASHED = 'stroke-dasharray="4 4" stroke-width="1"'


@dataclass(frozen=True)
class Moment:
    """A time that is marked on the curve.

    Attributes:
        time: in the unit of its axis.
        label: what stands below the axis there.
    """

    time: float
    label: tuple[Run, ...]


@dataclass(frozen=True)
class Plot:
    """What a curve shows.

    Attributes:
        quantity, unit: what is plotted upwards, and its unit.
        time_unit: the unit of the axis of times.
        start, end: the first value, and the one that the curve comes close to, in that unit.
        constant: the time constant, in the unit of times.
        end_symbol: what the value that it comes close to is called.
        moments: other times that are marked.
    """

    quantity: Symbol
    unit: str
    time_unit: str
    start: float
    end: float
    constant: float
    end_symbol: Symbol
    moments: tuple[Moment, ...] = ()

    def at(self, time: float) -> float:
        """The value at a time."""
        return self.end + (self.start - self.end) * math.exp(-time / self.constant)

    @property
    def last(self) -> float:
        """Where the axis of times ends."""
        asked = [m.time for m in self.moments if m.time <= MOST_CONSTANTS * self.constant]
        return max([CONSTANTS * self.constant, *(time * 1.01 for time in asked)])

    @property
    def shown(self) -> tuple[Moment, ...]:
        """The moments that lie on the axis, the time constant first."""
        share = "37\u00a0%" if self.end == 0 else "63\u00a0%"
        label = (Run("τ", "italic"), Run(f" ({share})"))
        inside = tuple(m for m in self.moments if m.time <= self.last)
        return (Moment(self.constant, label), *inside)

    @property
    def bounds(self) -> tuple[float, float]:
        """The lowest and the highest value of the axis; zero is there unless the way is short."""
        low, high = sorted((self.start, self.end))
        if high - low < 0.4 * max(abs(low), abs(high)):
            return low - 0.3 * (high - low), high + 0.3 * (high - low)
        low, high = min(low, 0.0), max(high, 0.0)
        reach = high - low
        return (low - (_ROOM_ABOVE - 1) * reach if low < 0 else low,
                high + (_ROOM_ABOVE - 1) * reach if high > 0 else high)  # fmt: skip


def draw_plot(
    plot: Plot, *, id_prefix: str, title: str, description: str, padded: bool = False
) -> str:
    """The SVG of a curve.

    Args:
        plot: what it shows.
        id_prefix: goes before every id in it.
        title: its accessible name.
        description: its text alternative.
        padded: whether ticks that other numbers may need are there, out of sight.
    """
    pieces = [*_axes(plot, padded=padded), *_level(plot), _curve(plot), *_constant_lines(plot)]
    pieces += [piece for moment in plot.shown for piece in _mark(plot, moment)]
    up, across = [*_ticks_up(plot)], [*_ticks_across(plot)]
    labels = [*up, *across, *_names(plot)]
    below = _below(plot)
    labels += below
    labels.append(_time_name(plot, below))
    box = _room([label.box for label in labels])
    spare = unseen(text(_centred((Run("0"),), 0.0, HEIGHT)))
    for few in (up, across):
        pieces += filled_up(map(text, few), spare, _MOST_TICKS + 1 if padded else 0)
    pieces += map(text, labels[len(up) + len(across) :])
    return figure(pieces, box, id_prefix=id_prefix, title=title, description=description)


def ticks(low: float, high: float, most: int) -> tuple[float, ...]:
    """Round numbers from ``low`` to ``high``, one, two or five of a power of ten apart."""
    least = (high - low) / most
    power = 10.0 ** math.floor(math.log10(least))
    step = next(power * factor for factor in _STEPS if power * factor >= least * (1 - 1e-9))
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    return tuple(step * number for number in range(first, last + 1))


def _x(plot: Plot, time: float) -> float:
    return WIDTH * time / plot.last


def _y(plot: Plot, value: float) -> float:
    low, high = plot.bounds
    return HEIGHT * (high - value) / (high - low)


def _axes(plot: Plot, *, padded: bool) -> Iterator[str]:
    yield line(0, 0, 0, HEIGHT, 'class="sw-axis"')
    yield line(0, HEIGHT, WIDTH, HEIGHT, 'class="sw-axis"')
    levels = (_y(plot, value) for value in ticks(*plot.bounds, _MOST_TICKS))
    times = (_x(plot, time) for time in ticks(0.0, plot.last, _MOST_TICKS))
    spare, most = unseen(line(0, 0, 0, 0)), _MOST_TICKS + 1 if padded else 0
    yield from filled_up((line(-_TICK, y, 0, y) for y in levels), spare, most)
    yield from filled_up((line(x, HEIGHT, x, HEIGHT + _TICK) for x in times), spare, most)
    crossed = plot.bounds[0] < 0 < plot.bounds[1]
    zero = (line(0, _y(plot, 0), WIDTH, _y(plot, 0), 'stroke-width="0.6"') for _ in range(crossed))
    yield from filled_up(zero, spare, 1 if padded else 0)


def _level(plot: Plot) -> Iterator[str]:
    y = _y(plot, plot.end)
    yield line(0, y, WIDTH, y, f'class="sw-asymptote" {_DASHED}')


def _curve(plot: Plot) -> str:
    times = (plot.last * step / _POINTS for step in range(_POINTS + 1))
    points = "L".join(f"{n(_x(plot, t))} {n(_y(plot, plot.at(t)))}" for t in times)
    return (
        f'<path class="sw-curve" d="M{points}" stroke="currentColor" stroke-width="2.6" '
        f'stroke-linecap="round" stroke-linejoin="round"/>'
    )


def _constant_lines(plot: Plot) -> Iterator[str]:
    y = _y(plot, plot.at(plot.constant))
    yield line(0, y, _x(plot, plot.constant), y, _DASHED)


def _mark(plot: Plot, moment: Moment) -> Iterator[str]:
    x, y = _x(plot, moment.time), _y(plot, plot.at(moment.time))
    yield line(x, y, x, HEIGHT, _DASHED)
    yield f'<circle class="sw-plot-dot" cx="{n(x)}" cy="{n(y)}" r="4" fill="currentColor"/>'


def _ticks_up(plot: Plot) -> Iterator[TextLine]:
    for value in ticks(*plot.bounds, _MOST_TICKS):
        runs = (Run(_number(value)),)
        y = _y(plot, value)
        yield _line(runs, -_GAP - line_width(runs), y - LINE / 2)


def _ticks_across(plot: Plot) -> Iterator[TextLine]:
    for time in ticks(0.0, plot.last, _MOST_TICKS):
        yield _centred((Run(_number(time)),), _x(plot, time), HEIGHT + _GAP)


def _names(plot: Plot) -> Iterator[TextLine]:
    """What is plotted, above its axis, and what it comes close to, beyond the end of its line."""
    yield _line((*symbol_runs(plot.quantity), Run(f" in {plot.unit}")), -_GAP - 2, -LINE - _GAP)
    # At the foot of the plot the number of the last tick may stand right below it.
    top = min(_y(plot, plot.end) - LINE / 2, HEIGHT + _GAP - LINE - 1)
    yield _line(symbol_runs(plot.end_symbol), WIDTH + _GAP, top)


def _below(plot: Plot) -> list[TextLine]:
    """The names of times, each in the first row below the numbers in which there is room.

    They are placed from left to right, and given in the order of the moments, which other numbers
    do not change.
    """
    placed: dict[int, TextLine] = {}
    for at, moment in sorted(enumerate(plot.shown), key=lambda numbered: numbered[1].time):
        row = 1
        while True:
            label = _centred(moment.label, _x(plot, moment.time), HEIGHT + _GAP + row * LINE)
            if not any(_close(label.box, other.box) for other in placed.values()):
                break
            row += 1
        placed[at] = label
    return [placed[at] for at in range(len(placed))]


def _time_name(plot: Plot, below: list[TextLine]) -> TextLine:
    """The name of the axis of times, at its right end below everything else."""
    runs = (Run("t", "italic"), Run(f" in {plot.time_unit}"))
    lowest = max(label.box.top for label in below)
    right = WIDTH - line_width(runs)
    free = not any(label.box.right + _GAP > right for label in below if label.box.top == lowest)
    return _line(runs, right, lowest if free else lowest + LINE)


def _close(one: Box, other: Box) -> bool:
    apart = one.left > other.right + _GAP or other.left > one.right + _GAP
    return not apart and one.top < other.bottom and other.top < one.bottom


def symbol_runs(symbol: Symbol) -> tuple[Run, ...]:
    """A symbol as pieces of text, for the label of a moment."""
    index = (Run(symbol.index, "index"),) if symbol.index else ()
    mark = (Run(symbol.mark),) if symbol.mark else ()
    return (Run(symbol.letter, "italic"), *index, *mark)


def _line(runs: tuple[Run, ...], left: float, top: float) -> TextLine:
    box = Box(left, top, left + line_width(runs), top + LINE)
    return TextLine(Point(left, top + ASCENT), "start", runs, box)


def _centred(runs: tuple[Run, ...], x: float, top: float) -> TextLine:
    half = line_width(runs) / 2
    box = Box(x - half, top, x + half, top + LINE)
    return TextLine(Point(x, top + ASCENT), "middle", runs, box)


def _room(boxes: list[Box]) -> Box:
    margin = 3.0
    return Box(
        min(0.0, *(box.left for box in boxes)) - margin,
        min(0.0, *(box.top for box in boxes)) - margin,
        max(WIDTH, *(box.right for box in boxes)) + margin,
        max(HEIGHT, *(box.bottom for box in boxes)) + margin,
    )


def _number(value: float) -> str:
    """A round number as it stands at an axis."""
    return f"{value:.10g}".replace("-", "−")
