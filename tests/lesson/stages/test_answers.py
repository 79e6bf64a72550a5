"""The contract of answers as plain data, for problems in stages."""

from __future__ import annotations

from builder.lesson.answers import answers
from tests.lesson.stages.stories import LIKE, TRANSFER, UNLIKE, lesson_of


def test_a_quantity_without_a_moment_is_that_of_the_end() -> None:
    """``of`` is the capacitor's name; values are in SI units."""
    data = answers(lesson_of(LIKE).solution)
    assert data["agree"] is True
    assert data["answers"] == [
        {"quantity": "voltage", "of": "C1", "unit": "V", "exact": "8", "value": 8.0,
         "shown": "8.00 V"},
        {"quantity": "charge", "of": "C1", "unit": "C", "exact": "1/31250", "value": 3.2e-05,
         "shown": "32.0 µC"},
        {"quantity": "charge", "of": "C2", "unit": "C", "exact": "1/62500", "value": 1.6e-05,
         "shown": "16.0 µC"},
        {"quantity": "energy", "of": "lost", "unit": "J", "exact": "3/31250", "value": 9.6e-05,
         "shown": "96.0 µJ"},
    ]  # fmt: skip


def test_a_moment_follows_the_name() -> None:
    """``C1@1`` is C1 after the first stage; a battery's energy is what it delivers in all."""
    rows = answers(lesson_of(TRANSFER).solution)["answers"]
    told = {(row["quantity"], row["of"]): row["shown"] for row in rows}
    assert told[("charge", "C1@1")] == "48.0 µC"
    assert told[("energy", "V0")] == "576 µJ"
    assert told[("energy", "lost")] == "384 µJ"


def test_a_capacitor_that_has_turned_over_has_a_negative_voltage() -> None:
    """The sign counts from the junction that stood first."""
    rows = answers(lesson_of(UNLIKE).solution)["answers"]
    told = {(row["quantity"], row["of"]): row["exact"] for row in rows}
    assert told[("voltage", "C2")] == "-5"
