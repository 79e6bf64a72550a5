"""Which questions are made of a lesson, and where they stand on its page."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from builder.lesson.generated.by_kind import compares, pick, ranking, what_if
from builder.lesson.generated.faulty_line import faulty_line
from builder.lesson.generated.first_move import first_move
from builder.lesson.generated.order import order
from builder.lesson.lesson import Lesson
from builder.lesson.questions import Question, own_question
from builder.problem.limits import MOST_GIVEN_ASKED, MOST_LINES_ASKED
from builder.problem.model import Problem


@dataclass(frozen=True)
class Maker:
    """What makes one question of a lesson.

    Attributes:
        id: the word by which an author leaves the question out or puts another in its place; it
            stands in ``GENERATED`` of ``problem.model`` as well.
        place: ``before`` the solution, or ``after`` it in the self-check.
        make: the question, or None where it does not fit the lesson.
    """

    id: str
    place: Literal["before", "after"]
    make: Callable[[Lesson], Question | None]


RANKING = "ranking"
"""A ranking takes the place of a prediction that compares fewer elements."""

MAKERS: tuple[Maker, ...] = (
    Maker("pick", "before", pick),
    Maker(RANKING, "before", ranking),
    Maker("first-move", "before", first_move),
    Maker("order", "after", order),
    Maker("faulty-line", "after", faulty_line),
    Maker("what-if", "after", what_if),
)
"""Every maker, in the order in which their questions are asked."""

MOST_BEFORE = 3
"""As many questions come before the solution at most, beside those that an author adds."""
PREDICT = Maker("predict", "before", lambda lesson: lesson.predict)
"""The prediction, which each kind of lesson makes itself."""


def with_generated(lesson: Lesson) -> Lesson:
    """A lesson with the questions that are made of it, as far as its author wants them."""
    made = {maker.id: _wanted(maker, lesson) for maker in (PREDICT, *MAKERS)}
    own = {question.instead_of for question in lesson.solution.problem.questions}
    if made[RANKING] is not None and PREDICT.id not in own and compares(lesson):
        made[PREDICT.id] = None
    before = [maker.id for maker in (PREDICT, *MAKERS)
              if maker.place == "before" and made[maker.id] is not None]  # fmt: skip
    for id in _too_many(before, own):
        made[id] = None
    placed = [(maker.place, made[maker.id]) for maker in MAKERS]
    return replace(
        lesson,
        predict=made[PREDICT.id],
        before=(*lesson.before, *(q for place, q in placed if q and place == "before")),
        questions=(*lesson.questions, *(q for place, q in placed if q and place == "after")),
    )


def _too_many(before: list[str], own: set[str | None]) -> list[str]:
    """What is left out so that few questions come before the solution; the author's own stay."""
    over = len(before) - MOST_BEFORE
    made = [id for id in before if id not in own]
    return made[len(made) - over :] if over > 0 else []


def _wanted(maker: Maker, lesson: Lesson) -> Question | None:
    """The author's own question in a maker's place, else what it makes unless it is left out."""
    problem: Problem = lesson.solution.problem
    for own in problem.questions:
        if own.instead_of == maker.id:
            return own_question(own, lesson.display)
    if maker.id in problem.leave_out or (maker is not PREDICT and _too_large(lesson)):
        return None
    return maker.make(lesson)


def _too_large(lesson: Lesson) -> bool:
    """Whether there is so much in a lesson that nobody would find an answer by looking.

    The time that it takes to find a question grows with the square of that, or faster.
    """
    solution = lesson.solution
    lines = sum(len(step.lines) for step in solution.every_step)
    return len(solution.givens) > MOST_GIVEN_ASKED or lines > MOST_LINES_ASKED
