"""Where generated questions stand, what leaves them out, and what takes their place."""

from __future__ import annotations

import pytest

from builder.lesson import Lesson, write_lesson
from builder.lesson.questions import Question
from builder.problem import read_problem_text
from builder.problem.model import GENERATED, Unit
from builder.solution import solve
from tests.lesson.generated.lessons import said
from tests.site.pages import FLASHER, UNIT, html_of

OWN = """\
questions:
  - ask: Which two hang side by side?
    instead-of: {id}
    choices: [{{text: C2 and C3, right: yes}}, C1 and C2]
  - ask: What is the charge on {{C1.name}}?
    answer: {{charge: C1}}
"""
MADE = {
    "first-move": ("before", "What is the right first move?"),
    "order": ("questions", "Put the steps of the solution in order."),
    "faulty-line": ("questions", "Somebody made one mistake in this solution"),
}
"""Where each stands in a lesson, and how it begins or goes on."""


def lesson_of(more: str = "", unit: Unit = UNIT) -> Lesson:
    """The lesson of the flasher with more lines in its file."""
    return write_lesson(solve(read_problem_text(FLASHER + more, "flasher.yml", unit)))


def asked(lesson: Lesson, place: str) -> list[str]:
    """What is asked in one place of a lesson."""
    found: Question | tuple[Question, ...] | None = getattr(lesson, place)
    questions = found if isinstance(found, tuple) else (found,)
    return [said(question.ask, lesson.display) for question in questions if question is not None]


@pytest.mark.parametrize("id", ["first-move", "order", "faulty-line"])
def test_a_question_that_is_left_out_is_not_asked(id: str) -> None:
    """All others are, in the same order."""
    place, begins = MADE[id]
    with_all, without = lesson_of(), lesson_of(f"leave-out: [{id}]\n")
    left = [text for text in asked(with_all, place) if begins not in text]
    assert len(left) == len(asked(with_all, place)) - 1
    assert asked(without, place)[: len(left)] == left
    assert not any(begins in text for text in asked(without, place))


def test_all_can_be_left_out_together() -> None:
    """Then nothing comes before the solution, and the page has no part for it."""
    more = f"leave-out: [{', '.join(GENERATED)}]\n"
    lesson = lesson_of(more)
    assert (lesson.predict, lesson.before) == (None, ())
    assert {question.form for question in lesson.questions} <= {"choice", "typed"}
    html = html_of(FLASHER + more)
    assert "No sums yet" not in html
    assert 'data-question="order"' not in html


def test_a_unit_leaves_out_on_every_page() -> None:
    """What unit.yml leaves out is not asked, whatever the problem's file says."""
    unit = Unit("Harbour Lights", objectives=UNIT.objectives, leave_out=("order",))
    lesson = lesson_of("leave-out: [faulty-line]\n", unit)
    assert {"order", "faulty-line"}.isdisjoint(question.form for question in lesson.questions)


@pytest.mark.parametrize("id", ["first-move", "order", "faulty-line"])
def test_an_own_question_takes_the_very_place(id: str) -> None:
    """It stands where the generated one stood, and only there; other own questions stay put."""
    place, begins = MADE[id]
    before = asked(lesson_of(), place)
    at = next(at for at, text in enumerate(before) if begins in text)
    lesson = lesson_of(OWN.format(id=id))
    after = asked(lesson, place)
    own = "Which two hang side by side?"
    everywhere = [*asked(lesson, "predict"), *asked(lesson, "before"), *asked(lesson, "questions")]
    assert everywhere.count(own) == 1
    assert not any(begins in text for text in after)
    following = after[after.index(own) + 1 :]
    assert following == before[at + 1 :]
    assert any("What is the charge on" in text for text in asked(lesson, "questions"))


def test_an_own_question_may_stand_for_the_prediction() -> None:
    """It is asked first of all."""
    lesson = lesson_of(OWN.format(id="predict"))
    assert asked(lesson, "predict") == ["Which two hang side by side?"]


def test_an_own_question_stands_for_what_does_not_fit() -> None:
    """A problem of one step has nothing to put in order; the author's question comes instead."""
    text = "title: Two in a row\ncircuit:\n  series: [{C1: 10 uF}, {C2: 20 uF}]\nfind: equivalent\n"
    own = OWN.format(id="order").replace("charge: C1", "equivalent: total")
    own = own.split("  - ask: What")[0]
    lesson = write_lesson(solve(read_problem_text(text + own, "row.yml")))
    assert "Which two hang side by side?" in asked(lesson, "questions")
