"""The README says what can be typed, and that can be typed."""

from __future__ import annotations

import re

from playwright.sync_api import Browser

from tests.conftest import ROOT
from tests.site.answers.scripts import judged, judging_page
from tests.site.answers.table import QUESTIONS
from tests.site.answers.test_expressions import C, V, data_of


def test_what_the_readme_promises_is_taken(chromium: Browser) -> None:
    """Each spelling of the passage for students is right for the value that it speaks of."""
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    passage = text.split("## What students can type\n", 1)[1].split("\n\n", 1)[0]
    numbers, rest = passage.split("Where a\nresistance", 1)
    codes, letters = rest.split("An\nanswer in letters", 1)
    rows = [(typed, QUESTIONS["charge"]) for typed in re.findall(r"`([^`]+)`", numbers)]
    parts = {"4k7": ("Ω", "4.7e3"), "4R7": ("Ω", "4.7"), "10n": ("F", "1e-8")}
    assert re.findall(r"`([^`]+)`", codes) == list(parts)
    for typed, (unit, value) in parts.items():
        rows.append((typed, {"value": value, "digits": 3, "unit": unit, "noun": "value"}))
    spellings = re.findall(r"`([^`]+)`", letters)[:-2]
    rows += [(typed, data_of(2 * C * V / 3, (C, V))) for typed in spellings]
    assert len(rows) == 17
    page = judging_page(chromium)
    verdicts = judged(page, rows)
    page.context.close()
    assert [
        row[0] for row, verdict in zip(rows, verdicts, strict=True) if not verdict["right"]
    ] == []
