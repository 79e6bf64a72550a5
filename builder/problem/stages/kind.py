"""Which files are problems in stages."""

from __future__ import annotations

from builder.problem.faults.gathering import START, Faults
from builder.problem.stages.body import StagesBody
from builder.problem.stages.reading import StagesReading, read_in_stages
from builder.problem.table import SWITCH, Table
from builder.problem.yaml_text.located import Entry, Map, Text


def is_in_stages(stages: Entry | None, table: Table | None) -> bool:
    """Whether switches are thrown one after the other, or capacitors alone start charged."""
    if stages is not None:
        return True
    if table is None:
        return False
    kinds = set(table.named.values())
    charged = any("charged" in row.more for row in table.rows)
    return (SWITCH in kinds or charged) and "resistance" not in kinds


def read_stages_body(
    circuit: Map | None, table: Table | None, stages: Entry | None, faults: Faults
) -> StagesBody:
    """Read what differs from other kinds of problems."""
    if circuit is not None and table is not None:
        return StagesBody(read_in_stages(circuit, table, stages, faults), faults)
    at = stages.key if stages else Text("", START)
    if circuit is not None:
        faults.add(at.at, "stages beside a circuit without branches",
                   "branches: with the ends of each capacitor, battery and switch",
                   "Write the circuit as a table of branches, or delete stages.")  # fmt: skip
    return StagesBody(StagesReading(Table(at, names_known=False, sound=False), faults), faults)
