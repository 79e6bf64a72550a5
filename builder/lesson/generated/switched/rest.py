"""A circuit that charges, once nothing changes any more: what flows, and what is cut off."""

from __future__ import annotations

from dataclasses import dataclass

from sympy import Integer

from builder.circuit.law import RESISTORS
from builder.circuit.mixed import Instant, at_instant, joined
from builder.circuit.network import Network
from builder.lesson.network.what_if import solved
from builder.lesson.transient.display import TransientDisplay
from builder.quantity.exact import Exact
from builder.quantity.names import Name


@dataclass(frozen=True)
class AtRest:
    """What each resistor does once every capacitor lets nothing through.

    Attributes:
        display: how the quantities are written.
        instant: the networks in which something flows, and the resistors in which nothing does.
    """

    display: TransientDisplay
    instant: Instant

    @property
    def idle(self) -> tuple[str, ...]:
        """The resistors that carry nothing, since every way through them ends at a gap."""
        return tuple(one.name for one in self.instant.idle)

    def block_of(self, resistor: str) -> Network | None:
        """The network in which a resistor carries something."""
        for block in self.instant.blocks:
            if any(one.name == resistor for one in block.elements):
                return block
        return None

    def current(self, resistor: str) -> Exact:
        """Its current, in amperes."""
        block = self.block_of(resistor)
        if block is None:
            return Integer(0)
        return solved(block, RESISTORS).get(Name("current", resistor), Integer(0))

    @property
    def points(self) -> dict[str, str]:
        """The points of the junctions, where resistors without current join what wires would."""
        circuit = self.display.solution.problem.circuit
        wires = [switch.between for switch in circuit.closed(after=True)]
        wires += [circuit.element(name).between for name in self.idle]
        return joined(circuit.junctions, wires)


def at_rest(display: TransientDisplay) -> AtRest:
    """A circuit long after its change."""
    return AtRest(display, at_instant(display.solution.problem.circuit, after=True))
