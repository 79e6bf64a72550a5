"""What other numbers of a problem have to keep to."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from builder.problem.fresh import choices
from builder.problem.model import Problem
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.solution import Solution


@dataclass(frozen=True)
class Wanted:
    """What other numbers of a problem have to keep to.

    Attributes:
        choices: what each value may be, as typed; the values of other names stay.
        digits: how many significant digits are to tell a number whole, if it can be.
        firm: how many may tell an answer whole at most; None leaves it open.
        ranges: the least and the largest size of what is asked, in SI units.
        same_order: whether of any two quantities of one kind that are given or asked for the
            same one has to be the larger.
        tells: whether a set is good for what the search knows nothing of, such as wrong rules
            that have to lead to numbers of their own; None if nothing of that kind is wanted.
    """

    choices: Mapping[Name, tuple[str, ...]]
    digits: int = 3
    firm: int | None = None
    ranges: Mapping[Name, tuple[Fraction, Fraction]] = field(default_factory=dict)
    same_order: bool = False
    tells: Callable[[Solution], bool] | None = None


def wanted_of(problem: Problem, tells: Callable[[Solution], bool] | None = None) -> Wanted:
    """What the author of a problem wants of other numbers, or what is sensible.

    Args:
        problem: with its ``vary:`` and ``keep:``.
        tells: what else a set has to be good for.
    """
    keep = problem.keep
    return Wanted(
        choices=choices(problem),
        digits=keep.digits or problem.digits,
        firm=keep.digits,
        ranges=keep.ranges,
        same_order=keep.same_order or _claims(problem),
        tells=tells,
    )


def _claims(problem: Problem) -> bool:
    """Whether the author says what other numbers could make false, and no ``vary:`` settles it."""
    own = any(question.choices for question in problem.questions)
    return problem.vary is None and (own or bool(problem.words) or problem.plan is not None)


def asked_of(solution: Solution) -> tuple[Name, ...]:
    """What is asked and not given, each once, by the names of ``Solution.values``."""
    names = dict.fromkeys(map(solution.resolve, solution.problem.find))
    return tuple(name for name in names if name not in solution.givens)


def within(value: Exact, limits: tuple[Fraction, Fraction]) -> bool:
    """Whether the size of a value lies in a range, both ends included."""
    return bool(limits[0] <= abs(value) <= limits[1])


def ranges_of(
    solution: Solution, wanted: Wanted
) -> Iterator[tuple[Name, tuple[Fraction, Fraction]]]:
    """The quantities whose size is to stay in a range, by the names of ``Solution.values``."""
    for name, limits in wanted.ranges.items():
        yield solution.resolve(name), limits
