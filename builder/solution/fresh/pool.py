"""The sets of values that are good enough for a page to choose from."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from builder.problem.model import Problem
from builder.quantity.arrays import Floats
from builder.quantity.clean import UNCLEAN, digits_of
from builder.quantity.names import Name
from builder.solution.fresh.course import course_of, numbers_of
from builder.solution.fresh.grid import Grid, Places
from builder.solution.fresh.growing import Growing
from builder.solution.fresh.roots import roots_of
from builder.solution.fresh.sieve import Mesh, Sifted, sift
from builder.solution.fresh.variety import Variety
from builder.solution.fresh.wanted import Wanted, asked_of
from builder.solution.solution import Solution

WHOLE_GRID = 40_000
"""So many sets are gone on with at most whenever another value joins; which ones, is left to
chance."""
_POOL_FOR_EACH = 64
"""Variety is chosen from so many sets for each that is wanted …"""
_ENOUGH_FOR_EACH = 4
"""… and those that are less clean are looked for only where there are fewer clean ones."""


@dataclass(frozen=True)
class Pool:
    """Good sets to choose from.

    Attributes:
        grid: what they are made of.
        places: which choices each set is made of.
        names: the numbers that count.
        digits: how many significant digits tell each, a row for each set.
        answers: the values of what is asked, a row for each set.
        asked: what is asked.
        tiers: how many numbers are less clean than in the problem, answers counting most.
    """

    grid: Grid
    places: Places
    names: tuple[Name, ...]
    digits: NDArray[np.int8]
    answers: Floats
    asked: tuple[Name, ...]
    tiers: NDArray[np.int64]

    def digits_of(self, row: int) -> dict[Name, int]:
        """How many significant digits tell each number of a set."""
        return dict(zip(self.names, self.digits[row].tolist(), strict=True))

    def variety(self, solution: Solution) -> Variety:
        """These sets after the problem's own."""
        grid = self.grid
        columns = [np.array([float(v) for v in axis.values])[self.places[:, i]]
                   for i, axis in enumerate(grid.axes)]  # fmt: skip
        own = [float(axis.first) for axis in grid.axes]
        given = _logarithms(np.vstack([own, np.column_stack(columns)]))
        own = [float(solution.values[name]) for name in self.asked]
        answers = _logarithms(np.vstack([own, self.answers]))
        roots = roots_of(solution, self.asked)
        asked = [name in roots for name in self.names]
        burden = self.digits[:, asked].mean(axis=1) if any(asked) else np.zeros(len(self.places))
        burden = burden + 0.5 * self.digits.mean(axis=1) if self.names else burden
        return Variety(grid, given, np.hstack([given, answers]), np.append(0, self.tiers),
                       np.append(0.0, burden))  # fmt: skip


def _logarithms(values: Floats) -> Floats:
    with np.errstate(divide="ignore"):
        return np.where(values == 0, 0.0, np.log(np.abs(values)))


def pool_of(solution: Solution, grid: Grid, wanted: Wanted, most: int) -> Pool | None:
    """The best sets of a grid; where it is large, those that a sample of it leads to.

    Args:
        solution: with the problem's own values.
        grid: what sets are made of.
        wanted: what they have to keep to.
        most: how many are to be chosen from the pool.

    Returns:
        None if no set was found that fits.
    """
    course = course_of(solution, grid, wanted)
    limits, firm = _limits(solution, wanted)
    enough = _POOL_FOR_EACH * most
    parts: list[Pool] = []
    generator = generator_for(solution.problem)

    def keep(found: Sifted) -> None:
        found.keep(generator.permutation(found.count))  # so that ties come in all sizes
        parts.append(_best(found, solution, grid, limits, enough))

    growing = Growing(grid, course, Mesh(limits), lambda count: _some(count, generator))
    for found in growing.found():
        keep(found)
    if sum(len(part.tiers) for part in parts) < _ENOUGH_FOR_EACH * most:
        whole = grid.size <= WHOLE_GRID
        places = grid.chunk(0, grid.size) if whole else grid.sample(generator, WHOLE_GRID)
        found = sift(grid, places, course, Mesh(limits, enough, firm))
        if found.count:
            keep(found)
    return _joined(parts, enough) if parts else None


def _limits(solution: Solution, wanted: Wanted) -> tuple[dict[Name, int], frozenset[Name]]:
    """How many digits may tell each number, and the numbers of which that is firm."""
    own = {name: digits_of(solution.values[name]) for name in numbers_of(solution)}
    limits = {name: max(wanted.digits, digits) for name, digits in own.items()}
    if wanted.firm is None:
        return limits, frozenset()
    firm = roots_of(solution, asked_of(solution))
    return limits | dict.fromkeys(firm, wanted.firm), firm


def _some(count: int, generator: np.random.Generator) -> NDArray[np.intp]:
    """Which of so many sets are gone on with."""
    if count <= WHOLE_GRID:
        return np.arange(count)
    taken = np.sort(generator.integers(0, count, WHOLE_GRID, np.intp))
    return taken[np.diff(taken, prepend=-1) > 0]


def generator_for(problem: Problem) -> np.random.Generator:
    """Numbers for samples, the same for a problem of that name always and everywhere."""
    seed = hashlib.sha256(problem.slug.encode()).digest()[:8]
    return np.random.Generator(np.random.PCG64(int.from_bytes(seed)))


def _best(
    found: Sifted, solution: Solution, grid: Grid, limits: dict[Name, int], most: int
) -> Pool:
    """The best of what was found, ties in the order of the sets."""
    names = tuple(found.digits)
    digits = np.column_stack([found.digits[name] for name in names]) if names else (
        np.zeros((found.count, 0), np.int8)
    )  # fmt: skip
    asked = tuple(name for name in asked_of(solution) if name in found.sets.values)
    roots = roots_of(solution, asked)
    over = digits > np.array([limits[name] for name in names], np.int8)
    weights = np.array([len(names) + 1 if name in roots else 1 for name in names], np.int64)
    tiers = over @ weights
    rank = tiers * (UNCLEAN * weights.sum() + 1) + digits @ weights
    rows = np.argsort(rank, kind="stable")[:most]
    answers = np.column_stack([found.column(name)[rows] for name in asked]) if asked else (
        np.zeros((len(rows), 0))
    )  # fmt: skip
    return Pool(grid, found.places[rows], names, digits[rows], answers, asked, tiers[rows])


def _joined(parts: list[Pool], most: int) -> Pool:
    """Several lots as one, the best tiers first."""
    first = parts[0]
    tiers = np.concatenate([part.tiers for part in parts])
    rows = np.argsort(tiers, kind="stable")[:most]
    return replace(
        first,
        places=np.concatenate([part.places for part in parts])[rows],
        digits=np.concatenate([part.digits for part in parts])[rows],
        answers=np.concatenate([part.answers for part in parts])[rows],
        tiers=tiers[rows],
    )
