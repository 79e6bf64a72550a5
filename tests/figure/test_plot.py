"""The curve of a voltage: its axes, its marks, and texts that touch no line."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from builder.figure.plot import HEIGHT, WIDTH, Moment, Plot, draw_plot, symbol_runs, ticks
from builder.figure.scene import Run
from builder.figure.text_size import ASCENT, DESCENT, line_width
from builder.quantity.names import Symbol

SVG = "{http://www.w3.org/2000/svg}"
CHARGING = Plot(
    quantity=Symbol("V", "C1"), unit="V", time_unit="s", start=0.0, end=12.0, constant=2.0,
    end_symbol=Symbol("V", "C1", "(∞)"),
    moments=tuple(Moment(time, symbol_runs(Symbol("t", index)))
                  for time, index in ((2.0, "1"), (2.77, "2"))),
)  # fmt: skip
PLOTS = {
    "charging": CHARGING,
    "discharging": replace(CHARGING, start=300.0, end=0.0, constant=10.0),
    "to a level": replace(CHARGING, start=6.0, end=2.0, constant=0.2),
    "through zero": replace(CHARGING, start=5.0, end=-3.0),
    "below zero": replace(CHARGING, start=0.0, end=-7.5),
    "a short way": replace(CHARGING, start=8.0, end=10.0),
    "tiny": replace(CHARGING, end=0.001, constant=0.004, moments=()),
    "crowded": replace(
        CHARGING,
        moments=tuple(Moment(2 + n / 10, (Run("t", "italic"), Run(f"{n}", "index")))
                      for n in range(8)),
    ),
    "beyond": replace(CHARGING, moments=(Moment(11.9, (Run("t"),)), Moment(40.0, (Run("x"),)))),
}  # fmt: skip


def _drawn(plot: Plot) -> ElementTree.Element:
    svg = draw_plot(plot, id_prefix="p", title="A curve", description="It climbs.")
    return ElementTree.fromstring(svg)


def _texts(root: ElementTree.Element) -> list[tuple[str, float, float, float, float]]:
    """Each text with its left, top, right and bottom, by the widths of the shipped type."""
    found = []
    for text in root.iter(f"{SVG}text"):
        words = "".join(text.itertext())
        x, y = float(text.attrib["x"]), float(text.attrib["y"])
        width = line_width((Run(words),)) / 1.08
        left = x - width / 2 if text.get("text-anchor") == "middle" else x
        found.append((words, left, y - ASCENT * 0.75, left + width, y + DESCENT * 0.6))
    return found


def _lines(root: ElementTree.Element) -> list[tuple[float, float, float, float]]:
    """The straight pieces of every path."""
    pieces = []
    for path in root.iter(f"{SVG}path"):
        points = [(float(x), float(y)) for x, y in
                  re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.attrib["d"])]  # fmt: skip
        pieces += [(*a, *b) for a, b in pairwise(points)]
    return pieces


@pytest.mark.parametrize("plot", PLOTS.values(), ids=PLOTS)
def test_no_text_touches_a_line_or_another_text(plot: Plot) -> None:
    """All texts stand outside the axes, each with room of its own."""
    root = _drawn(plot)
    texts = _texts(root)
    for words, left, top, right, bottom in texts:
        for x1, y1, x2, y2 in _lines(root):
            apart = max(x1, x2) < left or min(x1, x2) > right or max(y1, y2) < top
            assert apart or min(y1, y2) > bottom, (words, (x1, y1, x2, y2))
        for other, l2, t2, r2, b2 in texts:
            if (other, l2) != (words, left):
                assert r2 < left or l2 > right or b2 < top or t2 > bottom, (words, other)


@pytest.mark.parametrize("plot", PLOTS.values(), ids=PLOTS)
def test_the_curve_stays_between_the_axes(plot: Plot) -> None:
    """It starts at the first value, and its points lie in the room between the axes."""
    curve = next(p for p in _drawn(plot).iter(f"{SVG}path") if p.get("class") == "sw-curve")
    points = re.findall(r"(-?[\d.]+) (-?[\d.]+)", curve.attrib["d"])
    assert all(-0.01 <= float(x) <= WIDTH + 0.01 for x, _ in points)
    assert all(-0.01 <= float(y) <= HEIGHT + 0.01 for _, y in points)
    low, high = plot.bounds
    assert float(points[0][1]) == pytest.approx(
        HEIGHT * (high - plot.start) / (high - low), abs=0.01
    )


def test_the_time_constant_and_the_asked_times_are_marked() -> None:
    """A dot on the curve for each; a time beyond six time constants is left to the table."""
    dots = list(_drawn(PLOTS["beyond"]).iter(f"{SVG}circle"))
    assert [round(float(dot.attrib["cx"]), 1) for dot in dots] == [
        round(WIDTH * time / PLOTS["beyond"].last, 1) for time in (2.0, 11.9)
    ]
    words = [text for text, *_ in _texts(_drawn(CHARGING))]
    assert {"τ (63\u00a0%)", "t1", "t2", "t in s", "VC1 in V", "VC1(∞)"} <= set(words)
    assert "τ (37\u00a0%)" in [text for text, *_ in _texts(_drawn(PLOTS["discharging"]))]


def test_the_picture_has_a_name_and_a_description() -> None:
    """Who cannot see it hears what it shows."""
    root = _drawn(CHARGING)
    assert root.get("role") == "img"
    assert root.get("aria-labelledby") == "p-title p-desc"
    assert root.findtext(f"{SVG}title") == "A curve"
    assert root.findtext(f"{SVG}desc") == "It climbs."


@pytest.mark.parametrize(
    ("low", "high", "most", "expected"),
    [
        (0, 10, 6, (0, 2, 4, 6, 8, 10)),
        (0, 1.5, 6, (0, 0.5, 1, 1.5)),
        (-3.5, 5.9, 6, (-2, 0, 2, 4)),
        (7.4, 10.6, 6, (8, 9, 10)),
    ],
)
def test_ticks_are_round_numbers(
    low: float, high: float, most: int, expected: tuple[float, ...]
) -> None:
    """One, two or five of a power of ten apart, and no more than there is room for."""
    assert ticks(low, high, most) == pytest.approx(expected)
