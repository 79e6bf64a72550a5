"""Whether two exact values are the same, told by algebra and never by digits alone."""

from __future__ import annotations

from sympy import Float, Rational, Symbol, minimal_polynomial, simplify
from sympy.polys.polyerrors import NotAlgebraic

from builder.quantity.exact import Exact

_DIGITS = 60


def same(one: Exact, other: Exact) -> bool:
    """Whether two exact numbers are equal."""
    if one == other:
        return True
    if isinstance(one, Rational) and isinstance(other, Rational):
        return False
    if _plainly_apart(one, other):
        return False
    try:
        return bool(minimal_polynomial(one - other, Symbol("x")) == Symbol("x"))
    except NotAlgebraic:
        return bool(simplify(one - other) == 0)


def _plainly_apart(one: Exact, other: Exact) -> bool:
    """Whether 60 digits tell two values apart; if they do not, algebra has to decide."""
    a, b = one.evalf(_DIGITS), other.evalf(_DIGITS)
    return bool(abs(a - b) > Float(10) ** (10 - _DIGITS) * max(abs(a), abs(b)))
