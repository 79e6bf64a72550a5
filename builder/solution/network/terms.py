"""Sums of quantities with signs, as equations are built of."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from builder.quantity.formula import Formula, Negative, Num, Sum

Term = tuple[bool, Formula]
"""A formula and whether it is added (else it is subtracted)."""
ZERO = Num(Fraction(0))
ONE = Num(Fraction(1))


def turned(terms: Iterable[Term]) -> tuple[Term, ...]:
    """The same terms with their signs turned."""
    return tuple((not added, formula) for added, formula in terms)


def cancelled(terms: Iterable[Term]) -> tuple[Term, ...]:
    """The terms without pairs of which one is added and the other subtracted."""
    left: list[Term] = []
    for added, formula in terms:
        if (not added, formula) in left:
            left.remove((not added, formula))
        else:
            left.append((added, formula))
    return tuple(left)


def total(terms: Iterable[Term]) -> Formula:
    """The terms as one formula; those that are added come first, so that no minus leads."""
    parts = cancelled(terms)
    ordered = [*(part for part in parts if part[0]), *(part for part in parts if not part[0])]
    signed = tuple(formula if added else Negative(formula) for added, formula in ordered)
    if not signed:
        return ZERO
    return signed[0] if len(signed) == 1 else Sum(signed)
