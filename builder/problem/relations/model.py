"""Quantities and relations, as read: checked, exact and immutable."""

from __future__ import annotations

from dataclasses import dataclass

from builder.problem.faults.gathering import START, Mark
from builder.problem.model import Problem
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula
from builder.quantity.names import Name
from builder.quantity.show import Shown

EXTRA = "extra"
"""Marks a relation that follows from the others of its problem, at the end of its ``about``."""


@dataclass(frozen=True)
class Stated:
    """A quantity of a problem, given or to be found.

    Attributes:
        name: its kind, and what the author calls it.
        value: in SI units; None if it is unknown.
        shown: as the author wrote it; None if it is unknown.
        means: what it is, in the author's words; may be empty.
        choose: which of two possible values is meant: ``larger``, ``smaller`` or nothing.
        source: where a constant comes from; empty for what the author gives.
        at: its place in the file.
    """

    name: Name
    value: Exact | None = None
    shown: Shown | None = None
    means: str = ""
    choose: str = ""
    source: str = ""
    at: Mark = START

    @property
    def known(self) -> bool:
        """Whether the problem states its value."""
        return self.value is not None


@dataclass(frozen=True)
class Relation:
    """An equation that holds in a problem: ``left = right``.

    Attributes:
        left, right: its sides.
        written: as the author wrote it.
        because: why it holds, in the author's words; may be empty.
        about: what it is told of where a circuit or plates bring it along: a word for the kind
            of relation, then what it is of.
        at: its place in the file.
    """

    left: Formula
    right: Formula
    written: str
    because: str = ""
    about: tuple[str, ...] = ()
    at: Mark = START


@dataclass(frozen=True)
class PlatePart:
    """One part of what lies between two plates.

    Attributes:
        number: counts from 1.
        size: the name of its thickness or area.
        kappa: the name of its κ; empty for metal and for what is empty.
        called: what the author calls it; may be empty.
        strength: the name of its dielectric strength; empty if none is stated.
        metal: whether it is metal.
        rest: whether it is what the other parts leave empty.
    """

    number: int
    size: str
    kappa: str
    called: str = ""
    strength: str = ""
    metal: bool = False
    rest: bool = False


@dataclass(frozen=True)
class Plates:
    """Two plates and what lies between them.

    Attributes:
        arrangement: ``empty``, ``whole``, ``layers``, ``slabs`` or ``metal``.
        parts: from the + plate to the − plate, or from left to right.
        battery: ``connected`` or ``removed`` while the filling is put in; empty where it is
            there from the start.
    """

    arrangement: str
    parts: tuple[PlatePart, ...]
    battery: str


@dataclass(frozen=True, kw_only=True)
class RelationsProblem(Problem):
    """A problem of quantities and the relations between them.

    Attributes:
        quantities: in the author's order, constants last.
        relations: in the author's order.
        plates: the plates that they are about, if they are about plates.
    """

    quantities: tuple[Stated, ...]
    relations: tuple[Relation, ...]
    plates: Plates | None = None

    def quantity(self, name: Name) -> Stated:
        """What is stated of a quantity.

        Raises:
            KeyError: if the problem has none of that name.
        """
        for stated in self.quantities:
            if stated.name == name:
                return stated
        raise KeyError(name)

    @property
    def unknowns(self) -> tuple[Name, ...]:
        """What is to be found, asked for or not, in the author's order."""
        return tuple(stated.name for stated in self.quantities if not stated.known)
