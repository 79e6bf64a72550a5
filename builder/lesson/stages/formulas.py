"""What the formula sheet says of charged capacitors that a switch joins."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction

from builder.circuit.law import Law
from builder.circuit.switching import LOST
from builder.lesson.stages.about import SHARING
from builder.quantity.formula import Formula, Negative, Num, Product, Quotient, Ref, Square, Sum
from builder.quantity.names import TOTAL, Name

Line = tuple[tuple[Name, ...], Formula]


def stages_rules(law: Law, used: Collection[str]) -> Iterator[tuple[str, tuple[Line, ...], str]]:
    """The heading, the lines and the reason of each rule that a unit uses."""
    if law.flow != "charge" or SHARING not in used:
        return
    first, second = (Ref(Name(law.value, member)) for member in "12")
    charges = Sum(tuple(Ref(Name(law.flow, member)) for member in "12"))
    volts = Quotient(charges, Sum((first, second)))
    yield (
        "Charged capacitors that are joined",
        (((Name(law.drop, TOTAL),), volts),),
        "No charge can leave the joined plates, so its sum stays, and the two settle at one "
        "voltage. A −\u00a0plate counts with a minus sign.",
    )
    apart = Sum((Ref(Name(law.drop, "1")), Negative(Ref(Name(law.drop, "2")))))
    together = Quotient(Product((first, second)), Sum((first, second)))
    heat = Product((Num(Fraction(1, 2)), together, Square(apart)))
    yield (
        "Heat where two capacitors are joined",
        (((Name(law.work, LOST),), heat),),
        "What is no longer stored has turned into heat, whatever the wires resist: what the two in "
        "a chain would store at the difference of their voltages.",
    )
