"""Wrong rules of nests: for each of them three circuits in which its number is worked by hand."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from builder.circuit.tree import Tree
from builder.lesson.nest.display import NestDisplay
from builder.lesson.nest.wrong_rules import RULES, slips_of
from builder.quantity.exact import as_fraction
from builder.solution.nest.solve import solve_nest
from tests.lesson.telling import asking, name_of, parallel, plain, series

MICRO, NANO = Fraction(1, 10**6), Fraction(1, 10**9)
BY_ID = {rule.id: rule for rule in RULES}

# The circuits, with what is right in them.
CIRCUITS: dict[str, tuple[Tree, str, str, str]] = {
    # 1/(1/10 + 1/40) = 8 µF, 96 µC, 9.6 V and 2.4 V; 460.8, 115.2 and in all 576 µJ.
    "C chain": (series("C1", "C2"), "10 40", "uF", "12 V"),
    # 2 µF, 36 µC, 3, 6 and 9 V.
    "C three": (series("C1", "C2", "C3"), "12 6 4", "uF", "18 V"),
    # 1/(1/2 + 1/4 + 1/4 + 1/2) = 2/3 µF, 12 µC, 6, 3, 3 and 6 V.
    "C four": (series("C1", "C2", "C3", "C4"), "2 4 4 2", "uF", "18 V"),
    # 50 µF, 120, 480 and in all 600 µC; 720, 2880 and in all 3600 µJ.
    "C bank": (parallel("C1", "C2"), "10 40", "uF", "12 V"),
    # C23 = 30 µF, 10 µF in all, 120 µC; 8 V and 4 V; 88 and 32 µC.
    "C behind": (series("C1", parallel("C2", "C3")), "15 22 8", "uF", "12 V"),
    # The chain of 2 nF has 36 nC and 3, 6, 9 V; C4 has 54 nC; 90 nC in all.
    "C beside": (parallel(series("C1", "C2", "C3"), "C4"), "12 6 4 3", "nF", "18 V"),
    # C34 = 1, C234 = 3, in all 2 µF, 24 µC; 4 V and 8 V; 16 and 8 µC; C3 and C4 4 V each.
    "C nested": (series("C1", parallel("C2", series("C3", "C4"))), "6 2 2 2", "uF", "12 V"),
    # 50 Ω, 0.24 A, 2.4 V and 9.6 V; 0.576 W and 2.304 W.
    "R chain": (series("R1", "R2"), "10 40", "ohm", "12 V"),
    # 10 Ω, 2 A, 4, 6 and 10 V; 8, 12 and 20 W.
    "R three": (series("R1", "R2", "R3"), "2 3 5", "ohm", "20 V"),
    # 8 Ω, 1.2, 0.3 and in all 1.5 A; 14.4 W and 3.6 W.
    "R bank": (parallel("R1", "R2"), "10 40", "ohm", "12 V"),
    # 16 Ω, 0.5, 0.25, 0.75 and in all 1.5 A; 12, 6 and 18 W.
    "R lamps": (parallel("R1", "R2", "R3"), "48 96 32", "ohm", "24 V"),
    # 1 Ω, 2, 1, 3 and in all 6 A.
    "R small": (parallel("R1", "R2", "R3"), "3 6 2", "ohm", "6 V"),
    # R23 = 6 Ω, 10 Ω in all, 2 A, 8 V and 12 V; 0.8 and 1.2 A; 16, 9.6 and 14.4 W.
    "R behind": (series("R1", parallel("R2", "R3")), "4 15 10", "ohm", "20 V"),
    # The chain of 30 Ω has 1 A, 10 V and 20 V; R3 has 0.5 A.
    "R beside": (parallel(series("R1", "R2"), "R3"), "10 20 60", "ohm", "30 V"),
}

MERGING = [
    ("added-instead", "C chain", "capacitance:total", (10 + 40) * MICRO,
     "Adding C₁ and C₂ gives C_eq = 50.0 µF"),
    ("added-instead", "R bank", "resistance:total", Fraction(10 + 40),
     "Adding R₁ and R₂ gives R_eq = 50.0 Ω"),
    ("added-instead", "C behind", "capacitance:total", (15 + 30) * MICRO,
     "Adding C₁ and C₂₃ gives C_eq = 45.0 µF"),
    ("reciprocals-instead", "C bank", "capacitance:total", Fraction(10 * 40, 10 + 40) * MICRO,
     "Adding the reciprocals of C₁ and C₂ gives C_eq = 8.00 µF"),
    ("reciprocals-instead", "R chain", "resistance:total", Fraction(10 * 40, 10 + 40),
     "Adding the reciprocals of R₁ and R₂ gives R_eq = 8.00 Ω"),
    # 1/2 + 1/3 + 1/5 = 31/30.
    ("reciprocals-instead", "R three", "resistance:total", Fraction(30, 31),
     "Adding the reciprocals of R₁, R₂ and R₃ gives R_eq ≈ 0.968 Ω"),
    ("never-inverted", "C chain", "capacitance:total", (Fraction(1, 10) + Fraction(1, 40)) * MICRO,
     "Stopping at the sum of the reciprocals of C₁ and C₂ gives C_eq = 0.125 µF"),
    ("never-inverted", "R bank", "resistance:total", Fraction(1, 10) + Fraction(1, 40),
     "Stopping at the sum of the reciprocals of R₁ and R₂ gives R_eq = 0.125 Ω"),
    # In 96ths: 2 + 1 + 3.
    ("never-inverted", "R lamps", "resistance:total", Fraction(6, 96),
     "Stopping at the sum of the reciprocals of R₁, R₂ and R₃ gives R_eq = 0.0625 Ω"),
    ("averaged", "C chain", "capacitance:total", Fraction(10 + 40, 2) * MICRO,
     "Taking the average of C₁ and C₂ gives C_eq = 25.0 µF"),
    ("averaged", "R chain", "resistance:total", Fraction(10 + 40, 2),
     "Taking the average of R₁ and R₂ gives R_eq = 25.0 Ω"),
    ("averaged", "R lamps", "resistance:total", Fraction(48 + 96 + 32, 3),
     "Taking the average of R₁, R₂ and R₃ gives R_eq ≈ 58.7 Ω"),
    ("product-over-sum", "C three", "capacitance:total",
     Fraction(12 * 6 * 4, 12 + 6 + 4) * MICRO,
     "Taking product over sum of C₁, C₂ and C₃ gives C_eq ≈ 13.1 µF"),
    ("product-over-sum", "R lamps", "resistance:total", Fraction(48 * 96 * 32, 48 + 96 + 32),
     "Taking product over sum of R₁, R₂ and R₃ gives R_eq ≈ 838 Ω"),
    ("product-over-sum", "R small", "resistance:total", Fraction(3 * 6 * 2, 3 + 6 + 2),
     "Taking product over sum of R₁, R₂ and R₃ gives R_eq ≈ 3.27 Ω"),
    ("third-left-out", "C three", "capacitance:total", Fraction(12 * 6, 12 + 6) * MICRO,
     "Taking product over sum of C₁ and C₂ and stopping there gives C_eq = 4.00 µF"),
    ("third-left-out", "R lamps", "resistance:total", Fraction(48 * 96, 48 + 96),
     "Taking product over sum of R₁ and R₂ and stopping there gives R_eq = 32.0 Ω"),
    ("third-left-out", "R small", "resistance:total", Fraction(3 * 6, 3 + 6),
     "Taking product over sum of R₁ and R₂ and stopping there gives R_eq = 2.00 Ω"),
    # 50 µF at 12 V.
    ("going-on", "C chain", "charge:total", (10 + 40) * 12 * MICRO,
     "Adding C₁ and C₂ and going on from there gives Q = 600 µC"),
    # 10 + 40 Ω at 12 V.
    ("going-on", "R bank", "current:total", Fraction(12, 10 + 40),
     "Adding R₁ and R₂ and going on from there gives I = 0.240 A"),
    # R23 = 15 + 10 = 25 Ω, so that 4 + 25 Ω lie across 20 V.
    ("going-on", "R behind", "current:total", Fraction(20, 4 + 25),
     "Adding R₂ and R₃ and going on from there gives I ≈ 0.690 A"),
]  # fmt: skip

SHARING = [
    ("equal-voltages", "C chain", "voltage:C1", Fraction(12, 2),
     "Sharing the voltage equally between C₁ and C₂ gives V₁ = 6.00 V"),
    ("equal-voltages", "R three", "voltage:R3", Fraction(20, 3),
     "Sharing the voltage equally between R₁, R₂ and R₃ gives V₃ ≈ 6.67 V"),
    # 6 V across the pair, and then Q2 = 22 µF · 6 V.
    ("equal-voltages", "C behind", "charge:C2", 22 * 6 * MICRO,
     "Sharing the voltage equally between C₁ and C₂₃ gives Q₂ = 132 µC"),
    ("equal-flows", "C bank", "charge:C1", Fraction(600, 2) * MICRO,
     "Splitting the charge equally between C₁ and C₂ gives Q₁ = 300 µC"),
    ("equal-flows", "R lamps", "current:R2", Fraction(3, 2) / 3,
     "Splitting the current equally between R₁, R₂ and R₃ gives I₂ = 500 mA"),
    # Of 90 nC half for the chain, and so for each capacitor in it.
    ("equal-flows", "C beside", "charge:C1", Fraction(90, 2) * NANO,
     "Splitting the charge equally between C₁₂₃ and C₄ gives Q₁ = 45.0 nC"),
    # R1 takes 10 parts of 50.
    ("used-up", "R chain", "current:R2", Fraction(24, 100) * Fraction(40, 50),
     "Letting R₁ use up its share of the current gives I₂ = 192 mA"),
    # R1 and R2 take 2 and 3 parts of 10.
    ("used-up", "R three", "current:R3", 2 * Fraction(5, 10),
     "Letting R₁ and R₂ use up their shares of the current gives I₃ = 1.00 A"),
    # R1 takes 4 parts of 10.
    ("used-up", "R behind", "current:R23", 2 * Fraction(6, 10),
     "Letting R₁ use up its share of the current gives I₂₃ = 1.20 A"),
    ("inner-uncharged", "C three", "charge:C2", Fraction(0),
     "Leaving C₂ uncharged because neither of its plates is wired to the source gives Q₂ = 0 C"),
    # Without charge there is no voltage: V2 = 0/C2.
    ("inner-uncharged", "C beside", "voltage:C2", Fraction(0),
     "Leaving C₂ uncharged because neither of its plates is wired to the source gives V₂ = 0 V"),
    ("inner-uncharged", "C four", "energy:C3", Fraction(0),
     "Leaving C₃ uncharged because neither of its plates is wired to the source gives U₃ = 0 J"),
    ("divided-the-wrong-way", "C chain", "voltage:C1", 12 * Fraction(10, 10 + 40),
     "Dividing the voltage between C₁ and C₂ in proportion to their capacitances "
     "gives V₁ = 2.40 V"),
    ("divided-the-wrong-way", "R chain", "voltage:R1", 12 * Fraction(40, 10 + 40),
     "Dividing the voltage between R₁ and R₂ in inverse proportion to their resistances "
     "gives V₁ = 9.60 V"),
    # 1/2, 1/3 and 1/5 are as 15, 10 and 6.
    ("divided-the-wrong-way", "R three", "voltage:R2", 20 * Fraction(10, 15 + 10 + 6),
     "Dividing the voltage between R₁, R₂ and R₃ in inverse proportion to their resistances "
     "gives V₂ ≈ 6.45 V"),
    ("split-the-wrong-way", "C bank", "charge:C1", 600 * Fraction(40, 10 + 40) * MICRO,
     "Splitting the charge between C₁ and C₂ in inverse proportion to their capacitances "
     "gives Q₁ = 480 µC"),
    ("split-the-wrong-way", "R lamps", "current:R2", Fraction(3, 2) * Fraction(96, 48 + 96 + 32),
     "Splitting the current between R₁, R₂ and R₃ in proportion to their resistances "
     "gives I₂ ≈ 818 mA"),
    ("split-the-wrong-way", "R behind", "current:R2", 2 * Fraction(15, 15 + 10),
     "Splitting the current between R₂ and R₃ in proportion to their resistances "
     "gives I₂ = 1.20 A"),
    ("group-for-one", "C bank", "charge:C2", 600 * MICRO,
     "Taking the whole charge of C₁ and C₂ together for C₂ gives Q₂ = 600 µC"),
    ("group-for-one", "R behind", "current:R2", Fraction(2),
     "Taking the whole current of R₂ and R₃ together for R₂ gives I₂ = 2.00 A"),
    ("group-for-one", "C nested", "voltage:C3", Fraction(8),
     "Taking the whole voltage of C₃ and C₄ together for C₃ gives V₃ = 8.00 V"),
    ("chain-charges-added", "C chain", "charge:total", 2 * 96 * MICRO,
     "Adding up the charges of C₁ and C₂ along the chain gives Q = 192 µC"),
    ("chain-charges-added", "C three", "charge:total", 3 * 36 * MICRO,
     "Adding up the charges of C₁, C₂ and C₃ along the chain gives Q = 108 µC"),
    ("chain-charges-added", "C beside", "charge:C123", 3 * 36 * NANO,
     "Adding up the charges of C₁, C₂ and C₃ along the chain gives Q₁₂₃ = 108 nC"),
    ("whole-voltage", "C chain", "voltage:C1", Fraction(12),
     "Taking the source's whole voltage for C₁ gives V₁ = 12.0 V"),
    ("whole-voltage", "C behind", "charge:C2", 22 * 12 * MICRO,
     "Taking the source's whole voltage for C₂ gives Q₂ = 264 µC"),
    ("whole-voltage", "R behind", "power:R2", Fraction(20 * 20, 15),
     "Taking the source's whole voltage for R₂ gives P₂ ≈ 26.7 W"),
    ("first-alone", "C chain", "charge:total", 10 * 12 * MICRO,
     "Letting C₁, the first in the chain, alone decide how much charge comes gives Q = 120 µC"),
    ("first-alone", "R three", "current:R3", Fraction(20, 2),
     "Letting R₁, the first in the chain, alone decide how much current comes gives I₃ = 10.0 A"),
    ("first-alone", "R behind", "current:total", Fraction(20, 4),
     "Letting R₁, the first in the chain, alone decide how much current comes gives I = 5.00 A"),
]  # fmt: skip

WORK = [
    # 96 µC · 9.6 V.
    ("half-dropped", "C chain", "energy:C1", 96 * Fraction(96, 10) * MICRO,
     "Taking Q₁ times V₁ without the ½ gives U₁ ≈ 922 µJ"),
    ("half-dropped", "C bank", "energy:C2", 480 * 12 * MICRO,
     "Taking Q₂ times V₂ without the ½ gives U₂ = 5.76 mJ"),
    ("half-dropped", "C behind", "energy:total", 120 * 12 * MICRO,
     "Taking Q times V₀ without the ½ gives U = 1.44 mJ"),
    ("wrong-pair", "R chain", "power:R1", Fraction(24, 100) * 12,
     "Pairing I₁ with V₀ gives P₁ = 2.88 W"),
    ("wrong-pair", "R lamps", "power:R2", 24 * Fraction(3, 2),
     "Pairing V₂ with I gives P₂ = 36.0 W"),
    ("wrong-pair", "R behind", "power:R2", Fraction(8, 10) * 20,
     "Pairing I₂ with V₀ gives P₂ = 16.0 W"),
    ("wrong-pair", "R behind", "power:R3", Fraction(12 * 2),
     "Pairing V₃ with I₂₃ gives P₃ = 24.0 W"),
    ("wrong-pair", "C three", "energy:C2", Fraction(36 * 18, 2) * MICRO,
     "Pairing Q₂ with V₀ gives U₂ = 324 µJ"),
    # ½ · 96 µC · (9.6 V)².
    ("charge-for-capacitance", "C chain", "energy:C1", 48 * Fraction(96, 10) ** 2 * MICRO,
     "Writing Q₁ for C₁ in U = ½CV² gives U₁ ≈ 4.42 mJ"),
    ("charge-for-capacitance", "C three", "energy:C3", Fraction(36 * 9 * 9, 2) * MICRO,
     "Writing Q₃ for C₃ in U = ½CV² gives U₃ ≈ 1.46 mJ"),
    ("charge-for-capacitance", "C behind", "energy:total", Fraction(120 * 12 * 12, 2) * MICRO,
     "Writing Q for C_eq in U = ½CV² gives U = 8.64 mJ"),
]  # fmt: skip

# Where the energy or power alone is asked, it is found by a formula with a square.
SQUARES = [
    ("C bank", "energy:C1", Fraction(10 * 12, 2) * MICRO,
     "Forgetting the square in U = ½CV² gives U₁ = 60.0 µJ"),
    # 96 µC over 2 · 10 µF.
    ("C chain", "energy:C1", Fraction(96, 2 * 10),
     "Forgetting the square in U = Q²/(2C) gives U₁ = 4.80 J"),
    ("R bank", "power:R1", Fraction(12, 10), "Forgetting the square in P = V²/R gives P₁ = 1.20 W"),
    ("R chain", "power:R2", 40 * Fraction(24, 100),
     "Forgetting the square in P = RI² gives P₂ = 9.60 W"),
]  # fmt: skip


def circuit(called: str, *asked: str) -> NestDisplay:
    """The writing of one of the circuits, of which everything is asked or some quantities."""
    tree, typed, unit, source = CIRCUITS[called]
    values = {f"{'C' if unit[-1] == 'F' else 'R'}{number}": f"{value} {unit}"
              for number, value in enumerate(typed.split(), start=1)}  # fmt: skip
    return NestDisplay(solve_nest(asking(tree, source, *asked, values=values)))


def _told(rule: str, display: NestDisplay, key: str) -> dict[str, Fraction]:
    """What a rule alone says of a quantity, with its numbers."""
    slips = [slip for slip in slips_of(display, [BY_ID[rule]]) if slip.wrong.name == name_of(key)]
    assert all(slip.wrong.step in {step.id for step in display.solution.steps} for slip in slips)
    return {plain(slip.sentence, display): as_fraction(slip.wrong.value) for slip in slips}


@pytest.mark.parametrize(("rule", "called", "key", "value", "sentence"),
                         [*MERGING, *SHARING, *WORK])  # fmt: skip
def test_a_wrong_rule_leads_to_its_number(
    rule: str, called: str, key: str, value: Fraction, sentence: str
) -> None:
    """The number, worked by hand in the table, and the sentence that tells it."""
    assert _told(rule, circuit(called), key)[f"{sentence}."] == value


@pytest.mark.parametrize(("called", "key", "value", "sentence"), SQUARES)
def test_a_square_is_forgotten_where_there_is_one(
    called: str, key: str, value: Fraction, sentence: str
) -> None:
    """In the formula that the steps use, by hand in the table."""
    assert _told("square-forgotten", circuit(called, key), key) == {f"{sentence}.": value}


def test_every_rule_is_worked_by_hand_three_times() -> None:
    """No rule is registered without three circuits in the tables above."""
    rows = Counter(row[0] for row in (*MERGING, *SHARING, *WORK))
    rows["square-forgotten"] = len(SQUARES)
    assert set(rows) == set(BY_ID)
    assert min(rows.values()) >= 3
