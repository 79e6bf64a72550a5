"""Which files are circuits that charge or discharge."""

from __future__ import annotations

from builder.problem.faults.gathering import Faults
from builder.problem.table import Table
from builder.problem.transient.body import TransientBody
from builder.problem.transient.reading import TransientReading, read_transient
from builder.problem.yaml_text.located import Entry, Map, Text

CHANGE = "change"


def is_transient(change: Entry | None, table: Table | None) -> bool:
    """Whether something changes at t = 0, or resistors and capacitors stand together."""
    if change is not None:
        return True
    return table is not None and {"resistance", "capacitance"} <= set(table.named.values())


def read_transient_body(
    circuit: Map | None, table: Table | None, change: Entry | None, faults: Faults
) -> TransientBody:
    """Read what differs from other kinds of problems."""
    if circuit is not None and table is not None:
        return TransientBody(read_transient(circuit, table, change, faults), faults)
    assert change is not None
    if circuit is not None:
        faults.add(change.key.at, "a change beside a circuit without branches",
                   "branches: with the ends of each resistor, capacitor, source and switch",
                   "Write the circuit as a table of branches, or delete change.")  # fmt: skip
    nothing = Table(Text("", change.key.at), names_known=False, sound=False)
    return TransientBody(TransientReading(nothing, faults), faults)
