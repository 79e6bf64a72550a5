"""Circuits of any size whose equivalent is known in closed form."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import combinations_with_replacement, count

import pytest

from builder.circuit.law import CAPACITORS, PARALLEL, RESISTORS, SERIES, Law
from builder.circuit.tree import Group, Leaf, Tree, in_parallel, in_series, leaves
from builder.quantity.exact import as_fraction
from builder.quantity.names import TOTAL, Name
from builder.solution import solve
from tests.published.row import solved, value_of
from tests.strategies import problem_of

ONE = {"C": "1 F", "R": "1 ohm"}


def _equivalent(tree: Tree, law: Law, value: str | None = None) -> Fraction:
    """The equivalent of a tree of equal elements, in farads or ohms."""
    values = dict.fromkeys(leaves(tree), value or ONE[law.letter])
    solution = solve(problem_of(tree, law, values, source=None))
    return as_fraction(solution.value(Name(law.value, TOTAL)))


def _fibonacci(n: int) -> int:
    before, here = 0, 1
    for _ in range(n):
        before, here = here, before + here
    return before


def _ladder(cells: int) -> Tree:
    """Series element first, then one across, cell after cell; the far end open."""
    tree = in_series("", Leaf(f"E{2 * cells - 1}"), Leaf(f"E{2 * cells}"))
    for cell in range(cells - 1, 0, -1):
        tree = in_series("", Leaf(f"E{2 * cell - 1}"), in_parallel("", Leaf(f"E{2 * cell}"), tree))
    return tree


@pytest.mark.parametrize("cells", range(1, 41))
def test_a_ladder_of_equal_resistors_is_a_ratio_of_fibonacci_numbers(cells: int) -> None:
    """Cells of 1 Ω, n of them, make F(2n+1)/F(2n) ohms: 2, 5/3, 13/8, 34/21 and so on.

    Source: standard result, from memory; n = 1 to 4 computed by hand.
    """
    expected = Fraction(_fibonacci(2 * cells + 1), _fibonacci(2 * cells))
    assert _equivalent(_ladder(cells), RESISTORS) == expected


@pytest.mark.parametrize("cells", [1, 2, 3, 10, 40])
def test_a_ladder_of_equal_capacitors_is_the_inverse_ratio(cells: int) -> None:
    """Cells of 1 F, n of them, make F(2n)/F(2n+1) farads, towards (√5 − 1)/2.

    Source: the limit is given in Irodov, Problems in General Physics, part 3 (from memory).
    """
    found = _equivalent(_ladder(cells), CAPACITORS)
    assert found == Fraction(_fibonacci(2 * cells), _fibonacci(2 * cells + 1))
    assert cells < 10 or float(found) == pytest.approx((5**0.5 - 1) / 2, rel=1e-8)


def test_the_first_ladders_are_as_printed() -> None:
    """2, 5/3, 13/8 and 34/21 ohms, the fourth 1.6190."""
    first = [_equivalent(_ladder(cells), RESISTORS) for cells in (1, 2, 3, 4)]
    assert first == [2, Fraction(5, 3), Fraction(13, 8), Fraction(34, 21)]


def test_a_ladder_that_is_closed_by_its_own_limit_keeps_it() -> None:
    """4 Ω before 3 Ω beside 6 Ω makes 6 Ω again, the limit of that endless ladder.

    Source: Irodov, Problems in General Physics, part 3 (from memory).
    """
    solution = solved(
        "series: [R1: 4 ohm, parallel: [R2: 3 ohm, R3: 6 ohm]]", (("equivalent", "total"),)
    )
    assert value_of(solution, "equivalent", "total") == 6


def test_a_cube_across_its_body_diagonal() -> None:
    """Twelve edges of 1 Ω make 5/6 Ω and draw 12 A from 10 V.

    Points of equal potential fall together, which leaves three, six and three edges in
    parallel, one group after the other. Source: fisicaexe.com.br, electromagnetism, resistors 1
    (the three groups); NCERT Physics textbook for class XII, part I, chapter 3, solved example
    (5/6 Ω, 12 A, from memory).
    """
    edges = count(1)
    lists = [", ".join(f"R{next(edges)}: 1 ohm" for _ in range(size)) for size in (3, 6, 3)]
    circuit = "source: 10 V\nseries:\n" + "\n".join(f"  - parallel: [{each}]" for each in lists)
    solution = solved(circuit, (("equivalent", "total"), ("current", "total")))
    assert value_of(solution, "equivalent", "total") == Fraction(5, 6)
    assert value_of(solution, "current", "total") == 12
    assert len(solution.problem.network.elements) == 12


def test_five_hundred_capacitors_in_parallel() -> None:
    """500 of 1.50 mF make 0.750 F.

    Source: University Physics Volume 2 (OpenStax), section 8.2, problem fs-id1167131431010. A
    file holds at most 60 elements, so the tree is built here.
    """
    bank = in_parallel("", *(Leaf(f"C{n}") for n in range(1, 501)))
    assert _equivalent(bank, CAPACITORS, "1.50 mF") == Fraction(750, 1000)


@pytest.mark.parametrize("law", [CAPACITORS, RESISTORS], ids=["capacitors", "resistors"])
@pytest.mark.parametrize("number", [2, 3, 10, 57])
def test_equal_elements_multiply_or_divide(law: Law, number: int) -> None:
    """Equal elements, n of them, make n times one where values add, else an n-th part.

    Source: University Physics Volume 2 (OpenStax), sections 8.2 and 10.2, the merging rules.
    """
    parts = [Leaf(f"{law.letter}{n}") for n in range(1, number + 1)]
    series, parallel = in_series("", *parts), in_parallel("", *parts)
    adding, dividing = (parallel, series) if law is CAPACITORS else (series, parallel)
    assert _equivalent(adding, law) == number
    assert _equivalent(dividing, law) == Fraction(1, number)


@pytest.mark.parametrize(("number", "apart"), [(n, k) for n in (3, 6, 9) for k in range(1, n)])
def test_a_ring_of_equal_resistors(number: int, apart: int) -> None:
    """Between points k of n edges apart it is k(n − k)/n of one; 5/6, 4/3, 3/2 for six.

    Source: elementary; the six-edged ring from memory.
    """
    edges = [Leaf(f"R{n}") for n in range(1, number + 1)]
    ring = in_parallel("", in_series("", *edges[:apart]), in_series("", *edges[apart:]))
    assert _equivalent(ring, RESISTORS) == Fraction(apart * (number - apart), number)


@cache
def _shapes(size: int, connection: str) -> tuple[Tree, ...]:
    """Every different nest of ``size`` equal elements whose outermost group is given."""
    other = SERIES if connection == PARALLEL else PARALLEL
    return tuple(
        Group("", connection, parts)
        for shares in _partitions(size, size - 1)
        for parts in _fillings(shares, other)
    )


def _partitions(size: int, most: int) -> Iterator[tuple[int, ...]]:
    if size == 0:
        yield ()
    for first in range(min(size, most), 0, -1):
        for rest in _partitions(size - first, first):
            yield (first, *rest)


def _fillings(shares: tuple[int, ...], connection: str) -> Iterator[tuple[Tree, ...]]:
    """Every choice of parts of the given sizes, order left aside."""
    if not shares:
        yield ()
        return
    equal = shares.count(shares[0])
    choices = (Leaf(""),) if shares[0] == 1 else _shapes(shares[0], connection)
    for several in combinations_with_replacement(choices, equal):
        for rest in _fillings(shares[equal:], connection):
            yield (*several, *rest)


def _numbered(tree: Tree, names: Iterator[int]) -> Tree:
    if isinstance(tree, Leaf):
        return Leaf(f"R{next(names)}")
    parts = tuple(_numbered(part, names) for part in tree.parts)
    return Group(tree.id, tree.connection, parts)


@pytest.mark.parametrize(("size", "different"), [(1, 1), (2, 2), (3, 4), (4, 9), (5, 22), (6, 53)])
def test_how_many_values_equal_resistors_can_make(size: int, different: int) -> None:
    """Equal resistors, n of them, nested in every way make 1, 2, 4, 9, 22, 53 different values.

    Source: OEIS A048211 (from memory).
    """
    one: tuple[Tree, ...] = (Leaf(""),)
    shapes = one if size == 1 else (*_shapes(size, SERIES), *_shapes(size, PARALLEL))
    values = {_equivalent(_numbered(shape, count(1)), RESISTORS) for shape in shapes}
    assert len(values) == different
