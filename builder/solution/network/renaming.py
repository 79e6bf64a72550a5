"""The quantities of a part of a solution, told apart from those of the whole."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

from builder.quantity.formula import (
    Amount,
    Formula,
    Num,
    Power,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Solved,
    Sum,
    System,
)
from builder.quantity.names import Name
from builder.solution.network.step import NetworkStep
from builder.solution.program import Line

SHARE = "@"
"""Stands between what a quantity belongs to and the part of the solution that it is from."""


def share(name: Name, part: str) -> Name:
    """A quantity in a part of the solution: what V1 alone does to the current of R1."""
    return Name(name.quantity, f"{name.of}{SHARE}{part}")


def part_of(name: Name) -> tuple[Name, str]:
    """The quantity without its part, and the part; empty for a quantity of the whole."""
    of, _, part = name.of.partition(SHARE)
    return Name(name.quantity, of), part


def with_refs(formula: Formula, swapped: Mapping[Name, Formula]) -> Formula:
    """A formula with other formulas in place of some quantities."""
    match formula:
        case Ref(name):
            return swapped.get(name, formula)
        case Num() | Amount():
            return formula
        case Sum(parts) | Product(parts) | ReciprocalSum(parts):
            return type(formula)(tuple(with_refs(part, swapped) for part in parts))
        case Quotient(over, under):
            return Quotient(with_refs(over, swapped), with_refs(under, swapped))
        case Power(base, exponent):
            return Power(with_refs(base, swapped), exponent)
        case Solved(system, position):
            rows = tuple(tuple(with_refs(part, swapped) for part in row) for row in system.rows)
            right = tuple(with_refs(part, swapped) for part in system.right)
            return Solved(System(rows, right), position)
        case _:
            (part,) = vars(formula).values()
            return type(formula)(with_refs(part, swapped))


def as_part(
    steps: Collection[NetworkStep], part: str, prefix: str, given: Collection[Name]
) -> tuple[NetworkStep, ...]:
    """Steps of a part of a solution, their quantities and ids told apart from all others.

    Args:
        steps: that solve a smaller network.
        part: what its quantities are told apart by.
        prefix: what its ids start with.
        given: the quantities that stay what they are.
    """
    names = {line.name for step in steps for line in step.lines} - set(given)
    swapped: dict[Name, Formula] = {name: Ref(share(name, part)) for name in names}
    return tuple(
        replace(
            substituted(step, swapped),
            id=f"{prefix}-{step.id}",
            lines=tuple(
                Line(
                    share(line.name, part) if line.name in names else line.name,
                    with_refs(line.formula, swapped),
                )
                for line in step.lines
            ),
        )
        for step in steps
    )


def substituted(step: NetworkStep, swapped: Mapping[Name, Formula]) -> NetworkStep:
    """A step with other formulas in place of some quantities."""
    return replace(
        step,
        lines=tuple(Line(line.name, with_refs(line.formula, swapped)) for line in step.lines),
        statements=tuple(
            replace(one, left=with_refs(one.left, swapped), right=with_refs(one.right, swapped))
            for one in step.statements
        ),
    )
