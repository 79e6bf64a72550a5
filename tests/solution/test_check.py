"""A check as a statement."""

from __future__ import annotations

import pytest
from sympy import Rational

from builder.quantity.formula import Ref
from builder.quantity.names import Name
from builder.solution.check import Check
from builder.solution.nest.checks import CheckKind


@pytest.mark.parametrize(
    ("relation", "pairs"),
    [
        ("=", [(1, 1, True), (1, 2, False), (2, 1, False)]),
        ("<", [(1, 1, False), (1, 2, True), (2, 1, False)]),
        (">", [(1, 1, False), (1, 2, False), (2, 1, True)]),
    ],
)
def test_a_check_is_a_plain_statement(relation: str, pairs: list[tuple[int, int, bool]]) -> None:
    """Equal, less and greater mean just that, and equality is exact."""
    left, right = Name("voltage", "V0"), Name("voltage", "C1")
    check = Check(CheckKind.LOOP, ("C1",), Ref(left), relation, Ref(right))
    for one, other, truth in pairs:
        assert check.holds({left: Rational(one), right: Rational(other)}) is truth
    almost = Rational(10**30 + 1, 10**30)
    assert check.holds({left: Rational(1), right: almost}) is (relation == "<")
