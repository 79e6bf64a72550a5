"""Sets of values that grow: a value joins only when it is needed, so that few sets get far.

Most sets fall out by their first numbers, which hang on a few of the values. Whoever tries those
alone first, and the others only with what is left of them, looks through all sets without making
most of them.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from builder.quantity.arrays import ManySets
from builder.quantity.formula import names_in
from builder.quantity.names import Name
from builder.solution.fresh.course import Condition, Course, Why
from builder.solution.fresh.grid import Grid
from builder.solution.fresh.sieve import Mesh, Sifted, take
from builder.solution.program import Line

CHUNK = 1 << 16
"""So many sets are looked at together: some 20 MB for a solution of forty quantities."""

Rows: TypeAlias = NDArray[np.intp]


@dataclass
class Growing:
    """A search through a whole grid.

    Attributes:
        grid: what the sets are made of.
        course: what is computed and has to hold.
        mesh: how clean numbers have to be.
        chosen: which of so many combinations are gone on with, by their positions; None for
            all, in chunks.
        seen: is told how many more sets are done with.
    """

    grid: Grid
    course: Course
    mesh: Mesh
    chosen: Callable[[int], Rows] | None = None
    seen: Callable[[int], None] = lambda _: None
    _axes: dict[Name, int] = field(init=False)
    _early: list[Condition] = field(init=False)
    _parts: list[Line | Condition] = field(init=False)

    def __post_init__(self) -> None:
        self._axes = {name: number for number, axis in enumerate(self.grid.axes)
                      for name in (axis.name, *axis.followers)}  # fmt: skip
        early = [part for part in self.course.parts
                 if isinstance(part, Condition) and part.why is Why.DIFFERENT]  # fmt: skip
        self._early = early
        self._parts = [part for part in self.course.parts if part not in early]

    def found(self) -> Iterator[Sifted]:
        """The sets that hold all conditions and are clean enough, in parts."""
        columns = {name: np.full(1, float(value)) for name, value in self.grid.fixed.items()}
        columns |= {name: np.full(1, value) for name, value in self.course.constants.items()}
        nothing = np.zeros((1, len(self.grid.axes)), np.int16)
        needed = (self._axes_of(self._names(part)) for part in self._parts)
        first = next((min(axes) for axes in needed if axes), 0)
        yield from self._branches(Sifted(nothing, ManySets(columns)), frozenset(), first, 0)

    def _from(self, sets: Sifted, joined: frozenset[int], position: int) -> Iterator[Sifted]:
        """Go on with sets of the axes that have joined, from a part of the course on."""
        for place, part in enumerate(self._parts[position:], position):
            missing = self._axes_of(self._names(part)) - joined
            if missing:
                yield from self._branches(sets, joined, min(missing), place)
                return
            self._take(sets, joined, part)
            if not sets.count:
                return
        rest = set(range(len(self.grid.axes))) - joined
        if rest:
            yield from self._branches(sets, joined, min(rest), len(self._parts))
        else:
            self.seen(sets.count)
            yield sets

    def _names(self, part: Line | Condition) -> Iterable[Name]:
        return names_in(part.formula) if isinstance(part, Line) else part.about

    def _axes_of(self, names: Iterable[Name]) -> frozenset[int]:
        return frozenset(self._axes[name] for name in names if name in self._axes)

    def _branches(
        self, sets: Sifted, joined: frozenset[int], axis: int, place: int
    ) -> Iterator[Sifted]:
        """Go on with every choice of one more axis, in parts that are not too large."""
        choices = len(self.grid.axes[axis].values)
        at_once = max(1, CHUNK // choices) if self.chosen is None else sets.count
        for start in range(0, sets.count, at_once):
            count = min(at_once, sets.count - start) * choices
            rows = np.arange(count) if self.chosen is None else self.chosen(count)
            grown = self._joined(sets, axis, rows + start * choices)
            whole = joined | {axis}
            for condition in self._early:
                of = self._axes_of(condition.about)
                if axis in of and of <= whole:
                    self._take(grown, whole, condition)
            if grown.count:
                yield from self._from(grown, whole, place)

    def _joined(self, sets: Sifted, axis: int, combinations: Rows) -> Sifted:
        """Sets with one more axis: each combination is a set and a choice."""
        rows, choice = np.divmod(combinations, len(self.grid.axes[axis].values))
        grown = sets.rows(rows)
        grown.places[:, axis] = choice
        grown.sets.values |= self.grid.axes[axis].columns(choice)
        return grown

    def _take(self, sets: Sifted, joined: frozenset[int], part: Line | Condition) -> None:
        """Sift, and tell of all the sets that have fallen out with those that did."""
        before = sets.count
        take(sets, part, self.mesh)
        open_axes = (axis for n, axis in enumerate(self.grid.axes) if n not in joined)
        if sets.count < before:
            self.seen((before - sets.count) * math.prod(len(axis.values) for axis in open_axes))
