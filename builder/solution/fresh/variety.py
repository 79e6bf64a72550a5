"""From many good sets of values those that differ most from each other."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from builder.quantity.arrays import Floats
from builder.solution.fresh.grid import Grid

_NEAR = 1e-9
_WEIGHT = 8.0
"""A set in which everything differs may need this many digits more than one where nothing does."""
_ALIKE = 1.0
"""Sets whose values of each kind are in the same proportion count as if one more digit stood in
them."""


@dataclass
class Variety:
    """Sets to take one after the other, each as different as can be from those before.

    Attributes:
        grid: what they are made of.
        given: the logarithms of what varies, a row for each set and a column for each axis; the
            first row is the problem's own.
        shown: the logarithms of all that is to differ, likewise.
        tiers: how good each set is in whole steps, smaller being better.
        burden: how many digits tell the numbers of each set.
    """

    grid: Grid
    given: Floats
    shown: Floats
    tiers: NDArray[np.int64]
    burden: Floats
    _open: NDArray[np.bool_] = field(init=False)
    _differing: Floats = field(init=False)
    _alike: NDArray[np.bool_] = field(init=False)

    def __post_init__(self) -> None:
        self._open = np.ones(len(self.given), np.bool_)
        self._differing = np.ones(len(self.given))
        self._alike = np.zeros(len(self.given), np.bool_)
        self.take(0)

    def best(self) -> int | None:
        """The row of the best set that is left, or None."""
        rows = np.flatnonzero(self._open)
        if not len(rows):
            return None
        rows = rows[self.tiers[rows] == self.tiers[rows].min()]
        cost = self.burden[rows] - _WEIGHT * self._differing[rows] + _ALIKE * self._alike[rows]
        return int(rows[np.argmin(np.round(cost, 9))])

    def leave(self, row: int) -> None:
        """Do without a set."""
        self._open[row] = False

    def take(self, row: int) -> None:
        """Take a set, and leave those that are hardly another."""
        away = np.abs(self.shown - self.shown[row]) > _NEAR
        self._differing = np.minimum(self._differing, away.mean(axis=1))
        factors = self.given - self.given[row]
        same = (np.abs(factors) <= _NEAR).all(axis=1)
        self._open &= ~(same | self._multiples(factors))
        self._open[row] = False
        self._alike |= self._in_proportion(factors)

    def _multiples(self, factors: Floats) -> NDArray[np.bool_]:
        """Which sets are the taken one times one factor; with a single value every set is."""
        if self.grid.fixed or len(self.grid.axes) == 1:
            return np.zeros(len(factors), np.bool_)
        return np.asarray(np.ptp(factors, axis=1) <= _NEAR)

    def _in_proportion(self, factors: Floats) -> NDArray[np.bool_]:
        """Which sets are the taken one with each kind of value times a factor of its own."""
        kinds: dict[str, list[int]] = {}
        for column, axis in enumerate(self.grid.axes):
            kinds.setdefault(axis.name.quantity, []).append(column)
        several = [columns for columns in kinds.values() if len(columns) > 1]
        alike = np.full(len(factors), bool(several))
        for columns in several:
            alike &= np.ptp(factors[:, columns], axis=1) <= _NEAR
        return alike
