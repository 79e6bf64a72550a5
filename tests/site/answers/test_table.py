"""Every typed answer of the table gets the verdict that it deserves."""

from __future__ import annotations

from collections import Counter

from playwright.sync_api import Browser

from tests.site.answers.scripts import judged, judging_page
from tests.site.answers.table import QUESTIONS, rows

RIGHTNESS = {"right": True, "empty": None}


def test_typed_answers_are_judged_as_expected(chromium: Browser) -> None:
    """More than 300 answers in one page: kind of verdict, words, wrong turns, rightness."""
    table = rows()
    assert len(table) > 300
    assert len(Counter(row[:2] for row in table)) == len(table)
    page = judging_page(chromium)
    verdicts = judged(page, [(typed, QUESTIONS[question]) for question, typed, _, _ in table])
    page.context.close()
    wrong = []
    for (question, typed, wanted, says), verdict in zip(table, verdicts, strict=True):
        kind, _, turn = wanted.partition(":")
        found = (verdict["kind"], verdict.get("right"), says in verdict["says"])
        fits = found == (kind, RIGHTNESS.get(kind, False), True)
        turns = [int(turn)] if turn else verdict["turns"] if kind in ("prefix", "right") else []
        if not fits or verdict["turns"] != turns or (kind == "other") > bool(verdict["others"]):
            wrong.append((question, typed[:60], wanted, says, verdict))
    assert wrong == []


def test_a_verdict_never_tells_the_answer(chromium: Browser) -> None:
    """No reply to a wrong answer holds the right number."""
    table = [row for row in rows() if row[2] != "right"]
    page = judging_page(chromium)
    verdicts = judged(page, [(typed, QUESTIONS[question]) for question, typed, _, _ in table])
    page.context.close()
    numbers = {"charge": "66", "voltage": "8.57", "resistance": "4.7", "capacitance": "4.7"}
    for (question, typed, _, _), verdict in zip(table, verdicts, strict=True):
        number = numbers.get(question)
        if number and number not in typed:
            assert number not in verdict["says"], typed


def test_a_slip_of_prefix_that_is_a_known_turn_tells_both(chromium: Browser) -> None:
    """66 mC for 66 µC: the factor, and the words on the turn that leads there."""
    page = judging_page(chromium)
    (verdict,) = judged(page, [("66 mC", QUESTIONS["charge"])])
    page.context.close()
    assert (verdict["kind"], verdict["turns"]) == ("prefix", [3])
