"""A circuit that charges or discharges as the body of a problem."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import Any

from builder.problem.body import Body
from builder.problem.faults.gathering import Faults
from builder.problem.model import TransientProblem
from builder.problem.transient.asking import TransientAsking
from builder.problem.transient.reading import TransientReading
from builder.problem.yaml_text.located import Entry, Node
from builder.quantity.names import Name


class TransientBody(Body):
    """Resistors, capacitors, sources and switches, and what changes."""

    def __init__(self, reading: TransientReading, faults: Faults) -> None:
        self.reading = reading
        self.faults = faults

    @property
    def mentions(self) -> tuple[str, ...] | None:
        """Everything that has a name."""
        table = self.reading.table
        return tuple(table.named) if table.names_known else None

    @property
    def charged(self) -> tuple[str, ...]:
        """The capacitors that start charged."""
        return tuple(row.name.value for row in self.reading.table.rows if "charged" in row.more)

    @property
    def step_ids(self) -> tuple[str, ...]:
        """Not known before it is solved."""
        return ()

    @cached_property
    def _asking(self) -> TransientAsking:
        """Kept, as it gathers the times and levels that are asked about."""
        circuit = self.reading.circuit
        if circuit is not None:
            resistors = tuple(resistor.name for resistor in circuit.resistors)
        else:
            resistors = self._of_kind("resistance")
        known = self.reading.table.kinds_known
        return TransientAsking(self._of_kind("capacitance"), resistors, known, self.faults)

    def _of_kind(self, kind: str) -> tuple[str, ...]:
        return tuple(name for name, found in self.reading.table.named.items() if found == kind)

    def find(self, entry: Entry) -> tuple[Name, ...]:
        """The names under ``find:``."""
        return self._asking.find(entry)

    def answer(self, node: Node) -> Name | None:
        """The quantity that answers a question."""
        return self._asking.answer(node)

    def problem(self, common: Mapping[str, Any]) -> TransientProblem | None:
        """The problem, if it could be read."""
        reading, asking = self.reading, self._asking
        if reading.circuit is None:
            return None
        at = (reading.change_at or reading.table.at).at
        return TransientProblem(
            circuit=reading.circuit,
            charged=reading.charged,
            times=asking.times,
            levels=asking.levels,
            shares=asking.shares,
            place=reading.place,
            places={**asking.places},
            at=(at.line, at.column),
            **common,
        )
