"""From tree to network and back."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.circuit.between import MINUS, PLUS, NotSeriesParallel, find_tree, lay_between
from builder.circuit.law import PARALLEL, SERIES
from builder.circuit.tree import (
    Group,
    Leaf,
    Tree,
    collapse,
    depth,
    groups,
    in_parallel,
    in_series,
    leaves,
)
from builder.problem.model import NestProblem
from builder.solution.nodal import potentials
from tests.strategies import problems, trees

Shape = str | tuple[str, object]
TERMINALS = (PLUS, MINUS)


def shape(tree: Tree) -> Shape:
    """What two equivalent trees have in common: branches in any order, chains from + to −."""
    if isinstance(tree, Leaf):
        return tree.id
    parts = [shape(part) for part in tree.parts]
    return (tree.connection, frozenset(parts) if tree.connection == PARALLEL else tuple(parts))


@st.composite
def shuffled(draw: st.DrawFn) -> tuple[Tree, dict[str, tuple[str, str]]]:
    """A tree, and its branches in any order with any end first."""
    tree = draw(trees(least=1))
    ends = lay_between(tree)
    order = draw(st.permutations(sorted(ends)))
    turned = draw(st.lists(st.booleans(), min_size=len(order), max_size=len(order)))
    flat = {
        name: ends[name][::-1] if turn else ends[name]
        for name, turn in zip(order, turned, strict=True)
    }
    return tree, flat


@given(shuffled())
def test_a_tree_is_found_again_from_its_bare_branches(
    case: tuple[Tree, dict[str, tuple[str, str]]],
) -> None:
    """Flat branches, shuffled and turned, give the same groups, chains still from + to −."""
    tree, flat = case
    assert shape(find_tree(flat, TERMINALS)) == shape(tree)


@given(shuffled())
def test_the_tree_seen_from_the_other_side_is_turned_round(
    case: tuple[Tree, dict[str, tuple[str, str]]],
) -> None:
    """With + and − exchanged the elements come in the opposite order along every chain."""
    tree, flat = case
    back = find_tree(flat, (MINUS, PLUS))

    def turned(part: Tree) -> Shape:
        if isinstance(part, Leaf):
            return part.id
        parts = [turned(inner) for inner in part.parts]
        series = part.connection == SERIES
        return (part.connection, tuple(parts[::-1]) if series else frozenset(parts))

    assert shape(back) == turned(tree)


@given(shuffled())
def test_parallel_branches_come_in_the_authors_order(
    case: tuple[Tree, dict[str, tuple[str, str]]],
) -> None:
    """Branches of a parallel group are ordered by their first-written elements."""
    _, flat = case
    order = list(flat)
    for group in groups(find_tree(flat, TERMINALS)):
        if group.connection == PARALLEL:
            first = [min(order.index(leaf) for leaf in leaves(part)) for part in group.parts]
            assert first == sorted(first)


@given(trees())
def test_no_group_holds_a_group_of_its_own_connection(tree: Tree) -> None:
    """Found groups have two or more parts and alternate, so one merge is one step."""
    for group in groups(find_tree(lay_between(tree), TERMINALS)):
        assert len(group.parts) >= 2
        for part in group.parts:
            assert isinstance(part, Leaf) or part.connection != group.connection


@given(problems(most=15))
def test_the_first_junction_of_an_element_is_nearer_to_plus(problem: NestProblem) -> None:
    """Along every element the potential falls from its first junction to its second."""
    volts = potentials(problem.network, problem.law)
    for element in problem.network.elements:
        start, end = element.between
        assert bool(volts[start] > volts[end])


def test_junctions_are_lettered_from_plus_to_minus() -> None:
    """A chain of three has the junctions a and b between its terminals."""
    tree = in_series("", Leaf("R1"), in_parallel("", Leaf("R2"), Leaf("R3")), Leaf("R4"))
    assert lay_between(tree) == {
        "R1": (PLUS, "a"),
        "R2": ("a", "b"),
        "R3": ("a", "b"),
        "R4": ("b", MINUS),
    }


def test_junction_names_stay_apart_beyond_the_alphabet() -> None:
    """A chain of sixty elements has sixty-one points of different names."""
    chain = in_series("", *(Leaf(f"R{n}") for n in range(60)))
    points = {point for ends in lay_between(chain).values() for point in ends}
    assert len(points) == 61


BRIDGE = {"R1": ("+", "x"), "R2": ("+", "y"), "R3": ("x", "−"), "R4": ("y", "−"), "R5": ("x", "y")}
STUCK = [
    (BRIDGE, "no two of R1, R2, R3, R4, R5 are in series or in parallel"),
    (
        {**BRIDGE, "R6": ("+", "x")},
        "no two of R2, R3, R4, R5, R1, R6 are in series or in parallel",
    ),
    ({"R1": ("+", "−"), "R2": ("+", "a")}, "no two of R1, R2 are in series or in parallel"),
    (
        {"R1": ("+", "−"), "R2": ("a", "b"), "R3": ("b", "c")},
        "no two of R1, R2, R3 are in series or in parallel",
    ),
    ({"R1": ("+", "−"), "R2": ("a", "a")}, "no two of R1, R2 are in series or in parallel"),
    ({"R1": ("+", "a")}, "no two of R1 are in series or in parallel"),
    (
        {"R1": ("+", "a"), "R2": ("b", "−")},
        "no two of R1, R2 are in series or in parallel",
    ),
]


@pytest.mark.parametrize(("between", "message"), STUCK)
def test_what_is_no_nest_of_groups_is_told(
    between: dict[str, tuple[str, str]], message: str
) -> None:
    """A bridge, a loose end or an open circuit is refused, with the elements that remain."""
    with pytest.raises(NotSeriesParallel) as caught:
        find_tree(between, TERMINALS)
    assert str(caught.value) == message
    assert {name for name, _ in caught.value.stuck} == set(between)
    assert all(between[name] == ends for name, ends in caught.value.stuck)


def test_a_bridge_inside_a_larger_circuit_is_found() -> None:
    """Groups around a bridge are merged before the bridge is reported."""
    between = {**BRIDGE, "R6": ("−", "m"), "R7": ("−", "m")}
    with pytest.raises(NotSeriesParallel) as caught:
        find_tree(between, ("+", "m"))
    assert {"R1", "R2", "R3", "R4", "R5"} <= {name for name, _ in caught.value.stuck}


@pytest.mark.parametrize("connect", [in_series, in_parallel])
def test_groups_of_the_same_connection_are_flattened(connect: object) -> None:
    """Three in a row, or three side by side, are one group of three however they were put."""
    assert callable(connect)
    nested = connect("", connect("", Leaf("C1"), Leaf("C2")), Leaf("C3"))
    assert isinstance(nested, Group)
    assert nested.parts == (Leaf("C1"), Leaf("C2"), Leaf("C3"))


def test_one_part_alone_is_no_group() -> None:
    """A group of a single element is that element."""
    assert in_series("", Leaf("C1")) == Leaf("C1")


@pytest.mark.parametrize("count", [3, 4, 7])
def test_any_number_in_parallel_are_one_group(count: int) -> None:
    """Several elements across the same two junctions are found as one group, not as pairs."""
    between = {f"C{n}": ("+", "−") if n % 2 else ("−", "+") for n in range(count)}
    tree = find_tree(between, TERMINALS)
    assert isinstance(tree, Group)
    assert (tree.connection, len(tree.parts)) == (PARALLEL, count)


@pytest.mark.parametrize("count", [3, 4, 7])
def test_any_number_in_series_are_one_group(count: int) -> None:
    """Several elements along one path are found as one group, in order from + to −."""
    points = ["+", *(f"p{n}" for n in range(count - 1)), "−"]
    ends = list(pairwise(points))
    between = {f"C{n}": ends[n] for n in (*range(1, count), 0)}
    tree = find_tree(between, TERMINALS)
    assert isinstance(tree, Group)
    assert leaves(tree) == tuple(f"C{n}" for n in range(count))
    assert (tree.connection, len(tree.parts)) == (SERIES, count)


def test_merged_groups_collapse_to_their_equivalents() -> None:
    """After a merge the circuit shows the equivalent in place of its group."""
    inner = in_parallel("C23", Leaf("C2"), Leaf("C3"))
    tree = in_series("total", Leaf("C1"), inner)
    assert [group.id for group in groups(tree)] == ["C23", "total"]
    assert collapse(tree, frozenset({"C23"})) == in_series("total", Leaf("C1"), Leaf("C23"))
    assert collapse(tree, frozenset({"C23", "total"})) == Leaf("total")
    assert (depth(tree), depth(inner), depth(Leaf("C1"))) == (2, 1, 0)
