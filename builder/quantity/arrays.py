"""Formulas over many sets of numbers at once, in floating point: for searching, never for showing.

What such a search finds is computed again exactly before anyone sees it. Where a formula has no
value (something is divided by zero, a negative number has no root, a linear system has no single
solution) stands ``nan``.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from builder.quantity.formula import (
    Amount,
    Exp,
    Formula,
    Ln,
    Negative,
    Num,
    Power,
    Product,
    Quotient,
    ReciprocalSum,
    Ref,
    Root,
    Solved,
    Square,
    Sum,
    System,
)
from builder.quantity.names import Name

Floats: TypeAlias = NDArray[np.float64]
"""One number for each set, in SI units."""
Rows: TypeAlias = NDArray[np.bool_] | NDArray[np.intp]
"""Which sets are kept: a truth value for each, or their positions."""

_CANCELLED = 1e-12
"""A sum that is smaller than this part of its terms is zero up to rounding: typed values that
cancel almost but not quite would need that many digits."""
_SINGULAR = 1e-12
"""A determinant that is smaller than this part of what equations of that size could have."""


@dataclass
class ManySets:
    """Many sets of values of the same quantities, and what formulas make of each.

    Attributes:
        values: of each quantity, one for each set, in SI units.
    """

    values: dict[Name, Floats]
    _systems: dict[int, Floats] = field(default_factory=dict, init=False)

    @classmethod
    def of(cls, values: Mapping[Name, Iterable[float]]) -> ManySets:
        """Sets from plain columns of numbers, all of one length."""
        columns = {name: np.asarray(list(many), np.float64) for name, many in values.items()}
        return cls(columns)

    @property
    def count(self) -> int:
        """How many sets there are."""
        return len(next(iter(self.values.values()), ()))

    def keep(self, rows: Rows) -> None:
        """Go on with some of the sets only."""
        self.values = {name: column[rows] for name, column in self.values.items()}
        self._systems = {id: solved[rows] for id, solved in self._systems.items()}

    def value(self, formula: Formula) -> Floats:
        """The value of ``formula`` for each set, in SI units; ``nan`` where there is none.

        Raises:
            KeyError: if a quantity has no values yet.
        """
        with np.errstate(all="ignore"):
            found: Floats = np.asarray(_possible(self._value(formula)), np.float64)
        return np.full(self.count, found) if found.ndim == 0 else found

    def _value(self, formula: Formula) -> Any:
        match formula:
            case Ref(name):
                return self.values[name]
            case Num(value) | Amount(value):
                return np.float64(value)
            case Sum(terms):
                return _sum([self._value(term) for term in terms])
            case Product(factors):
                product = np.float64(1)
                for factor in factors:
                    product = product * self._value(factor)
                return product
            case Quotient(over, under):
                return self._value(over) / _not_zero(self._value(under))
            case Square(base):
                return np.square(self._value(base))
            case _:
                return self._rarer_value(formula)

    def _rarer_value(
        self, formula: Negative | Power | Root | Exp | Ln | ReciprocalSum | Solved
    ) -> Any:
        match formula:
            case Negative(term):
                return -self._value(term)
            case Power(base, exponent):
                return _possible(np.float_power(self._value(base), float(exponent)))
            case Root(base):
                return np.sqrt(self._value(base))
            case Exp(exponent):
                return _possible(np.exp(self._value(exponent)))
            case Ln(argument):
                return _possible(np.log(self._value(argument)))
            case ReciprocalSum(terms):
                total = _sum([1 / _not_zero(self._value(term)) for term in terms])
                return 1 / _not_zero(total)
            case Solved(system, position):
                return self._solved(system)[:, position]

    def _solved(self, system: System) -> Floats:
        """All unknowns of a system, a row for each set; several lines may ask for the same."""
        if id(system) not in self._systems:
            size, count = len(system.rows), self.count
            rows = np.empty((size, size, count))
            right = np.empty((size, count))
            for i, (parts, total) in enumerate(zip(system.rows, system.right, strict=True)):
                right[i] = self._value(total)
                for j, part in enumerate(parts):
                    rows[i, j] = self._value(part)
            self._systems[id(system)] = _solve(rows, right)
        return self._systems[id(system)]


def _possible(value: Any) -> Any:
    """``nan`` in the place of what is infinite."""
    return np.where(np.isfinite(value), value, np.nan)


def _not_zero(value: Any) -> Any:
    return np.where(value == 0, np.nan, value)


def _sum(terms: list[Any]) -> Any:
    """Terms added up; exactly zero where they cancel up to rounding."""
    total = sum(terms[1:], terms[0])
    size = sum((np.abs(term) for term in terms[1:]), np.abs(terms[0]))
    return np.where(
        np.abs(total) <= _CANCELLED * size, np.where(np.isnan(size), np.nan, 0.0), total
    )


def _solve(rows: Floats, right: Floats) -> Floats:
    """The solution of each system, sets × unknowns; ``nan`` for those without a single one.

    Args:
        rows: the coefficients, equations × unknowns × sets.
        right: the right sides, equations × sets.
    """
    # Equations and unknowns come in units of their own: brought to one size, small means small.
    sizes = _not_zero(np.abs(rows).max(axis=1))
    rows, right = rows / sizes[:, None], right / sizes
    widths = _not_zero(np.abs(rows).max(axis=0))
    rows = rows / widths
    usable = np.isfinite(rows).all(axis=(0, 1)) & np.isfinite(right).all(axis=0)
    most = np.sqrt(np.square(rows).sum(axis=1)).prod(axis=0)  # of a determinant, says Hadamard
    systems = np.ascontiguousarray(np.moveaxis(rows, 2, 0))
    systems[~usable] = np.eye(len(rows))
    usable &= np.abs(np.linalg.det(systems)) > _SINGULAR * most
    systems[~usable] = np.eye(len(rows))
    solved = np.linalg.solve(systems, right.T[:, :, None])[:, :, 0].T
    solved = np.where(np.abs(solved) <= _CANCELLED * np.abs(solved).max(axis=0), 0.0, solved)
    found: Floats = np.where(usable, solved / widths, np.nan).T
    return found
