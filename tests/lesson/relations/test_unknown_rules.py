"""Mistakes with unknown elements, each against a wrong value worked by hand."""

from __future__ import annotations

import pytest

from builder.lesson.kinds import about, topic, uses, write_lesson
from builder.lesson.relations.unknown import RULES, UnknownDisplay
from builder.lesson.wrong_rule import slips_of
from tests.solution.relations.test_unknown import PAIR, solved, unknown_problem

WORKED = [
    # 8 + 5; 1/(1/2 + 1/6); 13 + 9; in PAIR C23 = 6 µF, and 6 + 4.
    ("added-on", "{parallel: [C1: 5 uF, C2: unknown]}", "{equivalent: 8 uF}", "C2", "13.0 µF"),
    ("added-on", "{series: [C1: 6 uF, C2: unknown]}", "{equivalent: 2 uF}", "C2", "1.50 µF"),
    ("added-on", "{series: [R1: 9 ohm, R2: unknown]}", "{equivalent: 13 ohm}", "R2", "22.0 Ω"),
    ("added-on", PAIR, "{charge: {C1: 48 uC}}", "C2", "10.0 µF"),
    # The equivalent itself.
    ("equivalent-for-one", "{series: [C1: 6 uF, C2: unknown]}", "{equivalent: 2 uF}", "C2",
     "2.00 µF"),
    ("equivalent-for-one", "{parallel: [C1: 5 uF, C2: unknown]}", "{equivalent: 8 uF}", "C2",
     "8.00 µF"),
    ("equivalent-for-one", PAIR, "{charge: {C1: 48 uC}}", "C2", "4.00 µF"),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "circuit", "measured", "of", "shown"), WORKED)
def test_a_mistake_gives_the_number_worked_by_hand(
    rule: str, circuit: str, measured: str, of: str, shown: str
) -> None:
    """Each rule yields what the mistake leads to; its working stands above the rows."""
    display = UnknownDisplay(solved(circuit, measured, f"[{of}]"))
    found = {(s.rule.id, s.wrong.name.of): s.shown.text for s in slips_of(display, RULES)}
    assert found[rule, of] == shown


def test_every_rule_is_worked_by_hand() -> None:
    """No rule stands without at least three worked values."""
    assert all(sum(row[0] == rule.id for row in WORKED) >= 3 for rule in RULES)


def test_a_problem_with_an_unknown_is_told_in_a_few_words() -> None:
    """Lists tell how many elements there are and how many of them are unknown."""
    problem = unknown_problem(PAIR, "{charge: {C1: 48 uC}}", "[C2]")
    assert (about(problem), topic(problem)) == ("three capacitors, one unknown", "capacitors")
    assert "unknown" in uses(problem)


def test_the_lesson_goes_from_what_was_measured_to_the_unknown() -> None:
    """Each step names what it seeks and which relation of the nest gives it."""
    lesson = write_lesson(solved(PAIR, "{charge: {C1: 48 uC}}", "[C2]"))
    said = ["".join(p if isinstance(p, str) else p.name.of for p in taught.words.reason
                    if isinstance(p, str) or hasattr(p, "name"))
            for taught in lesson.steps]  # fmt: skip
    assert said[0] == "C1 and C23 form one chain, so each of them has the same charge as total."
    assert said[3] == (
        "C2 and C3 lie side by side, so their capacitances add up to that of C23. Only C2 is not "
        "known in this."
    )
