"""The wrong numbers that misconceptions about charging lead to, each worked by hand."""

from __future__ import annotations

import pytest

from builder.lesson.slips import Slip
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.transient.wrong_rules import RULES, slips_of
from builder.problem import read_problem_text
from builder.problem.model import TransientProblem
from builder.solution.transient.solve import solve_transient
from tests.lesson.telling import plain
from tests.lesson.test_sentences import Kind, blemishes
from tests.lesson.transient.test_words import everything_of

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

RECHARGE = """\
title: Not empty
circuit:
  branches:
    V0: {emf: 10 V, between: [p, g]}
    R1: {resistance: 1 kohm, between: [p, a]}
    C1: {capacitance: 1 mF, charged: 4 V, between: [a, g]}
find: [{voltage: {C1: 1 s}}, {time: {C1: 7 V}}, {current: {R1: start}}]
"""
HALF_FULL = RECHARGE.replace("10 V", "6 V").replace("4 V", "2 V").replace("7 V", "3 V")
FORK = """\
title: A fork
circuit:
  branches:
    V0: {emf: 6 V, between: [p, g]}
    R1: {resistance: 10 ohm, between: [p, a]}
    R2: {resistance: 15 ohm, between: [a, g]}
    C1: {capacitance: 1 mF, between: [a, g]}
find: [time-constant, {voltage: {C1: end}}, {current: {R1: start}}, {current: {R1: end}}]
"""
HELD = FORK.replace("1 mF", "1 mF, charged: 1.2 V")
BRANCHY = """\
title: A branch
circuit:
  branches:
    V0: {emf: 10 V, between: [p, g]}
    R1: {resistance: 2 ohm, between: [p, m]}
    R2: {resistance: 3 ohm, between: [m, g]}
    R3: {resistance: 6 ohm, between: [m, a]}
    C1: {capacitance: 1 mF, between: [a, g]}
find: [{voltage: {C1: end}}, {current: {R1: start}}, {current: {R1: end}}]
"""
SLOW = DIVIDER.replace("1 kohm", "9 kohm")
CHAIN = """\
title: A chain of two
circuit:
  branches:
    V0: {emf: 9 V, between: [p, g]}
    R1: {resistance: 1 kohm, between: [p, a]}
    C1: {capacitance: 6 mF, between: [a, x]}
    C2: {capacitance: 3 mF, between: [x, g]}
find: [time-constant, {voltage: {C1: 2 s}}]
"""
SIDE_BY_SIDE = CHAIN.replace("between: [a, x]", "between: [a, g]").replace("[x, g]", "[a, g]")
STORED = CHARGING.replace("find: [", "find: [{energy: {C1: end}}, ")
FULL = DISCHARGING.replace("find: [", "find: [{energy: {C1: start}}, ")
TIMED = DIVIDER.replace("find: [", "find: [{voltage: {C1: 0.3 s}}, ")

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
    # 10 V · 2^(−1/2).
    ("half-life", UNEVEN, "voltage:C1@t1", "7.07 V"),
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
    # 10 + 15 = 25 Ω, times 1 mF.
    ("all-resistors", FORK, "time-constant:total", "25.0 ms"),
    # 4 V and 3 V at the end, by e^(−1): what the current is by then.
    ("dies-with-the-current", TIMED, "voltage:C1@t1", "1.47 V"),
    ("dies-with-the-current", CHAIN, "voltage:C1@t1", "1.10 V"),
    # 40 ms · ln(1/0.2) until a fifth is left.
    ("gone-for-left", UNEVEN, "time:C1>1", "64.4 ms"),
    # A wire for C1: 3 kΩ beside 1 kΩ are 0.75 kΩ; 12 V over 6.75 kΩ.
    ("wire-for-ever", DIVIDER, "current:R1@end", "1.78 mA"),
    # 1.333 V across 3 kΩ then: 0.5926 mW.
    ("wire-for-ever", DIVIDER, "power:R2@end", "0.593 mW"),
    # 6 V over 10 Ω alone; 10 V over 2 + 3·6/9 = 4 Ω.
    ("wire-for-ever", FORK, "current:R1@end", "600 mA"),
    ("wire-for-ever", BRANCHY, "current:R1@end", "2.50 A"),
    # R3 is one tenth of all resistance: 4 V · 0.9 = 3.6 V on 100 µF.
    ("share-kept", DIVIDER, "charge:C1@end", "360 µC"),
    # ½ · 100 µF · (3.6 V)².
    ("share-kept", DIVIDER, "energy:C1@end", "648 µJ"),
    # 9 of 18 kΩ: 2 V on 100 µF; 6 of 11 Ω: 6 V · 5/11.
    ("share-kept", SLOW, "charge:C1@end", "200 µC"),
    ("share-kept", BRANCHY, "voltage:C1@end", "2.73 V"),
    # What flows long after, at once: 6 V over 25 Ω, 10 V over 5 Ω, nothing.
    ("gap-at-once", FORK, "current:R1@start", "240 mA"),
    ("gap-at-once", BRANCHY, "current:R1@start", "2.00 A"),
    ("gap-at-once", RECHARGE, "current:R1@start", "0 A"),
    # All of the battery: 6 V, 10 V, and 100 µF · 12 V.
    ("whole-voltage", FORK, "voltage:C1@end", "6.00 V"),
    ("whole-voltage", BRANCHY, "voltage:C1@end", "10.0 V"),
    ("whole-voltage", DIVIDER, "charge:C1@end", "1.20 mC"),
    ("no-current-no-voltage", FORK, "voltage:C1@end", "0 V"),
    ("no-current-no-voltage", BRANCHY, "voltage:C1@end", "0 V"),
    ("no-current-no-voltage", DIVIDER, "energy:C1@end", "0 J"),
    # From 0 V: 10 V · (1 − e^(−1)), 1 s · ln(10/3), 10 V over 1 kΩ.
    ("start-forgotten", RECHARGE, "voltage:C1@t1", "6.32 V"),
    ("start-forgotten", RECHARGE, "time:C1>1", "1.20 s"),
    ("start-forgotten", RECHARGE, "current:R1@start", "10.0 mA"),
    # 6 V · (1 − e^(−1)), and ln(6/3); 6 V over 10 Ω.
    ("start-forgotten", HALF_FULL, "voltage:C1@t1", "3.79 V"),
    ("start-forgotten", HALF_FULL, "time:C1>1", "693 ms"),
    ("start-forgotten", HELD, "current:R1@start", "600 mA"),
    # 100 µF · (4 V)², 50 µF · (300 V)², 5 mF · (12 V)².
    ("half-dropped", DIVIDER, "energy:C1@end", "1.60 mJ"),
    ("half-dropped", FULL, "energy:C1@start", "4.50 J"),
    ("half-dropped", STORED, "energy:C1@end", "720 mJ"),
    # 6 + 3 + 1 = 10 kΩ, times 100 µF; 6 + 3 = 9 mF; 30 + 60 = 90 Ω.
    ("added-instead", DIVIDER, "time-constant:total", "1.00 s"),
    ("added-instead", CHAIN, "time-constant:total", "9.00 s"),
    ("added-instead", UNEVEN, "time-constant:total", "180 ms"),
    # 6 · 3/9 = 2 mF; 1 · 2/3 kΩ, times 100 µF; 10 · 15/25 = 6 Ω on 6 V.
    ("reciprocals-instead", SIDE_BY_SIDE, "time-constant:total", "2.00 s"),
    ("reciprocals-instead", DIVIDER, "time-constant:total", "66.7 ms"),
    ("reciprocals-instead", FORK, "current:R1@end", "1.00 A"),
    # 1/6 + 1/3 = 0.5 mF; 0.5 kΩ and 1 kΩ, times 100 µF; 1/30 + 1/60 = 0.05 Ω, times 2 mF.
    ("never-inverted", CHAIN, "time-constant:total", "0.500 s"),
    ("never-inverted", DIVIDER, "time-constant:total", "150 ms"),
    ("never-inverted", UNEVEN, "time-constant:total", "0.100 ms"),
]


@pytest.mark.parametrize(("rule", "text", "of", "wrong"), WORKED)
def test_a_wrong_rule_leads_to_the_number_worked_by_hand(
    rule: str, text: str, of: str, wrong: str
) -> None:
    """The slip of a quantity by a rule is the number beside it."""
    assert wrong in {slip.shown.text for slip in _slips(text)
                     if rule in slip.rules and slip.wrong.name.key == of}  # fmt: skip


def test_every_rule_is_worked_in_three_problems() -> None:
    """No rule is without its hand-worked values."""
    problems = {rule.id: {text for id, text, *_ in WORKED if id == rule.id} for rule in RULES}
    assert {id for id, *_ in WORKED} == set(problems)
    assert {id: len(texts) for id, texts in problems.items() if len(texts) < 3} == {}


SILENT = [
    ("whole-voltage", CHARGING),
    ("whole-voltage", DISCHARGING),
    ("no-current-no-voltage", DISCHARGING),
    ("start-forgotten", CHARGING),
    ("start-forgotten", DISCHARGING),
    ("share-kept", FORK),
    ("all-resistors", CHARGING),
    ("half-dropped", FORK),
]


@pytest.mark.parametrize(("rule", "text"), SILENT)
def test_a_rule_is_silent_where_it_does_not_fit(rule: str, text: str) -> None:
    """Where it gives the right number, or where what it is about does not occur."""
    assert rule not in {id for slip in _slips(text) for id in slip.rules}


TEXTS = (CHARGING, DISCHARGING, DIVIDER, UNEVEN, RECHARGE, FORK, HELD, BRANCHY, CHAIN,
         SIDE_BY_SIDE, STORED, TIMED)  # fmt: skip


@pytest.mark.parametrize("text", TEXTS)
def test_what_is_told_of_mistakes_is_well_formed(text: str) -> None:
    """The sentence, the reason and the heading of each slip."""
    display = _display(text)
    for slip in slips_of(display, RULES):
        for kind, told in ((Kind.SENTENCES, slip.sentence), (Kind.SENTENCES, slip.tempting),
                           (Kind.HEADING, (slip.rule.called,))):  # fmt: skip
            assert not blemishes(plain(told, display), kind), plain(told, display)


@pytest.mark.parametrize("seed", range(40, 60))
def test_whatever_the_circuit_no_mistake_is_right(seed: int) -> None:
    """At the shown digits a slip differs from the right value and from every other slip."""
    problem = everything_of(seed)
    display = TransientDisplay(solve_transient(problem))
    seen = set()
    for slip in slips_of(display, RULES):
        name = slip.wrong.name
        assert slip.shown.text != display.shown(name).text
        assert (name, slip.shown.text) not in seen
        assert slip.wrong.step in {step.id for step in display.solution.steps}
        seen.add((name, slip.shown.text))


def test_a_resistor_that_is_cut_off_keeps_nothing() -> None:
    """Only resistors on the way to the capacitor are thought to take a share of its voltage."""
    text = UNEVEN.replace("find:", "    S1: {switch: closed, between: [g, h]}\n"
                          "    R3: {resistance: 5 ohm, between: [h, a]}\n"
                          "change: {open: S1}\nfind:")  # fmt: skip
    assert not [slip for slip in _slips(text) if "share-kept" in slip.rules]


def _slips(text: str) -> tuple[Slip, ...]:
    return slips_of(_display(text), RULES)


def _display(text: str) -> TransientDisplay:
    problem = read_problem_text(text, "problem.yml")
    assert isinstance(problem, TransientProblem)
    return TransientDisplay(solve_transient(problem))
