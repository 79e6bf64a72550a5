"""How wide a line of text comes out, from the widths of the shipped font."""

from __future__ import annotations

import json
import unicodedata
from functools import cache, lru_cache
from pathlib import Path

from builder.figure.scene import Run

TYPE_SIZE = 15.0
INDEX_SIZE = 0.72
INDEX_DROP = 0.2
ASCENT = 0.9 * TYPE_SIZE
DESCENT = 0.38 * TYPE_SIZE
LINE = ASCENT + DESCENT
SLACK = 1.08
_UNKNOWN, _WIDE = 700, 1000
_KEPT_FOR_NUMBERS = "0.888 µ"


@lru_cache(maxsize=4096)
def line_width(runs: tuple[Run, ...]) -> float:
    """The room for a line, with 8 % of slack for a fallback font, in user units.

    A number that may be replaced by another one (it has a key) gets room for three digits, a
    point and a prefix at least.
    """
    return sum(max(run_width(run), run.room) for run in runs) * SLACK


def run_width(run: Run) -> float:
    """The room for a piece of a line in user units, without slack and without its own ``room``."""
    face = "italic" if run.style == "italic" else "upright"
    thousandths = _advance(run.text, face)
    if run.key:
        unit = run.text.rpartition(" ")[2][-1:]
        thousandths = max(thousandths, _advance(_KEPT_FOR_NUMBERS + unit, face))
    size = TYPE_SIZE * INDEX_SIZE if run.style == "index" else TYPE_SIZE
    return thousandths * size / 1000


@lru_cache(maxsize=4096)
def written_width(text: str, size: float = TYPE_SIZE, *, italic: bool = False) -> float:
    """How wide a text is in our font, without any slack."""
    return _advance(text, "italic" if italic else "upright") * size / 1000


def _advance(text: str, face: str) -> int:
    known = _table()[face]
    return sum(known.get(c) or _guess(c) for c in text)


def _guess(character: str) -> int:
    return _WIDE if unicodedata.east_asian_width(character) in "WF" else _UNKNOWN


@cache
def _table() -> dict[str, dict[str, int]]:
    path = Path(__file__).parent / "glyph_widths.json"
    table: dict[str, dict[str, int]] = json.loads(path.read_text(encoding="utf-8"))
    return table
