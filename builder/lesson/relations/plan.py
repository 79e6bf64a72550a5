"""The plan of a solution in a line or two."""

from __future__ import annotations

from builder.lesson.prose import Prose, SymbolOf, Written, listed, number_word, say, sentences
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.relations.narration import in_turn
from builder.lesson.relations.plates import plan_of_plates
from builder.solution.relations.step import RelationMove, RelationStep

_JOINT = (RelationMove.TOGETHER, RelationMove.POWERS, RelationMove.SUBSTITUTE)


def plan(display: RelationsDisplay) -> Prose:
    """What is found in which order; the author's own plan if there is one."""
    problem, steps = display.solution.problem, display.solution.steps
    if problem.plan:
        return (Written(problem.plan),)
    if problem.plates is not None:
        return plan_of_plates(problem.plates)
    if not steps:
        return say("What is asked is given already.")
    if len(steps) == 1 and steps[0].kind not in _JOINT:
        return say("One relation holds everything: the unknown {what} and what is given.",
                   what=SymbolOf(steps[0].solved_for[0]))  # fmt: skip
    order = in_turn([_found(step) for step in steps])
    return sentences(
        say("Look for a relation with a single unknown, find it, and go on from there: first "
            "{order}.", order=order)
        if steps[0].kind not in _JOINT
        else say("No relation has a single unknown, so begin with several at once: {order}.",
                 order=order),
        _joint(steps),
    )  # fmt: skip


def _found(step: RelationStep) -> Prose:
    symbols = listed([SymbolOf(name) for name in step.solved_for])
    return say("{symbols} together", symbols=symbols) if step.kind in _JOINT else symbols


def _joint(steps: tuple[RelationStep, ...]) -> Prose:
    joint = [step for step in steps[1:] if step.kind in _JOINT]
    if not joint:
        return ()
    count = len(joint[0].relations)
    return say("For {these}, {count} relations have to be solved together.",
               these=listed([SymbolOf(name) for name in joint[0].solved_for]),
               count=number_word(count))  # fmt: skip
