"""Wrong rules of networks: the numbers they lead to, worked by hand, and where they stay silent."""

from __future__ import annotations

from fractions import Fraction

import pytest

from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.wrong_rules import RULES
from builder.lesson.wrong_rule import slips_of
from builder.quantity.exact import as_fraction
from tests.lesson.network.networks import (
    BATTERIES,
    BRIDGE,
    CHARGES,
    LESSONS,
    PANEL,
    display_of,
)
from tests.lesson.telling import name_of, plain

MICRO = Fraction(1, 10**6)
BY_ID = {rule.id: rule for rule in RULES}


def _display(called: str) -> NetworkDisplay:
    return display_of(*LESSONS[called])


WORKED = [
    # Without R5 there are 10 + 35 = 45 Ω beside 40 + 20 = 60 Ω.
    ("bridge-ignored", "bridge", "resistance:total", Fraction(45 * 60, 45 + 60),
     "Leaving out R₅ as if the bridge were balanced gives R_eq ≈ 25.7 Ω."),
    ("bridge-ignored", "bridge", "current:R1", Fraction(24, 45),
     "Leaving out R₅ as if the bridge were balanced gives I₁ ≈ 533 mA."),
    # Without C5: 9 and 3 µF in a chain across 12 V, so that C1 has a quarter of the voltage.
    ("bridge-ignored", "charges", "voltage:C1", Fraction(12 * 3, 9 + 3),
     "Leaving out C₅ as if the bridge were balanced gives V₁ = 3.00 V."),
    # Sides 10, 40 and 50 Ω; R_a ends where 10 and 40 Ω meet, so that 50 Ω lies opposite.
    ("exchange-mixed-up", "star", "resistance:R_a",
     Fraction(10 * 40 + 40 * 50 + 50 * 10, 50),
     "Using the rule that belongs to the way back gives R_a = 58.0 Ω."),
    # Sides 9, 2 and 6 µF; C_a ends where 9 and 2 µF meet.
    ("exchange-mixed-up", "charges", "capacitance:C_a", Fraction(9 * 2, 9 + 2 + 6) * MICRO,
     "Using the rule that belongs to resistors gives C_a ≈ 1.06 µF."),
    ("one-loop-only", "batteries", "current:R1", Fraction(14, 1),
     "Dividing E₁ by R₁ alone gives I₁ = 14.0 A."),
    ("one-loop-only", "panel", "current:R2", Fraction(18, 3),
     "Dividing E₂ by R₂ alone gives I₂ = 6.00 A."),
    # E1 alone drives through 1 Ω and then through 0.5 Ω beside 25 Ω.
    ("others-forgotten", "batteries", "current:R1",
     14 / (1 + Fraction(1, 2) * 25 / (Fraction(1, 2) + 25)),
     "Working out the current of E₁ as if it were the only source gives I₁ ≈ 9.39 A."),
    # E2 alone drives through 3 Ω and then through 6 Ω beside 6 Ω.
    ("others-forgotten", "panel", "current:R2", Fraction(18, 3 + 3),
     "Working out the current of E₂ as if it were the only source gives I₂ = 3.00 A."),
    # 26 V in both branches: at b (26/1 + 26/0.5) / (1/1 + 1/0.5 + 1/25) = 78/3.04 V.
    ("emfs-added", "batteries", "current:R3", Fraction(78, 25) / Fraction(304, 100),
     "Adding the voltages of E₁ and E₂ gives I₃ ≈ 1.03 A."),
    # 42 V in both branches: at b (42/6 + 42/3) / (1/6 + 1/3 + 1/6) = 21 · 6/4 V.
    ("emfs-added", "panel", "current:R3", Fraction(21 * 6, 4 * 6),
     "Adding the voltages of E₁ and E₂ gives I₃ = 5.25 A."),
    # 26 A + 25 B = 14 and −25 A + 25.5 B = −12.
    ("drop-taken-wrong", "batteries", "current:A",
     (14 * Fraction(51, 2) + 12 * 25) / (26 * Fraction(51, 2) + 25 * 25),
     "Counting what I_B does in the first loop with the wrong sign gives I_A ≈ 0.510 A."),
    # 1 A from E1 alone and 1.5 A from E2 alone, in 6 Ω.
    ("powers-added", "panel", "power:R3", 6 * (1 + Fraction(9, 4)),
     "Adding up the powers that each source would cause alone gives P₃ = 19.5 W."),
    ("open-voltage-kept", "sensor", "voltage:R4", Fraction(18 * 12, 6 + 12),
     "Taking the open voltage for R₄ gives V₄ = 12.0 V."),
    # Two arms of 60 and 30 Ω.
    ("added-instead", "balanced", "resistance:total", Fraction(60 + 30),
     "Adding R₁₃ and R₂₄ gives R_eq = 90.0 Ω."),
    ("never-inverted", "balanced", "resistance:total", Fraction(1, 60) + Fraction(1, 30),
     "Stopping at the sum of the reciprocals of R₁₃ and R₂₄ gives R_eq = 0.0500 Ω."),
    ("reciprocals-instead", "balanced", "resistance:R13", Fraction(20 * 40, 20 + 40),
     "Adding the reciprocals of R₁ and R₃ gives R₁₃ ≈ 13.3 Ω."),
    ("averaged", "balanced", "resistance:R24", Fraction(10 + 20, 2),
     "Taking the average of R₂ and R₄ gives R₂₄ = 15.0 Ω."),
    ("product-over-sum", "cube", "resistance:R123", Fraction(6 * 6 * 6, 6 + 6 + 6),
     "Taking product over sum of R₁, R₂ and R₃ gives R₁₂₃ = 12.0 Ω."),
    # With the load off and V0 a wire, 6 Ω lie beside 12 Ω.
    ("added-instead", "sensor", "resistance:R12@inner", Fraction(6 + 12),
     "Adding R₁ and R₂ gives R₁₂ = 18.0 Ω."),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "called", "key", "value", "sentence"), WORKED)
def test_a_wrong_rule_leads_to_its_number(
    rule: str, called: str, key: str, value: Fraction, sentence: str
) -> None:
    """The number, worked by hand in the table, and the sentence that tells it."""
    display = _display(called)
    (slip,) = (s for s in slips_of(display, [BY_ID[rule]]) if s.wrong.name == name_of(key))
    assert as_fraction(slip.wrong.value) == value
    assert plain(slip.sentence, display) == sentence
    assert slip.wrong.step in {step.id for step in display.solution.steps}


def test_every_rule_is_worked_by_hand() -> None:
    """No rule is registered without a row in the table above."""
    assert {row[0] for row in WORKED} == set(BY_ID)


APART = PANEL | {"E2": "18 V d c", "R2": "3 ohm b c"}
"""The battery turned round: its + side lies at the other's − side."""
SILENT = [
    ("bridge-ignored", _display("balanced")),
    ("bridge-ignored", _display("bare")),
    ("bridge-ignored", _display("cube")),
    ("bridge-ignored", _display("batteries")),
    ("exchange-mixed-up", _display("balanced")),
    ("one-loop-only", _display("bridge")),
    ("others-forgotten", _display("bridge")),
    ("emfs-added", _display("bridge")),
    ("emfs-added", display_of(APART, "current")),
    ("drop-taken-wrong", _display("panel")),
    ("powers-added", _display("batteries-by-junctions")),
    ("open-voltage-kept", _display("two-points")),
    ("added-instead", _display("batteries")),
]


@pytest.mark.parametrize(("rule", "display"), SILENT)
def test_a_rule_is_silent_where_it_does_not_fit(rule: str, display: NetworkDisplay) -> None:
    """No bridge, a balanced one, no second source, another method, or opposite sides."""
    assert slips_of(display, [BY_ID[rule]]) == ()


def test_wrong_rules_know_which_sources_lie_side_by_side() -> None:
    """In a ring of two batteries the chain of each ends where they meet, in order from +."""
    ring = {"E1": "9 V a b", "R1": "1 ohm a c", "E2": "3 V c d", "R2": "2 ohm d b"}
    display = display_of(ring, "current", "  method: loops\n")
    found = {slip.rule.id for slip in slips_of(display, RULES)}
    assert "emfs-added" not in found


@pytest.mark.parametrize("rows", [BATTERIES, PANEL, {"V0": "24 V a d", **BRIDGE}, CHARGES])
def test_a_wrong_number_never_equals_the_right_one(rows: dict[str, str]) -> None:
    """At the shown digits every mistake can be told from the truth."""
    more = "" if any(name[0] in "EV" for name in rows) else "  across: [a, d]\n"
    display = display_of(rows, "current" if more == "" else "equivalent", more)
    for slip in slips_of(display, RULES):
        assert slip.shown.text != display.shown(slip.wrong.name).text
