"""A caution where a nest could hurt someone."""

from __future__ import annotations

from builder.lesson.caution import Caution, caution_of_charged, caution_of_live
from builder.lesson.nest.display import NestDisplay
from builder.quantity.names import TOTAL


def caution(display: NestDisplay) -> Caution | None:
    """The caution that fits a solution, or None where no threshold is reached."""
    if display.solution.problem.network.source is None:
        return None
    naming, values = display.naming, display.solution.values
    drop = naming.drop(naming.root)
    if naming.law.work != "energy":
        return caution_of_live(drop, naming.flow(naming.root), values)
    they = "this capacitor holds" if naming.root != TOTAL else "these capacitors hold"
    return caution_of_charged(drop, naming.work(naming.root), values, they)
