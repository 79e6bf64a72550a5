"""What the formula sheet says of networks, beyond series and parallel.

Sources: University Physics Volume 2 (OpenStax), section 10.3 (junctions and loops); triangle and
star: J. B. Tatum, Electricity and Magnetism (LibreTexts), sections 4.12 and 5.7; the equivalent
source and the greatest power: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction

from builder.circuit.law import SERIES, Law
from builder.lesson.network.uses import EQUATIONS, EQUIVALENT_SOURCE, EXCHANGE
from builder.problem.network.asking import INNER, OPEN
from builder.quantity.formula import Formula, Num, Product, Quotient, Ref, Square, Sum
from builder.quantity.names import Name

Lines = tuple[tuple[tuple[Name, ...], Formula], ...]
_LEGS, _SIDES = ("a", "b", "c"), ("1", "2", "3")


def network_rules(law: Law, used: Collection[str]) -> Iterator[tuple[str, Lines, str]]:
    """Heading, equalities and reason of each rule that the networks of a unit use."""
    if f"{law.element}-{EQUATIONS}" in used:
        yield _junctions(law)
        yield _loops(law)
    if f"{law.element}-{EXCHANGE}" in used:
        yield _triangle_to_star(law)
    if f"{law.element}-{EQUIVALENT_SOURCE}" in used and law.work == "power":
        yield _equivalent_source(law)
        yield _matching(law)


def _junctions(law: Law) -> tuple[str, Lines, str]:
    flows = [Name(law.flow, side) for side in _SIDES]
    lines = (((flows[0],), Sum((Ref(flows[1]), Ref(flows[2])))),)
    if law.work == "energy":
        return ("Plates joined by wire, charged from empty", lines,
                "Plates that touch nothing else get no charge from anywhere: what is missing on "
                "one has gathered on the others.")  # fmt: skip
    return ("A junction with one current in and two out", lines,
            "No charge piles up at a junction: what flows in flows out.")  # fmt: skip


def _loops(law: Law) -> tuple[str, Lines, str]:
    drops = tuple(Ref(Name(law.drop, side)) for side in _SIDES)
    return (f"A loop of one source and three {law.element}s", (
        ((Name(law.drop, "0"),), Sum(drops)),
    ), "Whoever goes once round a loop is back at the same potential: what the source lifts, the "
       "others lower.")  # fmt: skip


def _triangle_to_star(law: Law) -> tuple[str, Lines, str]:
    sides = tuple(Ref(Name(law.value, side)) for side in _SIDES)
    lines = []
    for at, leg in enumerate(_LEGS):
        opposite = sides[at]
        first, second = (side for side in sides if side is not opposite)
        legs: Formula = (
            Quotient(Product((first, second)), Sum(sides))
            if law.adds_in == SERIES
            else Quotient(
                Sum((Product(sides[:2]), Product(sides[1:]), Product((sides[2], sides[0])))),
                opposite,
            )
        )
        lines.append(((Name(law.value, leg),), legs))
    return (f"A triangle of {law.element}s made into a star", tuple(lines),
            "Between any two corners the star has to be just what the triangle was. Leg a lies "
            "opposite side 1, leg b opposite side 2, leg c opposite side 3.")  # fmt: skip


def _equivalent_source(law: Law) -> tuple[str, Lines, str]:
    voltage = Ref(Name(law.drop, OPEN))
    inner, load = Ref(Name(law.value, INNER)), Ref(Name(law.value, ""))
    return ("An equivalent source and its load", (
        ((Name(law.flow, ""),), Quotient(voltage, Sum((inner, load)))),
    ), "Seen from two points, any network of sources and resistors is one source with one "
       "resistance; the load closes the only loop.")  # fmt: skip


def _matching(law: Law) -> tuple[str, Lines, str]:
    voltage, inner = Ref(Name(law.drop, OPEN)), Ref(Name(law.value, INNER))
    most = Quotient(Square(voltage), Product((Num(Fraction(4)), inner)))
    return ("The greatest power that a load can take", (
        ((Name(law.value, "match"),), inner),
        ((Name(law.work, "max"),), most),
    ), "A load equal to the inner resistance takes half the open voltage at half of the largest "
       "current.")  # fmt: skip
