"""The moves through a circuit that charges or discharges."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from builder.circuit.mixed import Instant
from builder.circuit.tree import Tree
from builder.solution.program import Step


class TransientMove(StrEnum):
    """The moves of a solution."""

    STORE = "store"
    """Several capacitors become one equivalent."""
    BEFORE = "before"
    """The voltage that the capacitor holds just before the change."""
    START = "start"
    """The first instant: the capacitor is a wire, or a battery of what it holds."""
    END = "end"
    """Long after: the capacitor is a gap."""
    SEEN = "seen"
    """The resistance that the capacitor sees."""
    CONSTANT = "constant"
    """The time constant."""
    AT = "at"
    """Quantities at a time."""
    REACH = "reach"
    """The time at which a voltage is reached."""
    WORK = "work"
    """Charge, energy and power."""


@dataclass(frozen=True)
class TransientStep(Step):
    """One move.

    Attributes:
        instant: the network of resistors that the move looks at, if it looks at one.
        idle: resistors that carry nothing at that instant.
        path: the elements and sources that a voltage is added up along.
        about: the elements that the move is about.
        tree: of the capacitors that are merged, or of the resistors that the capacitor sees
            where those are a nest.
        when: the moment: ``before``, ``start``, ``end``, ``t1``; empty for none.
    """

    instant: Instant | None = field(default=None, kw_only=True)
    idle: tuple[str, ...] = field(default=(), kw_only=True)
    path: tuple[str, ...] = field(default=(), kw_only=True)
    about: tuple[str, ...] = field(default=(), kw_only=True)
    tree: Tree | None = field(default=None, kw_only=True)
    when: str = field(default="", kw_only=True)
