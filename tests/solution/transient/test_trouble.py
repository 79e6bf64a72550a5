"""What only solving shows: circuits that charge at once, never, or not as is asked."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from builder.errors import FaultyFile
from builder.problem import read_problem_text
from builder.solution import solve

V = "V0: {emf: 12 V, between: [p, g]}"
R = "R1: {resistance: 2 kohm, between: [p, a]}"
C = "C1: {capacitance: 5 uF, between: [a, g]}"
S = "S1: {switch: open, between: [p, a]}"


def _file(rows: Sequence[str], find: str, change: str = "") -> str:
    branches = "".join(f"    {row}\n" for row in rows)
    changed = f"change: {change}\n" if change else ""
    return f"title: T\ncircuit:\n  branches:\n{branches}{changed}find: {find}\n"


FAULTS = {
    "never": (
        _file([V, R, C], "[{time: {C1: 13 V}}]"),
        "7:20: found 13 V across C1, which it never reaches; expected a voltage "
        "between 0 V and 12.0 V. It starts at 0 V and goes towards 12.0 V.",
    ),
    "asymptote": (
        _file([V, R, C], "[{time: {C1: 12 V}}]"),
        "7:20: found 12 V across C1, which it comes close to for ever; expected a "
        "voltage between 0 V and 12.0 V. It starts at 0 V and goes towards 12.0 V.",
    ),
    "from-start": (
        _file(
            [
                "R1: {resistance: 2 kohm, between: [a, g]}",
                "C1: {capacitance: 5 uF, charged: 6 V, between: [a, g]}",
            ],
            "[time-constant, {time: {C1: 6 V}}]",
        ),
        "6:35: found 6 V across C1, which it has from the start; expected a voltage "
        "between 6.00 V and 0 V. It starts at 6.00 V and goes towards 0 V.",
    ),
    "at-once": (
        _file(
            [
                V,
                "R1: {resistance: 2 kohm, between: [p, g]}",
                "C1: {capacitance: 5 uF, between: [p, g]}",
            ],
            "[time-constant]",
        ),
        "3:3: found C1 without any resistance in the way of its current; expected a "
        "resistor between it and each battery or closed switch. It would charge or "
        "discharge at once. Put a resistor in its way, or write stages: instead of "
        "change:.",
    ),
    "shorted-cap": (
        _file([V, R, C, "S1: {switch: open, between: [a, g]}"], "[time-constant]", "{close: S1}"),
        "8:1: found C1 without any resistance in the way of its current; expected a "
        "resistor between it and each battery or closed switch. It would charge or "
        "discharge at once. Put a resistor in its way, or write stages: instead of "
        "change:.",
    ),
    "no-way": (
        _file(
            [
                V,
                "R2: {resistance: 1 kohm, between: [p, g]}",
                R,
                "S1: {switch: closed, between: [a, b]}",
                "C1: {capacitance: 5 uF, between: [b, g]}",
            ],
            "[time-constant]",
            "{open: S1}",
        ),
        "9:1: found C1 without a closed way for its current after the change; expected "
        "a way through resistors from one plate to the other. Nothing charges or "
        "discharges it. Close a switch, or check the junctions.",
    ),
    "several": (
        _file(
            [
                V,
                R,
                C,
                "R2: {resistance: 1 kohm, between: [a, b]}",
                "C2: {capacitance: 5 uF, between: [b, g]}",
            ],
            "[time-constant]",
        ),
        "3:3: found the time constant of C1 and C2, which do not merge into one; "
        "expected only what holds at the start and at the end. Several capacitors that "
        "charge on their own have no single time constant. Ask for start and end, or "
        "join them in series or in parallel.",
    ),
    "several-at": (
        _file(
            [
                V,
                R,
                C,
                "R2: {resistance: 1 kohm, between: [a, b]}",
                "C2: {capacitance: 5 uF, between: [b, g]}",
            ],
            "[{voltage: {C1: 3 ms}}]",
        ),
        "3:3: found the voltage at a time of C1 and C2, which do not merge into one; "
        "expected only what holds at the start and at the end. Several capacitors that "
        "charge on their own have no single time constant. Ask for start and end, or "
        "join them in series or in parallel.",
    ),
    "several-time": (
        _file(
            [
                V,
                R,
                C,
                "R2: {resistance: 1 kohm, between: [a, b]}",
                "C2: {capacitance: 5 uF, between: [b, g]}",
            ],
            "[{time: {C1: 3 V}}]",
        ),
        "9:20: found a time of C1 and C2, which do not merge into one; expected only "
        "what holds at the start and at the end. Several capacitors that charge on "
        "their own have no single time constant. Ask for start and end, or join them "
        "in series or in parallel.",
    ),
    "source-shorted": (
        _file([V, R, C, "S1: {switch: open, between: [p, g]}"], "[time-constant]", "{close: S1}"),
        "8:1: found V0, whose two ends are joined by S1 after the change; expected a "
        "source with a resistor in every way round it. Move the switch, or put a "
        "resistor beside it.",
    ),
    "source-shorted-before": (
        _file([V, R, C, "S1: {switch: closed, between: [p, g]}"], "[time-constant]", "{open: S1}"),
        "8:1: found V0, whose two ends are joined by S1 before the change; expected a "
        "source with a resistor in every way round it. Move the switch, or put a "
        "resistor beside it.",
    ),
    "still": (
        _file(
            [
                V,
                R,
                C,
                "S1: {switch: open, between: [p, b]}",
                "R2: {resistance: 1 kohm, between: [b, a]}",
            ],
            "[time-constant]",
            "{close: S1}",
        ),
        "9:1: found a circuit in which nothing changes: C1 starts and ends at 12.0 V; "
        "expected a battery, a charge or a switch that makes a difference. Give the "
        "capacitor a charge, or let the switch lead to other resistors.",
    ),
    "still-empty": (
        _file(["R1: {resistance: 2 kohm, between: [a, g]}", C], "[time-constant]"),
        "3:3: found a circuit in which nothing changes: C1 starts and ends at 0 V; "
        "expected a battery, a charge or a switch that makes a difference. Give the "
        "capacitor a charge, or let the switch lead to other resistors.",
    ),
    "charged-several": (
        _file(
            [
                V,
                R,
                "C1: {capacitance: 5 uF, charged: 6 V, between: [a, g]}",
                "C2: {capacitance: 5 uF, between: [a, g]}",
            ],
            "[time-constant]",
        ),
        "3:3: found C1, which starts charged and is joined to C2 by wire alone; "
        "expected no charge at first in capacitors that merge into one. They would "
        "share their charge at once: let stages: find what each holds, and start from "
        "one capacitor here.",
    ),
    "joined-anew": (
        _file(
            [
                V,
                R,
                C,
                "C2: {capacitance: 5 uF, between: [b, g]}",
                "S1: {switch: open, between: [a, b]}",
            ],
            "[time-constant]",
            "{close: S1}",
        ),
        "9:1: found C1 and C2, which hold charge and are joined anew; expected "
        "capacitors that are joined before the change as they are after it. They would "
        "share their charge at once: let stages: find what each holds.",
    ),
    "two-batteries": (
        _file([V, "V1: {emf: 9 V, between: [p, g]}", R, C], "[time-constant]"),
        "3:3: found V0 and V1 without a single answer for what flows after the change; "
        "expected a resistor between any two batteries, and a closed way for each "
        "current source. Check which junctions the sources share.",
    ),
    "current-open": (
        _file(
            [
                "I0: {current: 1 A, between: [p, g]}",
                S,
                "R1: {resistance: 5 ohm, between: [a, b]}",
                "C1: {capacitance: 5 uF, between: [b, g]}",
                "R2: {resistance: 5 ohm, between: [b, g]}",
            ],
            "[time-constant]",
            "{close: S1}",
        ),
        "9:1: found I0 without a single answer for what flows before the change; "
        "expected a resistor between any two batteries, and a closed way for each "
        "current source. Check which junctions the sources share.",
    ),
    "current-fed": (
        _file(
            ["I0: {current: 1 A, between: [p, g]}", "R1: {resistance: 5 ohm, between: [p, a]}", C],
            "[time-constant]",
        ),
        "3:3: found C1 without a closed way for its current after the change; expected "
        "a way through resistors from one plate to the other. Nothing charges or "
        "discharges it. Close a switch, or check the junctions.",
    ),
    "undecided": (
        _file(
            [
                V,
                R,
                C,
                "C2: {capacitance: 5 uF, between: [a, b]}",
                "C3: {capacitance: 5 uF, between: [b, g]}",
                "R2: {resistance: 1 kohm, between: [b, c]}",
                "R3: {resistance: 1 kohm, between: [c, d]}",
                "C4: {capacitance: 5 uF, between: [c, g]}",
            ],
            "[{voltage: C1}]",
        ),
        "3:3: found C2 without a closed way for its current after the change; expected "
        "a way through resistors from one plate to the other. Nothing charges or "
        "discharges it. Close a switch, or check the junctions.",
    ),
}


@pytest.mark.parametrize(("text", "told"), FAULTS.values(), ids=FAULTS)
def test_what_cannot_be_followed_is_told_at_its_place(text: str, told: str) -> None:
    """The file reads well; solving says where the fault is, and what to do, in one line."""
    problem = read_problem_text(text, "problem.yml")
    with pytest.raises(FaultyFile) as caught:
        solve(problem)
    assert [str(fault) for fault in caught.value.faults] == [f"problem.yml:{told}"]
