"""Which questions are made of a lesson, and where they stand on its page."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from builder.lesson.lesson import Lesson
from builder.lesson.questions import Question, own_question
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


MAKERS: tuple[Maker, ...] = ()
"""Every maker, in the order in which their questions are asked."""

PREDICT = Maker("predict", "before", lambda lesson: lesson.predict)
"""The prediction, which each kind of lesson makes itself."""


def with_generated(lesson: Lesson) -> Lesson:
    """A lesson with the questions that are made of it, as far as its author wants them."""
    made = {maker.id: _wanted(maker, lesson) for maker in (PREDICT, *MAKERS)}
    placed = [(maker.place, made[maker.id]) for maker in MAKERS]
    before = tuple(q for place, q in placed if q is not None and place == "before")
    after = tuple(q for place, q in placed if q is not None and place == "after")
    return replace(
        lesson,
        predict=made[PREDICT.id],
        before=(*lesson.before, *before),
        questions=(*lesson.questions, *after),
    )


def _wanted(maker: Maker, lesson: Lesson) -> Question | None:
    """The author's own question in a maker's place, else what it makes unless it is left out."""
    problem: Problem = lesson.solution.problem
    for own in problem.questions:
        if own.instead_of == maker.id:
            return own_question(own, lesson.display)
    return None if maker.id in problem.leave_out else maker.make(lesson)
