"""The ladder without an end: one more section in front of it changes nothing.

Let x be the equivalent of the whole ladder. With one more section in front it is still x, which
is an equation of second degree for x with one positive root. The root is kept exact; most often
it is irrational.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from builder.circuit.law import PARALLEL, SERIES, Law
from builder.quantity.formula import (
    Formula,
    Negative,
    Num,
    Product,
    Quotient,
    Ref,
    Root,
    Square,
    Sum,
)
from builder.quantity.names import TOTAL, Name
from builder.solution.program import Line, Statement, Step


class LadderMove(StrEnum):
    """The moves by which an endless ladder is solved."""

    SECTION = "section"
    """What stands in the rails of one section is merged."""
    REPEAT = "repeat"
    """One more section changes nothing: an equation that holds the unknown on both sides."""
    ROOT = "root"
    """The equation without fractions, and its positive root."""
    FINITE = "finite"
    """Ladders of one, two, three … sections come nearer and nearer."""


@dataclass(frozen=True)
class LadderStep(Step):
    """One move.

    Attributes:
        ladder: that is solved.
    """

    ladder: Ladder


@dataclass(frozen=True)
class Ladder:
    """A ladder of equal sections without an end, seen from its two open ends.

    Attributes:
        law: of its elements.
        rails: the names of the elements of one section that lie in the rails, one or two.
        rung: the name of the element between the rails.
        first: ``series`` if the rails come first, ``parallel`` if a rung does.
    """

    law: Law
    rails: tuple[str, ...]
    rung: str
    first: str = SERIES

    @property
    def rail(self) -> str:
        """What the rail elements of one section are together: ``rails`` if they are two."""
        return self.rails[0] if len(self.rails) == 1 else "rails"

    def value(self, of: str) -> Name:
        """The name of a capacitance or resistance."""
        return Name(self.law.value, of)

    def in_front_of(self, rest: Formula) -> Formula:
        """The equivalent of one section with ``rest`` at its far end."""
        rail, rung, law = Ref(self.value(self.rail)), Ref(self.value(self.rung)), self.law
        if self.first == SERIES:
            return law.merged(SERIES, (rail, law.merged(PARALLEL, (rung, rest))))
        return law.merged(PARALLEL, (rung, law.merged(SERIES, (rail, rest))))

    def alone(self) -> Formula:
        """The equivalent of the last section, with nothing at its far end."""
        rail, rung = Ref(self.value(self.rail)), Ref(self.value(self.rung))
        return self.law.merged(SERIES, (rail, rung)) if self.first == SERIES else rung


def finite(sections: int) -> str:
    """What the equivalent of a ladder of so many sections belongs to: ``ladder3``."""
    return f"ladder{sections}"


def ladder_steps(ladder: Ladder, sections: int = 4) -> tuple[LadderStep, ...]:
    """The steps to the equivalent of an endless ladder, which belongs to ``total``.

    Args:
        ladder: to be solved.
        sections: the longest of the finite ladders that it is compared with.
    """
    whole = Ref(ladder.value(TOTAL))
    repeat = Statement(whole, ladder.in_front_of(whole))
    steps = [LadderStep("repeat", LadderMove.REPEAT, (), ladder, statements=(repeat,))]
    if len(ladder.rails) > 1:
        rails = tuple(Ref(ladder.value(name)) for name in ladder.rails)
        line = Line(ladder.value(ladder.rail), ladder.law.merged(SERIES, rails))
        steps.insert(0, LadderStep("section", LadderMove.SECTION, (line,), ladder))
    positive = Line(whole.name, _positive_root(ladder))
    steps.append(
        LadderStep("root", LadderMove.ROOT, (positive,), ladder, statements=(_squared(ladder),))
    )
    lines = [Line(ladder.value(finite(1)), ladder.alone())]
    for number in range(2, sections + 1):
        before = Ref(ladder.value(finite(number - 1)))
        lines.append(Line(ladder.value(finite(number)), ladder.in_front_of(before)))
    return (*steps, LadderStep("finite", LadderMove.FINITE, tuple(lines), ladder))


def _parts(ladder: Ladder) -> tuple[Ref, Ref, bool]:
    """The part b of x² = ±b·x + b·c that comes first, the other part c, and the sign.

    For resistors the rails are b, for capacitors the rungs are. The sign is + where b adds to
    what lies behind it before anything else does.
    """
    rail, rung = Ref(ladder.value(ladder.rail)), Ref(ladder.value(ladder.rung))
    b, c = (rail, rung) if ladder.law.adds_in == SERIES else (rung, rail)
    return b, c, ladder.first == ladder.law.adds_in


def _squared(ladder: Ladder) -> Statement:
    """x² = b·x + b·c where b comes first, x² + b·x = b·c where c does."""
    b, c, plus = _parts(ladder)
    x = Ref(ladder.value(TOTAL))
    if plus:
        return Statement(Square(x), Sum((Product((b, x)), Product((b, c)))))
    return Statement(Sum((Square(x), Product((b, x)))), Product((b, c)))


def _positive_root(ladder: Ladder) -> Formula:
    """(±b + √(b² + 4·b·c))/2; the other root is negative, as their product is −b·c."""
    b, c, plus = _parts(ladder)
    root = Root(Sum((Square(b), Product((Num(Fraction(4)), b, c)))))
    over = Sum((b, root)) if plus else Sum((root, Negative(b)))
    return Quotient(over, Num(Fraction(2)))
