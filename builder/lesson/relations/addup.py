"""The checks in words: the results are put back into the relations."""

from __future__ import annotations

from builder.lesson.checked import Shows, and_more, shows
from builder.lesson.prose import Prose, say
from builder.lesson.relations.display import RelationsDisplay
from builder.solution.relations.checks import RelationCheck
from builder.solution.relations.sides import kind_of_sides
from builder.solution.relations.step import RelationMove

MOST_TOLD = 4


def add_up(display: RelationsDisplay) -> tuple[tuple[Shows, ...], Prose]:
    """The checks worth telling, and a sentence on those that hold but are not told."""
    worth = [check for check in display.solution.checks if _worth_telling(check, display)]
    told = tuple(
        shows(check, _says(check, display), kind_of_sides(check.of), display)
        for check in worth[:MOST_TOLD]
    )
    return told, and_more(len(worth) - len(told))


def _worth_telling(check: RelationCheck, display: RelationsDisplay) -> bool:
    """A relation that merely defined its left side would only be written a second time."""
    users = [step for step in display.solution.every_step if check.of in step.relations]
    return not users or users[0].kind is not RelationMove.GIVES


def _says(check: RelationCheck, display: RelationsDisplay) -> Prose:
    used = any(check.of in step.relations for step in display.solution.every_step)
    if used:
        return say("Put back into the relation as it was given, both sides come to the same:")
    return say("This relation was not needed for the solution, and it holds as well:")
