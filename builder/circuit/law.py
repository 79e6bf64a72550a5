"""The relation of one kind of element, and its merging rules.

Both laws are one linear relation, flow = weight × drop: Q = C·V and I = G·V with G = 1/R.
Sources: University Physics Volume 2 (OpenStax), sections 8.2, 8.3 (capacitors) and 10.2
(resistors).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from builder.quantity.exact import Exact
from builder.quantity.formula import (
    Formula,
    Num,
    Product,
    Quotient,
    ReciprocalSum,
    Square,
    Sum,
)
from builder.quantity.kinds import KINDS

SERIES = "series"
PARALLEL = "parallel"


@dataclass(frozen=True)
class Law:
    """The law of one kind of element.

    Attributes:
        element: the noun for one element.
        value: the quantity kind of an element's value.
        flow: what is equal all along a series chain.
        drop: what is equal across parallel branches.
        work: the energy stored or the power turned into heat.
        adds_in: the connection in which values simply add.
    """

    element: str
    value: str
    flow: str
    drop: str
    work: str
    adds_in: str

    @property
    def letter(self) -> str:
        """The letter of an element's value: C or R."""
        return KINDS[self.value].symbol

    @property
    def quantities(self) -> tuple[str, str, str, str]:
        """The quantity kinds of one element: value, flow, drop, work."""
        return (self.value, self.flow, self.drop, self.work)

    def weight(self, value: Exact) -> Exact:
        """Flow per drop for an element of that value: C, or 1/R."""
        return value if self.adds_in == PARALLEL else 1 / value

    def merged(self, connection: str, members: tuple[Formula, ...]) -> Formula:
        """The value of the equivalent of ``members`` in series or in parallel."""
        return Sum(members) if connection == self.adds_in else ReciprocalSum(members)

    def flow_from(self, value: Formula, drop: Formula) -> Formula:
        """Q = C·V, or I = V/R."""
        return Product((value, drop)) if self.adds_in == PARALLEL else Quotient(drop, value)

    def drop_from(self, value: Formula, flow: Formula) -> Formula:
        """V = Q/C, or V = R·I."""
        return Quotient(flow, value) if self.adds_in == PARALLEL else Product((value, flow))

    def work_from_flow_and_drop(self, flow: Formula, drop: Formula) -> Formula:
        """U = ½·Q·V, or P = V·I."""
        if self.work == "energy":
            return Product((Num(Fraction(1, 2)), flow, drop))
        return Product((drop, flow))

    def work_from_drop(self, value: Formula, drop: Formula) -> Formula:
        """U = ½·C·V², or P = V²/R."""
        if self.work == "energy":
            return Product((Num(Fraction(1, 2)), value, Square(drop)))
        return Quotient(Square(drop), value)

    def work_from_flow(self, value: Formula, flow: Formula) -> Formula:
        """U = Q²/(2·C), or P = R·I²."""
        if self.work == "energy":
            return Quotient(Square(flow), Product((Num(Fraction(2)), value)))
        return Product((value, Square(flow)))


CAPACITORS = Law("capacitor", "capacitance", "charge", "voltage", "energy", adds_in=PARALLEL)
RESISTORS = Law("resistor", "resistance", "current", "voltage", "power", adds_in=SERIES)

LAWS: dict[str, Law] = {law.value: law for law in (CAPACITORS, RESISTORS)}
"""Every law, by the quantity kind that an element's value has."""
