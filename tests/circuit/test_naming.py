"""Names for equivalents."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.circuit.naming import name_groups, value_symbol
from builder.circuit.tree import Leaf, Tree, groups, in_parallel, in_series, leaves
from builder.quantity.names import TOTAL
from tests.strategies import trees


def _pair_after(first: str, *pair: str) -> Tree:
    """An element in series with a parallel group."""
    return in_series("", Leaf(first), in_parallel("", *(Leaf(name) for name in pair)))


NAMED = [
    (_pair_after("C1", "C2", "C3"), "C", ["C23", TOTAL]),
    (_pair_after("C1", "C3", "C2"), "C", ["C23", TOTAL]),
    (_pair_after("R1", "R2", "R3"), "R", ["R23", TOTAL]),
    (_pair_after("C1", "C2", "C3", "C4", "C5"), "C", ["C2345", TOTAL]),
    (_pair_after("C1", "C2", "C3", "C4", "C5", "C6"), "C", ["C_a", TOTAL]),
    (_pair_after("C1", "C2", "C10"), "C", ["C_2,10", TOTAL]),
    (_pair_after("C1", "C12", "C3"), "C", ["C_3,12", TOTAL]),
    (_pair_after("C23", "C2", "C3"), "C", ["C_a", TOTAL]),
    (_pair_after("C_a", "Cload", "C3"), "C", ["C_b", TOTAL]),
    (_pair_after("a", "lamp", "heater"), "R", ["R_b", TOTAL]),
    (_pair_after("C1", "C_2", "C_3"), "C", ["C23", TOTAL]),
    (in_parallel("", Leaf("C1"), Leaf("C2")), "C", [TOTAL]),
    (Leaf("C1"), "C", []),
    (
        in_series("", _pair_after("C1", "C2", "C3"), in_parallel("", Leaf("C4"), Leaf("C5"))),
        "C",
        ["C23", "C45", TOTAL],
    ),
    (
        in_parallel("", Leaf("C1"), _pair_after("C2", "C3", "C4")),
        "C",
        ["C34", "C234", TOTAL],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "letter", "names"), NAMED)
def test_equivalents_are_named_after_their_members(
    tree: Tree, letter: str, names: list[str]
) -> None:
    """C2 and C3 make C23 where that can be read and is free; else a letter is taken."""
    assert [group.id for group in groups(name_groups(tree, letter))] == names


@given(trees())
def test_names_of_a_random_circuit_are_unique(tree: Tree) -> None:
    """No equivalent shares its name or its symbol with another or with an element."""
    named = name_groups(tree, "C")
    ids = [*leaves(named), *(group.id for group in groups(named))]
    symbols = [value_symbol(id, "C").text for id in ids]
    assert len(set(ids)) == len(ids)
    assert len(set(symbols)) == len(symbols)
    assert ids[-1] == TOTAL


POOL = ["C1", "C2", "C3", "C12", "C23", "C_a", "b", "C_load", "lamp", "C10", "C123", "R4", "c"]


@given(st.permutations(POOL), st.integers(2, len(POOL)))
def test_equivalents_give_way_to_the_authors_names(names: list[str], count: int) -> None:
    """Whatever the elements are called, no equivalent takes one of their names or symbols."""
    tree: Tree = Leaf(names[0])
    for position, name in enumerate(names[1:count]):
        join = in_parallel if position % 2 else in_series
        tree = join("", Leaf(name), tree)
    named = name_groups(tree, "C")
    ids = [*leaves(named), *(group.id for group in groups(named))]
    symbols = [value_symbol(id, "C").text for id in ids]
    assert len(set(ids)) == len(ids)
    assert len(set(symbols)) == len(symbols)


def test_many_unreadable_groups_still_get_different_names() -> None:
    """Sixty groups of named lamps are lettered a to z, then aa and on."""
    pairs = [in_parallel("", Leaf(f"left{n}x"), Leaf(f"right{n}x")) for n in range(60)]
    ids = [group.id for group in groups(name_groups(in_series("", *pairs), "R"))]
    assert ids[:2] == ["R_a", "R_b"]
    assert ids[25:28] == ["R_z", "R_aa", "R_bb"]
    assert len(set(ids)) == 61


@pytest.mark.parametrize(
    ("id", "text"),
    [("C23", "C₂₃"), ("C_2,10", "C_2,10"), (TOTAL, "C_eq"), ("C_a", "C_a"), ("lamp", "C_lamp")],
)
def test_equivalents_have_symbols(id: str, text: str) -> None:
    """The whole circuit's equivalent is C_eq; the others carry their index."""
    assert value_symbol(id, "C").text == text
