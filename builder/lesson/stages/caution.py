"""A caution where what is stored could hurt someone, at the moment when most is stored."""

from __future__ import annotations

from builder.circuit.switching import moment
from builder.lesson.caution import Caution, caution_of_charged
from builder.lesson.stages.display import StagesDisplay
from builder.quantity.names import TOTAL, Name


def caution(display: StagesDisplay) -> Caution | None:
    """The caution that fits a solution, or None where no threshold is reached."""
    values = display.solution.values
    stages = range(display.history.last + 1)
    energies = [display.resolve(Name("energy", moment(TOTAL, stage))) for stage in stages]
    most = max(energies, key=lambda name: values[name])
    volts = [
        *(name for name in values if name.quantity == "voltage" and values[name] > 0),
        *(Name("voltage", battery) for battery in display.batteries),
    ]
    if not volts:
        return None
    highest = max(volts, key=lambda name: values[name])
    one = len(display.members) == 1
    they = "this capacitor holds" if one else "these capacitors hold up to"
    return caution_of_charged(highest, most, values, they)
