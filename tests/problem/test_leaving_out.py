"""Leaving generated questions out, and putting own ones in their place."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.errors import FaultyFile
from builder.lesson.generated import MAKERS
from builder.problem import read_problem_text, read_unit
from builder.problem.model import GENERATED, Unit
from tests.problem.samples import NEST, changed, faults_of

OWN = """\
questions:
  - ask: Where do you begin?
    instead-of: first-move
    choices: [{text: With the pair, right: yes}, With the source]
"""


def with_lines(lines: str) -> str:
    """The nest with more lines at its end."""
    return NEST + lines


def test_makers_and_files_speak_of_the_same_questions() -> None:
    """What a file may leave out is the prediction and what is registered, no more and no less."""
    assert {"predict", *(maker.id for maker in MAKERS)} == set(GENERATED)
    assert len(GENERATED) == len(set(GENERATED))


def test_what_is_left_out_is_read() -> None:
    """The words stand in the problem in the author's order; own questions know their place."""
    problem = read_problem_text(with_lines("leave-out: [order, predict]\n" + OWN), "lamps.yml")
    assert problem.leave_out == ("order", "predict")
    assert [question.instead_of for question in problem.questions] == ["first-move"]


def test_a_unit_leaves_out_for_all_its_problems(tmp_path: Path) -> None:
    """What unit.yml leaves out is left out of every problem, beside what that one leaves out."""
    file = tmp_path / "unit.yml"
    file.write_text("title: Harbour Lights\nleave-out: [order]\n", encoding="utf-8")
    unit = read_unit(file)
    assert unit.leave_out == ("order",)
    problem = read_problem_text(with_lines("leave-out: [predict]\n"), "lamps.yml", unit)
    assert set(problem.leave_out) == {"order", "predict"}


def test_an_own_question_may_take_the_place_of_what_the_unit_leaves_out() -> None:
    """Only within one file do the two contradict each other."""
    unit = Unit("Harbour Lights", leave_out=("first-move",))
    problem = read_problem_text(with_lines(OWN), "lamps.yml", unit)
    assert problem.questions[0].instead_of == "first-move"


@pytest.mark.parametrize(
    ("lines", "faults"),
    [
        pytest.param(
            "leave-out: [ordr]\n",
            [f'8:13: found "ordr"; expected {", ".join(GENERATED[:-1])} or {GENERATED[-1]}. '
             'Did you mean "order"?'],
            id="misspelled",
        ),
        pytest.param(
            "leave-out: [order, order]\n",
            ['8:20: found "order" a second time; expected each question once. '
             "Delete one of the two."],
            id="twice",
        ),
        pytest.param(
            "leave-out: order\n",
            ['8:12: found "order"; expected a list of questions, such as [order, predict]. Put '
             "each item on a line of its own, starting with a dash and a space."],
            id="no-list",
        ),
        pytest.param(
            OWN.replace("first-move", "first-mov"),
            [f'10:17: found "first-mov"; expected {", ".join(GENERATED[:-1])} or '
             f'{GENERATED[-1]}. Did you mean "first-move"?'],
            id="instead-of-misspelled",
        ),
        pytest.param(
            OWN + OWN.replace("questions:\n", ""),
            ['13:17: found a second question instead of "first-move"; expected one question for '
             "each place. Take instead-of: out of one of them."],
            id="two-for-one-place",
        ),
        pytest.param(
            OWN + "leave-out: [first-move]\n",
            ['10:17: found a question instead of "first-move", which leave-out: names as well; '
             "expected only one of the two. Take first-move out of leave-out:; your question "
             "replaces it."],
            id="left-out-and-replaced",
        ),
    ],
)  # fmt: skip
def test_mistakes_are_told_with_their_place(lines: str, faults: list[str]) -> None:
    """Each says where, what was found, what was expected and what to do."""
    assert faults_of(with_lines(lines)) == [f"problem.yml:{fault}" for fault in faults]


def test_mistakes_in_the_unit_are_told_with_their_place(tmp_path: Path) -> None:
    """The same words are refused in unit.yml."""
    file = tmp_path / "unit.yml"
    file.write_text("title: Harbour Lights\nleave-out:\n  - predicts\n", encoding="utf-8")
    with pytest.raises(FaultyFile) as raised:
        read_unit(file)
    (fault,) = raised.value.faults
    assert (fault.line, fault.column, fault.found) == (3, 5, '"predicts"')
    assert fault.advice == 'Did you mean "predict"?'


def test_the_samples_are_sound_without_these_lines() -> None:
    """The faults above come from the added lines alone."""
    assert faults_of(changed(NEST, "title", "title")) == []
    assert faults_of(with_lines(OWN)) == []
