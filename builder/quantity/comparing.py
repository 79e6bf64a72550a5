"""Whether two exact numbers with roots are equal: algebra decides, digits only tell apart."""

from __future__ import annotations

from sympy import Float, Rational, Symbol, expand, minimal_polynomial, radsimp, simplify
from sympy.polys.polyerrors import NotAlgebraic

from builder.quantity.exact import Exact

_DIGITS = 60


def same_numbers(one: Exact, other: Exact) -> bool:
    """Whether two exact numbers without symbols are equal."""
    if one == other:
        return True
    if isinstance(one, Rational) and isinstance(other, Rational):
        return False
    return not _plainly_apart(one, other) and is_nothing(one - other)


def is_nothing(value: Exact) -> bool:
    """Whether an exact number without symbols is zero, by algebra alone."""
    if expand(radsimp(value)) == 0:  # all that a few square roots need, and quick
        return True
    try:
        return bool(minimal_polynomial(value, Symbol("x")) == Symbol("x"))
    except NotAlgebraic:
        return bool(simplify(value) == 0)


def _plainly_apart(one: Exact, other: Exact) -> bool:
    """Whether 60 digits tell two values apart; if they do not, algebra has to decide."""
    a, b = one.evalf(_DIGITS), other.evalf(_DIGITS)
    return bool(abs(a - b) > Float(10) ** (10 - _DIGITS) * max(abs(a), abs(b)))
