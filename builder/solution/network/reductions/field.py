"""Weights in an exact field: rationals, fractions of polynomials in symbols, or roots.

Elements of one field are compared by algebra alone, so that two symbolic values that say the
same in different words are equal, and can be kept in sets.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, TypeAlias

from sympy import QQ, Rational, prime
from sympy.polys.constructor import construct_domain

from builder.quantity.exact import Exact

Weight: TypeAlias = Any
"""An element of a ``Field``; it adds, multiplies and divides exactly."""


@dataclass(frozen=True)
class Field:
    """Where the weights of one network lie.

    Attributes:
        domain: SymPy's field.
    """

    domain: Any

    def exact(self, weight: Weight) -> Exact:
        """A weight as a SymPy number or expression."""
        return self.domain.to_sympy(weight)

    def seems_lower(self, first: Weight, second: Weight) -> bool:
        """Whether ``first`` is less than ``second``, with sample values in place of symbols.

        Good for choosing a direction, which may be chosen freely; never for a claim.
        """
        if self.domain.is_QQ:
            return bool(first < second)
        difference = self.exact(second - first)
        symbols = sorted(difference.free_symbols, key=str)
        sample = difference.subs({symbol: prime(n + 4) for n, symbol in enumerate(symbols)})
        return bool(sample > 0)


def in_one_field(values: tuple[Exact, ...]) -> tuple[Field, tuple[Weight, ...]]:
    """The smallest field that holds all ``values``, and each of them as its element.

    Raises:
        TypeError: if a value is neither a rational function of symbols nor an algebraic number.
    """
    if all(isinstance(value, Rational) for value in values):
        return Field(QQ), tuple(QQ(int(value.p), int(value.q)) for value in values)
    domain, elements = construct_domain(list(values), field=True, extension=True)
    symbols = domain.symbols if domain.is_FractionField else ()
    known = domain.is_QQ or domain.is_Algebraic or domain.is_FractionField
    if not known or any(not symbol.is_Symbol for symbol in symbols):
        raise TypeError(f"a network with values of {domain} is not reduced")
    return Field(domain), tuple(elements)
