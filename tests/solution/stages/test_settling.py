"""Small circuits in stages, worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.circuit.switching import Stage
from builder.problem.model import StagesProblem
from builder.quantity.exact import as_fraction
from builder.quantity.names import Name
from tests.solution.stages.building import (
    CLOSE,
    battery,
    capacitor,
    solved,
    staged,
    switch,
    two_joined,
)

MICRO = Fraction(1, 10**6)

LIKE = two_joined(charged={"C1": "12 V", "C2": "3 V"})
UNLIKE = two_joined(charged={"C1": "12 V", "C2": "6 V"}, alike=False)
ACROSS = staged(
    [capacitor("C1", "10 uF", "a", "g"), battery("V0", "9 V", "p", "g"), switch("S", "p", "a")],
    [CLOSE],
)
TRANSFER = staged(
    [
        capacitor("C1", "4 uF", "a", "g"),
        capacitor("C2", "2 uF", "b", "g"),
        battery("V0", "12 V", "p", "g"),
        switch("S1", "p", "a"),
        switch("S2", "a", "b"),
    ],
    [Stage(close=("S1",)), Stage(open=("S1",)), Stage(close=("S2",))],
)
SHORTED = staged(
    [capacitor("C1", "5 uF", "a", "g"), switch("S", "a", "g")], [CLOSE], {"C1": "40 uC"}
)
TURNED = staged(
    [
        capacitor("C1", "3 uF", "a", "g"),
        capacitor("C2", "1 uF", "a", "g"),
        battery("V0", "8 V", "p", "g"),
        switch("S", "p", "a", closed=True),
    ],
    [Stage(open=("S",)), Stage(turn=("C2",))],
)
CHAIN = staged(
    [
        capacitor("C1", "3 uF", "a", "m"),
        capacitor("C2", "6 uF", "m", "g"),
        battery("V0", "18 V", "p", "g"),
        switch("S", "p", "a"),
    ],
    [CLOSE],
    {"C1": "6 V"},
)
TWO_BATTERIES = staged(
    [
        capacitor("C1", "2 uF", "p", "x"),
        capacitor("C2", "3 uF", "q", "x"),
        capacitor("C3", "5 uF", "x", "g"),
        battery("V1", "10 V", "p", "g"),
        battery("V2", "20 V", "q", "g"),
        switch("S", "x", "g", closed=True),
    ],
    [Stage(open=("S",)), Stage(close=("S",))],
)

# By hand. Like plates: (48 + 6)/6 = 9 V. Unlike: (48 − 12)/6 = 6 V, C2 turned over. A battery
# across 10 µF: 90 µC moved, CV² = 810 µJ delivered, half lost. Transfer: 48 µC over 6 µF = 8 V,
# 288 µJ − 192 µJ = 96 µJ lost there, and 288 µJ on charging. Shorted: 40 µC at 8 V = 160 µJ, all
# lost. Turned: 24 − 8 = 16 µC over 4 µF = 4 V. Chain: 2 µF sees 18 − 6 = 12 V, so 24 µC go round.
WORKED = [
    (LIKE, {"voltage:C1": 9, "voltage:C2": 9, "charge:C1": 36 * MICRO, "charge:C2": 18 * MICRO,
            "energy:lost": 54 * MICRO}),
    (UNLIKE, {"voltage:C1": 6, "voltage:C2": -6, "charge:C2": -12 * MICRO,
              "energy:lost": 216 * MICRO, "energy:total": 108 * MICRO}),
    (ACROSS, {"charge:V0": 90 * MICRO, "energy:V0": 810 * MICRO, "energy:lost": 405 * MICRO}),
    (TRANSFER, {"voltage:C2": 8, "voltage:C1@1": 12, "voltage:C1@2": 12, "energy:lost@2": 0,
                "energy:lost@3": 96 * MICRO, "energy:lost": 384 * MICRO, "charge:C2@2": 0,
                "charge:V0": 48 * MICRO, "energy:total@2": 288 * MICRO}),
    (SHORTED, {"charge:C1": 0, "voltage:C1": 0, "energy:lost": 160 * MICRO, "voltage:C1@0": 8}),
    (TURNED, {"voltage:C1": 4, "voltage:C2": 4, "voltage:C2@1": 8, "charge:C1": 12 * MICRO}),
    (CHAIN, {"charge:C1": 42 * MICRO, "charge:C2": 24 * MICRO, "voltage:C1": 14, "voltage:C2": 4,
             "charge:V0": 24 * MICRO, "energy:lost": 144 * MICRO}),
    (TWO_BATTERIES, {"voltage:C1": 10, "voltage:C2": 20, "voltage:C3": 0, "energy:lost": 0}),
]  # fmt: skip


@pytest.mark.parametrize(("problem", "expected"), WORKED)
def test_a_small_circuit_settles_as_worked_by_hand(
    problem: StagesProblem, expected: dict[str, Fraction]
) -> None:
    """Charges, voltages, what batteries move and what is lost are those of the working above."""
    solution = solved(problem)
    assert solution.agree
    found = {key: as_fraction(solution.value(Name(*key.split(":")))) for key in expected}
    assert found == expected


MOVES = [
    (LIKE, ["start", "island", "share", "charges"]),
    (ACROSS, ["battery"]),
    (TRANSFER, ["battery", "island", "share", "charges"]),
    (SHORTED, ["start", "short"]),
    (CHAIN, ["start", "chain", "round", "charges"]),
]


@pytest.mark.parametrize(("problem", "moves"), MOVES)
def test_each_case_is_told_its_simple_way(problem: StagesProblem, moves: list[str]) -> None:
    """Two joined capacitors share, a battery sets a voltage, one charge goes round a loop."""
    energies = {"stored", "delivered", "lost"}
    steps = solved(problem).every_step
    assert [step.kind.value for step in steps if step.kind.value not in energies] == moves


def test_several_loops_are_told_by_island_and_loop_equations() -> None:
    """A bridge of capacitors is solved by one linear system, of islands first and then loops."""
    bridge = staged(
        [
            capacitor("C1", "1 uF", "a", "x"),
            capacitor("C2", "2 uF", "a", "y"),
            capacitor("C3", "3 uF", "x", "y"),
            capacitor("C4", "2 uF", "x", "g"),
            capacitor("C5", "5 uF", "y", "g"),
            battery("V0", "12 V", "p", "g"),
            switch("S", "p", "a"),
        ],
        [CLOSE],
    )
    solution = solved(bridge)
    (equations,) = [step for step in solution.steps if step.kind.value == "equations"]
    assert len(equations.statements) == 5
    assert [statement.about for statement in equations.statements[:2]] == ["x", "y"]


def test_what_a_stage_leaves_alone_keeps_its_name() -> None:
    """A charge that does not change is the same quantity after the stage as before it."""
    solution = solved(TRANSFER)
    assert solution.resolve(Name("charge", "C1@2")) == Name("charge", "C1@1")
    assert solution.history.active == (1, 3)
