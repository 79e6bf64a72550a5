"""Wrong rules about charged capacitors: the numbers they lead to, worked by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.wrong_rules import RULES, slips_of
from builder.quantity.exact import as_fraction
from tests.lesson.stages.stories import (
    ALIKE,
    BOTH_CHARGED,
    CHAIN,
    CHARGING,
    LIKE,
    TRANSFER,
    TURNED,
    UNLIKE,
    lesson_of,
)
from tests.lesson.telling import plain

MICRO = Fraction(1, 10**6)

# The right values, for comparison. LIKE: 48 µC over 6 µF, 8 V, 32 and 16 µC, 288 µJ before.
# BOTH_CHARGED: 48 + 12 = 60 µC, 10 V. UNLIKE: 48 − 18 = 30 µC, 5 V, 20 and 10 µC.
# TURNED: 48 − 24 = 24 µC, 4 V. TRANSFER: 12 V on C1, then 8 V; the battery delivers 576 µJ.
# CHAIN: 24 µC at 18 V, 432 µJ. CHARGING: 60 µC at 10 V, 600 µJ.
WORKED = [
    ("polarity-ignored", UNLIKE, "voltage:island@1", Fraction(48 + 18, 6)),
    ("polarity-ignored", UNLIKE, "charge:island@1", (48 + 18) * MICRO),
    ("polarity-ignored", TURNED, "voltage:island@2", Fraction(48 + 24, 6)),
    ("voltages-averaged", LIKE, "voltage:C1@1", Fraction(12 + 0, 2)),
    ("voltages-averaged", BOTH_CHARGED, "voltage:C1@1", Fraction(12 + 6, 2)),
    ("voltages-averaged", UNLIKE, "voltage:C1@1", Fraction(12 - 9, 2)),
    ("shared-equally", LIKE, "charge:C1@1", Fraction(48, 2) * MICRO),
    ("shared-equally", BOTH_CHARGED, "charge:C2@1", Fraction(60, 2) * MICRO),
    ("shared-equally", UNLIKE, "charge:C1@1", Fraction(30, 2) * MICRO),
    # All 288 µJ kept on 4 µF + 4 µF: V² = 2 · 288 / 8 = 72.
    ("energy-kept", ALIKE, "voltage:C1@1", Fraction(8485281374238, 10**12)),
    # ½ · 4 · 144 + ½ · 2 · 36 = 324 µJ on 6 µF: V² = 108.
    ("energy-kept", BOTH_CHARGED, "voltage:island@1", Fraction(10392304845413, 10**12)),
    # 288 + 81 = 369 µJ on 6 µF: V² = 123.
    ("energy-kept", UNLIKE, "voltage:island@1", Fraction(11090536506409, 10**12)),
    ("as-a-battery", LIKE, "voltage:island@1", Fraction(12)),
    ("as-a-battery", BOTH_CHARGED, "voltage:island@1", Fraction(12)),
    ("as-a-battery", TRANSFER, "voltage:island@3", Fraction(12)),
    ("no-loss-on-charging", CHARGING, "energy:V0@1", Fraction(60 * 10, 2) * MICRO),
    ("no-loss-on-charging", TRANSFER, "energy:V0@1", Fraction(48 * 12, 2) * MICRO),
    ("no-loss-on-charging", CHAIN, "energy:V0@1", Fraction(24 * 18, 2) * MICRO),
    ("half-dropped", LIKE, "energy:C1@0", 48 * 12 * MICRO),
    ("half-dropped", CHARGING, "energy:C1@1", 60 * 10 * MICRO),
    ("half-dropped", UNLIKE, "energy:C2@1", 10 * 5 * MICRO),
]


@pytest.mark.parametrize(("rule", "text", "key", "value"), WORKED)
def test_a_mistake_leads_to_the_number_worked_by_hand(
    rule: str, text: str, key: str, value: Fraction
) -> None:
    """Each rule computes what the misconception would give."""
    display = lesson_of(text).display
    assert isinstance(display, StagesDisplay)
    found = [wrong.value for one in RULES if one.id == rule for wrong in one.find(display)
             if wrong.name.key == key]  # fmt: skip
    assert [as_fraction(one) for one in found] == [value]


def test_every_rule_is_worked_three_times() -> None:
    """No rule is without its hand-worked values."""
    worked = [rule for rule, *_ in WORKED]
    assert {rule.id for rule in RULES} == set(worked)
    assert all(worked.count(rule.id) >= 3 for rule in RULES)


def test_a_mistake_that_gives_the_right_number_is_not_told() -> None:
    """Two equal capacitors do share equally, and their voltages do average."""
    slips = slips_of(lesson_of(ALIKE).display, RULES)
    silent = {"shared-equally", "voltages-averaged"}
    assert not silent & {slip.rule.id for slip in slips}


def test_polarity_is_no_matter_where_like_plates_meet() -> None:
    """The rule about unlike plates stays silent for like ones."""
    slips = slips_of(lesson_of(BOTH_CHARGED).display, RULES)
    assert "polarity-ignored" not in {slip.rule.id for slip in slips}


def test_a_slip_tells_what_was_done_and_why_it_tempts() -> None:
    """The sentence names the number; the reason names what is right."""
    display = lesson_of(UNLIKE).display
    wanted = ("polarity-ignored", "voltage:island@1")
    (slip,) = [slip for slip in slips_of(display, RULES)
               if (slip.rule.id, slip.wrong.name.key) == wanted]  # fmt: skip
    assert plain(slip.sentence, display) == (
        "Adding the charges although unlike plates were joined gives V′ = 11.0 V."
    )
    assert "only the difference is left" in plain(slip.tempting, display)
