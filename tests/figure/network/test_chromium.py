"""Figures of networks measured in a real browser."""

from __future__ import annotations

import re
import time
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from builder.figure.network import NetworkDrawing, draw_network, lay_out_network
from builder.figure.scene import Scene
from builder.figure.svg import to_svg
from builder.figure.text_size import line_width
from builder.quantity.names import Symbol
from tests.figure.network.drawings import (
    CROSSED,
    PLACES,
    TYPICAL,
    drawing,
    full_drawing,
    open_drawings,
    placed_drawing,
    random_drawing,
    wild_drawing,
)
from tests.figure.test_chromium import FACES, Report, measured

RANDOM = [random_drawing(seed) for seed in range(150)]
KNOWN = [drawing(text, found) for found in (0, 2) for text in TYPICAL.values()]
DRESSED = [full_drawing(), *open_drawings(), *map(placed_drawing, PLACES)]
WILD = [wild_drawing(seed) for seed in range(40)]
ALL = [*RANDOM, *KNOWN, *DRESSED, *WILD]
WIRE = re.compile(r'<path class="sw-wire" data-junction="[^"]*"[^>]* d="([^"]*)"/>')
PIECE = re.compile(r"M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)")


def svg(asked: NetworkDrawing, number: int = 0) -> str:
    """The figure of a drawing."""
    return draw_network(asked, id_prefix=f"f{number}", title="Network", description="A network.")


def written(folder: Path, figures: list[str], style: str = FACES) -> Path:
    """A page with figures."""
    path = folder / "figures.html"
    path.write_text(
        f'<!doctype html><meta charset="utf-8"><style>{style}</style>{"".join(figures)}',
        encoding="utf-8",
    )
    return path


@dataclass(frozen=True)
class Drawn:
    """A figure: its scene, its markup, and the seconds of the processor that it took."""

    scene: Scene
    svg: str
    seconds: float


@pytest.fixture(scope="module")
def drawn() -> list[Drawn]:
    """The random figures, then the typical ones, then those with more to them."""
    found = []
    for number, asked in enumerate(ALL):
        start = time.process_time()
        scene = lay_out_network(asked)
        figure = to_svg(scene, id_prefix=f"f{number}", title="Network", description="A network.")
        found.append(Drawn(scene, figure, time.process_time() - start))
    return found


@pytest.fixture(scope="module")
def figures(drawn: list[Drawn]) -> list[str]:
    """The markup of all figures."""
    return [figure.svg for figure in drawn]


@pytest.fixture(scope="module")
def reports(
    chromium: Browser, figures: list[str], tmp_path_factory: pytest.TempPathFactory
) -> list[Report]:
    """The measures of all figures in the shipped font."""
    page = chromium.new_page()
    found = measured(page, written(tmp_path_factory.mktemp("networks"), figures))
    page.close()
    return found


def test_nothing_touches(reports: list[Report]) -> None:
    """In 150 planar networks, 60 known and 40 wild ones nothing touches what it should not."""
    assert len(RANDOM) == 150
    assert len(reports) == len(ALL) > 200
    assert sum(len(report["texts"]) for report in reports) > 4000
    assert sum(report["strokes"] for report in reports) > 10000
    faults = {number: r["faults"] for number, r in enumerate(reports) if r["faults"]}
    assert faults == {}


def test_all_is_there_once(drawn: list[Drawn], reports: list[Report]) -> None:
    """Every element, name, value and mark is shown exactly once."""
    for asked, figure, report in zip(ALL, drawn, reports, strict=True):
        shown = [b for b in asked.branches if not b.kind.endswith("source")]
        assert Counter(name for name, _ in report["elements"]) == Counter(b.id for b in shown)
        values = [v for b in asked.branches if b.label for v in b.label.values]
        values += [b.arrow.text for b in asked.branches if b.arrow and b.arrow.text]
        assert Counter(map(tuple, report["values"])) == Counter((v.key, v.text) for v in values)
        texts = Counter(text["text"] for text in report["texts"])
        for branch in asked.branches:
            if branch.label is not None:
                name = branch.label.symbol.letter + branch.label.symbol.index
                starts = [t for t in texts.elements() if t.split("\u2002")[0] == name]
                same: list[Symbol | str | None] = [*asked.junction_names.values()]
                same += [b.arrow.symbol for b in asked.branches if b.arrow and not b.arrow.text]
                assert len(starts) == 1 + same.count(branch.label.symbol)
        shown_names = re.findall(r'sw-junction-name" data-junction="([^"]*)"', figure.svg)
        assert sorted(shown_names) == sorted(asked.junction_names)
        assert len(figure.scene.grounds) == (asked.grounded is not None)
        assert len(figure.scene.curls) == len(asked.loops)
        for written_name in asked.junction_names.values():
            text = (
                written_name
                if isinstance(written_name, str)
                else written_name.letter + written_name.index
            )
            assert texts[text] >= 1


def test_wires_are_orthogonal(figures: list[str]) -> None:
    """Every wire runs straight across or straight down; no figure of a planar network hops."""
    pieces = 0
    for number, figure in enumerate(figures):
        for shape in WIRE.findall(figure):
            for x1, y1, x2, y2 in PIECE.findall(shape):
                assert x1 == x2 or y1 == y2, number
                pieces += 1
    assert pieces > 3000
    assert not any('class="sw-hop"' in figure for figure in figures[: len(RANDOM)])
    crossed = [name in CROSSED for _ in (0, 2) for name in TYPICAL]
    known = figures[len(RANDOM) : len(RANDOM) + len(KNOWN)]
    assert ['class="sw-hop"' in figure for figure in known] == crossed


def test_room_kept_for_text_is_enough(drawn: list[Drawn], reports: list[Report]) -> None:
    """No line beside an element comes out wider than the room that the layout keeps for it."""
    for figure, report in zip(drawn, reports, strict=True):
        lines = [line for c in figure.scene.components for line in c.lines]
        others = len(figure.scene.names) + len(figure.scene.curls)
        assert len(lines) + others == len(report["texts"])
        for line, shown in zip(lines, report["texts"], strict=False):
            assert 0 < shown["length"] <= line_width(line.runs)


def test_drawing_is_fast(drawn: list[Drawn]) -> None:
    """The slowest of 150 random networks of up to 16 elements is drawn within half a second."""
    slowest = max(figure.seconds for figure in drawn[: len(RANDOM)])
    assert slowest < 0.5, f"{slowest * 1000:.0f} ms"


@pytest.mark.parametrize(
    ("harm", "fault"),
    [
        ("document.querySelectorAll('.sw-element text')[0].setAttribute('x', 0)", "lies on"),
        (
            "const w = document.querySelectorAll('.sw-wire')[1]; w.setAttribute('d', "
            "w.getAttribute('d') + 'M-500 60L900 60')",
            "cross",
        ),
        (
            "const w = document.querySelectorAll('.sw-wire')[1]; w.setAttribute('d', "
            "w.getAttribute('d') + 'M-500 60L900 60')",
            "runs through a symbol",
        ),
        (
            "document.querySelector('.sw-loop').setAttribute('transform', 'translate(70 0)')",
            "a loop arrow lies on a wire",
        ),
        (
            "document.querySelector('.sw-arrow').setAttribute('transform', 'translate(0 38)')",
            "an arrow lies on a symbol",
        ),
    ],
)
def test_measure_sees_faults(chromium: Browser, tmp_path: Path, harm: str, fault: str) -> None:
    """The measure finds wires, arrows and texts that were moved onto something on purpose."""
    page = chromium.new_page()
    path = written(tmp_path, [svg(full_drawing())])
    assert measured(page, path)[0]["faults"] == []
    path.write_text(path.read_text(encoding="utf-8") + f"<script>{harm}</script>", encoding="utf-8")
    faults = measured(page, path)[0]["faults"]
    page.close()
    assert any(fault in found for found in faults), faults
