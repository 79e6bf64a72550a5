"""An author's own words for steps of problems whose steps are known only once they are solved."""

from __future__ import annotations

import pytest

from builder.errors import FaultyFile
from builder.lesson import write_lesson
from builder.problem import read_problem_text
from builder.solution import solve

BRIDGE = """\
title: A bridge out of balance
circuit:
  branches:
    V0: {{emf: 24 V, between: [a, d]}}
    R1: {{resistance: 10 ohm, between: [a, b]}}
    R2: {{resistance: 40 ohm, between: [a, c]}}
    R3: {{resistance: 35 ohm, between: [b, d]}}
    R4: {{resistance: 20 ohm, between: [c, d]}}
    R5: {{resistance: 50 ohm, between: [b, c]}}
find: [equivalent]
words:
  {id}: The source sees all of it.
"""


def test_words_for_a_step_that_there_is_not_are_told_with_their_place() -> None:
    """The line and the column of the id, the ids that there are, and the one that was meant."""
    problem = read_problem_text(BRIDGE.format(id="merge-totl"), "bridge.yml")
    with pytest.raises(FaultyFile) as caught:
        write_lesson(solve(problem))
    (fault,) = caught.value.faults
    assert (fault.path, fault.line, fault.column) == ("bridge.yml", 12, 3)
    assert fault.found == 'the step "merge-totl"'
    assert "merge-total" in fault.expected
    assert fault.advice == 'Did you mean "merge-total"?'


def test_words_for_a_step_that_there_is_take_its_place() -> None:
    """The author's reason stands where the generated one would."""
    problem = read_problem_text(BRIDGE.format(id="merge-total"), "bridge.yml")
    lesson = write_lesson(solve(problem))
    (step,) = [taught for taught in lesson.steps if taught.step.id == "merge-total"]
    assert "The source sees all of it." in str(step.words.reason)
