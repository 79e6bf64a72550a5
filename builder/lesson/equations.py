"""The lines of a step as equations: the formula, the same with values, the result."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from builder.lesson.display import Display
from builder.quantity.exact import as_fraction
from builder.quantity.formula import Formula, ReciprocalSum, Ref, names_in
from builder.quantity.names import Name
from builder.quantity.show import unit_power
from builder.solution import Line, Statement, Step

LONGEST_FRACTION = 4
MOST_TERMS = 8


@dataclass(frozen=True)
class Symbols:
    """A formula written with symbols."""

    formula: Formula


@dataclass(frozen=True)
class Values:
    """A formula written with the numbers of its quantities."""

    formula: Formula


@dataclass(frozen=True)
class Result:
    """The number of a quantity."""

    name: Name


@dataclass(frozen=True)
class Reciprocal:
    """A sum of reciprocals as one fraction, e.g. 4/(30 µF).

    Attributes:
        over, under: the fraction.
        unit: of the lower number.
    """

    over: int
    under: int
    unit: str


Side = Symbols | Values | Result | Reciprocal


@dataclass(frozen=True)
class Row:
    """One line of an equation.

    Attributes:
        relation: ``=`` or ``≈``.
        side: what follows it.
    """

    relation: str
    side: Side


@dataclass(frozen=True)
class Equation:
    """A quantity, or the reciprocal of one, and what it equals.

    Attributes:
        names: what stands at the left; several are written as a chain of equals.
        reciprocal: whether 1/name stands at the left.
        rows: at least one.
    """

    names: tuple[Name, ...]
    rows: tuple[Row, ...]
    reciprocal: bool = False


@dataclass(frozen=True)
class Stated:
    """An equation that a step sets up, with the unknown on either side.

    Attributes:
        left, right: its sides.
        relation: between them.
        known: the quantities that are written by their numbers; empty for all symbols.
    """

    left: Formula
    relation: str
    right: Formula
    known: frozenset[Name] = frozenset()


AnyEquation = Equation | Stated


def equations(step: Step, known: Collection[Name], display: Display) -> tuple[AnyEquation, ...]:
    """What a step writes down: the equations that it sets up, then what it finds.

    Args:
        step: the move.
        known: the quantities whose numbers are known before it, the givens among them.
        display: of the solution.
    """
    return (*_stated(step.statements, known), *_found(step.lines, display))


def _stated(statements: tuple[Statement, ...], known: Collection[Name]) -> Iterator[Stated]:
    """Equations in symbols, then those that hold known quantities again with their numbers."""
    for statement in statements:
        yield Stated(statement.left, statement.relation, statement.right)
    for statement in statements:
        used = {*names_in(statement.left), *names_in(statement.right)}
        numbers = frozenset(used.intersection(known))
        if numbers:
            yield Stated(statement.left, statement.relation, statement.right, numbers)


def _found(lines: tuple[Line, ...], display: Display) -> tuple[Equation, ...]:
    """The lines of a step, written out; values carried over together stand in one chain."""
    written: list[Equation] = []
    carried: dict[Name, list[Name]] = {}
    for line in lines:
        if isinstance(line.formula, Ref):
            carried.setdefault(line.formula.name, []).append(line.name)
    for origin, names in carried.items():
        result = Row(display.shown(origin).sign, Result(origin))
        written.append(Equation((*names, origin), (result,)))
    for line in lines:
        if not line.carries:
            written.extend(_written_out(line, display))
    return tuple(written)


def _written_out(line: Line, display: Display) -> Iterator[Equation]:
    result = Row(display.shown(line.name).sign, Result(line.name))
    used = list(names_in(line.formula))
    exact = all(display.shown(name).exact for name in used)
    values = Row("=" if exact else "≈", Values(line.formula))
    rows = [Row("=", Symbols(line.formula))]
    if len(used) <= MOST_TERMS:
        rows.append(values)
    if not isinstance(line.formula, ReciprocalSum):
        yield Equation((line.name,), (*rows, result))
        return
    fraction = _one_fraction(line, display) if exact else None
    if fraction is not None:
        rows.append(Row("=", fraction))
    yield Equation((line.name,), tuple(rows), reciprocal=True)
    yield Equation((line.name,), (result,))


def _one_fraction(line: Line, display: Display) -> Reciprocal | None:
    """The sum of reciprocals over its common denominator, where that is short."""
    units = {display.shown(name).unit for name in names_in(line.formula)}
    if len(units) != 1 or not isinstance(line.formula, ReciprocalSum):
        return None
    unit = units.pop()
    power = unit_power(unit, line.name.quantity)
    if power is None:
        return None
    size = Fraction(10) ** power
    members = [as_fraction(display.solution.values[name]) / size for name in names_in(line.formula)]
    if not all(member.denominator == 1 for member in members):
        return None
    under = lcm(*(member.numerator for member in members))
    over = sum(Fraction(under) / member for member in members)
    if len(str(under)) > LONGEST_FRACTION or len(str(over)) > LONGEST_FRACTION:
        return None
    return Reciprocal(int(over), under, unit)
