"""Wrong rules that an author names stay tellable from the right one."""

from __future__ import annotations

import pytest

from builder.errors import FaultyFile
from builder.lesson import write_lesson
from builder.lesson.apart import telling_apart
from builder.lesson.lesson import Lesson
from builder.problem import read_problem_text
from builder.problem.fresh import renewed
from builder.quantity.names import Name
from builder.solution import solve

CHAIN = """\
title: Two capacitors
circuit:
  source: 12 V
  series:
    - C1: 10 uF
    - C2: 40 uF
find: [equivalent, {voltage: all}]
"""


def lesson_of(text: str) -> Lesson:
    """The lesson of a problem."""
    return write_lesson(solve(read_problem_text(text, "chain.yml")))


def test_a_set_in_which_a_rule_is_right_does_not_tell_it_apart() -> None:
    """With equal capacitors, the voltage is indeed shared equally, and nobody is caught."""
    lesson = lesson_of(CHAIN + "keep: {apart: equal-voltages}\n")
    tells = telling_apart(lesson)
    assert tells is not None
    problem = lesson.solution.problem
    second = Name("capacitance", "C2")
    assert tells(solve(renewed(problem, {second: "15 uF"})))
    assert not tells(solve(renewed(problem, {second: "10 uF"})))


def test_nothing_is_asked_for_without_the_key() -> None:
    """Most problems name no rules."""
    assert telling_apart(lesson_of(CHAIN)) is None


def test_a_rule_that_fits_nowhere_is_a_fault() -> None:
    """It stands with its place, the rules that fit, and the one that was probably meant."""
    lesson = lesson_of(CHAIN + "keep: {apart: [equal-voltage, half-life]}\n")
    with pytest.raises(FaultyFile) as caught:
        telling_apart(lesson)
    first, second = map(str, caught.value.faults)
    assert first.startswith('chain.yml:8:16: found the wrong rule "equal-voltage", which leads to '
                            "no wrong number here; expected ")  # fmt: skip
    assert first.endswith('Did you mean "equal-voltages"?')
    assert "equal-voltages" in first.split("expected")[1]
    assert second.startswith('chain.yml:8:31: found the wrong rule "half-life"')
