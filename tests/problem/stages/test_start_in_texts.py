"""An author's texts tell what a capacitor starts with by a placeholder."""

from __future__ import annotations

import pytest

from builder.lesson import write_lesson
from builder.lesson.kinds import display_of
from builder.problem import read_problem_text
from builder.problem.fresh import choices, renewed
from builder.quantity.names import Name
from builder.site.markup import Writer
from builder.solution import solve
from tests.problem.samples import faults_of

STAGES = """\
title: Two capacitors
scenario: SAID
circuit:
  branches:
    C1: {capacitance: 6 uF, charged: 20 V, between: [left, bottom]}
    C2: {capacitance: 4 uF, between: [right, bottom]}
    S1: {switch: open, between: [left, right]}
stages: [{close: S1}]
find: [{voltage: C1}]
"""
CHARGING = """\
title: A bleeder
scenario: SAID
circuit:
  branches:
    C1: {capacitance: 6 uF, charged: 60 uC, between: [top, bottom]}
    R1: {resistance: 2 kohm, between: [top, bottom]}
find: [time-constant]
"""
STATED = {STAGES: Name("voltage", "C1@0"), CHARGING: Name("charge", "C1@start")}


@pytest.mark.parametrize(("text", "shown"), [(STAGES, "20"), (CHARGING, "60")])
def test_a_start_is_told_and_changes_along(text: str, shown: str) -> None:
    """The page writes it as a number of that quantity; with other values it is another."""
    name = STATED[text]
    problem = read_problem_text(text.replace("SAID", '"It holds {C1.charged}."'), "p.yml")
    told = Writer(display_of(solve(problem))).placeholder("C1.charged")
    assert told is not None
    assert f'data-q="{name.key}"' in told
    assert shown in told.striptags()
    assert len(choices(problem)[name]) > 3
    other = renewed(problem, {name: choices(problem)[name][0]})
    assert shown not in str(Writer(display_of(solve(other))).placeholder("C1.charged"))
    assert write_lesson(solve(other)).solution.problem.scenario == "It holds {C1.charged}."


@pytest.mark.parametrize(
    ("said", "fault"),
    [
        ("{C1.charge}", 'found the placeholder "{C1.charge}"; expected {C1}, {C1.name}, {C1.value} '
         'or {C1.charged}. Did you mean "C1.charged"?'),
        ("{C2.charged}", 'found the placeholder "{C2.charged}"; expected {C2}, {C2.name} or '
         "{C2.value}. Choose one of these."),
    ],
)  # fmt: skip
def test_only_what_starts_charged_has_it(said: str, fault: str) -> None:
    """A capacitor without a stated start is none to speak of so."""
    assert faults_of(STAGES.replace("SAID", f'"{said}"')) == [f"problem.yml:2:12: {fault}"]


def test_vary_proposes_the_placeholder() -> None:
    """A start that varies is not spelled out either."""
    text = STAGES.replace("SAID", "It holds 20 V.") + "vary: {C1.charged: [10 V, 20 V]}\n"
    (told,) = faults_of(text)
    assert told.endswith("Write {C1.charged} in the text instead of the number.")
