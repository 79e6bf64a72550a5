"""What a reader finds by himself where a step of a worked example is left blank.

An example is taken away step by step from its end, until only the problem is left. Source:
Renkl, Atkinson, Maier and Staley, From example study to problem solving, J. Exp. Educ. 70, 293
(2002): fading the last steps first teaches more than examples and bare problems in turns.
"""

from __future__ import annotations

from builder.lesson.display import Display
from builder.lesson.prose import Prose, capitalised, say
from builder.lesson.questions import TypedQuestion, asked_names
from builder.quantity.names import TOTAL, Name
from builder.solution import Step
from builder.solution.network.step import NetworkMove

MOST_GAPS = 3
_MAKES_UP = frozenset({NetworkMove.STAR, NetworkMove.TRIANGLE})
"""Moves whose results bear names that nobody knows who has not read the step."""


def gaps(step: Step, display: Display) -> tuple[TypedQuestion, ...]:
    """What is asked in place of a step: the quantities that it finds, a few of many.

    Args:
        step: of the solution.
        display: of the same solution.

    Returns:
        At most ``MOST_GAPS`` questions in the step's order: what the problem asks for, else what
        the step does not merely carry over from an earlier one. None where a reader could not
        know what is meant; such a step is never left blank.
    """
    if step.kind in _MAKES_UP:
        return ()
    asked = set(asked_names(display))
    found = [name for name in step.found if not display.names_itself(name)]
    computed = [line.name for line in step.lines if line.name in found and not line.carries]
    wanted = [name for name in found if name in asked] or computed or found
    return tuple(
        TypedQuestion(_ask(name, step, display), name, step.id) for name in wanted[:MOST_GAPS]
    )


def _ask(name: Name, step: Step, display: Display) -> Prose:
    """The question for a quantity; an equivalent is asked for by what it stands for."""
    for merge in display.merges(step):
        if merge.equivalent == name and name.of != TOTAL:
            members = display.elements(tuple(member.of for member in merge.members))
            return say("What is the equivalent of {members}?", members=members)
    what = display.asks_for(name)
    if isinstance(what[0], str) and what[0].startswith("what "):
        return say("{what}?", what=capitalised(what))
    return say("What is {what}?", what=what)
