"""A set of values that floating point found, computed again exactly and by both methods."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from builder.errors import FaultyFile
from builder.problem.fresh import renewed, stated_values
from builder.quantity.clean import digits_of
from builder.quantity.names import Name
from builder.quantity.show import show
from builder.quantity.symbolic import sign_of
from builder.solution.fresh.wanted import Wanted, asked_of, ranges_of, within
from builder.solution.solution import Solution
from builder.solution.solve import solve


def confirmed(
    first: Solution, typed: Mapping[Name, str], digits: Mapping[Name, int], wanted: Wanted
) -> Solution | None:
    """The problem solved with other values, if they are as good as they seemed.

    Args:
        first: the solution with the problem's own values.
        typed: the other values.
        digits: how many significant digits seem to tell each number that counts.
        wanted: what they have to keep to.

    Returns:
        None if the problem cannot have these values, is then solved by other moves, or does not
        keep to what is wanted.

    Raises:
        Disagreement: if the two methods differ in any quantity.
        CheckFailed: if a check does not hold.
    """
    try:
        other = solve(renewed(first.problem, typed))
    except FaultyFile:
        return None
    fits = (
        _same_moves(first, other)
        and all(digits_of(other.values[name]) == count for name, count in digits.items())
        and _same_signs(first, other)
        and _look_apart(first, other)
        and all(within(other.values[name], kept) for name, kept in ranges_of(first, wanted))
        and (not wanted.same_order or _same_order(first, other))
        and (wanted.tells is None or wanted.tells(other))
    )
    return other if fits else None


def _same_moves(first: Solution, other: Solution) -> bool:
    def told(solution: Solution) -> list[tuple[object, ...]]:
        return [(step.id, step.kind, step.found) for step in solution.every_step]

    kept = [step.id for step in first.steps] == [step.id for step in other.steps]
    return kept and told(first) == told(other) and first.values.keys() == other.values.keys()


def _same_signs(first: Solution, other: Solution) -> bool:
    return all(sign_of(other.values[name]) == sign_of(v) for name, v in first.values.items())


def _look_apart(first: Solution, other: Solution) -> bool:
    """Whether answers of one kind that look different in the first solution still do."""
    digits = first.problem.digits
    names = asked_of(first)

    def looks(solution: Solution) -> dict[Name, str]:
        return {name: show(solution.values[name], name.quantity, digits).text for name in names}

    before, after = looks(first), looks(other)
    return all(
        before[one] == before[two] or after[one] != after[two]
        for one in names
        for two in names
        if one.quantity == two.quantity
    )


def _same_order(first: Solution, other: Solution) -> bool:
    stated = [value.name for value in stated_values(first.problem)]
    names = dict.fromkeys((*stated, *asked_of(first)))
    for kind in {name.quantity for name in names}:
        ranked = sorted((name for name in names if name.quantity == kind and name in first.values),
                        key=lambda name: first.values[name])  # fmt: skip
        for small, large in pairwise(ranked):
            before = sign_of(first.values[large] - first.values[small])
            if sign_of(other.values[large] - other.values[small]) != before:
                return False
    return True
