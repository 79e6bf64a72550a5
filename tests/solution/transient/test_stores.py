"""What is charged: one capacitor, several that merge, or several on their own."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from sympy import Rational, exp, log

from builder.circuit.switching import Switch
from builder.problem.transient.moments import END, START, at
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.transient.solve import TransientSolution, solve_transient
from tests.solution.transient.circuits import capacitor, charging, resistor, source


def test_a_battery_straight_across_leaves_its_voltage_behind() -> None:
    """What stood on a battery without a resistor starts from the battery's voltage."""
    solution = solve_transient(
        charging(
            [resistor("R1", "2 kohm", "a", "g")],
            [capacitor("C1", "5 uF", "a", "g")],
            [source("V0", "12 V", "p", "g")],
            switches=[Switch("S1", ("p", "a"), closed=True)],
            flipped=["S1"],
        )
    )
    assert solution.values[at("voltage", "C1", START)] == 12
    assert solution.values[at("voltage", "C1", END)] == 0
    assert solution.values[Name("time-constant", "total")] == Rational(1, 100)


def test_capacitors_side_by_side_go_on_together() -> None:
    """Two of 5 µF at 12 V fall to a third of it through 2 kΩ beside 1 kΩ: τ = 20/3 ms."""
    solution = solve_transient(
        charging(
            [resistor("R1", "2 kohm", "p", "a"), resistor("R2", "1 kohm", "b", "g")],
            [capacitor("C1", "5 uF", "a", "g"), capacitor("C2", "5 uF", "a", "g")],
            [source("V0", "12 V", "p", "g")],
            switches=[Switch("S1", ("a", "b"), closed=False)],
            flipped=["S1"],
            times=["1 ms"],
            levels=[("C2", "6 V")],
        )
    )
    assert solution.values[at("voltage", "C2", "t1")] == 4 + 8 * exp(Rational(-3, 20))
    assert solution.values[Name("time", "C2>1")] == log(4) / 150


def test_a_chain_shares_the_voltage_at_every_time() -> None:
    """2 µF and 1 µF hold a third and two thirds of 12 V: 2 V and 4 V come at the same time."""
    solution = solve_transient(
        charging(
            [resistor("R1", "2 kohm", "p", "a")],
            [capacitor("C1", "2 uF", "a", "b"), capacitor("C2", "1 uF", "b", "g")],
            [source("V0", "12 V", "p", "g")],
            levels=[("C1", "2 V"), ("C2", "4 V")],
        )
    )
    assert solution.values[Name("time", "C1>1")] == log(2) / 750
    assert solution.values[Name("time", "C2>2")] == log(2) / 750


def _two(first: str, second: str, charged: Sequence[str]) -> TransientSolution:
    """A divider of 3 kΩ and 6 kΩ on 9 V with a capacitor across each resistor's far end."""
    return solve_transient(
        charging(
            [resistor("R1", "3 kohm", "p", "a"), resistor("R2", "6 kohm", "a", "g"),
             resistor("R3", "1 kohm", "a", "b")],
            [capacitor("C1", first, "a", "g"), capacitor("C2", second, "b", "g")],
            [source("V0", "9 V", "p", "g")],
            charged=dict.fromkeys(charged, "3 V"),
        )
    )  # fmt: skip


@pytest.mark.parametrize(
    ("charged", "first"),
    [
        # Both are wires: all of 9 V lies across 3 kΩ, nothing across the rest.
        ((), {"R1": Rational(3, 1000), "R2": 0, "R3": 0}),
        # C1 is a battery of 3 V, C2 a wire: 6 V across 3 kΩ, 3 V across 6 kΩ and 1 kΩ.
        (("C1",), {"R1": Rational(2, 1000), "R2": Rational(1, 2000), "R3": Rational(3, 1000)}),
        # Both hold 3 V: nothing flows between them.
        (("C1", "C2"), {"R1": Rational(2, 1000), "R2": Rational(1, 2000), "R3": 0}),
    ],
)
def test_several_on_their_own_are_followed_at_first_and_at_last(
    charged: Sequence[str], first: dict[str, Exact]
) -> None:
    """At first each is a wire or a battery; long after all are gaps at the divider's 6 V."""
    solution = _two("10 uF", "47 uF", charged)
    values = solution.values
    assert {name: values[at("current", name, START)] for name in first} == first
    assert values[at("voltage", "C1", END)] == values[at("voltage", "C2", END)] == 6
    assert len(solution.stores) == 2


def test_what_a_current_source_drives_through_a_wire_goes_nowhere_else() -> None:
    """At first an empty capacitor across 7 A takes all of it; at last 15 Ω do, at 105 V."""
    solution = solve_transient(
        charging(
            [resistor("R1", "7 ohm", "c", "b"), resistor("R2", "8 ohm", "a", "b")],
            [capacitor("C1", "9 mF", "a", "c")],
            [source("I1", "7 A", "a", "c")],
        )
    )
    assert solution.values[at("current", "R1", START)] == 0
    assert solution.values[at("current", "R1", END)] == 7
    assert solution.values[at("voltage", "C1", END)] == 105


def test_plates_that_a_switch_joins_count_from_where_they_were() -> None:
    """A battery that the switch brings to one plate alone changes nothing for the capacitors.

    Both fall from 14 V, their share of 20 V, through 7 Ω: 9 mF · 7 Ω = 63 ms.
    """
    solution = solve_transient(
        charging(
            [resistor("R1", "7 ohm", "b", "a"), resistor("R2", "4 ohm", "a", "d"),
             resistor("R3", "3 ohm", "a", "e")],
            [capacitor("C1", "2 mF", "a", "b"), capacitor("C2", "7 mF", "b", "a")],
            [source("V1", "1 V", "c", "d"), source("V2", "20 V", "e", "f")],
            switches=[
                Switch("S1", ("a", "c"), closed=False),
                Switch("S2", ("b", "f"), closed=True),
            ],
            flipped=["S1", "S2"],
        )
    )  # fmt: skip
    assert solution.values[Name("time-constant", "total")] == Rational(63, 1000)
    assert abs(solution.values[at("voltage", "C2", START)]) == 14
    assert solution.values[at("voltage", "C2", END)] == 0
