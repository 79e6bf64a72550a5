"""A caution where a nest could hurt someone."""

from __future__ import annotations

from builder.lesson.caution import (
    TOUCH_VOLTAGE,
    Caution,
    caution_of_charged,
    caution_of_live,
    caution_of_voltage,
    reaches,
)
from builder.lesson.nest.display import NestDisplay
from builder.quantity.names import TOTAL
from builder.quantity.symbolic import is_symbolic


def caution(display: NestDisplay) -> Caution | None:
    """The caution that fits a solution, or None where no threshold is reached."""
    if display.solution.problem.network.source is None:
        return None
    naming, values = display.naming, display.solution.values
    drop = naming.drop(naming.root)
    if is_symbolic(values[drop]):
        return None
    if is_symbolic(values[naming.flow(naming.root)]):
        return caution_of_voltage(drop) if reaches(values[drop], TOUCH_VOLTAGE) else None
    if naming.law.work != "energy":
        return caution_of_live(drop, naming.flow(naming.root), values)
    they = "this capacitor holds" if naming.root != TOTAL else "these capacitors hold"
    return caution_of_charged(drop, naming.work(naming.root), values, they)
