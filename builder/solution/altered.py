"""The steps of a solution run again with something altered: what a mistake makes of the rest."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from sympy import Rational

from builder.quantity.exact import Exact, near_fraction
from builder.quantity.formula import Formula, Ref
from builder.quantity.names import Name
from builder.quantity.show import last_digit
from builder.quantity.symbolic import is_symbolic
from builder.solution.program import Line, Step, value_of
from builder.solution.solution import Solution


def rerun(solution: Solution, instead: Mapping[Name, Exact | Formula]) -> dict[Name, Exact]:
    """All values of a solution's steps if some of them were others.

    Args:
        solution: whose steps are taken again, with the same formulas.
        instead: for a given or for what a step finds, another value in SI units, or another
            formula, of quantities known by then.

    Returns:
        What can still be computed: a line that would divide by zero or take the root of a
        negative number is left out, and so is all that needs it.
    """
    return rerun_and_touched(solution, instead)[0]


def rerun_and_touched(
    solution: Solution, instead: Mapping[Name, Exact | Formula]
) -> tuple[dict[Name, Exact], set[Name]]:
    """The same, and what depends on what is altered, whether or not its value then differs."""
    values = _stated(solution, instead)
    touched = set(instead)
    for step in solution.steps:
        systems: dict[int, tuple[Exact, ...]] = {}
        for line in _altered(step, instead):
            if line.name not in instead and touched.isdisjoint(line.uses):
                values[line.name] = solution.values[line.name]
                continue
            touched.add(line.name)
            try:
                values[line.name] = value_of(line.formula, values, systems)
            except (KeyError, ValueError, ZeroDivisionError):
                continue
    return values, touched


def rerun_rounded(solution: Solution, digits: int) -> dict[Name, Exact]:
    """What each step finds if every earlier result is rounded before it is used.

    The results themselves are not rounded here, so that one which needs givens alone is right.
    A value that is taken over unchanged is one result and is not rounded twice.

    Args:
        solution: whose steps are taken again; if it has letters, nothing is rounded.
        digits: significant digits that are kept between steps.
    """
    if any(map(is_symbolic, solution.values.values())):
        return dict(solution.values)

    kept = _stated(solution, {})
    found = dict(kept)
    for step in solution.steps:
        systems: dict[int, tuple[Exact, ...]] = {}
        for line in step.lines:
            try:
                value = value_of(line.formula, kept, systems)
            except (KeyError, ValueError, ZeroDivisionError):
                continue
            source = line.formula.name if isinstance(line.formula, Ref) else None
            found[line.name] = value if source is None else found[source]
            kept[line.name] = value if line.carries else _rounded(value, digits)
    return found


def _stated(solution: Solution, instead: Mapping[Name, Exact | Formula]) -> dict[Name, Exact]:
    """What is known before the first step."""
    values = {name: solution.values[name] for name in solution.givens}
    return values | {name: value for name, value in instead.items()
                     if not isinstance(value, Formula)}  # fmt: skip


def _altered(step: Step, instead: Mapping[Name, Exact | Formula]) -> Sequence[Line]:
    """The lines of a step that are still to be computed, some with another formula."""
    if instead.keys().isdisjoint(step.found):
        return step.lines
    lines = []
    for line in step.lines:
        other = instead.get(line.name, line.formula)
        if isinstance(other, Formula):
            lines.append(line if other is line.formula else Line(line.name, other))
    return lines


def _rounded(value: Exact, digits: int) -> Exact:
    """A number rounded half away from zero, as results are when they are shown."""
    step = last_digit(value, digits)
    if not step:
        return value
    exact = near_fraction(value)
    size = (abs(exact) / step + Fraction(1, 2)) // 1 * step
    return Rational(size.numerator, size.denominator) * (-1 if exact < 0 else 1)
