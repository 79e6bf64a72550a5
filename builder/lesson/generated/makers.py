"""Which questions are made of a lesson, and where they stand on its page."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from builder.lesson.lesson import Lesson
from builder.lesson.questions import Question


@dataclass(frozen=True)
class Maker:
    """What makes one question of a lesson.

    Attributes:
        id: the word by which an author leaves the question out or puts another in its place.
        place: ``before`` the solution, or ``after`` it in the self-check.
        make: the question, or None where it does not fit the lesson.
    """

    id: str
    place: Literal["before", "after"]
    make: Callable[[Lesson], Question | None]


MAKERS: tuple[Maker, ...] = ()
"""Every maker, in the order in which their questions are asked."""


def with_generated(lesson: Lesson) -> Lesson:
    """A lesson with the questions that are made of it."""
    made = [(maker, maker.make(lesson)) for maker in MAKERS]
    before = tuple(q for maker, q in made if q is not None and maker.place == "before")
    after = tuple(q for maker, q in made if q is not None and maker.place == "after")
    return replace(lesson, before=(*lesson.before, *before), questions=(*lesson.questions, *after))
