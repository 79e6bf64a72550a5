"""Systems of linear equations, solved exactly."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from sympy import QQ, Rational
from sympy.polys.constructor import construct_domain
from sympy.polys.matrices import DomainMatrix
from sympy.polys.matrices.exceptions import DMNonInvertibleMatrixError

from builder.quantity.exact import Exact


@lru_cache(maxsize=64)
def solve_exactly(
    rows: tuple[tuple[Exact, ...], ...], right: tuple[Exact, ...]
) -> tuple[Exact, ...]:
    """The unknowns of as many linear equations as there are unknowns.

    Solved over the rationals where all entries are rational, else over the field of fractions
    of their symbols or with their roots: whether something is zero is told by algebra, never
    guessed. Kept for a while, since a program asks for one unknown after the other.

    Args:
        rows: the coefficients, one row for each equation.
        right: what each row adds up to.

    Raises:
        ZeroDivisionError: if there is no solution, or more than one.
        TypeError: if an entry is neither a rational function of symbols nor an algebraic number.
    """
    size = len(rows)
    entries = [entry for row in rows for entry in row] + list(right)
    domain, elements = _in_a_field(entries)
    matrix = DomainMatrix(
        [elements[size * index : size * (index + 1)] for index in range(size)], (size, size), domain
    )
    column = DomainMatrix([[element] for element in elements[size * size :]], (size, 1), domain)
    try:
        solution = matrix.lu_solve(column)
    except DMNonInvertibleMatrixError:
        raise ZeroDivisionError("the equations have no single solution") from None
    return tuple(domain.to_sympy(element) for element in solution.to_list_flat())


@dataclass(frozen=True)
class Field:
    """Where the arithmetic of one linear system is done.

    Attributes:
        domain: SymPy's domain: the rationals, also with roots, or the fractions of polynomials of
            symbols.
    """

    domain: Any

    @classmethod
    def of(cls, values: Iterable[Exact]) -> Field:
        """The smallest field that holds some rationals, roots or rational functions.

        Raises:
            TypeError: if a value is none of these.
        """
        held = list(values)
        symbols = {symbol for value in held for symbol in value.free_symbols}
        if not symbols:
            return cls(_in_a_field(held)[0])
        return cls(QQ.frac_field(*sorted(symbols, key=lambda symbol: str(symbol.name))))

    def element(self, value: Exact) -> Any:
        """An exact value as an element of the field."""
        if isinstance(value, Rational):
            return self.domain.convert_from(QQ(int(value.p), int(value.q)), QQ)
        return self.domain.from_sympy(value)

    def exact(self, element: Any) -> Exact:
        """An element of the field as an exact value."""
        return self.domain.to_sympy(element)


def _in_a_field(entries: list[Exact]) -> tuple[Any, list[Any]]:
    if all(isinstance(entry, Rational) for entry in entries):
        return QQ, [QQ(int(entry.p), int(entry.q)) for entry in entries]
    domain, elements = construct_domain(entries, field=True, extension=True)
    symbols = domain.symbols if domain.is_FractionField else ()
    known = domain.is_QQ or domain.is_Algebraic or domain.is_FractionField
    if not known or any(not symbol.is_Symbol for symbol in symbols):
        raise TypeError(f"equations with entries of {domain} are not solved")
    return domain, elements
