"""What has to be computed for a set of values, and what has to hold of it, one after the other."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import combinations, pairwise
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from builder.quantity.arrays import ManySets
from builder.quantity.clean import UNCLEAN, digits_of, rounded
from builder.quantity.exact import Exact
from builder.quantity.formula import Exp, Ln, Ref, evaluate, every_part, names_in
from builder.quantity.names import Name
from builder.quantity.show import show
from builder.quantity.symbolic import sign_of
from builder.solution.fresh.grid import Grid
from builder.solution.fresh.wanted import Wanted, asked_of, ranges_of
from builder.solution.program import Line, Statement, Step
from builder.solution.solution import Solution

_NEAR = 1e-9
Truths: TypeAlias = NDArray[np.bool_]


class Why(StrEnum):
    """For what reason a set of values is not taken."""

    DIFFERENT = "different"
    """Values that differ in the problem would be equal."""
    SIGN = "sign"
    """A quantity would be impossible, or have another sign."""
    STATEMENT = "statement"
    """A step would not be allowed: a bridge is balanced no longer."""
    FADED = "faded"
    """What charges or discharges would have come to its end before the time that is asked for."""
    RANGE = "range"
    """A quantity would leave the range that it is to keep."""
    ORDER = "order"
    """Of two quantities of one kind the other one would be larger, or they would look equal."""
    DIGITS = "digits"
    """A number would need more digits than it may have."""


@dataclass(frozen=True)
class Condition:
    """Something that has to hold of a set of values.

    Attributes:
        why: which kind of condition it is.
        about: the quantities concerned.
        holds: whether it does, for each of many sets.
    """

    why: Why
    about: tuple[Name, ...]
    holds: Callable[[ManySets], Truths]


@dataclass(frozen=True)
class Course:
    """What is computed, in order, each part followed by the conditions that can then be told.

    Attributes:
        parts: definitions and conditions; those that what is asked needs come first.
        constants: quantities that no set of values changes.
    """

    parts: tuple[Line | Condition, ...]
    constants: Mapping[Name, float]


def course_of(solution: Solution, grid: Grid, wanted: Wanted) -> Course:
    """All that has to hold of other values for a solved problem.

    Args:
        solution: with the problem's own values.
        grid: the values that are looked through.
        wanted: what they have to keep to.
    """
    ranges = dict(ranges_of(solution, wanted))
    constants = _constants(solution, grid.varied)
    known = {*grid.varied, *grid.fixed, *constants}
    parts: list[Line | Condition] = [*_differing(grid)]
    for step in _in_order(solution):
        for line in step.lines:
            if known.issuperset(names_in(line.formula)):
                known.add(line.name)
                parts += [line, *_of_line(line, solution)]
                if line.name in ranges:
                    parts.append(_range(line.name, ranges[line.name]))
        parts += [_statement(s) for s in step.statements if known.issuperset(_names(s))]
    asked = [name for name in asked_of(solution) if name in known]
    parts += _telling_apart(asked, solution)
    if wanted.same_order:
        stated = [axis.name for axis in grid.axes]
        parts += _same_order(dict.fromkeys((*stated, *grid.fixed, *asked)), solution)
    return Course(tuple(parts), constants)


def numbers_of(solution: Solution) -> tuple[Name, ...]:
    """The numbers that the steps of a solution show, each once, in their order."""
    lines = {line.name: line for step in solution.steps for line in step.lines}
    return tuple(name for name, line in lines.items() if not isinstance(line.formula, Ref))


def never_clean(solution: Solution, grid: Grid) -> frozenset[Name]:
    """The numbers that hang on an exponential, a logarithm or an unclean constant such as ε₀.

    Where such a constant cancels, a number may be clean nevertheless.
    """
    fixed = [name for name in solution.givens if name not in grid.varied]
    found = {name for name in fixed if digits_of(solution.values[name]) == UNCLEAN}
    for step in solution.every_step:
        for line in step.lines:
            wild = any(isinstance(part, Exp | Ln) for part in every_part(line.formula))
            if wild or not found.isdisjoint(names_in(line.formula)):
                found.add(line.name)
    return frozenset(found)


def _constants(solution: Solution, varied: frozenset[Name]) -> dict[Name, float]:
    """What is given without being stated, such as ε₀, and what starts at zero."""
    defined = {line.name for step in solution.every_step for line in step.lines}
    return {
        name: float(value)
        for name, value in solution.values.items()
        if name not in defined and name not in varied and (name in solution.givens or value == 0)
    }


def _in_order(solution: Solution) -> Iterator[Step]:
    """The steps that what is asked needs, then those that give the rest."""
    done = {line.name for step in solution.steps for line in step.lines}
    yield from solution.steps
    for step in solution.every_step:
        rest = tuple(line for line in step.lines if line.name not in done)
        if rest:
            yield Step(step.id, step.kind, rest)


def _names(statement: Statement) -> set[Name]:
    return {*names_in(statement.left), *names_in(statement.right)}


def _differing(grid: Grid) -> Iterator[Condition]:
    """Values of one kind that differ in the problem stay different."""
    stated = [(axis.name, axis.first, n) for n, axis in enumerate(grid.axes)]
    stated += [(name, axis.first * times, n) for n, axis in enumerate(grid.axes)
               for name, times in axis.followers.items()]  # fmt: skip
    stated += [(name, value, -1) for name, value in grid.fixed.items()]
    for (one, value, group), (other, other_value, other_group) in combinations(stated, 2):
        alike = one.quantity == other.quantity
        if alike and group != other_group and value != other_value:
            yield Condition(Why.DIFFERENT, (one, other), _unequal(one, other))


def _unequal(one: Name, other: Name) -> Callable[[ManySets], Truths]:
    return lambda sets: np.asarray(~_close(sets.values[one], sets.values[other]))


def _same_sign(name: Name, first: Exact) -> Condition:
    sign = float(sign_of(first) or 0)
    return Condition(Why.SIGN, (name,), lambda sets: np.sign(sets.values[name]) == sign)


def _of_line(line: Line, solution: Solution) -> Iterator[Condition]:
    """What has to hold as soon as a quantity is known."""
    if isinstance(line.formula, Ref):
        return  # that was told of the quantity whose value is carried over
    yield _same_sign(line.name, solution.values[line.name])
    for part in every_part(line.formula):
        if isinstance(part, Exp):
            yield Condition(Why.FADED, (line.name,), _lasting(part, solution))


def _lasting(part: Exp, solution: Solution) -> Callable[[ManySets], Truths]:
    """What has died away shows no more, so that the number would be the same without it."""
    least = 10.0 ** (1 - solution.problem.digits)
    own = float(evaluate(part, solution.values))
    return lambda sets: np.asarray(sets.value(part) >= min(own, least))


def _statement(statement: Statement) -> Condition:
    def holds(sets: ManySets) -> Truths:
        left, right = sets.value(statement.left), sets.value(statement.right)
        match statement.relation:
            case "=":
                return _close(left, right)
            case "<" | "≤":
                return np.asarray(left <= right)
            case _:
                return np.asarray(left >= right)

    return Condition(Why.STATEMENT, tuple(sorted(_names(statement))), holds)


def _range(name: Name, limits: tuple[Fraction, Fraction]) -> Condition:
    least, most = map(float, limits)

    def holds(sets: ManySets) -> Truths:
        sizes = np.abs(sets.values[name])
        inside = (sizes >= least) & (sizes <= most)
        return np.asarray(inside | _close(sizes, least) | _close(sizes, most))

    return Condition(Why.RANGE, (name,), holds)


def _telling_apart(names: Sequence[Name], solution: Solution) -> Iterator[Condition]:
    """Answers of one kind that look different in the problem still do."""
    digits = solution.problem.digits

    def look(name: Name) -> str:
        return show(solution.values[name], name.quantity, digits).text

    for kind in sorted({name.quantity for name in names}):
        alike = [name for name in names if name.quantity == kind]
        pairs = [pair for pair in combinations(alike, 2) if look(pair[0]) != look(pair[1])]
        if pairs:
            yield Condition(Why.ORDER, tuple(alike), _apart(pairs, digits))


def _apart(pairs: list[tuple[Name, Name]], digits: int) -> Callable[[ManySets], Truths]:
    def holds(sets: ManySets) -> Truths:
        looks = {name: rounded(sets.values[name], digits) for pair in pairs for name in pair}
        return np.asarray(np.all([~_close(looks[a], looks[b]) for a, b in pairs], axis=0))

    return holds


def _same_order(names: Mapping[Name, None], solution: Solution) -> Iterator[Condition]:
    """Of neighbours in size, the larger one stays the larger, and equal ones stay equal."""
    kinds = {name.quantity for name in names}
    for kind in sorted(kinds):
        sizes = {name: float(solution.values[name]) for name in names if name.quantity == kind}
        ranked = sorted(sizes, key=lambda name: sizes[name])
        for small, large in pairwise(ranked):
            equal = bool(solution.values[small] == solution.values[large])
            yield Condition(Why.ORDER, (small, large), _ordered(small, large, equal=equal))


def _ordered(small: Name, large: Name, *, equal: bool) -> Callable[[ManySets], Truths]:
    def holds(sets: ManySets) -> Truths:
        left, right = sets.values[small], sets.values[large]
        near = _close(left, right)
        return near if equal else np.asarray(~near & (left < right))

    return holds


def _close(left: NDArray[np.float64] | float, right: NDArray[np.float64] | float) -> Truths:
    """Whether numbers are equal up to rounding; infinite ones are near nothing."""
    with np.errstate(invalid="ignore"):
        size = np.maximum(np.abs(left), np.abs(right))
        return np.asarray((np.abs(np.subtract(left, right)) <= _NEAR * size) & (size < np.inf))
