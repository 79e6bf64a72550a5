"""The moves of a solution in stages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from builder.solution.program import Step


class StagesMove(StrEnum):
    """The moves of a solution."""

    START = "start"
    """What is stated at first is told as charges and voltages."""
    BATTERY = "battery"
    """Capacitors straight across batteries take their voltage."""
    SHORT = "short"
    """A wire joins the two plates of a capacitor, which discharges."""
    ISLAND = "island"
    """Plates become one island, whose charge is counted."""
    SHARE = "share"
    """Capacitors side by side settle at one voltage."""
    CHAIN = "chain"
    """Round a single loop, the capacitors act as one chain."""
    ROUND = "round"
    """What goes round a single loop until its voltages agree."""
    EQUATIONS = "equations"
    """Island and loop equations, solved together."""
    CHARGES = "charges"
    """From what was found to each capacitor."""
    TURN = "turn"
    """A capacitor is put back the other way round, and nothing flows."""
    STORED = "stored"
    """The energy of each capacitor, and of all."""
    DELIVERED = "delivered"
    """What batteries move and deliver."""
    LOST = "lost"
    """The account of the energy, and what turns into heat."""


@dataclass(frozen=True)
class StagesStep(Step):
    """One move.

    Attributes:
        stage: the number of the stage that it belongs to; 0 is before the first.
        members: the capacitors that it is about.
        islands: the junctions of each island that it speaks of: at most two.
        plates: of each member that has a plate on the first of ``islands``, whether it is the
            plate at its first junction (1) or at its second (−1).
        turned: the members that were turned before.
        direction: of each member of a single loop, in the order in which the loop passes them,
            whether it is passed from its first plate to its second (1) or against (−1).
        batteries: the batteries that it is about.
    """

    stage: int
    members: tuple[str, ...] = field(default=(), kw_only=True)
    islands: tuple[frozenset[str], ...] = field(default=(), kw_only=True)
    plates: Mapping[str, int] = field(default_factory=dict, kw_only=True)
    turned: tuple[str, ...] = field(default=(), kw_only=True)
    direction: Mapping[str, int] = field(default_factory=dict, kw_only=True)
    batteries: tuple[str, ...] = field(default=(), kw_only=True)
