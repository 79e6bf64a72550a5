"""Generated questions for whatever kind of lesson they are asked in."""

from __future__ import annotations

from builder.lesson.by_name import turn
from builder.lesson.generated.picking import pick_of
from builder.lesson.generated.ranking import ranking_of
from builder.lesson.generated.switched.picking import pick_of_charging, pick_of_stages
from builder.lesson.generated.switched.ranking import ranking_of_charging
from builder.lesson.generated.switched.what_if import what_if_of_charging, what_if_of_stages
from builder.lesson.generated.view import view_of
from builder.lesson.generated.what_if import what_if_of
from builder.lesson.lesson import Lesson
from builder.lesson.nest.display import NestDisplay
from builder.lesson.questions.forms import ChoiceQuestion, PickQuestion, RankingQuestion
from builder.lesson.relations.unknown import UnknownDisplay
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.transient.display import TransientDisplay


def pick(lesson: Lesson) -> PickQuestion | None:
    """Pick elements in the figure; None where a lesson has too few, or no circuit."""
    if isinstance(lesson.display, TransientDisplay):
        return None if _ranks(lesson.display) else pick_of_charging(lesson.display)
    if isinstance(lesson.display, StagesDisplay):
        return pick_of_stages(lesson.display)
    view = view_of(lesson)
    return None if view is None else pick_of(view)


def _ranks(display: TransientDisplay) -> bool:
    """Whether a ranking is asked for: it would give away what is to be picked."""
    able = [way is not None for way in (ranking_of_charging(display), pick_of_charging(display))]
    return able[0] and (
        not able[1] or turn(display.solution.problem.slug, "in the end", (True, False))
    )


def ranking(lesson: Lesson) -> RankingQuestion | None:
    """Rank elements by a quantity; None where the circuit alone does not decide."""
    if isinstance(lesson.display, TransientDisplay):
        return ranking_of_charging(lesson.display) if _ranks(lesson.display) else None
    view = view_of(lesson)
    return None if view is None else ranking_of(view)


def what_if(lesson: Lesson) -> ChoiceQuestion | None:
    """What would a change do; None where the circuit alone does not decide."""
    if isinstance(lesson.display, TransientDisplay):
        return what_if_of_charging(lesson.display)
    if isinstance(lesson.display, StagesDisplay):
        return what_if_of_stages(lesson.display)
    view = view_of(lesson)
    return None if view is None else what_if_of(view)


def compares(lesson: Lesson) -> bool:
    """Whether the prediction of such a lesson compares elements, as a ranking does."""
    return isinstance(lesson.display, NestDisplay | UnknownDisplay)
