"""What the formula sheet says of charging and discharging through resistors."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction

from builder.circuit.law import Law
from builder.lesson.transient.about import TRANSIENT
from builder.problem.transient.moments import CONSTANT
from builder.quantity.formula import (
    Exp,
    Formula,
    Ln,
    Negative,
    Num,
    Product,
    Quotient,
    Ref,
    Sum,
)
from builder.quantity.names import Name

Line = tuple[tuple[Name, ...], Formula]


def transient_rules(law: Law, used: Collection[str]) -> Iterator[tuple[str, tuple[Line, ...], str]]:
    """The heading, the lines and the reason of each rule that a unit uses."""
    if law.flow != "charge" or TRANSIENT not in used:
        return
    constant, time = Ref(CONSTANT), Ref(Name("time", ""))
    first, last, level = (Ref(Name("voltage", of)) for of in ("0", "∞", ""))
    left = Exp(Negative(Quotient(time, constant)))
    way = Sum((first, Negative(last)))
    yield (
        "How fast a capacitor charges or discharges",
        (((CONSTANT,), Product((Ref(Name("resistance", "")), Ref(Name("capacitance", ""))))),),
        "The resistance is the one that the capacitor sees, with a wire in place of each battery. "
        "In one time constant the voltage goes 63\u00a0% of its way.",
    )
    yield (
        "From a first voltage towards a last one",
        (((level.name,), Sum((last, Product((way, left))))),
         ((time.name,), Product((constant, Ln(Quotient(
             Sum((last, Negative(first))), Sum((last, Negative(level)))))))),
        ),
        "What is left of the way shrinks by the same factor in equal times. An empty capacitor "
        "starts from nothing; one without a source is heading for nothing.",
    )  # fmt: skip
    one = Num(Fraction(1))
    yield (
        "Charging from nothing, discharging to nothing",
        (((level.name,), Product((last, Sum((one, Negative(left)))))),
         ((level.name,), Product((first, left)))),
        "The two cases that come most often: the first for an empty capacitor, the second for one "
        "that is only emptied.",
    )  # fmt: skip
