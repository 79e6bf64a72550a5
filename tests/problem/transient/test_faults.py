"""What is wrong with files of circuits that charge, told in plain words."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from builder.errors import FaultyFile
from builder.problem import read_problem_text

V = "V0: {emf: 12 V, between: [p, g]}"
R = "R1: {resistance: 2 kohm, between: [p, a]}"
C = "C1: {capacitance: 5 uF, between: [a, g]}"
S = "S1: {switch: open, between: [p, a]}"


def _file(rows: Sequence[str], find: str, change: str = "") -> str:
    branches = "".join(f"    {row}\n" for row in rows)
    changed = f"change: {change}\n" if change else ""
    return f"title: T\ncircuit:\n  branches:\n{branches}{changed}find: {find}\n"


FAULTS = {
    "level-negative-share": (
        _file([V, R, C], "[{time: {C1: 0 %}}]"),
        "7:20: found a share of 0 %; expected a share from above 0 % to below 100 %. "
        "The whole way is never quite done: write less.",
    ),
    "share-100": (
        _file([V, R, C], "[{time: {C1: 100 %}}]"),
        "7:20: found a share of 100 %; expected a share from above 0 % to below 100 %. "
        "The whole way is never quite done: write less.",
    ),
    "time-zero": (
        _file([V, R, C], "[{voltage: {C1: 0 s}}]"),
        "7:23: found the time 0 s; expected a time after the change. Write start for "
        "the first instant.",
    ),
    "time-unit": (
        _file([V, R, C], "[{voltage: {C1: 3 V}}]"),
        '7:23: found "3 V", a voltage; expected start, end or a time such as 20 ms. '
        "Change the unit: V measures voltage.",
    ),
    "time-bare": (
        _file([V, R, C], "[time]"),
        "7:8: found a time without what is reached then; expected a capacitor with a "
        "voltage, such as time: {C1: 9 V}, or a share, such as 90 %. Write the voltage "
        "that is to be reached.",
    ),
    "time-of-R": (
        _file([V, R, C], "[{time: {R1: 3 V}}]"),
        "7:16: found the time of the resistor R1; expected a capacitor: C1. Ask when a "
        "capacitor reaches its voltage.",
    ),
    "time-unit2": (
        _file([V, R, C], "[{time: {C1: 3 s}}]"),
        '7:20: found "3 s", a time; expected a voltage such as 9 V, or a share of the '
        "way from above 0 % to below 100 %. Change the unit: s measures time.",
    ),
    "unknown-q": (
        _file([V, R, C], "[time-constnt]"),
        '7:8: found "time-constnt"; expected voltage, charge, energy, current, power, '
        'time, time-constant or seen-resistance. Did you mean "time-constant"?',
    ),
    "charge-of-R": (
        _file([V, R, C], "[{charge: R1}]"),
        "7:9: found charge of the resistor R1; expected current, voltage or power. Ask "
        "for one of these, or name another element.",
    ),
    "current-of-C": (
        _file([V, R, C], "[{current: C1}]"),
        "7:9: found current of the capacitor C1; expected voltage, charge or energy. "
        "Ask for one of these, or name another element.",
    ),
    "unknown-el": (
        _file([V, R, C], "[{voltage: C2}]"),
        '7:18: found "C2", which is none of the circuit; expected C1 or R1. Name one '
        "of the circuit.",
    ),
    "switch-already": (
        _file([V, R, C, S], "[time-constant]", "{open: S1}"),
        "8:16: found S1, which is open already; expected a switch that is closed at "
        "first. Delete it, or write switch: closed in the row of S1.",
    ),
    "switch-unknown": (
        _file([V, R, C, S], "[time-constant]", "{close: S2}"),
        '8:17: found "S2", which is no switch of the circuit; expected S1. Name a '
        "switch of this circuit.",
    ),
    "no-switch": (
        _file([V, R, C], "[time-constant]", "{close: S2}"),
        '7:17: found "S2", which is no switch of the circuit; expected a switch of the '
        "circuit, which has none. Add a row such as S1: {switch: open, between: [a, "
        "b]}.",
    ),
    "twice": (
        _file([V, R, C, S], "[time-constant]", "{close: [S1, S1]}"),
        '8:22: found "S1" a second time; expected each switch once. Delete one of the two.',
    ),
    "both": (
        _file([V, R, C, S], "[time-constant]", "{close: S1, open: S1}"),
        "8:27: found S1, which is open already; expected a switch that is closed at "
        "first. Delete it, or write switch: closed in the row of S1.",
    ),
    "change-key": (
        _file([V, R, C, S], "[time-constant]", "{shut: S1}"),
        '8:10: found the key "shut"; expected close or open. Delete the key, or check '
        "its spelling.",
    ),
    "change-text": (
        _file([V, R, C, S], "[time-constant]", "S1"),
        '8:9: found "S1"; expected what changes at t = 0, such as {close: S1}. Write '
        "close: or open: with the names of switches.",
    ),
    "change-empty": (
        _file([V, R, C, S], "[time-constant]", "{}"),
        "8:9: found empty braces {}; expected what changes at t = 0, such as {close: "
        "S1}. Write close: or open: with the names of switches.",
    ),
    "no-cap": (
        _file([V, R, S], "[time-constant]", "{close: S1}"),
        "3:3: found a change in a circuit without capacitors; expected at least one "
        "capacitor. Nothing takes time here: delete change, or add a capacitor.",
    ),
    "no-res": (
        _file([V, C, S], "[time-constant]", "{close: S1}"),
        "3:3: found a change in a circuit without resistors; expected at least one "
        "resistor. Without resistance it charges at once. Add the resistor, or write "
        "stages: instead of change:.",
    ),
    "neg-charge": (
        _file([V, R, "C1: {capacitance: 5 uF, charged: -3 V, between: [a, g]}"], "[time-constant]"),
        "6:38: found a capacitor charged to −3 V; expected a voltage or a charge above "
        "zero. The first junction of C1 is the + one: write its junctions the other "
        "way round, without the minus sign.",
    ),
    "zero-charge": (
        _file([V, R, "C1: {capacitance: 5 uF, charged: 0 V, between: [a, g]}"], "[time-constant]"),
        "6:38: found a capacitor charged to 0 V; expected a voltage or a charge above "
        "zero. Delete charged: a capacitor without it starts empty.",
    ),
    "charge-unit": (
        _file([V, R, "C1: {capacitance: 5 uF, charged: 3 s, between: [a, g]}"], "[time-constant]"),
        '6:38: found "3 s", a time; expected a voltage such as 12 V, or a charge such '
        "as 60 uC. Change the unit: s measures time.",
    ),
    "empty-find": (
        _file([V, R, C], "[]"),
        "7:7: found an empty list; expected at least one quantity. Say what is asked "
        "for, such as time-constant.",
    ),
    "map-find": (
        _file([V, R, C], "{voltage: C1}"),
        '7:8: found keys with values (first "voltage"); expected a list of quantities. '
        'Put a dash before each: "- voltage: …".',
    ),
    "too-many-moments": (
        _file(
            [V, R, C],
            f"[{{voltage: {{C1: [{', '.join(f'{n} ms' for n in range(1, 10))}]}}}}, "
            "{time: {C1: [1 V, 2 V, 90 %, 3 V, 4 V, 5 V]}}]",
        ),
        "7:110: found more than 12 times and voltages that are asked about; expected at most 12. "
        "Ask about fewer.",
    ),
    "moment-word": (
        _file([V, R, C], "[{voltage: {C1: begin}}]"),
        '7:23: found "begin"; expected start, end or a time such as 20 ms. Write start '
        "for the first instant, end for long after.",
    ),
}


@pytest.mark.parametrize(("text", "told"), FAULTS.values(), ids=FAULTS)
def test_the_fault_is_told_at_its_place(text: str, told: str) -> None:
    """Where it is, what stands there, what should, and what to do: in one line."""
    with pytest.raises(FaultyFile) as caught:
        read_problem_text(text, "problem.yml")
    assert [str(fault) for fault in caught.value.faults] == [f"problem.yml:{told}"]


def test_what_is_asked_twice_is_one_time() -> None:
    """A voltage or a share that is asked about again, however it is typed, gets no other name."""
    text = _file([V, R, C], "[{time: {C1: [3 V, 90 %, 3000 mV, 90.0 %, 4 V]}}]")
    names = read_problem_text(text, "problem.yml").find
    assert [name.of for name in names] == ["C1>1", "C1>2", "C1>3"]
