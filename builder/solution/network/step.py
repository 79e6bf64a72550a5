"""The moves through a network."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from builder.circuit.network import Network
from builder.quantity.names import Name
from builder.solution.program import Step


class NetworkMove(StrEnum):
    """The moves of a solution."""

    MERGE = "merge"
    """Elements in series or in parallel become their equivalent."""
    BALANCE = "balance"
    """A balanced bridge: its middle element carries nothing and is taken out."""
    JOIN = "join"
    """Junctions that are at the same potential by symmetry are joined."""
    STAR = "star"
    """A triangle (delta) of elements becomes a star."""
    TRIANGLE = "triangle"
    """A star of elements becomes a triangle (delta)."""
    DRIVE = "drive"
    """The source meets the single element that is left."""
    OPEN = "open"
    """The walk back: a former move is undone, and its elements get their values."""
    JUNCTIONS = "junctions"
    """Junction equations: flows in and out of each junction balance, solved for potentials."""
    LOOPS = "loops"
    """Loop equations: drops round each loop add up to its sources, solved for loop currents."""
    BRANCHES = "branches"
    """From potentials or loop currents to each element's flow and drop."""
    ALONE = "alone"
    """One source alone, the others replaced by a wire (voltage) or a gap (current)."""
    ADD = "add"
    """What the sources do alone is added up."""
    OPEN_VOLTAGE = "open-voltage"
    """The voltage between two points with nothing connected there."""
    INNER = "inner"
    """The resistance seen from two points with the sources replaced."""
    LOAD = "load"
    """A load meets the equivalent of everything else."""
    MATCH = "match"
    """The load that takes the greatest power, and that power."""
    WORK = "work"
    """Energy or power of single elements and sources."""
    TOTAL = "total"
    """A quantity of the whole network."""


@dataclass(frozen=True)
class Loop:
    """A closed path that loop equations go round.

    Attributes:
        name: of its current: ``A``, ``B``.
        path: each element or source that it passes, with whether it passes from the first to
            the second junction of its ``between``.
    """

    name: str
    path: tuple[tuple[str, bool], ...]


@dataclass(frozen=True)
class NetworkStep(Step):
    """One move through a network.

    Attributes:
        network: after the move; for equations the network that they are about.
        before: the network before the move where that is worth showing beside it, else None.
        marked: the elements of ``network`` that the move is about.
        members: the elements of the network before that the move acts on.
        joined: junctions that become one, each set by the name that it keeps.
        loops: the loops that are gone round.
        reference: the junction whose potential is taken as zero; empty if none is.
        known: the quantities that the figure of the step shows; None for all that are known.
        telling: what else the words need: why a bridge is balanced, which symmetry it is.
    """

    network: Network
    before: Network | None = field(default=None, kw_only=True)
    marked: tuple[str, ...] = field(default=(), kw_only=True)
    members: tuple[str, ...] = field(default=(), kw_only=True)
    joined: Mapping[str, tuple[str, ...]] = field(default_factory=dict, kw_only=True)
    loops: tuple[Loop, ...] = field(default=(), kw_only=True)
    reference: str = field(default="", kw_only=True)
    known: tuple[Name, ...] | None = field(default=None, kw_only=True)
    telling: Mapping[str, str] = field(default_factory=dict, kw_only=True)
