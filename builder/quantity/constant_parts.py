"""The parts of a typed expression that hold no letters: what they are worth, and whether at all."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from sympy import Rational

from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Num, Power, Square, evaluate, names_in, parts_of
from builder.quantity.letters import CONSTANT_VALUES, LETTER
from builder.quantity.tokens import ExpressionError

LARGEST_POWER = 9
HEAVIEST = 24


def constant_of(formula: Formula, column: int) -> Exact | None:
    """The value of a part without letters; None if it has letters.

    Raises:
        ExpressionError: if it has no real value.
    """
    if any(name.quantity == LETTER for name in names_in(formula)):
        return None
    try:
        value = evaluate(formula, CONSTANT_VALUES)
    except (ZeroDivisionError, ValueError):
        value = None
    if value is None or value.is_real is False or not value.is_finite:
        raise ExpressionError(
            column, "something that has no value", "a real number", "Check roots and logarithms."
        )
    return value


def sign_of(value: Exact | None) -> int | None:
    """The sign of a constant; what vanishes in 30 digits is taken for zero."""
    if value is None:
        return None
    number: Any = value if isinstance(value, Rational) else value.evalf(30)
    if abs(number) < Rational(1, 10**25) and not isinstance(value, Rational):
        return 0
    return bool(number > 0) - bool(number < 0)


def refuse_giants(base: Formula, power: Fraction, column: int) -> None:
    """Refuse a power that would make the expression huge.

    Raises:
        ExpressionError: if the exponent, or what the powers repeat in all, is too large.
    """
    most = 30 if isinstance(base, Num) else LARGEST_POWER
    size = max(abs(power.numerator), power.denominator)
    heavy = not isinstance(base, Num) and _weight(base) * size > HEAVIEST
    if size > most or power.denominator > LARGEST_POWER or heavy:
        raise ExpressionError(
            column, "a power that is too large", f"exponents up to {LARGEST_POWER}", "Check it."
        )


def _weight(formula: Formula) -> int:
    """How many factors a formula has, each counted as often as its powers repeat it."""
    match formula:
        case Power(base, exponent):
            return _weight(base) * max(1, abs(exponent.numerator), exponent.denominator)
        case Square(base):
            return 2 * _weight(base)
        case _:
            return max(1, sum(_weight(part) for part in parts_of(formula)))
