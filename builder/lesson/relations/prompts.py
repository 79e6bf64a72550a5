"""What a teacher asks the class before a step is shown."""

from __future__ import annotations

from builder.lesson.prose import Prose, SymbolOf, listed, say
from builder.lesson.relations.display import RelationsDisplay
from builder.solution.relations.step import RelationMove, RelationStep


def prompt(step: RelationStep, display: RelationsDisplay) -> Prose:
    """A question that leads to the step and does not give it away."""
    what = listed([SymbolOf(name) for name in step.solved_for])
    match step.kind:
        case RelationMove.GIVES:
            return say("Which relation holds {what} and nothing else that is unknown?", what=what)
        case RelationMove.REARRANGE:
            return say("In which relation is {what} the only unknown, and what has to be done to "
                       "both sides to leave it alone?", what=what)  # fmt: skip
        case RelationMove.QUADRATIC:
            return say("How often does {what} occur in its relation, and in which powers?",
                       what=what)  # fmt: skip
        case _:
            return say("No relation has a single unknown. Which relations hold {what} and nothing "
                       "else that is unknown?", what=what)  # fmt: skip
