"""Superposition, and the equivalent of everything that two points see."""

from __future__ import annotations

import pytest
from sympy import Rational

from builder.errors import FaultyFile
from builder.solution.network.step import NetworkMove
from tests.solution.network.lines import TWO_BATTERIES, lines_of, solved, step_of, value

CURRENT_TOO = """
E1: {emf: 12 V, between: [a, g]}
R1: {resistance: 4 ohm, between: [a, b]}
R2: {resistance: 4 ohm, between: [b, g]}
J1: {current: 2 A, between: [b, g]}
"""
SIDE_BY_SIDE = """
E1: {emf: 6 V, between: [a, g]}
J1: {current: 3 A, between: [a, g]}
R1: {resistance: 2 ohm, between: [a, g]}
R2: {resistance: 2 ohm, between: [a, c]}
R3: {resistance: 2 ohm, between: [c, g]}
"""
STORES = """
E1: {emf: 12 V, between: [a, g]}
C1: {capacitance: 3 uF, between: [a, b]}
C2: {capacitance: 6 uF, between: [b, g]}
C3: {capacitance: 6 uF, between: [b, g]}
"""


def test_each_source_acts_alone_and_then_all_are_added() -> None:
    """The other source of voltage becomes a wire, and the other of current a gap."""
    solution = solved(CURRENT_TOO, "method: superposition")
    alone = [step for step in solution.steps if step.kind is NetworkMove.ALONE]
    assert [step.telling["acting"] for step in alone] == ["E1", "J1"]
    assert [dict(step.joined) for step in alone] == [{}, {"a": ("a", "g")}]
    assert [[s.name for s in step.network.sources] for step in alone] == [["E1"], ["J1"]]
    assert lines_of(step_of(solution, "add"))[:2] == [
        "I(R1) = I(R1@E1) + I(R1@J1)",
        "I(R2) = I(R2@E1) + I(R2@J1)",
    ]
    shares = [value(solution, "current", of) for of in ("R1@E1", "R1@J1", "R2@E1", "R2@J1")]
    assert shares == [Rational(3, 2), -1, Rational(3, 2), 1]
    assert (value(solution, "current", "R1"), value(solution, "current", "R2")) == (
        Rational(1, 2),
        Rational(5, 2),
    )


def test_power_is_found_from_the_whole_current() -> None:
    """Powers of the parts do not add: 2.25 A² and 1 A² of 4 Ω are not 6.25 A² of 4 Ω."""
    solution = solved(CURRENT_TOO, "method: superposition", "['power: R2']")
    assert lines_of(step_of(solution, "power"))[1] == "P(R2) = V(R2)·I(R2)"
    parts = [value(solution, "current", f"R2@{source}") for source in ("E1", "J1")]
    assert value(solution, "power", "R2") == 25
    assert sum(4 * part**2 for part in parts) == 13  # type: ignore[operator]


def test_a_current_that_a_wire_takes_back_drives_nothing() -> None:
    """Side by side with a wire a current source sends nothing through the elements."""
    solution = solved(SIDE_BY_SIDE, "method: superposition", "[current, 'current: E1']")
    step = step_of(solution, "alone-J1")
    assert step.dropped == ("R1", "R2", "R3")
    assert set(lines_of(step)) >= {"I(R1@J1) = 0", "V(R1@J1) = 0"}
    assert lines_of(step_of(solution, "add"))[0] == "I(R1) = I(R1@E1)"
    assert value(solution, "current", "E1") == Rational(3, 2)


def test_a_load_sees_one_source_and_one_resistance() -> None:
    """24 V and 29 V behind 3 Ω and 7 Ω are 25.5 V behind 2.1 Ω, and drive 5 A through 3 Ω."""
    find = "['current: R2', open-voltage, inner-resistance, matching-resistance, greatest-power]"
    solution = solved(TWO_BATTERIES, "method: equivalent-source\nload: R2", find)
    assert lines_of(step_of(solution, "open-voltage")) == ["V(open) = V(E1) − V(R1@open)"]
    assert lines_of(step_of(solution, "inner-resistance")) == ["R(inner) = R(total@inner)"]
    assert lines_of(step_of(solution, "load-R2")) == [
        "I(R2) = V(open)/(R(inner) + R(R2))",
        "V(R2) = R(R2)·I(R2)",
    ]
    greatest = Rational(51, 2) ** 2 / 4 / Rational(21, 10)
    assert [solution.value(name) for name in solution.problem.find] == [
        5, Rational(51, 2), Rational(21, 10), Rational(21, 10), greatest,
    ]  # fmt: skip


def test_two_points_are_enough() -> None:
    """With across there is no load, and the ends are taken in their order."""
    there = solved(TWO_BATTERIES, "method: equivalent-source\nacross: [b, e]", "open-voltage")
    back = solved(TWO_BATTERIES, "method: equivalent-source\nacross: [e, b]", "open-voltage")
    assert value(there, "voltage", "open") == 15
    assert value(back, "voltage", "open") == -15


def test_capacitors_have_an_inner_capacitance() -> None:
    """12 V over 3 µF and 6 µF is 4 V behind 9 µF; a third of 6 µF takes 14.4 µC."""
    solution = solved(STORES, "method: equivalent-source\nload: C3",
                      "['charge: C3', open-voltage, inner-capacitance]")  # fmt: skip
    assert [solution.value(name) for name in solution.problem.find] == [
        Rational(144, 10**7), 4, Rational(9, 10**6),
    ]  # fmt: skip


STIFF = """
E1: {emf: 12 V, between: [a, g]}
R1: {resistance: 3 ohm, between: [a, g]}
R2: {resistance: 6 ohm, between: [a, g]}
"""


@pytest.mark.parametrize(
    ("asked", "told"),
    [("greatest-power", "greatest power"), ("matching-resistance", "matching resistance")],
)
def test_an_ideal_source_has_no_best_load(asked: str, told: str) -> None:
    """Its inner resistance is 0 Ω, and the power that a load may take has no bound."""
    sound = solved(STIFF, "method: equivalent-source\nload: R1", "[inner-resistance, 'power: R1']")
    assert [sound.value(name) for name in sound.problem.find] == [0, 48]
    with pytest.raises(FaultyFile) as caught:
        solved(STIFF, "method: equivalent-source\nload: R1", asked)
    assert str(caught.value) == (
        f"bench.yml:9:1: found a question for the {told}; expected a quantity that has a bound. "
        "Sources alone hold the voltage between the two points, whatever is connected there. Ask "
        "for another quantity, or choose other points."
    )


def test_a_current_that_only_the_load_takes_has_no_open_voltage() -> None:
    """Without the load nothing would take the current back: the method does not fit."""
    rows = """
    J1: {current: 2 A, between: [b, g]}
    R1: {resistance: 4 ohm, between: [b, a]}
    R2: {resistance: 4 ohm, between: [a, g]}
    R3: {resistance: 4 ohm, between: [a, g]}
    """.replace("    ", "")
    with pytest.raises(FaultyFile, match="hangs on current sources alone, or on nothing"):
        solved(rows, "method: equivalent-source\nload: R1")
