"""Equations that are solved together, with their numbers collected."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from sympy import Rational

from builder.lesson.display import Display
from builder.quantity.exact import as_fraction
from builder.quantity.formula import Solved, System, evaluate
from builder.quantity.names import Name
from builder.quantity.show import Shown, show_whole


@dataclass(frozen=True)
class LinearSystem:
    """Equations that are solved together, their numbers collected.

    Attributes:
        unknowns: what they are solved for, all of one kind of quantity.
        rows: whole numbers without a common factor, one row for each equation and one number
            for each unknown.
        right: what each row adds up to.
    """

    unknowns: tuple[Name, ...]
    rows: tuple[tuple[int, ...], ...]
    right: tuple[Shown, ...]


def linear_system(system: System, display: Display) -> Iterator[LinearSystem]:
    """A system with its numbers collected; nothing where its unknowns are not of one kind.

    Each row is divided by what its numbers have in common, so that no unit is left on the left
    and the right is measured as the unknowns are.
    """
    unknowns = _unknowns(system, display)
    if len(unknowns) != len(system.right) or len({name.quantity for name in unknowns}) != 1:
        return
    values = display.solution.values
    rows, right = [], []
    for row, total in zip(system.rows, system.right, strict=True):
        numbers = [as_fraction(evaluate(part, values)) for part in row]
        size = _largest_common(numbers)
        if size == 0:
            return
        amount = as_fraction(evaluate(total, values)) / size
        rows.append(tuple(int(number / size) for number in numbers))
        right.append(show_whole(Rational(amount.numerator, amount.denominator),
                                unknowns[0].quantity))  # fmt: skip
    yield LinearSystem(unknowns, tuple(rows), tuple(right))


def _unknowns(system: System, display: Display) -> tuple[Name, ...]:
    """What a system is solved for, in the order of its columns."""
    found = {
        line.formula.position: line.name
        for step in display.solution.every_step
        for line in step.lines
        if isinstance(line.formula, Solved) and line.formula.system == system
    }
    return tuple(found[position] for position in sorted(found))


def _largest_common(numbers: list[Fraction]) -> Fraction:
    """The largest number of which all are whole multiples."""
    under = lcm(*(number.denominator for number in numbers))
    return Fraction(gcd(*(int(number * under) for number in numbers)), under)
