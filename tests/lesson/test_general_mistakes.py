"""Slips that can happen in any calculation: the numbers they lead to, worked by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from builder.circuit.law import Law
from builder.lesson import write_lesson
from builder.lesson.display import Display
from builder.lesson.general_mistakes import GENERAL_RULES
from builder.lesson.kinds import display_of
from builder.lesson.lesson import Lesson
from builder.lesson.slips import Slip, slips_of
from builder.problem import read_problem_text
from builder.problem.model import NestProblem
from builder.solution import solve
from tests.lesson.stages.stories import LIKE, UNLIKE
from tests.lesson.telling import plain, taught_problems
from tests.lesson.test_sentences import Kind, blemishes
from tests.lesson.transient.test_words import everything_of
from tests.solution.network.drawn import tables
from tests.solution.network.test_random_networks import problem_of
from tests.solution.stages.building import solved
from tests.solution.stages.drawing import random_problems

HEAD = "title: Any\ncircuit:\n  "
PAIR = (
    HEAD
    + """\
source: 10 V
  series: [R1: 3 ohm, R2: 4 ohm]
find: [current: total, voltage: all, power: all]
"""
)
"""7 Ω, 1.42857 A, 4.2857 V and 5.7143 V, 6.1224 W and 8.1633 W."""
BANK = (
    HEAD
    + """\
source: 12 V
  parallel: [C1: 2 uF, C2: 3 uF]
find: [equivalent, charge: all, energy: total]
"""
)
"""5 µF; 24 µC and 36 µC; ½ · 60 µC · 12 V = 360 µJ."""
CHAIN = (
    HEAD
    + """\
source: 7 V
  series: [C1: 2 uF, C2: 5 uF]
find: [charge: total, voltage: all, energy: C1]
"""
)
"""10/7 µF, so 10 µC; 5 V and 2 V; 25 µJ."""
CHARGING = """\
title: Charging
circuit:
  branches:
    V0: {emf: 12 V, between: [p, g]}
    R1: {resistance: 3 kohm, between: [p, a]}
    R2: {resistance: 6 kohm, between: [a, g]}
    C1: {capacitance: 50 uF, between: [a, g]}
find: [time-constant, {voltage: {C1: end}}, {current: {R1: start}}]
"""
"""2 kΩ · 50 µF = 100 ms; 8 V; 12 V over 3 kΩ = 4 mA."""
ENERGY = """\
title: A store
quantities:
  C: 7 uF
  V: 3 V
  Q: {kind: charge}
  U: {kind: energy}
relations: ["Q = C*V", "U = 1/2*Q*V"]
find: [Q, U]
"""
"""21 µC and 31.5 µJ."""
OPPOSED = (
    HEAD
    + """\
branches:
    E1: {emf: 12 V, between: [a, g]}
    E2: {emf: 6 V, between: [b, g]}
    R1: {resistance: 4 ohm, between: [a, c]}
    R2: {resistance: 6 ohm, between: [c, b]}
    R3: {resistance: 1 ohm, between: [c, g]}
find: [current: all]
"""
)
"""(12/4 + 6/6) / (1/4 + 1/6 + 1) = 48/17 V at c: 2.294 A, −0.529 A and 2.824 A."""

WORKED = [
    # A thousand times 24 µC, and a thousandth of 360 µJ.
    ("prefix-slipped", BANK, "charge:C1", "24.0 mC"),
    ("prefix-slipped", BANK, "energy:total", "0.360 µJ"),
    # 2 mF beside 3 µF, and 2 nF beside 3 µF.
    ("prefix-slipped", BANK, "capacitance:total", "2.00 mF"),
    ("prefix-slipped", BANK, "capacitance:total", "3.00 µF"),
    # 3 Ω beside 6 kΩ are 2.9985 Ω, times 50 µF.
    ("prefix-slipped", CHARGING, "time-constant:total", "0.150 ms"),
    # 6 Ω take 12 V · 6/3006 behind 3 kΩ.
    ("prefix-slipped", CHARGING, "voltage:C1@end", "0.0240 V"),
    ("prefix-slipped", LIKE, "charge:C1@1", "32.0 mC"),
    # 4 mF keep nearly all of their 48 mC when 2 µF are joined: 4 mF · 12 V · 4000/4002.
    ("prefix-slipped", LIKE, "charge:C1@1", "48.0 mC"),
    ("prefix-slipped", ENERGY, "energy:U", "31.5 mJ"),
    # 3 mV squared instead of 3 V squared: a millionth.
    ("prefix-slipped", ENERGY, "energy:U", "31.5 pJ"),
    # The other one's share.
    ("values-swapped", PAIR, "voltage:R1", "5.71 V"),
    ("values-swapped", PAIR, "power:R2", "6.12 W"),
    ("values-swapped", BANK, "charge:C2", "24.0 µC"),
    ("values-swapped", CHAIN, "voltage:C1", "2.00 V"),
    # 4 V across 10 µC: ½ · 10 µC · 2 V.
    ("values-swapped", CHAIN, "energy:C1", "10.0 µJ"),
    # 12 V · 3/9 across the lower one, and 12 V over 6 kΩ.
    ("values-swapped", CHARGING, "voltage:C1@end", "4.00 V"),
    ("values-swapped", CHARGING, "current:R1@start", "2.00 mA"),
    # 1.4 A through 3 Ω and 4 Ω; then 1.4 A · 4.2 V.
    ("rounded-early", PAIR, "voltage:R1", "4.20 V"),
    ("rounded-early", PAIR, "voltage:R2", "5.60 V"),
    ("rounded-early", PAIR, "power:R1", "5.88 W"),
    # 1.4 µF · 7 V, and that over 2 µF; 9.8 µC · 4.9 V / 2.
    ("rounded-early", CHAIN, "charge:total", "9.80 µC"),
    ("rounded-early", CHAIN, "voltage:C1", "4.90 V"),
    ("rounded-early", CHAIN, "energy:C1", "24.0 µJ"),
    # What runs against the arrow, and what runs along it.
    ("sign-turned", OPPOSED, "current:R1", "−2.29 A"),
    ("sign-turned", CHARGING, "voltage:C1@end", "−8.00 V"),
    ("sign-turned", OPPOSED, "current:R2", "529 mA"),
    ("sign-turned", UNLIKE, "voltage:C2@1", "5.00 V"),
    ("sign-turned", UNLIKE, "charge:C2@1", "10.0 µC"),
]


def lesson_of(text: str) -> Lesson:
    """The lesson of a problem's file."""
    return write_lesson(solve(read_problem_text(text, "any.yml")))


def general_slips(text: str) -> tuple[Slip, ...]:
    """The general slips alone."""
    return slips_of(lesson_of(text).display, GENERAL_RULES)


@pytest.mark.parametrize(("rule", "text", "key", "shown"), WORKED)
def test_a_slip_leads_to_the_number_worked_by_hand(
    rule: str, text: str, key: str, shown: str
) -> None:
    """Each rule leads to the wrong number whose working stands above it."""
    found = {slip.shown.text for slip in general_slips(text)
             if rule in slip.rules and slip.wrong.name.key == key}  # fmt: skip
    assert shown in found


def test_every_rule_is_worked_three_times() -> None:
    """No rule is without its hand-worked values."""
    worked = [rule for rule, *_ in WORKED]
    assert {rule.id for rule in GENERAL_RULES} == set(worked)
    assert all(worked.count(rule.id) >= 3 for rule in GENERAL_RULES)


@pytest.mark.parametrize("text", [PAIR, BANK, CHAIN, CHARGING, ENERGY, OPPOSED, LIKE, UNLIKE])
def test_what_slips_tell_is_well_formed(text: str) -> None:
    """The sentence, the reason and the heading of each."""
    display = lesson_of(text).display
    for slip in general_slips(text):
        sentence, reason = plain(slip.sentence, display), plain(slip.tempting, display)
        assert not blemishes(sentence, Kind.SENTENCES), sentence
        assert not blemishes(reason, Kind.SENTENCES), reason
        assert not blemishes(slip.rule.called, Kind.HEADING)


def test_slips_are_told_of_what_was_put_in() -> None:
    """Which two values, and where to look: the step in which they meet."""
    display = lesson_of(CHAIN).display
    found = {slip.wrong.name.key: slip for slip in general_slips(CHAIN)
             if slip.rule.id == "values-swapped"}  # fmt: skip
    slip = found["voltage:C1"]
    told = plain(slip.sentence, display)
    assert told == "Swapping the values of C₁ and C₂ gives V₁ = 2.00 V."
    assert slip.wrong.step == "merge-total"


def test_letters_have_no_prefix_and_are_not_rounded() -> None:
    """Where values are letters, only their places can be mixed up."""
    letters = PAIR.replace("10 V", "V").replace("3 ohm", "R").replace("4 ohm", "3*R")
    assert {slip.rule.id for slip in general_slips(letters)} == {"values-swapped"}


def test_whole_numbers_survive_rounding() -> None:
    """Where every result on the way has two digits, nothing is lost by keeping two."""
    text = PAIR.replace("10 V", "14 V")
    assert not [slip for slip in general_slips(text) if slip.rule.id == "rounded-early"]


def look_over(display: Display) -> None:
    """No slip is right, none is told twice, each has a step, and each is well told."""
    right, seen = display.solution.values, set()
    steps = {step.id for step in display.solution.steps}
    for slip in slips_of(display, GENERAL_RULES):
        name = slip.wrong.name
        assert slip.shown.text != display.shown(name).text
        assert (name, slip.shown.text) not in seen
        seen.add((name, slip.shown.text))
        assert slip.wrong.step in steps
        assert slip.wrong.value != right[name]
        sentence, reason = plain(slip.sentence, display), plain(slip.tempting, display)
        assert not blemishes(sentence, Kind.SENTENCES), sentence
        assert not blemishes(reason, Kind.SENTENCES), reason


@given(problem=taught_problems(most=6))
@settings(max_examples=40)
def test_in_any_nest_a_slip_is_wrong_and_well_told(problem: NestProblem) -> None:
    """Whatever the circuit, its source and what is asked."""
    look_over(display_of(solve(problem)))


@given(table=tables())
@settings(max_examples=10, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_in_any_network_a_slip_is_wrong_and_well_told(table: tuple[Law, str]) -> None:
    """Whatever the circuit, with everything asked."""
    look_over(display_of(solve(replace(problem_of(*table), method="loops"))))


@pytest.mark.parametrize("seed", range(3))
def test_in_any_stages_a_slip_is_wrong_and_well_told(seed: int) -> None:
    """Whatever the circuit and what is switched."""
    for problem in random_problems(8, seed):
        look_over(display_of(solved(problem)))


@pytest.mark.parametrize("seed", range(60, 64))
def test_whatever_charges_a_slip_is_wrong_and_well_told(seed: int) -> None:
    """Whatever the circuit, with everything asked."""
    look_over(display_of(solve(everything_of(seed))))
