"""A problem in stages as the body of a file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from builder.problem.body import Body
from builder.problem.faults.gathering import Faults
from builder.problem.model import StagesProblem
from builder.problem.stages.asking import StagesAsking
from builder.problem.stages.reading import StagesReading
from builder.problem.yaml_text.located import Entry, Node
from builder.quantity.names import Name


@dataclass(frozen=True)
class StagesBody(Body):
    """Capacitors, batteries and switches, with what is done.

    Attributes:
        reading: as far as it could be read.
        faults: of the file.
    """

    reading: StagesReading
    faults: Faults

    @property
    def mentions(self) -> tuple[str, ...] | None:
        """Capacitors, batteries and switches."""
        table = self.reading.table
        return tuple(table.named) if table.names_known else None

    @property
    def charged(self) -> tuple[str, ...]:
        """The capacitors that start charged."""
        return tuple(row.name.value for row in self.reading.table.rows if "charged" in row.more)

    @property
    def step_ids(self) -> tuple[str, ...]:
        """Not known before it is solved: they depend on what each stage joins."""
        return ()

    @property
    def _asking(self) -> StagesAsking:
        table = self.reading.table
        return StagesAsking(
            self._of_kind("capacitance"),
            self._of_kind("emf"),
            table.kinds_known,
            len(self.reading.stages),
            self.faults,
        )

    def _of_kind(self, kind: str) -> tuple[str, ...]:
        return tuple(name for name, found in self.reading.table.named.items() if found == kind)

    def find(self, entry: Entry) -> tuple[Name, ...]:
        """The names under ``find:``."""
        return self._asking.find(entry)

    def answer(self, node: Node) -> Name | None:
        """The quantity that answers a question."""
        return self._asking.answer(node)

    def problem(self, common: Mapping[str, Any]) -> StagesProblem | None:
        """The problem, if it could be read."""
        reading = self.reading
        if reading.network is None:
            return None
        return StagesProblem(
            network=reading.network,
            switches=reading.switches,
            charged=reading.charged,
            stages=tuple(read.stage for read in reading.stages),
            place=reading.place,
            **common,
        )
