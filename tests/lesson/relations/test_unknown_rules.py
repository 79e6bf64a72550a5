"""Mistakes with unknown elements, each against a wrong value worked by hand."""

from __future__ import annotations

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st

from builder.errors import FaultyFile
from builder.lesson.kinds import about, topic, uses, write_lesson
from builder.lesson.relations.unknown import RULES, UnknownDisplay
from builder.lesson.slips import slips_of
from builder.problem.model import NestProblem
from builder.solution.relations.unknown import solve_unknown
from tests.lesson.telling import plain
from tests.lesson.test_sentences import Kind, blemishes
from tests.solution.relations.test_unknown import PAIR, RS, hidden_in, solved, unknown_problem
from tests.strategies import problems

FORK = "{source: 2 A, parallel: [R1: 6 ohm, R2: unknown]}"
CS = "{source: 12 V, series: [C1: 6 uF, C2: unknown]}"

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
    # 1/(1/2 + 1/6).
    ("added-on", "{parallel: [R1: 6 ohm, R2: unknown]}", "{equivalent: 2 ohm}", "R2", "1.50 Ω"),
    # All of the 12 V, of the 2 A.
    ("whole-for-one", RS, "{voltage: {R1: 4 V}}", "voltage: R2", "12.0 V"),
    ("whole-for-one", FORK, "{current: {R1: 1.5 A}}", "current: R2", "2.00 A"),
    ("whole-for-one", CS, "{voltage: {C1: 8 V}}", "voltage: C2", "12.0 V"),
    # Half of them, where R1 has 4 V, or 1.5 A, and C1 has 8 V.
    ("equal-shares", RS, "{voltage: {R1: 4 V}}", "voltage: R2", "6.00 V"),
    ("equal-shares", FORK, "{current: {R1: 1.5 A}}", "current: R2", "1.00 A"),
    ("equal-shares", CS, "{voltage: {C1: 8 V}}", "voltage: C2", "6.00 V"),
    # 6 − 2; 6 − 2; 12 − 3.
    ("subtracted-instead", "{series: [C1: 6 uF, C2: unknown]}", "{equivalent: 2 uF}", "C2",
     "4.00 µF"),
    ("subtracted-instead", "{parallel: [R1: 6 ohm, R2: unknown]}", "{equivalent: 2 ohm}", "R2",
     "4.00 Ω"),
    ("subtracted-instead", "{series: [C1: 12 uF, C2: unknown]}", "{equivalent: 3 uF}", "C2",
     "9.00 µF"),
    # 1/(1/5 − 1/8) = 40/3; 1/(1/9 − 1/13) = 117/4; 1/(1/2 − 1/6).
    ("reciprocals-instead", "{parallel: [C1: 5 uF, C2: unknown]}", "{equivalent: 8 uF}", "C2",
     "13.3 µF"),
    ("reciprocals-instead", "{series: [R1: 9 ohm, R2: unknown]}", "{equivalent: 13 ohm}", "R2",
     "29.3 Ω"),
    ("reciprocals-instead", "{parallel: [C1: 2 uF, C2: unknown]}", "{equivalent: 6 uF}", "C2",
     "3.00 µF"),
    # 1/2 − 1/6; 1/2 − 1/6; 1/3 − 1/12.
    ("never-inverted", "{series: [C1: 6 uF, C2: unknown]}", "{equivalent: 2 uF}", "C2",
     "0.333 µF"),
    ("never-inverted", "{parallel: [R1: 6 ohm, R2: unknown]}", "{equivalent: 2 ohm}", "R2",
     "0.333 Ω"),
    ("never-inverted", "{series: [C1: 12 uF, C2: unknown]}", "{equivalent: 3 uF}", "C2",
     "0.250 µF"),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "circuit", "measured", "of", "shown"), WORKED)
def test_a_mistake_gives_the_number_worked_by_hand(
    rule: str, circuit: str, measured: str, of: str, shown: str
) -> None:
    """Each rule yields what the mistake leads to; its working stands above the rows."""
    asked = f"[{{{of}}}]" if ":" in of else f"[{of}]"
    slips = slips_of(UnknownDisplay(solved(circuit, measured, asked)), RULES)
    quantity, _, of = of.rpartition(": ")
    assert shown in {s.shown.text for s in slips if rule in s.rules and s.wrong.name.of == of
                     and quantity in ("", s.wrong.name.quantity)}  # fmt: skip


def test_every_rule_is_worked_in_three_problems() -> None:
    """No rule stands without at least three problems with worked values."""
    problems = {rule.id: {row[1:4] for row in WORKED if row[0] == rule.id} for rule in RULES}
    assert {row[0] for row in WORKED} == set(problems)
    assert {id: len(those) for id, those in problems.items() if len(those) < 3} == {}


@pytest.mark.parametrize(("rule", "circuit", "measured", "of", "shown"), WORKED)
def test_what_is_told_of_mistakes_is_well_formed(
    rule: str, circuit: str, measured: str, of: str, shown: str
) -> None:
    """The sentence, the reason and the heading of each slip, which is never right."""
    asked = f"[{{{of}}}]" if ":" in of else f"[{of}]"
    display = UnknownDisplay(solved(circuit, measured, asked))
    for slip in slips_of(display, RULES):
        assert slip.shown.text != display.shown(slip.wrong.name).text
        for kind, told in ((Kind.SENTENCES, slip.sentence), (Kind.SENTENCES, slip.tempting),
                           (Kind.HEADING, (slip.rule.called,))):  # fmt: skip
            assert not blemishes(plain(told, display), kind), plain(told, display)


@given(problem=problems(most=5), pick=st.integers(0, 6), fact=st.integers(0, 20))
@settings(max_examples=40)
def test_whatever_is_hidden_no_mistake_is_right(problem: NestProblem, pick: int, fact: int) -> None:
    """At the shown digits a slip differs from the right value and from every other slip."""
    try:
        display = UnknownDisplay(solve_unknown(hidden_in(problem, pick, fact)))
    except FaultyFile:
        reject()
    seen = set()
    for slip in slips_of(display, RULES):
        assert slip.shown.text != display.shown(slip.wrong.name).text
        assert (slip.wrong.name, slip.shown.text) not in seen
        assert slip.wrong.step in {step.id for step in display.solution.steps}
        assert not blemishes(plain(slip.sentence, display), Kind.SENTENCES)
        seen.add((slip.wrong.name, slip.shown.text))


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
