"""Results that an author's own texts spell out, so that other numbers would make them untrue."""

from __future__ import annotations

from fractions import Fraction

from builder.problem.fresh import spelled_values
from builder.quantity.exact import Exact, near_fraction
from builder.quantity.kinds import KINDS
from builder.quantity.measure import Measure
from builder.quantity.names import Name
from builder.quantity.numerals import unit_power
from builder.quantity.symbolic import is_symbolic
from builder.solution.solution import Solution


def spelled_results(solution: Solution) -> tuple[Name, ...]:
    """The quantities that the solution finds and an own text of its author tells the value of.

    A text tells a value if its number is the value rounded to the places that it has: “about 4.8 A”
    tells 4.83 A. What a text repeats of the givens tells no result.
    """
    given = {(name.quantity, shown.text) for name, shown in solution.givens.items()}
    spelled = [
        one for one in spelled_values(solution.problem) if (one.kind, one.shown.text) not in given
    ]
    return tuple(
        name
        for name, value in solution.values.items()
        if name not in solution.givens
        and any(KINDS[one.kind].unit == KINDS[name.quantity].unit for one in spelled)
        and not is_symbolic(value)
        and any(_tells(one, name, value) for one in spelled)
    )


def _tells(spelled: Measure, name: Name, value: Exact) -> bool:
    """Whether a number in a text is that value, as far as its digits go."""
    if KINDS[spelled.kind].unit != KINDS[name.quantity].unit:
        return False
    power = unit_power(spelled.shown.unit, spelled.kind)
    digits = spelled.shown.number
    off = abs(near_fraction(value) - near_fraction(spelled.value))
    if power is None or "/" in digits:
        return off == 0
    step = Fraction(10) ** (power - len(digits.partition(".")[2]))
    return 2 * off <= step
