"""The moves through a network.

What each move of a reduction carries, besides ``network``, ``lines`` and ``members``:

========  ==========================================================================
MERGE     ``merged``: each group with its equivalent, all of one connection; several where
          they are alike or arise from one move before; ``marked``: the equivalents;
          ``telling["connection"]``: ``series`` or ``parallel``; ``telling["alike"]``:
          ``yes`` if all of several groups have the same values.
DROP      ``dropped``: elements that carry nothing; ``telling["because"]``: ``loose`` (they
          hang at one junction only) or ``loop`` (both ends at the same junction). With a
          source, ``lines`` say that their drops and flows are zero.
BALANCE   ``balance``: the middle element and the arms; ``statements``: the condition, as one
          ratio for each further pair of arms; ``dropped``: the middle element;
          ``joined``: its ends, if they are joined and not parted; ``telling["then"]``:
          ``drop`` or ``join``; ``telling["ratio"]``: the common ratio of the first two pairs
          of arms where it is a number. ``lines`` as of a drop.
JOIN      ``joined``; ``dropped``: elements whose ends become one junction, with ``lines`` as
          of a drop; ``halved``: elements that are taken as two equal ones in series, with a
          junction between them that is among those joined, or that is all there is of a set;
          ``telling["symmetry"]``: ``alike`` (exchanging the junctions of a set changes
          nothing), ``same-distance`` (likewise; all elements are equal, and each set holds all
          junctions that are so many elements from + and so many from −), ``half`` (swapping
          the terminals changes nothing, so what is its own mirror image lies halfway between
          them: that is the set with the name ``telling["half"]``, and so do the middles of
          the halved elements; other sets are alike) or, rarely, ``regular`` (each junction
          of a set meets equal elements that lead to the same sets, though no exchange of
          junctions shows it).
STAR      ``star``: corners, sides and legs; ``mirrored``: the same of its mirror image with
          the terminals swapped, where both are done at once; ``marked``: the legs.
TRIANGLE  ``star`` and ``mirrored`` likewise; ``marked``: the sides.
SPREAD    ``marked`` and ``members``: elements from + to −, as few as possible, whose drops
          add up; ``telling["entering"]`` and ``telling["leaving"]``: for each of them the
          share of a flow that enters at + and leaves evenly at all junctions, and of one that
          enters evenly and leaves at −, as fractions with commas between them;
          ``telling["distance"]``: how many elements these are; ``telling["junctions"]``: how
          many junctions there are. ``reductions/spread.py`` says why that is right.
DRIVE     ``marked``: the element that is left.
OPEN      ``undone``: the kind of move that is undone (MERGE, STAR, TRIANGLE, SPREAD; JOIN
          where elements were halved), with the same ``merged``, ``star``, ``mirrored`` and
          ``halved`` as it had; ``marked``: the elements that get their values; ``joined``:
          junctions that are taken apart along with it, since that changes nothing.
========  ==========================================================================
"""

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
    DROP = "drop"
    """Elements that carry nothing are taken out: they hang loose, or both ends are joined."""
    BALANCE = "balance"
    """A balanced bridge: its middle element carries nothing and is taken out."""
    JOIN = "join"
    """Junctions that are at the same potential by symmetry are joined."""
    SPREAD = "spread"
    """What enters at one junction leaves evenly at all, by symmetry; two of these are added."""
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
    BETWEEN = "between"
    """Potentials, and voltages between two junctions, along a way whose drops are known."""
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
class Merged:
    """Elements and the equivalent that stands for them.

    Attributes:
        equivalent: its name.
        connection: ``series`` or ``parallel``.
        members: at least two; for series in the order of the chain, from the equivalent's first
            junction to its second.
    """

    equivalent: str
    connection: str
    members: tuple[str, ...]


@dataclass(frozen=True)
class Balanced:
    """A balanced bridge: two junctions that divide the same voltage in the same ratio.

    Attributes:
        ends: the two junctions, at the same potential.
        middle: the element between them; empty if there is none.
        outer: the junctions that the arms lead to, at least two.
        arms: for each end its arms, in the order of ``outer``.
    """

    ends: tuple[str, str]
    middle: str
    outer: tuple[str, ...]
    arms: tuple[tuple[str, ...], tuple[str, ...]]


@dataclass(frozen=True)
class StarAndTriangle:
    """Three elements in a star and three in a triangle (delta) that stand for each other.

    Attributes:
        point: the junction in the middle of the star.
        corners: the three junctions of the triangle.
        legs: of the star, each at the corner of the same position.
        sides: of the triangle, each opposite the corner of the same position.
    """

    point: str
    corners: tuple[str, str, str]
    legs: tuple[str, str, str]
    sides: tuple[str, str, str]


@dataclass(frozen=True)
class NetworkStep(Step):
    """One move through a network.

    Attributes:
        network: after the move; for equations the network that they are about.
        before: the network before the move where that is worth showing beside it, else None.
        marked: the elements of ``network`` that the move is about.
        members: the elements of the network before that the move acts on.
        merged: the groups that are merged or opened.
        dropped: elements that carry nothing and are taken out.
        joined: junctions that become one, each set by the name that it keeps, which is in it.
        balance: the bridge that is balanced.
        halved: elements seen as two halves in series, which are the members.
        star: the star and the triangle that stand for each other.
        mirrored: its mirror image, which is exchanged along with it.
        undone: the kind of move that a walk back undoes.
        loops: the loops that are gone round.
        reference: the junction whose potential is taken as zero; empty if none is.
        known: the quantities that the figure of the step shows; None for all that are known.
        telling: what else the words need: why a bridge is balanced, which symmetry it is.
    """

    network: Network
    before: Network | None = field(default=None, kw_only=True)
    marked: tuple[str, ...] = field(default=(), kw_only=True)
    members: tuple[str, ...] = field(default=(), kw_only=True)
    merged: tuple[Merged, ...] = field(default=(), kw_only=True)
    dropped: tuple[str, ...] = field(default=(), kw_only=True)
    joined: Mapping[str, tuple[str, ...]] = field(default_factory=dict, kw_only=True)
    balance: Balanced | None = field(default=None, kw_only=True)
    halved: tuple[Merged, ...] = field(default=(), kw_only=True)
    star: StarAndTriangle | None = field(default=None, kw_only=True)
    mirrored: StarAndTriangle | None = field(default=None, kw_only=True)
    undone: NetworkMove | None = field(default=None, kw_only=True)
    loops: tuple[Loop, ...] = field(default=(), kw_only=True)
    reference: str = field(default="", kw_only=True)
    known: tuple[Name, ...] | None = field(default=None, kw_only=True)
    telling: Mapping[str, str] = field(default_factory=dict, kw_only=True)
