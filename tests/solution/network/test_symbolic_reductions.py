"""Symbols and roots for values: the same routes, and results as identities."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sympy import Expr, Integer, Rational, Symbol, cancel, exp, radsimp, simplify, sqrt

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from builder.circuit.network import Network
from builder.quantity.names import TOTAL, Name
from builder.solution.network.reductions.route import route
from builder.solution.network.step import NetworkMove
from tests.solution.network.examples import Rows, cube, network_of
from tests.solution.network.solving import found, the_route

A, B, C, D, X = (Symbol(name, positive=True) for name in "ABCDX")
BRIDGE_ENDS = (("a", "x"), ("x", "b"), ("a", "y"), ("y", "b"), ("x", "y"))


def _bridge(law: Law, *values: Expr) -> Network:
    rows: Rows = {
        f"{law.letter}{number}": (value, *ends)
        for number, (value, ends) in enumerate(zip(values, BRIDGE_ENDS, strict=True), start=1)
    }
    return network_of(rows, "a", "b", ("voltage", 12))


@pytest.mark.parametrize("law", [RESISTORS, CAPACITORS], ids=lambda law: str(law.value))
@pytest.mark.parametrize(
    ("values", "balanced"),
    [
        ((A, B, C, B * C / A, X), True),
        ((A, B, 2 * A, 2 * B, X), True),
        ((A * (B + C), A, B * D + C * D, D, X), True),
        (((A**2 - B**2) / (A - B), C, A + B, C, X), True),
        ((A, B, C, D, X), False),
        ((A, B, B, A, X), False),
    ],
)
def test_a_symbolic_bridge_balances_where_its_ratios_are_identical(
    law: Law, values: tuple[Expr, ...], balanced: bool
) -> None:
    """Whether ratios are equal is told by algebra, in whatever words they are written."""
    way = the_route(_bridge(law, *values), law)
    assert (way.steps[0].kind is NetworkMove.BALANCE) == balanced


def test_the_antisymmetric_bridge_in_symbols() -> None:
    """[2C1C2 + C3(C1 + C2)]/(C1 + C2 + 2C3), the same form for resistors (Irodov, from memory)."""
    closed = (2 * A * B + C * (A + B)) / (A + B + 2 * C)
    for law in (RESISTORS, CAPACITORS):
        network = _bridge(law, A, B, B, A, C)
        value = found(network, law, the_route(network, law).steps)[Name(law.value, TOTAL)]
        assert cancel(value - closed) == 0


def test_flows_of_a_symbolic_bridge_balance_at_its_junctions() -> None:
    """The walk back keeps what comes in equal to what goes out, as an identity."""
    network = _bridge(RESISTORS, A, B, B, A, C)
    values = found(network, RESISTORS, the_route(network, RESISTORS).steps)
    one, two, three, four, five = (values[Name("current", f"R{n}")] for n in range(1, 6))
    assert cancel(one - two - five) == 0
    assert cancel(three + five - four) == 0
    assert cancel(values[Name("current", TOTAL)] - one - three) == 0


@pytest.mark.parametrize(
    ("minus", "part"), [("B", Rational(7, 12)), ("C", Rational(3, 4)), ("G", Rational(5, 6))]
)
def test_a_cube_of_one_symbol(minus: str, part: Rational) -> None:
    """7R/12, 3R/4 and 5R/6, by the moves that numbers have."""
    network = cube(minus)
    network = replace(network, elements=tuple(replace(e, value=2 * A) for e in network.elements))
    way = the_route(network, RESISTORS)
    assert way.moves == the_route(cube(minus), RESISTORS).moves
    value = found(network, RESISTORS, way.steps)[Name("resistance", TOTAL)]
    assert cancel(value - 2 * A * part) == 0


def test_roots_are_kept() -> None:
    """√2 : 1 is 2 : √2, so the bridge balances, and the equivalent is exact."""
    root = sqrt(Integer(2))
    network = _bridge(RESISTORS, root, Integer(1), Integer(2), root, Integer(5))
    way = the_route(network, RESISTORS)
    assert way.steps[0].kind is NetworkMove.BALANCE
    value = found(network, RESISTORS, way.steps)[Name("resistance", TOTAL)]
    upper, lower = root + 1, 2 + root
    assert simplify(radsimp(value) - radsimp(upper * lower / (upper + lower))) == 0


def test_values_outside_any_field_are_refused() -> None:
    """An exponential of a symbol is no rational function of it."""
    with pytest.raises(TypeError, match="not reduced"):
        route(_bridge(RESISTORS, exp(A), B, C, D, X), RESISTORS)
