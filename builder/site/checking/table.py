"""A report as a table for a terminal, as wide as that is."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from pathlib import Path

from builder.pointing import columns, visible
from builder.site.checking.lines import verdict
from builder.site.checking.report import Checked, Report

Paint = Callable[[str, str], str]
"""Colours a text by the word of its verdict."""

_HEADS = ("problem", "kind", "steps", "answers", "verdict")
_TO_THE_RIGHT = (2, 3)
_FEW_HEADS = ("problem", "verdict")
_GAP = "  "
_SHORTEST = 12
"""So many signs of a name are shown, however narrow the terminal is."""
_INDENT = 2


@dataclass(frozen=True)
class _Row:
    """A file in the table: its cells, and its verdict in one word."""

    cells: tuple[str, ...]
    verdict: str


def table(report: Report, width: int, paint: Paint = lambda text, _: text) -> Iterator[str]:
    """A row for each problem, under its folder, and for what else is faulty or odd.

    Args:
        report: of a check.
        width: of the terminal, in columns. Where not everything has room, the name and the
            verdict are shown; where these have none either, the name is cut.
        paint: colours the verdicts, which say the same without.
    """
    shown = [one for one in report.files if not one.part or one.wrong or one.oddities]
    if not shown:
        return
    rows = [_Row(_cells(one), one.verdict) for one in shown]
    heads: tuple[str, ...] = _HEADS
    if _width_of(heads, rows) > width:
        heads = _FEW_HEADS
        rows = [_Row((row.cells[0], row.cells[-1]), row.verdict) for row in rows]
    wide = [_widest(heads, rows, column) for column in range(len(heads))]
    wide[0] = max(_SHORTEST, wide[0] - max(0, _width_of(heads, rows) - width))
    yield _line(heads, wide).rstrip()
    pairs = zip(shown, rows, strict=True)
    for folder, group in groupby(pairs, key=lambda pair: Path(pair[0].path).parent.as_posix()):
        yield _cut(visible(folder), width)
        for _, row in group:
            *most, last = row.cells
            yield _line([" " * _INDENT + most[0], *most[1:], ""], wide) + paint(last, row.verdict)


def _cells(one: Checked) -> tuple[str, ...]:
    path, solved = Path(one.path), one.solved
    name = visible(path.name if one.part else path.stem)
    kind = solved.called if solved else one.part or "–"
    steps, answers = (str(solved.steps), str(solved.answers)) if solved else ("–", "–")
    return (name, kind, "" if one.part else steps, "" if one.part else answers, verdict(one))


def _widest(heads: Sequence[str], rows: Sequence[_Row], column: int) -> int:
    indent = 0 if column else _INDENT
    return max(columns(heads[column]), *(columns(row.cells[column]) + indent for row in rows))


def _width_of(heads: Sequence[str], rows: Sequence[_Row]) -> int:
    widths = [_widest(heads, rows, column) for column in range(len(heads))]
    return sum(widths) + len(_GAP) * (len(heads) - 1)


def _line(cells: Sequence[str], wide: Sequence[int]) -> str:
    """Cells side by side; the last one is not filled up."""
    said = []
    for column, (cell, room) in enumerate(zip(cells[:-1], wide, strict=False)):
        short = _cut(cell, room)
        blank = " " * (room - columns(short))
        right = len(wide) > len(_FEW_HEADS) and column in _TO_THE_RIGHT
        said.append(blank + short if right else short + blank)
    return _GAP.join([*said, cells[-1]])


def _cut(text: str, room: int) -> str:
    """A text with dots in place of its end where it has no room."""
    if columns(text) <= room:
        return text
    while text and columns(text) >= room:
        text = text[:-1]
    return f"{text}…"
