"""What a lesson on charging says reads as a teacher would say it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from builder.lesson.prose import Prose
from builder.lesson.questions import ChoiceQuestion
from builder.lesson.transient.write import TransientLesson, write_transient_lesson
from builder.problem import read_problem, read_problem_text
from builder.problem.model import Problem, TransientProblem
from builder.problem.transient.moments import CONSTANT, END, SEEN_RESISTANCE, START, at
from builder.solution.transient.solve import solve_transient
from tests.lesson.telling import options_of, plain
from tests.lesson.test_sentences import Kind, blemishes, texts
from tests.solution.transient.circuits import random_circuit

PROBLEMS = Path(__file__).parents[3] / "content" / "problems"
OURS = ("reservoir-through-a-resistor", "bleeder-of-the-strobe", "tide-gauge-smoother",
        "lantern-switched-over")  # fmt: skip
SEVERAL = """\
title: Two on their own
circuit:
  branches:
    V0: {emf: 9 V, between: [p, g]}
    R1: {resistance: 3 kohm, between: [p, a]}
    R2: {resistance: 6 kohm, between: [a, g]}
    R3: {resistance: 1 kohm, between: [a, b]}
    C1: {capacitance: 10 uF, between: [a, g]}
    C2: {capacitance: 47 uF, between: [b, g]}
find: [{voltage: {C1: end, C2: end}}, {current: {R1: start}}, {energy: [C1, C2]}]
"""


def _lesson(problem: Problem) -> TransientLesson:
    assert isinstance(problem, TransientProblem)
    return write_transient_lesson(solve_transient(problem))


def everything_of(seed: int) -> TransientProblem:
    """A random circuit of which everything is asked."""
    problem = random_circuit(seed)
    moments = (START, END, "t1")
    asked = [at(kind, "C1", when) for kind in ("voltage", "charge", "energy") for when in moments]
    for resistor in problem.circuit.resistors:
        asked += [at(kind, resistor.name, w) for kind in ("current", "power") for w in moments]
    return replace(problem, find=(CONSTANT, SEEN_RESISTANCE, *asked))


LESSONS = {
    **{name: read_problem(PROBLEMS / f"{name}.yml") for name in OURS},
    "several": read_problem_text(SEVERAL, "several.yml"),
    **{f"random-{seed}": everything_of(seed) for seed in (2, 7, 11, 23)},
}


@pytest.mark.parametrize("problem", LESSONS.values(), ids=LESSONS)
def test_every_text_is_well_formed(problem: Problem) -> None:
    """Whatever charges or discharges, and whatever is asked of it."""
    lesson = _lesson(problem)
    told: list[tuple[Kind, Prose]] = [*texts(lesson)]
    told += [(Kind.QUESTION, taught.prompt) for taught in lesson.steps]
    if lesson.course is not None:
        told.append((Kind.SENTENCES, lesson.course.says))
    for kind, prose in told:
        text = plain(prose, lesson.display).replace("e^(−t/τ)", "that share")
        assert not blemishes(text, kind), text


def _reasons(problem: Problem) -> dict[str, str]:
    lesson = _lesson(problem)
    return {taught.step.id: plain(taught.words.reason, lesson.display) for taught in lesson.steps}


def test_long_after_the_capacitor_is_told_to_be_a_gap() -> None:
    """The resistor in its way carries nothing, so it has the voltage of the divider's lower one."""
    assert _reasons(LESSONS["tide-gauge-smoother"])["end"] == (
        "Long after the change nothing changes any more: no current flows into C₁, as if there "
        "were a gap in its place. R₃ carries no current, so there is no voltage across it. So C₁ "
        "has the same voltage as R₂."
    )


def test_at_the_first_instant_the_capacitor_is_a_wire_or_a_battery() -> None:
    """Empty it is a wire; charged it is a battery of what it holds."""
    assert _reasons(LESSONS["tide-gauge-smoother"])["start"].startswith(
        "At the first instant C₁ is still empty: there is no voltage across it, just as across a "
        "wire."
    )
    assert _reasons(LESSONS["lantern-switched-over"])["start"].startswith(
        "At the first instant C₁ still holds 6.00 V. For that instant it acts as a battery"
    )


def test_several_that_are_empty_are_all_wires() -> None:
    """The plural is told as one."""
    assert _reasons(LESSONS["several"])["start"].startswith(
        "At the first instant C₁ and C₂ are still empty: there is no voltage across them, just as "
        "across a wire. So we put a wire in place of each."
    )


# By hand: most is left to go at first; the second two fifths take ln 5, the first half ln 2 time
# constants; 1 − e⁻² = 0.865 of the way is gone after two.
PREDICTIONS = {
    "reservoir-through-a-resistor": "At the first instant *",
    "bleeder-of-the-strobe": "Nearly nine tenths of the way *",
    "tide-gauge-smoother": "At the first instant *",
    "lantern-switched-over": "From halfway to nine tenths of the way *",
}


@pytest.mark.parametrize(("slug", "right"), PREDICTIONS.items())
def test_the_prediction_is_about_the_course(slug: str, right: str) -> None:
    """Which question it is depends on the problem's name; one option is right."""
    lesson = _lesson(LESSONS[slug])
    assert isinstance(lesson.predict, ChoiceQuestion)
    options = options_of(lesson.predict, lesson.display)
    assert [option for option in options if option.endswith("*")] == [right]


def test_the_table_of_the_course_is_in_order_of_time() -> None:
    """Zero, one, two, three and five time constants with the asked times between, by hand.

    12 V · (1 − e^(−n)) and, at 9 V, a quarter left.
    """
    course = _lesson(LESSONS["reservoir-through-a-resistor"]).course
    assert course is not None
    display = _lesson(LESSONS["reservoir-through-a-resistor"]).display
    rows = [tuple(plain(cell, display) for cell in (row.when, row.voltage, row.left))
            for row in course.rows]  # fmt: skip
    assert rows == [
        ("0", "0 V", "100\u00a0%"),
        ("τ = 2.00 s", "7.59 V", "36.8\u00a0%"),
        ("t₁ = 2 s", "7.59 V", "36.8\u00a0%"),
        ("t_9 V ≈ 2.77 s", "9.00 V", "25\u00a0%"),
        ("2τ = 4.00 s", "10.4 V", "13.5\u00a0%"),
        ("3τ = 6.00 s", "11.4 V", "4.98\u00a0%"),
        ("5τ = 10.0 s", "11.9 V", "0.674\u00a0%"),
    ]


def test_several_on_their_own_have_no_common_course() -> None:
    """Then there is no curve, as there is no single time constant."""
    assert _lesson(LESSONS["several"]).course is None
