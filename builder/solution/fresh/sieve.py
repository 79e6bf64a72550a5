"""Looking through many sets of values at once: what does not fit falls out as soon as it shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from builder.quantity.arrays import Floats, ManySets, Rows
from builder.quantity.clean import digits_of_each
from builder.quantity.names import Name
from builder.solution.fresh.course import Condition, Course, Truths
from builder.solution.fresh.grid import Grid, Places
from builder.solution.program import Line


@dataclass(frozen=True)
class Mesh:
    """How clean the numbers of a set have to be.

    Attributes:
        limits: how many significant digits may tell each number that counts.
        enough: a set with a number beyond its limit falls out as long as so many are left
            without it; None lets it fall out in any case.
        firm: the numbers beyond whose limit a set falls out in any case.
    """

    limits: Mapping[Name, int]
    enough: int | None = None
    firm: frozenset[Name] = frozenset()


@dataclass
class Sifted:
    """Sets that fit, with what ranks them.

    Attributes:
        places: which choices they are made of.
        digits: how many significant digits tell each number that counts.
        sets: the values of all quantities.
    """

    places: Places
    sets: ManySets
    digits: dict[Name, NDArray[np.int8]] = field(default_factory=dict)

    @property
    def count(self) -> int:
        """How many sets are left."""
        return len(self.places)

    def keep(self, rows: Rows) -> None:
        """Go on with some of them only."""
        self.places = self.places[rows]
        self.sets.keep(rows)
        self.digits = {name: column[rows] for name, column in self.digits.items()}

    def rows(self, rows: Rows) -> Sifted:
        """Some of them, or some of them several times; these here stay as they are."""
        sets = ManySets(dict(self.sets.values))
        other = Sifted(self.places, sets, dict(self.digits))
        other.keep(rows)
        return other

    def column(self, name: Name) -> Floats:
        """The values of a quantity, in SI units."""
        return self.sets.values[name]


def sift(grid: Grid, places: Places, course: Course, mesh: Mesh) -> Sifted:
    """The sets that hold all conditions and are clean enough.

    Args:
        grid: what the sets are made of.
        places: the sets.
        course: what is computed and has to hold.
        mesh: how clean numbers have to be.
    """
    columns = grid.columns(places)
    for name, value in course.constants.items():
        columns[name] = np.full(len(places), value)
    sifted = Sifted(places, ManySets(columns))
    for part in course.parts:
        take(sifted, part, mesh)
        if not sifted.count:
            break
    return sifted


def take(sifted: Sifted, part: Line | Condition, mesh: Mesh) -> None:
    """Compute a quantity or apply a condition; sets that do not fit fall out."""
    if isinstance(part, Line):
        sifted.sets.values[part.name] = sifted.sets.value(part.formula)
        _sift_digits(sifted, part.name, mesh)
    else:
        _drop(sifted, part.holds(sifted.sets))


def _sift_digits(sifted: Sifted, name: Name, mesh: Mesh) -> None:
    limit = mesh.limits.get(name)
    if limit is None:
        return
    sifted.digits[name] = digits_of_each(sifted.column(name))
    clean = sifted.digits[name] <= limit
    at_once = mesh.enough is None or name in mesh.firm
    if at_once or np.count_nonzero(clean) >= (mesh.enough or 0):
        _drop(sifted, clean)


def _drop(sifted: Sifted, fits: Truths) -> None:
    if not fits.all():
        sifted.keep(np.flatnonzero(fits))
