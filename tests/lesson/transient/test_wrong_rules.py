"""The wrong numbers that misconceptions about charging lead to, each worked by hand."""

from __future__ import annotations

import pytest

from builder.lesson.transient.display import TransientDisplay
from builder.lesson.transient.wrong_rules import RULES, slips_of
from builder.problem import read_problem_text
from builder.problem.model import TransientProblem
from builder.solution.transient.solve import solve_transient

CHARGING = """\
title: Charging
circuit:
  branches:
    V0: {emf: 12 V, between: [p, g]}
    R1: {resistance: 400 ohm, between: [p, a]}
    C1: {capacitance: 5 mF, between: [a, g]}
find: [{voltage: {C1: 1 s}}, {current: {R1: 1 s}}, {time: {C1: 9 V}}]
"""
DISCHARGING = """\
title: Discharging
circuit:
  branches:
    C1: {capacitance: 50 uF, charged: 300 V, between: [a, g]}
    R1: {resistance: 200 kohm, between: [a, g]}
find: [{voltage: {C1: 20 s}}, {time: {C1: 75 V}}]
"""
DIVIDER = """\
title: Divider
circuit:
  branches:
    V0: {emf: 12 V, between: [p, g]}
    R1: {resistance: 6 kohm, between: [p, m]}
    R2: {resistance: 3 kohm, between: [m, g]}
    R3: {resistance: 1 kohm, between: [m, a]}
    C1: {capacitance: 100 uF, between: [a, g]}
find: [time-constant, {energy: C1}, {charge: C1}, {current: {R1: end}}, {power: {R2: end}}]
"""
UNEVEN = """\
title: Side by side
circuit:
  branches:
    C1: {capacitance: 2 mF, charged: 10 V, between: [a, g]}
    R1: {resistance: 30 ohm, between: [a, g]}
    R2: {resistance: 60 ohm, between: [a, g]}
find: [time-constant, {voltage: {C1: 20 ms}}, {time: {C1: 20 %}}]
"""

WORKED = [
    # 400 Ω · 5 mF = 2 s; half of it is over after 1 s: 12 V / 2.
    ("linear-charging", CHARGING, "voltage:C1@t1", "6.00 V"),
    # Nine twelfths of the way in three quarters of 2 s.
    ("linear-charging", CHARGING, "time:C1>1", "1.50 s"),
    # 200 kΩ · 50 µF = 10 s; from 300 V to 75 V is three quarters of the way: 7.5 s.
    ("linear-charging", DISCHARGING, "time:C1>1", "7.50 s"),
    # 20 Ω · 2 mF = 40 ms; half of it is over after 20 ms: 10 V / 2.
    ("linear-charging", UNEVEN, "voltage:C1@t1", "5.00 V"),
    # Half a half-life: 12 V · (1 − 1/√2) = 3.515 V.
    ("half-life", CHARGING, "voltage:C1@t1", "3.51 V"),
    # A quarter is left after two half-lives of 2 s.
    ("half-life", CHARGING, "time:C1>1", "4.00 s"),
    # Two half-lives of 10 s: 300 V / 4.
    ("half-life", DISCHARGING, "voltage:C1@t1", "75.0 V"),
    # The voltage as the current: 12 V · e^(−1/2) = 7.278 V.
    ("dies-with-the-current", CHARGING, "voltage:C1@t1", "7.28 V"),
    # What is gone of 30 mA: 30 mA · (1 − e^(−1/2)) = 11.80 mA.
    ("gone-for-left", CHARGING, "current:R1@t1", "11.8 mA"),
    # What is gone of 300 V after two time constants: 300 V · (1 − e^(−2)) = 259.4 V.
    ("gone-for-left", DISCHARGING, "voltage:C1@t1", "259 V"),
    # What is gone of 10 V after half a time constant: 10 V · (1 − e^(−1/2)) = 3.935 V.
    ("gone-for-left", UNEVEN, "voltage:C1@t1", "3.93 V"),
    # (6 + 3 + 1) kΩ · 100 µF.
    ("all-resistors", DIVIDER, "time-constant:total", "1.00 s"),
    # All of 6, 3 and 1 kΩ instead of 1 + 2 kΩ.
    ("all-resistors", DIVIDER, "resistance:seen", "10.0 kΩ"),
    # 30 + 60 = 90 Ω, times 2 mF.
    ("all-resistors", UNEVEN, "time-constant:total", "180 ms"),
    # A wire for C1: 3 kΩ beside 1 kΩ are 0.75 kΩ; 12 V over 6.75 kΩ.
    ("wire-for-ever", DIVIDER, "current:R1@end", "1.78 mA"),
    # 1.333 V across 3 kΩ then: 0.5926 mW.
    ("wire-for-ever", DIVIDER, "power:R2@end", "0.593 mW"),
    # R3 is one tenth of all resistance: 4 V · 0.9 = 3.6 V on 100 µF.
    ("share-kept", DIVIDER, "charge:C1@end", "360 µC"),
    # ½ · 100 µF · (3.6 V)².
    ("share-kept", DIVIDER, "energy:C1@end", "648 µJ"),
]


@pytest.mark.parametrize(("rule", "text", "of", "wrong"), WORKED)
def test_a_wrong_rule_leads_to_the_number_worked_by_hand(
    rule: str, text: str, of: str, wrong: str
) -> None:
    """The slip of a quantity by a rule is the number beside it."""
    assert _wrong(text)[rule, of] == wrong


def test_a_resistor_that_is_cut_off_keeps_nothing() -> None:
    """Only resistors on the way to the capacitor are thought to take a share of its voltage."""
    text = UNEVEN.replace("find:", "    S1: {switch: closed, between: [g, h]}\n"
                          "    R3: {resistance: 5 ohm, between: [h, a]}\n"
                          "change: {open: S1}\nfind:")  # fmt: skip
    assert not [rule for rule, _ in _wrong(text) if rule == "share-kept"]


def _wrong(text: str) -> dict[tuple[str, str], str]:
    problem = read_problem_text(text, "problem.yml")
    assert isinstance(problem, TransientProblem)
    slips = slips_of(TransientDisplay(solve_transient(problem)), RULES)
    return {(slip.rule.id, slip.wrong.name.key): slip.shown.text for slip in slips}
