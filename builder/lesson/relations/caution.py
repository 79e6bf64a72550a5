"""A caution where what is computed could hurt someone."""

from __future__ import annotations

from builder.lesson.caution import (
    TOUCH_VOLTAGE,
    Caution,
    caution_of_charged,
    caution_of_live,
    caution_of_voltage,
    reaches,
)
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.relations.plates import breakdown
from builder.quantity.names import Name


def caution(display: RelationsDisplay) -> Caution | None:
    """The caution that fits, or None where no threshold is reached."""
    broken = breakdown(display)
    if broken is not None:
        return broken
    values = display.solution.values
    voltage, energy, current = (_largest(kind, display) for kind in ("voltage", "energy",
                                                                     "current"))  # fmt: skip
    if voltage is None:
        return None
    if energy is not None:
        return caution_of_charged(voltage, energy, values, "the capacitor holds")
    if current is not None:
        return caution_of_live(voltage, current, values)
    return caution_of_voltage(voltage) if reaches(values[voltage], TOUCH_VOLTAGE) else None


def _largest(kind: str, display: RelationsDisplay) -> Name | None:
    values = display.solution.values
    names = [s.name for s in display.solution.problem.quantities if s.name.quantity == kind]
    return max(names, key=lambda name: values[name], default=None)
