"""Wrong rules about charged capacitors: the numbers they lead to, worked by hand."""

from __future__ import annotations

import pytest

from builder.lesson.kinds import KINDS
from builder.lesson.slips import Slip
from builder.lesson.stages.wrong_rules import RULES, slips_of
from tests.lesson.stages.stories import (
    ALIKE,
    BOTH_CHARGED,
    BRIDGE,
    CHAIN,
    CHARGING,
    EVERY,
    LIKE,
    TRANSFER,
    TURNED,
    UNLIKE,
    lesson_of,
)
from tests.lesson.telling import plain
from tests.lesson.test_sentences import Kind, blemishes
from tests.solution.stages.building import solved
from tests.solution.stages.drawing import random_problems

THREE = """\
title: Three
circuit:
  branches:
    C1: {capacitance: 4 uF, charged: 12 V, between: [a, g]}
    C2: {capacitance: 2 uF, charged: 6 V, between: [b, g]}
    C3: {capacitance: 6 uF, charged: 3 V, between: [c, g]}
    S1: {switch: open, between: [a, b]}
    S2: {switch: open, between: [b, c]}
stages:
  - close: [S1, S2]
find: [voltage: all, charge: all, energy: lost]
"""
PAIR = """\
title: A chain of two
circuit:
  branches:
    V0: {emf: 18 V, between: [p, g]}
    C1: {capacitance: 3 uF, between: [a, x]}
    C2: {capacitance: 6 uF, between: [x, g]}
    S1: {switch: open, between: [p, a]}
stages:
  - close: S1
find: [charge: all, voltage: all, charge: V0, energy: V0]
"""
LONG = """\
title: A chain of three
circuit:
  branches:
    V0: {emf: 12 V, between: [p, g]}
    C1: {capacitance: 12 uF, between: [a, x]}
    C2: {capacitance: 6 uF, between: [x, y]}
    C3: {capacitance: 4 uF, between: [y, g]}
    S1: {switch: open, between: [p, a]}
stages:
  - close: S1
find: [charge: all, voltage: all, charge: V0]
"""
LONGER = """\
title: A chain of four
circuit:
  branches:
    V0: {emf: 8 V, between: [p, g]}
    C1: {capacitance: 4 uF, between: [a, x]}
    C2: {capacitance: 4 uF, between: [x, y]}
    C3: {capacitance: 2 uF, between: [y, z]}
    C4: {capacitance: 1 uF, between: [z, g]}
    S1: {switch: open, between: [p, a]}
stages:
  - close: S1
find: [charge: all, voltage: all, charge: V0]
"""
REFILL = TRANSFER.replace(
    "  - close: S2\n", "  - close: S2\n  - open: S2\n  - close: S1\n"
).replace("energy: V0,", "charge: V0, energy: V0,")
HALF_FULL = CHARGING.replace("6 uF", "6 uF, charged: 4 V").replace("[energy", "[charge: V0, energy")
PULLED = CHAIN.replace("charge: all", "charge: V0")

# The right values, for comparison. LIKE: 48 µC over 6 µF, 8 V, 32 and 16 µC; 288 µJ before and 192
# after. BOTH_CHARGED: 48 + 12 = 60 µC, 10 V. UNLIKE: 48 − 18 = 30 µC, 5 V, 20 and 10 µC.
# TURNED: 48 − 24 = 24 µC, 4 V. THREE: 48 + 12 + 18 = 78 µC over 12 µF, 6.5 V. TRANSFER: 12 V on
# C1, then 8 V; the battery delivers 576 µJ. CHAIN: 24 µC at 18 V, 432 µJ. CHARGING: 60 µC at 10 V,
# 600 µJ. PAIR: 2 µF, 36 µC, 12 and 6 V. LONG: 2 µF, 24 µC, 2, 4 and 6 V. LONGER: 0.5 µF, 4 µC,
# 1, 1, 2 and 4 V. BRIDGE: 2 and 4 µF over 4 and 2 µF, joined by 5 µF.
WORKED = [
    ("polarity-ignored", UNLIKE, "charge:island@1", "66.0 µC"),  # 48 + 18
    ("polarity-ignored", UNLIKE, "voltage:C1@1", "11.0 V"),  # 66/6
    ("polarity-ignored", UNLIKE, "charge:C2@1", "−22.0 µC"),  # 2 µF · 11 V on its other plate
    ("polarity-ignored", TURNED, "voltage:C1@2", "12.0 V"),  # (48 + 24)/6
    ("polarity-ignored", LIKE.replace("2 uF", "2 uF, charged: 6 V").replace("[b, g]", "[g, b]"),
     "charge:C1@1", "40.0 µC"),  # 4 µF · (48 + 12)/6
    ("voltages-averaged", LIKE, "voltage:C1@1", "6.00 V"),  # (12 + 0)/2
    ("voltages-averaged", BOTH_CHARGED, "voltage:C1@1", "9.00 V"),  # (12 + 6)/2
    ("voltages-averaged", UNLIKE, "voltage:C1@1", "1.50 V"),  # (12 − 9)/2
    ("voltages-averaged", THREE, "charge:C3@1", "42.0 µC"),  # 6 µF · (12 + 6 + 3)/3
    ("shared-equally", LIKE, "charge:C1@1", "24.0 µC"),  # 48/2
    ("shared-equally", BOTH_CHARGED, "charge:C2@1", "30.0 µC"),  # 60/2
    ("shared-equally", UNLIKE, "charge:C1@1", "15.0 µC"),  # 30/2
    ("shared-equally", THREE, "charge:C3@1", "26.0 µC"),  # 78/3
    ("shared-equally", UNLIKE, "charge:C2@1", "−15.0 µC"),  # the other plate
    ("energy-kept", ALIKE, "voltage:C1@1", "8.49 V"),  # 288 µJ on 8 µF: V² = 2 · 288/8 = 72
    ("energy-kept", BOTH_CHARGED, "voltage:island@1", "10.4 V"),  # 324 µJ on 6 µF: V² = 108
    ("energy-kept", UNLIKE, "voltage:island@1", "11.1 V"),  # 288 + 81 = 369 µJ: V² = 123
    ("energy-kept", LIKE, "energy:lost@1", "0 J"),
    ("as-a-battery", LIKE, "voltage:island@1", "12.0 V"),
    ("as-a-battery", BOTH_CHARGED, "charge:C2@1", "24.0 µC"),  # 2 µF · 12 V
    ("as-a-battery", BOTH_CHARGED, "charge:C2@1", "12.0 µC"),  # 2 µF · 6 V
    ("as-a-battery", TRANSFER, "voltage:island@3", "12.0 V"),
    ("voltages-added", BOTH_CHARGED, "voltage:island@1", "18.0 V"),  # 12 + 6
    ("voltages-added", UNLIKE, "voltage:island@1", "3.00 V"),  # 12 − 9
    ("voltages-added", THREE, "voltage:island@1", "21.0 V"),  # 12 + 6 + 3
    ("added-instead", PAIR, "charge:C1@1", "162 µC"),  # 9 µF · 18 V
    ("added-instead", LONG, "capacitance:chain@1", "22.0 µF"),  # 12 + 6 + 4
    ("added-instead", CHAIN, "charge:C2@1", "108 µC"),  # 9 µF · (18 − 6) V
    ("never-inverted", PAIR, "charge:C1@1", "9.00 µC"),  # 1/3 + 1/6 = 0.5; 0.5 µF · 18 V
    ("never-inverted", LONG, "charge:C2@1", "6.00 µC"),  # 1/12 + 1/6 + 1/4 = 0.5; 0.5 µF · 12 V
    ("never-inverted", LONGER, "capacitance:chain@1", "2.00 µF"),  # 1/4 + 1/4 + 1/2 + 1
    ("equal-voltages", PAIR, "voltage:C1@1", "9.00 V"),  # 18/2
    ("equal-voltages", LONG, "voltage:C3@1", "4.00 V"),  # 12/3
    ("equal-voltages", LONGER, "voltage:C4@1", "2.00 V"),  # 8/4
    ("divided-the-wrong-way", PAIR, "voltage:C1@1", "6.00 V"),  # 18 · 3/9
    ("divided-the-wrong-way", LONG, "voltage:C1@1", "6.55 V"),  # 12 · 12/22
    ("divided-the-wrong-way", LONGER, "voltage:C4@1", "0.727 V"),  # 8 · 1/11
    ("inner-uncharged", LONG, "charge:C2@1", "0 C"),
    ("inner-uncharged", LONGER, "voltage:C3@1", "0 V"),
    ("inner-uncharged", BRIDGE, "charge:C3@1", "0 C"),
    ("chain-charges-added", PAIR, "charge:V0@1", "72.0 µC"),  # 2 · 36
    ("chain-charges-added", PAIR, "energy:V0@1", "1.30 mJ"),  # 72 µC · 18 V = 1.296 mJ
    ("chain-charges-added", LONG, "charge:V0@1", "72.0 µC"),  # 3 · 24
    ("chain-charges-added", LONGER, "charge:V0@1", "16.0 µC"),  # 4 · 4
    ("no-loss-on-charging", CHARGING, "energy:V0@1", "300 µJ"),  # 60 · 10/2
    ("no-loss-on-charging", CHARGING, "energy:lost@1", "0 J"),  # 300 − 300
    ("no-loss-on-charging", TRANSFER, "energy:V0@1", "288 µJ"),  # 48 · 12/2
    ("no-loss-on-charging", CHAIN, "energy:V0@1", "216 µJ"),  # 24 · 18/2
    ("half-dropped", LIKE, "energy:C1@0", "576 µJ"),  # 48 · 12
    ("half-dropped", CHARGING, "energy:C1@1", "600 µJ"),  # 60 · 10
    ("half-dropped", UNLIKE, "energy:C2@1", "50.0 µJ"),  # 10 · 5
    ("half-dropped", LIKE, "energy:lost@1", "192 µJ"),  # 576 − 384
    ("half-always-lost", LIKE, "energy:lost@1", "144 µJ"),  # 288/2
    ("half-always-lost", BOTH_CHARGED, "energy:lost@1", "162 µJ"),  # (288 + 36)/2
    # 288 + 36 + 27 = 351 µJ before.
    ("half-always-lost", THREE, "energy:lost@1", "176 µJ"),
    ("held-forgotten", HALF_FULL, "charge:V0@1", "60.0 µC"),  # not 60 − 24
    ("held-forgotten", HALF_FULL, "energy:V0@1", "600 µJ"),  # 60 µC · 10 V
    ("held-forgotten", PULLED, "charge:V0@1", "42.0 µC"),  # not 42 − 18
    ("held-forgotten", REFILL, "charge:V0@5", "48.0 µC"),  # not 48 − 32
]  # fmt: skip


def slips(text: str) -> tuple[Slip, ...]:
    """What the rules lead to."""
    return slips_of(lesson_of(text).display, RULES)


@pytest.mark.parametrize(("rule", "text", "key", "shown"), WORKED)
def test_a_mistake_leads_to_the_number_worked_by_hand(
    rule: str, text: str, key: str, shown: str
) -> None:
    """Each rule computes what the misconception would give; its working stands beside it."""
    found = {slip.shown.text for slip in slips(text)
             if rule in slip.rules and slip.wrong.name.key == key}  # fmt: skip
    assert shown in found


def test_every_rule_is_worked_in_three_problems() -> None:
    """No rule is without its hand-worked values."""
    problems = {rule.id: {text for id, text, *_ in WORKED if id == rule.id} for rule in RULES}
    assert {id for id, *_ in WORKED} == set(problems)
    assert {id: len(texts) for id, texts in problems.items() if len(texts) < 3} == {}


def _rules_of(text: str) -> set[str]:
    return {id for slip in slips(text) for id in slip.rules}


SILENT = [
    ("shared-equally", ALIKE),
    ("voltages-averaged", ALIKE),
    ("half-always-lost", ALIKE),
    ("polarity-ignored", BOTH_CHARGED),
    ("voltages-added", LIKE),
    ("inner-uncharged", PAIR),
    ("equal-voltages", CHAIN),
    ("held-forgotten", CHARGING),
    ("energy-kept", CHARGING),
]


@pytest.mark.parametrize(("rule", "text"), SILENT)
def test_a_rule_is_silent_where_it_does_not_fit(rule: str, text: str) -> None:
    """Where it gives the right number, or where what it is about does not occur."""
    assert rule not in _rules_of(text)


def test_a_slip_tells_what_was_done_and_why_it_tempts() -> None:
    """The sentence names the number; the reason names what is right."""
    display = lesson_of(UNLIKE).display
    wanted = ("polarity-ignored", "voltage:C1@1")
    (slip,) = [slip for slip in slips(UNLIKE)
               if (slip.rule.id, slip.wrong.name.key) == wanted]  # fmt: skip
    assert plain(slip.sentence, display) == (
        "Adding the charges although unlike plates were joined gives V₁′ = 11.0 V."
    )
    assert "only the difference is left" in plain(slip.tempting, display)
    assert slip.wrong.step == "stage-1-island"


TEXTS = {**EVERY, "three": THREE, "pair": PAIR, "long": LONG, "longer": LONGER,
         "refill": REFILL, "half-full": HALF_FULL}  # fmt: skip


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_what_is_told_of_mistakes_is_well_formed(text: str) -> None:
    """The sentence, the reason and the heading of each slip."""
    display = lesson_of(text).display
    for slip in slips(text):
        for kind, told in ((Kind.SENTENCES, slip.sentence), (Kind.SENTENCES, slip.tempting),
                           (Kind.HEADING, (slip.rule.called,))):  # fmt: skip
            assert not blemishes(plain(told, display), kind), plain(told, display)


@pytest.mark.parametrize("seed", range(3))
def test_whatever_the_circuit_no_mistake_is_right(seed: int) -> None:
    """At the shown digits a slip differs from the right value and from every other slip."""
    for problem in random_problems(12, seed):
        display = KINDS[type(problem)].display(solved(problem))
        seen = set()
        for slip in slips_of(display, RULES):
            name = slip.wrong.name
            assert slip.shown.text != display.shown(name).text
            assert (name, slip.shown.text) not in seen
            assert slip.wrong.step in {step.id for step in display.solution.steps}
            seen.add((name, slip.shown.text))
