"""Networks: their elements and junctions."""

from __future__ import annotations

import pytest

from builder.circuit.between import MINUS, PLUS
from builder.circuit.law import RESISTORS
from builder.circuit.tree import Leaf, in_parallel, in_series
from tests.strategies import problem_of

MIXED = problem_of(
    in_series("", Leaf("R1"), in_parallel("", Leaf("R2"), Leaf("R3")), Leaf("R4")),
    RESISTORS,
    {"R4": "4 ohm", "R2": "2 ohm", "R3": "3 ohm", "R1": "1 ohm"},
).network


def test_junctions_run_from_plus_to_minus() -> None:
    """The + terminal comes first and the − terminal is not repeated, whatever the order."""
    assert MIXED.junctions[0] == PLUS
    assert sorted(MIXED.junctions) == sorted((PLUS, "a", "b", MINUS))


def test_an_element_is_found_by_its_name() -> None:
    """An element keeps its place between two junctions; an unknown name is an error."""
    assert MIXED.element("R2").between == ("a", "b")
    assert [element.name for element in MIXED.elements] == ["R4", "R2", "R3", "R1"]
    with pytest.raises(KeyError, match="R9"):
        MIXED.element("R9")
