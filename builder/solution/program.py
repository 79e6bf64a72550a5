"""A solution as a straight-line program: each line defines a quantity by earlier ones."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property

from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Ref, Solved, evaluate, names_in, solve_system
from builder.quantity.names import Name
from builder.quantity.symbolic import tidied


@dataclass(frozen=True)
class Line:
    """One definition.

    Attributes:
        name: the quantity that gets its value here.
        formula: of quantities known before. A bare ``Ref`` carries a value over.
    """

    name: Name
    formula: Formula

    @property
    def carries(self) -> bool:
        """Whether the value is taken over unchanged from another quantity."""
        return isinstance(self.formula, Ref)

    @cached_property
    def uses(self) -> frozenset[Name]:
        """The quantities that the formula needs."""
        return frozenset(names_in(self.formula))


@dataclass(frozen=True)
class Statement:
    """An equation that a step writes down before it solves it: ``left relation right``.

    Attributes:
        left, right: the two sides; quantities that the step is about to find may occur.
        relation: ``=``, or ``>``, ``<``, ``≥``, ``≤`` for a condition.
        about: what it is told of: a junction, a loop, an element; empty if nothing.
        in_numbers: whether it is written a second time with the numbers that are known.
    """

    left: Formula
    right: Formula
    relation: str = "="
    about: str = ""
    in_numbers: bool = True


@dataclass(frozen=True)
class Step:
    """One move of a solution. Each kind of problem has a class of its own with more to tell.

    Attributes:
        id: what an author calls it to give it other words: ``merge-C23``; letters, digits,
            ``_``, ``,`` and hyphens.
        kind: the move.
        lines: what it finds, in order.
        statements: the equations that it writes down first, with symbols and then with numbers.
    """

    id: str
    kind: StrEnum
    lines: tuple[Line, ...]
    statements: tuple[Statement, ...] = field(default=(), kw_only=True)

    @cached_property
    def found(self) -> tuple[Name, ...]:
        """The quantities that the step finds."""
        return tuple(line.name for line in self.lines)


def run(steps: Iterable[Step], givens: Mapping[Name, Exact]) -> dict[Name, Exact]:
    """All values, exactly: the givens and what each line defines."""
    values = dict(givens)
    for step in steps:
        systems: dict[int, tuple[Exact, ...]] = {}
        for line in step.lines:
            values[line.name] = value_of(line.formula, values, systems)
    return values


def value_of(
    formula: Formula, values: Mapping[Name, Exact], systems: dict[int, tuple[Exact, ...]]
) -> Exact:
    """The value of a line's formula, in the one form in which values are kept.

    Args:
        formula: of the line.
        values: what is known before it.
        systems: the solved systems of the step so far; one that several lines take an unknown
            from is solved once and added here.

    Raises:
        KeyError, ValueError, ZeroDivisionError: as ``evaluate`` does.
    """
    if not isinstance(formula, Solved):
        return tidied(evaluate(formula, values))
    key = id(formula.system)
    if key not in systems:
        systems[key] = solve_system(formula.system, values)
    return tidied(systems[key][formula.position])


def needed_for(asked: Iterable[Name], steps: Iterable[Step]) -> set[Name]:
    """The quantities without which ``asked`` cannot be computed, ``asked`` included."""
    definitions = {line.name: line.formula for step in steps for line in step.lines}
    needed: set[Name] = set()
    waiting = list(asked)
    seen: set[int] = set()
    while waiting:
        name = waiting.pop()
        if name in needed:
            continue
        needed.add(name)
        formula = definitions.get(name)
        if formula is None or (isinstance(formula, Solved) and id(formula.system) in seen):
            continue
        if isinstance(formula, Solved):
            seen.add(id(formula.system))
        waiting.extend(names_in(formula))
    return needed
