"""A caution where a network could hurt someone."""

from __future__ import annotations

from builder.lesson.caution import Caution, caution_of_charged, caution_of_live
from builder.lesson.network.display import NetworkDisplay
from builder.quantity.names import TOTAL, Name


def caution(display: NetworkDisplay) -> Caution | None:
    """The caution that fits a solution, or None where no threshold is reached."""
    law, values = display.law, display.solution.values
    voltages = [
        *(Name(one.quantity, one.name) for one in display.network.sources),
        *(Name(law.drop, member) for member in display.members),
    ]
    drops = [name for name in voltages if name.quantity == law.drop and name in values]
    if not display.network.sources or not drops:
        return None
    drop = max(drops, key=lambda name: values[name])
    if law.work == "energy":
        energies = [Name(law.work, TOTAL), *(Name(law.work, one) for one in display.members)]
        known = [name for name in energies if name in values]
        if not known:
            return None
        largest = max(known, key=lambda name: values[name])
        return caution_of_charged(drop, largest, values, "these capacitors hold")
    told = (display.delivered(one.name, law.flow) for one in display.network.sources)
    flows = [name for name in told if name is not None]
    if not flows:
        return None
    flow = max(flows, key=lambda name: values[name])
    return caution_of_live(drop, flow, values)
