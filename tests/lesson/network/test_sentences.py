"""Every text of a network's lesson is a well-formed sentence, heading or fragment."""

from __future__ import annotations

import re

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from builder.circuit.law import Law
from builder.errors import FaultyFile
from builder.lesson import Lesson, write_lesson
from builder.lesson.prose import Prose
from builder.problem import read_problem_text
from builder.solution import solve
from tests.lesson.network.networks import LESSONS, lesson_of
from tests.lesson.telling import plain
from tests.lesson.test_sentences import Kind, blemishes, texts
from tests.solution.network.drawn import tables


def _texts(lesson: Lesson) -> list[tuple[Kind, Prose]]:
    """Every text, the prompts and the table's words among them."""
    found = list(texts(lesson))
    found += [(Kind.QUESTION, taught.prompt) for taught in lesson.steps]
    for table in lesson.tables:
        found += [(Kind.HEADING, table.title)] if table.title else []
    return found


def _check(lesson: Lesson) -> None:
    for kind, prose in _texts(lesson):
        text = plain(prose, lesson.display)
        # A junction or a loop may be called a, and a name is no article.
        named = re.sub(r"\b(junctions?|loops?|from|to|at|between|against|and|,) [aA]\b", r"\1 x",
                       text)  # fmt: skip
        assert not blemishes(named.removeprefix("−"), kind), text


@pytest.mark.parametrize("called", LESSONS)
def test_every_text_of_each_kind_of_lesson_is_well_formed(called: str) -> None:
    """Merging, balance, symmetry, stars, equations, superposition, equivalent sources."""
    _check(lesson_of(*LESSONS[called]))


@given(drawn=tables(), method=st.sampled_from(("", "junctions", "loops", "superposition")))
@settings(max_examples=25, phases=(Phase.explicit, Phase.reuse, Phase.generate))
def test_every_text_of_any_network_is_well_formed(drawn: tuple[Law, str], method: str) -> None:
    """Whatever the network, its sources and the method."""
    law, rows = drawn
    asked = f"{law.flow}, {law.drop}, {law.work}"
    beside = f"  method: {method}\n" if method else ""
    text = f"title: A network\ncircuit:\n{beside}  branches:\n{rows}\nfind: [{asked}]\n"
    try:
        problem = read_problem_text(text, "a.yml")
        lesson = write_lesson(solve(problem))
    except FaultyFile:
        return  # the method does not fit: some networks have one source, or no unknown potential
    _check(lesson)
