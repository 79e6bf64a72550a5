"""The checks in words: what must hold, and its numbers."""

from __future__ import annotations

from builder.lesson.checked import Shows, shows
from builder.lesson.prose import NumberOf, Prose, say
from builder.lesson.transient.display import TransientDisplay
from builder.quantity.names import Name
from builder.solution.check import Check
from builder.solution.transient.checks import TransientCheck


def add_up(display: TransientDisplay) -> tuple[tuple[Shows, ...], Prose]:
    """The checks worth telling, and a sentence on the rest."""
    return tuple(_told(check, display) for check in display.solution.checks), ()


def _told(check: Check, display: TransientDisplay) -> Shows:
    if check.kind is TransientCheck.BETWEEN:
        when = NumberOf(Name("time", check.about[1]))
        says = say("After {when} the voltage lies between its first and its last value:",
                   when=when)  # fmt: skip
        return shows(check, says, "voltage", display)
    if check.kind is TransientCheck.LAST:
        says = say("Long after, as much flows to {store} as away from it:", store=display.store)
    else:
        says = say("The first current into {store}, by the resistors at its plate and by the "
                   "resistance that it sees:", store=display.store)  # fmt: skip
    return shows(check, says, "current", display)
