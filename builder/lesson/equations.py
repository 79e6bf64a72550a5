"""The lines of a step as equations: the formula, the same with values, the result."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from builder.lesson.display import Display
from builder.lesson.linear_system import LinearSystem, linear_system
from builder.quantity.compact import compact
from builder.quantity.exact import as_fraction
from builder.quantity.formula import (
    Amount,
    Formula,
    Negative,
    ReciprocalSum,
    Ref,
    Solved,
    System,
    every_part,
    names_in,
    with_parts,
)
from builder.quantity.names import Name
from builder.quantity.personal import as_formula
from builder.quantity.show import ShownExpression, unit_power
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


@dataclass(frozen=True)
class InLetters:
    """An expression of letters that is the value of no single quantity, e.g. 3/(2C)."""

    formula: Formula


Side = Symbols | Values | Result | Reciprocal | InLetters


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


AnyEquation = Equation | Stated | LinearSystem


def equations(step: Step, known: Collection[Name], display: Display) -> tuple[AnyEquation, ...]:
    """What a step writes down: the equations that it sets up, then what it finds.

    Args:
        step: the move.
        known: the quantities whose numbers are known before it, the givens among them.
        display: of the solution.
    """
    return (*_stated(step.statements, known, display), *_found(step.lines, display))


def _stated(
    statements: tuple[Statement, ...], known: Collection[Name], display: Display
) -> Iterator[Stated]:
    """Equations in symbols, then those that hold known quantities again with their numbers."""
    for statement in statements:
        yield Stated(statement.left, statement.relation, statement.right)
    for statement in statements:
        used = {*names_in(statement.left), *names_in(statement.right)}
        numbers = frozenset(used.intersection(known))
        if numbers and statement.in_numbers:
            exact = statement.relation != "=" or all(display.shown(name).exact for name in numbers)
            relation = statement.relation if exact else "≈"
            yield Stated(statement.left, relation, statement.right, numbers)


def _found(lines: tuple[Line, ...], display: Display) -> tuple[AnyEquation, ...]:
    """The lines of a step, written out; values carried over together stand in one chain."""
    written: list[AnyEquation] = []
    systems: list[System] = []
    carried: dict[Name, list[Name]] = {}
    own = {line.name for line in lines}
    for line in lines:
        if isinstance(line.formula, Ref) and line.formula.name not in own:
            carried.setdefault(line.formula.name, []).append(line.name)
    for origin, names in carried.items():
        result = Row(display.shown(origin).sign, Result(origin))
        written.append(Equation((*names, origin), (result,)))
    for line in lines:
        if isinstance(line.formula, Solved):
            if line.formula.system not in systems:
                systems.append(line.formula.system)
                written.extend(linear_system(line.formula.system, display))
            written.append(Equation((line.name,), (_result(line.name, display),)))
        elif isinstance(line.formula, Ref) and line.formula.name in own:
            chain = (line.name, line.formula.name)
            written.append(Equation(chain, (_result(line.name, display),)))
        elif not line.carries:
            written.extend(_written_out(line, display))
    return tuple(written)


def _result(name: Name, display: Display) -> Row:
    return Row(display.shown(name).sign, Result(name))


def _written_out(line: Line, display: Display) -> Iterator[Equation]:
    result = _result(line.name, display)
    used = list(names_in(line.formula))
    exact = all(display.shown(name).exact for name in used)
    values = Row("=" if exact else "≈", Values(line.formula))
    if not used:
        yield Equation((line.name,), (result,))
        return
    rows = [Row("=", Symbols(line.formula))]
    # Of a value with its sign turned the number alone says as much as the result.
    turned = isinstance(line.formula, Negative) and isinstance(line.formula.term, Ref)
    says_more = not all(display.names_itself(name) for name in used)
    if len(used) <= MOST_TERMS and not turned and says_more:
        rows.append(values)
    if not isinstance(line.formula, ReciprocalSum):
        told_already = _in_letters(line.formula, display) == display.shown(line.name).number
        yield Equation((line.name,), tuple(rows) if told_already else (*rows, result))
        return
    fraction = _fraction_of(line, display) if exact else None
    if fraction is not None:
        rows.append(Row("=", fraction))
    yield Equation((line.name,), tuple(rows), reciprocal=True)
    yield Equation((line.name,), (result,))


def _in_letters(formula: Formula, display: Display) -> str | None:
    """A formula with expressions put in for its quantities; None if all of them are numbers."""
    known: dict[Name, Formula] = {}
    for name in names_in(formula):
        shown = display.shown(name)
        known[name] = (
            shown.expression
            if isinstance(shown, ShownExpression)
            else Amount(display.solution.values[name], name.quantity)
        )
    if all(isinstance(put_in, Amount) for put_in in known.values()):
        return None
    return compact(with_parts(formula, known))


def _fraction_of(line: Line, display: Display) -> Reciprocal | InLetters | None:
    """A sum of reciprocals as one fraction, of numbers or of letters without numbers' units."""
    shown = display.shown(line.name)
    if not isinstance(shown, ShownExpression):
        return _one_fraction(line, display)
    mixed = any(isinstance(part, Amount) for part in every_part(shown.expression))
    return None if mixed else InLetters(as_formula(1 / display.solution.values[line.name]))


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
