"""The questions to the class, as whole sentences."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from builder.lesson.checked import CHECKS_PROMPT
from builder.lesson.nest.display import NestDisplay
from builder.lesson.nest.prompts import prompt
from builder.problem.model import NestProblem
from builder.solution.nest.solve import solve_nest
from tests.lesson.telling import asking, parallel, plain, series, taught_problems

MIXED = series("C1", parallel("C2", "C3"))
HEATER = series("R1", parallel("R2", "R3"))
LADDER = series("R1", parallel("R2", series("R3", parallel("R4", "R5"))))
BANK = parallel("R1", "R2")


def prompts_of(problem: NestProblem) -> dict[str, str]:
    """The prompt of each step, by the step's name."""
    display = NestDisplay(solve_nest(problem))
    return {step.id: plain(prompt(step, display), display) for step in display.solution.steps}


@pytest.mark.parametrize(
    ("problem", "prompts"),
    [
        (
            asking(MIXED, "12 V"),
            {
                "merge-C23": "Which capacitors share both junctions?",
                "merge-total": "What is the same for C₁ and C₂₃: the voltage or the charge?",
                "charge": "Only C_eq is left. Which law gives the charge that the source delivers?",
                "open-total": "What do C₁ and C₂₃ have in common with C_eq: the voltage or the "
                "charge?",
                "open-C23": "What do C₂ and C₃ have in common with C₂₃: the voltage or the charge?",
                "energy": "Which formula for the energy uses only what is known by now?",
                "energy-total": "How does the energy of the whole circuit follow from its parts?",
            },
        ),
        (
            asking(LADDER, "12 V", "current:R4", "power:total"),
            {
                "merge-R45": "Which resistors share both junctions?",
                "merge-R345": "Which resistors now follow one another with nothing joined on in "
                "between?",
                "merge-R2345": "Which resistors share both junctions now?",
                "merge-total": "What is the same for R₁ and R₂₃₄₅: the voltage or the current?",
                "current": "Only R_eq is left. Which law gives the current that the source "
                "delivers?",
                "open-total": "What does R₂₃₄₅ have in common with R_eq: the voltage or the "
                "current?",
                "open-R2345": "What does R₃₄₅ have in common with R₂₃₄₅: the voltage or the "
                "current?",
                "open-R345": "What does R₄₅ have in common with R₃₄₅: the voltage or the current?",
                "open-R45": "What does R₄ have in common with R₄₅: the voltage or the current?",
                "power-total": "Seen from the source, what is the whole circuit? Which formula "
                "then gives its power?",
            },
        ),
        (
            asking(HEATER, "2 A", "voltage:total"),
            {
                "merge-R23": "Which resistors share both junctions?",
                "merge-total": "What is the same for R₁ and R₂₃: the voltage or the current?",
                "current": "Only R_eq is left. Which law gives the voltage across the source?",
            },
        ),
        (
            asking(BANK, "12 V", "current:R1", "current:R2", "current:total"),
            {
                "open-total": "What do R₁ and R₂ have in common with the source: the voltage or "
                "the current?",
                "current-total": "Where do the currents of all branches come together?",
            },
        ),
        (
            asking("C1", "12 V", "charge:C1"),
            {"charge": "Which law gives the charge on C₁?"},
        ),
        (
            asking("R1", "12 V", "voltage:R1"),
            {"current": "What is the voltage across R₁?"},
        ),
    ],
)  # fmt: skip
def test_each_step_is_asked_before_it_is_told(
    problem: NestProblem, prompts: dict[str, str]
) -> None:
    """The class hears a question on the decision of the step, for every kind of step."""
    assert prompts_of(problem) == prompts


def test_the_checks_are_asked_for_too() -> None:
    """Before the checks the class is asked what must be true."""
    assert CHECKS_PROMPT == ("Does it add up? What must be true of these results?",)


@settings(max_examples=40)
@given(taught_problems(8))
def test_a_prompt_is_a_question_without_a_result(problem: NestProblem) -> None:
    """Whatever the circuit, a prompt is one question and tells no number that is to be found."""
    display = NestDisplay(solve_nest(problem))
    for step in display.solution.steps:
        asked = prompt(step, display)
        assert plain(asked, display).endswith("?")
        assert not [piece for piece in asked if type(piece).__name__ == "NumberOf"]
