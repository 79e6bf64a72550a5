"""A general network as the body of a problem."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from builder.problem.body import Body
from builder.problem.circuit import Circuit
from builder.problem.faults.gathering import Faults
from builder.problem.model import NetworkProblem
from builder.problem.network.asking import NetworkAsking
from builder.problem.network.read_so_far import NetworkReading
from builder.problem.table import SOURCES
from builder.problem.yaml_text.located import Entry, Node
from builder.quantity.names import Name


@dataclass(frozen=True)
class NetworkBody(Body):
    """A network of branches.

    Attributes:
        reading: as far as it could be read.
        faults: of the file.
    """

    reading: NetworkReading
    faults: Faults

    @property
    def mentions(self) -> tuple[str, ...] | None:
        """The elements and the sources."""
        if not self.reading.table.names_known:
            return None
        return tuple(dict.fromkeys((*self.reading.table.named, *self._names, *self._sources)))

    @property
    def step_ids(self) -> tuple[str, ...]:
        """Not known before it is solved: they depend on the way that is taken."""
        return ()

    @property
    def _names(self) -> tuple[str, ...]:
        """The elements, as far as their rows could be told."""
        named = self.reading.table.named
        return (*(name for name in named if named[name] not in SOURCES),
                *self.reading.inner.values())  # fmt: skip

    @property
    def _sources(self) -> dict[str, str]:
        """The kind of quantity that each source gives, by its name."""
        named = self.reading.table.named
        told = {name: SOURCES[kind] for name, kind in named.items() if kind in SOURCES}
        return {**told, **self.reading.sources}

    @property
    def _asking(self) -> NetworkAsking:
        reading = self.reading
        source = next(iter(self._sources), None)
        circuit = Circuit(self._names, reading.table.names_known, source, reading.law)
        return NetworkAsking(
            circuit,
            self.faults,
            self._sources,
            reading.junctions,
            reading.method,
            tuple(reading.inner.values()),
        )

    def find(self, entry: Entry) -> tuple[Name, ...]:
        """The names under ``find:``."""
        return self._asking.find(entry)

    def answer(self, node: Node) -> Name | None:
        """The quantity that answers a question."""
        return self._asking.answer(node)

    def problem(self, common: Mapping[str, Any]) -> NetworkProblem | None:
        """The problem, if the network could be read."""
        reading = self.reading
        if reading.network is None or reading.law is None:
            return None
        return NetworkProblem(
            law=reading.law,
            network=reading.network,
            method=reading.method,
            place=reading.place,
            reference=reading.reference,
            points=reading.points,
            load=reading.load,
            inner=reading.inner,
            method_at=reading.method_at,
            **common,
        )
