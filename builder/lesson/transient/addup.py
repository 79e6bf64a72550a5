"""The checks in words: what must hold, and its numbers."""

from __future__ import annotations

from builder.lesson.checked import Shows, shows
from builder.lesson.prose import NumberOf, Prose, say
from builder.lesson.transient.display import TransientDisplay
from builder.problem.transient.moments import START
from builder.quantity.formula import Ref
from builder.quantity.names import Name
from builder.solution.check import Check
from builder.solution.transient.checks import TransientCheck


def add_up(display: TransientDisplay) -> tuple[tuple[Shows, ...], Prose]:
    """The checks worth telling, and a sentence on the rest."""
    return tuple(_told(check, display) for check in display.solution.checks), ()


def _told(check: Check, display: TransientDisplay) -> Shows:
    if check.kind is TransientCheck.BETWEEN:
        when = NumberOf(Name("time", check.about[1]))
        first = isinstance(check.left, Ref) and check.left.name.of.endswith(START)
        says = say("After {when} the voltage {where}:", when=when,
                   where="has left its first value" if first else "is still short of its "
                   "last value" if check.relation == "<" else "is still above its last "
                   "value")  # fmt: skip
        return shows(check, says, "voltage", display)
    if check.kind is TransientCheck.LAST:
        says = say(
            "Long after, as much flows to {store} as away from it:",
            store=display.elements(check.about),
        )
    else:
        says = say("The first current into {store}, by the resistors at its plate and by the "
                   "resistance that it sees:", store=display.elements(check.about))  # fmt: skip
    return shows(check, says, "current", display)
