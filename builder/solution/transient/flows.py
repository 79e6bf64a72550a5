"""What flows at one instant, in each part of the circuit that holds a source."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from builder.circuit.mixed import Instant, MixedCircuit
from builder.circuit.network import Network
from builder.problem.model import NestProblem
from builder.problem.transient.moments import at
from builder.quantity.names import Name
from builder.solution.program import Line, Statement
from builder.solution.transient.part import (
    counted_from,
    flow_lines,
    nest_of,
    network_lines,
    network_statements,
    stated_from,
)


@dataclass(frozen=True)
class Flows:
    """What flows at one instant.

    Attributes:
        instant: the network of resistors.
        when: the moment that names carry.
        kept: the sources of the circuit itself, whose voltages carry no moment.
        starts: the point from which each resistor's voltage and current count.
    """

    instant: Instant
    when: str
    kept: frozenset[str]
    starts: Mapping[str, str]

    @cached_property
    def nests(self) -> tuple[tuple[Network, NestProblem | None], ...]:
        """Each part with the nest that it is, if it is one."""
        return tuple((block, nest_of(block)) for block in self.instant.blocks)

    def drop(self, resistor: str) -> Name:
        """The voltage across a resistor, counted from where it starts."""
        return at("voltage", resistor, self.when)

    def carries(self, resistor: str) -> bool:
        """Whether anything flows through a resistor."""
        return any(e.name == resistor for block in self.instant.blocks for e in block.elements)

    def lines(self, wanted: Collection[tuple[str, str]]) -> Iterator[Line]:
        """The lines that give quantities of resistors that carry something.

        Args:
            wanted: quantity and resistor of each.
        """
        for part, (block, nest) in enumerate(self.nests, start=1):
            names = {element.name for element in block.elements}
            here = [(quantity, of) for quantity, of in wanted if of in names]
            if not here:
                continue
            network = nest.network if nest else block
            lines = (
                flow_lines(nest, self.when, here, self.kept, part)
                if nest
                else network_lines(block, self.when, here, self.kept, part)
            )
            yield from counted_from(lines, self._against(network))

    def statements_for(self, resistors: Collection[str]) -> tuple[Statement, ...]:
        """The equations that are set up for some resistors, in parts that are no nests."""
        return tuple(self._statements([("voltage", name) for name in resistors]))

    def _statements(self, wanted: Collection[tuple[str, str]]) -> Iterator[Statement]:
        for part, (block, nest) in enumerate(self.nests, start=1):
            names = {element.name for element in block.elements}
            here = [(quantity, of) for quantity, of in wanted if of in names]
            if here and nest is None:
                found = network_statements(block, self.when, here, self.kept, part)
                yield from stated_from(found, self._against(block))

    def _against(self, network: Network) -> set[Name]:
        return {
            at(quantity, element.name, self.when)
            for element in network.elements
            if element.between[0] != self.starts[element.name]
            for quantity in ("current", "voltage")
        }


def flows_of(circuit: MixedCircuit, instant: Instant, when: str) -> Flows:
    """What flows in a circuit at an instant."""
    kept = frozenset(source.name for source in circuit.sources)
    starts = {resistor.name: instant.node[resistor.between[0]] for resistor in circuit.resistors}
    return Flows(instant, when, kept, starts)
