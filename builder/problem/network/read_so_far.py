"""A network as far as it has been read."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from builder.circuit.law import LAWS, Law
from builder.circuit.network import Network
from builder.problem.faults.gathering import Faults
from builder.problem.table import SOURCES, Row, Table

INNER_PREFIX = "r_"
"""Before a source's name it is the name of that source's internal resistance."""
INSIDE = "+"
"""After a source's name it is the name of the point between it and its internal resistance."""


@dataclass
class NetworkReading:
    """A network as far as it could be read.

    Attributes:
        table: the branches.
        faults: of the file.
        rows: elements and sources, internal resistances among them.
        inner: the element that is a source's internal resistance, by the source's name.
        network: None if there is a fault.
        method, method_at, reference, points, load, place: as ``NetworkProblem`` has them.
    """

    table: Table
    faults: Faults
    rows: list[Row] = field(default_factory=list)
    inner: dict[str, str] = field(default_factory=dict)
    network: Network | None = None
    method: str | None = None
    method_at: tuple[int, int] = (0, 0)
    reference: str | None = None
    points: tuple[str, str] | None = None
    load: str | None = None
    place: dict[str, tuple[Fraction, Fraction]] = field(default_factory=dict)

    @property
    def law(self) -> Law | None:
        """Of the elements, as far as one can be read."""
        return next((LAWS[kind] for kind in self.table.named.values() if kind in LAWS), None)

    @property
    def sources(self) -> dict[str, str]:
        """The kind of quantity that each source gives, by its name."""
        return {row.name.value: SOURCES[row.kind] for row in self.rows if row.is_source}

    @property
    def junctions(self) -> tuple[str, ...]:
        """All junctions that the author named, in the order of the table."""
        return tuple(dict.fromkeys(end for row in self.table.rows for end in row.between))
