"""All sets of values that are to be looked through: each value takes each of its choices."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray
from sympy import Rational

from builder.problem.faults.gathering import START, Faults
from builder.problem.fresh import follows, stated_values
from builder.problem.model import Problem
from builder.problem.relations.quantities import read_stated
from builder.problem.yaml_text.located import Text
from builder.quantity.arrays import Floats
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.symbolic import sign_of

Places: TypeAlias = NDArray[np.int16]
"""Sets of values: a row for each set, a column for each axis, and in it which choice is taken."""


@dataclass(frozen=True)
class Axis:
    """One value that varies, and those that follow it.

    Attributes:
        name: of the quantity.
        typed: what it may be, as typed.
        values: the same in SI units, from the smallest size to the largest.
        first: what it is in the problem, in SI units.
        followers: how many times this value others are, by name.
    """

    name: Name
    typed: tuple[str, ...]
    values: tuple[Exact, ...]
    first: Exact
    followers: Mapping[Name, Exact] = field(default_factory=dict)

    def columns(self, places: NDArray[np.signedinteger]) -> dict[Name, Floats]:
        """The values of many sets, and of what follows them, by name, in floating point."""
        values = np.array([float(value) for value in self.values])[places]
        others = {name: values if times == 1 else values * float(times)
                  for name, times in self.followers.items()}  # fmt: skip
        return {self.name: values, **others}


@dataclass(frozen=True)
class Grid:
    """Every combination of the choices.

    Attributes:
        axes: what varies.
        fixed: the stated values that stay, in SI units.
    """

    axes: tuple[Axis, ...]
    fixed: Mapping[Name, Exact]

    @property
    def size(self) -> int:
        """How many sets there are."""
        return math.prod(len(axis.values) for axis in self.axes)

    @property
    def varied(self) -> frozenset[Name]:
        """The values that vary, those that follow others included."""
        return frozenset(name for axis in self.axes for name in (axis.name, *axis.followers))

    def chunk(self, start: int, stop: int) -> Places:
        """The sets from one position up to another, in the order of counting."""
        rest = np.arange(start, stop)
        places = np.empty((len(rest), len(self.axes)), np.int16)
        for column in reversed(range(len(self.axes))):
            rest, places[:, column] = np.divmod(rest, len(self.axes[column].values))
        return places

    def positions(self, places: Places) -> NDArray[np.int64]:
        """Where sets stand in the order of counting."""
        found = np.zeros(len(places), np.int64)
        for column, axis in enumerate(self.axes):
            found = found * len(axis.values) + places[:, column]
        return found

    def sample(self, generator: np.random.Generator, count: int) -> Places:
        """Sets at random."""
        sizes = [len(axis.values) for axis in self.axes]
        return generator.integers(0, sizes, (count, len(sizes)), np.int16)

    def columns(self, places: Places) -> dict[Name, Floats]:
        """The stated values of each set, by name, in floating point."""
        found: dict[Name, Floats] = {}
        for column, axis in enumerate(self.axes):
            found |= axis.columns(places[:, column])
        for name, value in self.fixed.items():
            found[name] = np.full(len(places), float(value))
        return found

    def exact(self, row: Sequence[int] | Places) -> dict[Name, Exact]:
        """One set of values, in SI units, with those that follow others."""
        found: dict[Name, Exact] = {}
        for axis, place in zip(self.axes, row, strict=True):
            found[axis.name] = axis.values[place]
            found |= {name: axis.values[place] * n for name, n in axis.followers.items()}
        return found

    def typed(self, row: Sequence[int] | Places) -> dict[Name, str]:
        """One set of values, as typed; what follows others is left out."""
        return {axis.name: axis.typed[place] for axis, place in zip(self.axes, row, strict=True)}


def grid_of(problem: Problem, choices: Mapping[Name, tuple[str, ...]]) -> Grid:
    """What is to be looked through. Each value keeps its sign.

    Args:
        problem: with the file that states its values.
        choices: what each value may be, as typed; the values of other names stay.
    """
    followers = follows(problem)
    axes: list[Axis] = []
    fixed: dict[Name, Exact] = {}
    for stated in stated_values(problem):
        name, value = stated.name, stated.measure.value
        if name in followers:
            continue
        behind = {other: Rational(f.times.numerator, f.times.denominator)
                  for other, f in followers.items() if f.leader == name}  # fmt: skip
        allowed = _allowed(choices.get(name, ()), value)
        if allowed:
            axes.append(Axis(name, tuple(allowed.values()), tuple(allowed), value, behind))
        else:
            fixed |= {name: value} | {other: value * times for other, times in behind.items()}
    return Grid(tuple(axes), fixed)


def _allowed(typed: tuple[str, ...], first: Exact) -> dict[Exact, str]:
    """Typed values of the sign of ``first``, by what they are worth, from the smallest size on."""
    found: dict[Exact, str] = {}
    for text in typed:
        measure = read_stated(Text(text, START), Faults(text))
        if measure is not None and sign_of(measure.value) == sign_of(first):
            found.setdefault(measure.value, text)
    return {value: found[value] for value in sorted(found, key=abs)}
