"""All results: a table for each capacitor and one for the resistors."""

from __future__ import annotations

from builder.lesson.lesson import Row, Table
from builder.lesson.prose import NumberOf, Prose, say
from builder.lesson.transient.display import TransientDisplay
from builder.problem.transient.moments import CONSTANT, END, SEEN_RESISTANCE, START, at
from builder.quantity.names import Name


def tables(display: TransientDisplay) -> tuple[Table, ...]:
    """Each moment in a row: first of the capacitors, then of the resistors."""
    values = display.solution.values
    moments = [START, *display.solution.problem.times, END]
    found: list[Table] = []
    for one in display.capacitors:
        kinds = ("voltage", "charge", "energy")
        rows = [
            Row(_moment(when), tuple(at(kind, one, when) for kind in kinds))
            for when in moments
            if at("voltage", one, when) in values
        ]
        heads = ("Voltage", "Charge", "Energy")
        found.append(Table(say("{one}", one=display.element(one)), "Moment", heads, tuple(rows)))
    for one in display.resistors:
        kinds = ("current", "voltage", "power")
        rows = [Row(_moment(w), tuple(at(kind, one, w) for kind in kinds)) for w in moments]
        heads = ("Current", "Voltage", "Power")
        found.append(Table(say("{one}", one=display.element(one)), "Moment", heads, tuple(rows)))
    speed: tuple[Name | None, ...] = (SEEN_RESISTANCE, display.solution.store.value, CONSTANT)
    if CONSTANT in values:
        heads = ("Resistance seen", "Capacitance", "Time constant")
        row = Row(say("{store}", store=display.store), speed)
        found.append(Table(say("How fast it goes"), "Store", heads, (row,)))
    return tuple(found)


def _moment(when: str) -> Prose:
    if when == START:
        return say("First instant")
    return say("Long after") if when == END else (NumberOf(Name("time", when)),)
