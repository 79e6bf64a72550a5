"""Lessons of random problems in stages, with everything asked."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from builder.circuit.switching import LOST, moment
from builder.lesson import write_lesson
from builder.lesson.answers import answers
from builder.problem.model import StagesProblem
from builder.quantity.names import TOTAL, Name
from tests.lesson.stages.stories import every_text, told
from tests.solution.stages.building import solved
from tests.solution.stages.drawing import random_problems


def _everything(problem: StagesProblem) -> tuple[Name, ...]:
    capacitors = [element.name for element in problem.network.elements]
    batteries = [source.name for source in problem.network.sources]
    stages = range(1, len(problem.stages) + 1)
    return (
        *(Name(quantity, of) for quantity in ("charge", "voltage", "energy") for of in capacitors),
        *(Name(quantity, of) for quantity in ("charge", "energy") for of in batteries),
        *(Name("energy", of) for of in (TOTAL, LOST)),
        *(Name("energy", moment(LOST, stage)) for stage in stages),
        *(Name("voltage", moment(of, 0)) for of in capacitors),
    )


@pytest.mark.parametrize("seed", range(11, 15))
def test_whatever_the_circuit_its_lesson_reads_well(seed: int) -> None:
    """Every quantity is answered, every step has its words, and no sentence is broken."""
    for problem in random_problems(15, seed):
        asking = replace(problem, find=_everything(problem))
        lesson = write_lesson(solved(asking))
        assert len(answers(lesson.solution)["answers"]) == len(asking.find)
        for goal, reason, _ in told(lesson).values():
            assert re.fullmatch(r"[A-Z].*[^.]", goal), goal
            assert re.fullmatch(r"[A-Z].*\.", reason), reason
        for text in every_text(lesson):
            assert not re.search(r"[{}]|  | ,|\.\.|\b(\w+) \1\b", text), text
