"""Wrong rules of networks: for each of them circuits in which its number is worked by hand."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from builder.lesson.merging_mistakes import GOING_ON_RULES, MERGING_RULES
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.wrong_rules import RULES
from builder.lesson.sharing_mistakes import CHAIN_RULES, SHARING_RULES
from builder.lesson.slips import slips_of
from builder.lesson.source_mistakes import SOURCE_RULES
from builder.lesson.work_mistakes import WORK_RULES
from builder.quantity.exact import as_fraction
from tests.lesson.network.networks import (
    BALANCED,
    BATTERIES,
    BRIDGE,
    CUBE,
    LESSONS,
    display_of,
    lesson_of_text,
)
from tests.lesson.telling import name_of, plain

MICRO = Fraction(1, 10**6)
BY_ID = {rule.id: rule for rule in RULES}
OF_NESTS_TOO = {
    rule.id
    for family in (
        MERGING_RULES,
        GOING_ON_RULES,
        CHAIN_RULES,
        SHARING_RULES,
        SOURCE_RULES,
        WORK_RULES,
    )
    for rule in family
}
"""These are worked three times each in nests, and once more here."""

# University Physics Volume 2 (OpenStax), chapter 10: 7/6 A in all, 1/2, 2/3 and 1/6 A.
BOOK = {
    "V0": "20 V p g", "R6": "5 ohm p a", "R1": "15 ohm a x", "R2": "10 ohm a y",
    "R3": "10 ohm x g", "R4": "15 ohm y g", "R5": "5 ohm x y",
}  # fmt: skip
# At b there are 20 V, at c 18 V.
PIER = {
    "E1": "24 V a d", "R1": "1 ohm a b", "R2": "10 ohm b d", "R3": "1 ohm b c",
    "R4": "6 ohm c d", "R5": "2 ohm e c", "E2": "20 V e d",
}  # fmt: skip
# University Physics Volume 2 (OpenStax), chapter 10: 3/11 A in R3, at 30/11 V.
CELLS = {"E1": "3 V a d", "R1": "2 ohm a b", "E2": "3 V c d", "R2": "2 ohm c b", "R3": "10 ohm b d"}
# University Physics Volume 2 (OpenStax), section 10.3: 12 V against 24 V, 0.2 A.
RING = {"E1": "24 V a d", "R1": "10 ohm a b", "E2": "12 V b c", "R2": "30 ohm c e",
        "R3": "20 ohm e d"}  # fmt: skip
# University Physics Volume 2 (OpenStax), section 10.3: 3 A in R1, 5 A in R2, 2 A in R3.
TWO_LOOPS = {"E1": "24 V a d", "R1": "3 ohm a b", "R2": "3 ohm b d", "E2": "29 V c d",
             "R3": "7 ohm c b"}  # fmt: skip
# Kuphaldt, Lessons In Electric Circuits, volume I, node voltages: 3.8095 V and −1.5476 V.
NODES = {
    "E1": "10 V a d", "R1": "2 ohm a b", "R2": "4 ohm b d", "R3": "2.5 ohm b c",
    "R4": "5 ohm c d", "R5": "1 ohm c e", "E2": "4 V d e",
}  # fmt: skip
# 6 V behind 2.4 Ω.
DIVIDER = {"V0": "10 V a d", "R1": "4 ohm a b", "R2": "6 ohm b d", "R3": "2.6 ohm b d"}
C_CUBE = {name.replace("R", "C"): row.replace("ohm", "uF") for name, row in CUBE.items()}
"""Of 6 µF each: 18, 36 and 18 µF in a chain, 7.2 µF; at 15 V 108 µC, and 6, 3 and 6 V."""
LOAD = "open-voltage, inner-resistance, voltage: {0}, greatest-power"

CIRCUITS = LESSONS | {
    "book": (BOOK, "equivalent, current", ""),
    "pier": (PIER, "'potential: b', 'potential: c', current",
             "  method: junctions\n  reference: d\n"),
    "pier-in-turn": (PIER, "current, power: R4", "  method: superposition\n"),
    "batteries-in-turn": (BATTERIES, "current, power: R3", "  method: superposition\n"),
    "cells": (CELLS, "current, voltage: R3", "  method: loops\n"),
    "ring": (RING, "current", ""),
    "two-loops": (TWO_LOOPS, "current", "  method: loops\n"),
    "nodes": (NODES, "'potential: b', 'potential: c'", "  method: junctions\n  reference: d\n"),
    "divider": (DIVIDER, LOAD.format("R3"), "  method: equivalent-source\n  load: R3\n"),
    # Without R5, 24 · 35/45 and 24 · 20/60: 18.67 and 8 V, so 32/3 V; behind
    # 10 · 35/45 + 40 · 20/60 = 70/9 + 40/3 = 190/9 Ω.
    "middle": ({"V0": "24 V a d", **BRIDGE}, LOAD.format("R5"),
               "  method: equivalent-source\n  load: R5\n"),
    "cube-currents": ({"V0": "15 V a g", **CUBE}, "equivalent, current", "  method: symmetry\n"),
    "powers": ({"V0": "12 V a d", **BALANCED}, "current: R1, 'power: R1'", ""),
    "c-cube": ({"V0": "15 V a g", **C_CUBE}, "charge", "  method: symmetry\n"),
}  # fmt: skip

BRIDGES = [
    # Without R5 there are 10 + 35 = 45 Ω beside 40 + 20 = 60 Ω.
    ("bridge-ignored", "bridge", "resistance:total", Fraction(45 * 60, 45 + 60),
     "Leaving out R₅ as if the bridge were balanced gives R_eq ≈ 25.7 Ω"),
    ("bridge-ignored", "bare", "resistance:total", Fraction(45 * 60, 45 + 60),
     "Leaving out R₅ as if the bridge were balanced gives R_eq ≈ 25.7 Ω"),
    # Without C5: 9 and 3 µF in a chain across 12 V, so that C1 has a quarter of the voltage.
    ("bridge-ignored", "charges", "voltage:C1", Fraction(12 * 3, 9 + 3),
     "Leaving out C₅ as if the bridge were balanced gives V₁ = 3.00 V"),
    # 25 Ω beside 25 Ω, and 5 Ω before them: 20/17.5 A, half of it through R1.
    ("bridge-ignored", "book", "current:R1", Fraction(20 * 2, 35) / 2,
     "Leaving out R₅ as if the bridge were balanced gives I₁ ≈ 571 mA"),
    # 10 · 40/50 + 35 · 20/55.
    ("bridge-joined", "bridge", "resistance:total", 8 + Fraction(700, 55),
     "Merging R₁ with R₂ and R₃ with R₄ in parallel gives R_eq ≈ 20.7 Ω"),
    # 11 and 7 µF in a chain.
    ("bridge-joined", "charges", "capacitance:total", Fraction(11 * 7, 11 + 7) * MICRO,
     "Merging C₁ with C₂ and C₃ with C₄ in parallel gives C_eq ≈ 4.28 µF"),
    # 5 + 6 + 6 Ω: 20/17 A, of which R1 takes 10 parts of 25.
    ("bridge-joined", "book", "current:R1", Fraction(20, 17) * Fraction(10, 25),
     "Merging R₁ with R₂ and R₃ with R₄ in parallel gives I₁ ≈ 471 mA"),
    # Sides 10, 40 and 50 Ω; R_a ends where 10 and 40 Ω meet, so that 50 Ω lies opposite.
    ("exchange-mixed-up", "star", "resistance:R_a",
     Fraction(10 * 40 + 40 * 50 + 50 * 10, 50),
     "Turning R₁, R₂ and R₅ into a star by the rule for the way back gives R_a = 58.0 Ω"),
    # Sides 15, 10 and 5 Ω; 5 Ω lies opposite.
    ("exchange-mixed-up", "book", "resistance:R_a", Fraction(15 * 10 + 10 * 5 + 5 * 15, 5),
     "Turning R₁, R₂ and R₅ into a star by the rule for the way back gives R_a = 55.0 Ω"),
    # Sides 9, 2 and 6 µF; C_a ends where 9 and 2 µF meet.
    ("exchange-mixed-up", "charges", "capacitance:C_a", Fraction(9 * 2, 9 + 2 + 6) * MICRO,
     "Turning C₁, C₂ and C₅ into a star by the rule for resistors gives C_a ≈ 1.06 µF"),
    # The source delivers 1 A, 48 µC and 7/6 A.
    ("equal-flows", "bridge", "current:R1", Fraction(1, 2),
     "Splitting the current equally between R₁ and R₂ at junction a gives I₁ = 500 mA"),
    ("equal-flows", "charges", "charge:C2", Fraction(48, 2) * MICRO,
     "Splitting the charge equally between C₁ and C₂ at junction a gives Q₂ = 24.0 µC"),
    ("equal-flows", "book", "current:R2", Fraction(7, 6) / 2,
     "Splitting the current equally between R₁ and R₂ at junction a gives I₂ ≈ 583 mA"),
]  # fmt: skip

SOURCES = [
    ("one-loop-only", "batteries", "current:R1", Fraction(14, 1),
     "Dividing E₁ by R₁ alone gives I₁ = 14.0 A"),
    ("one-loop-only", "panel", "current:R2", Fraction(18, 3),
     "Dividing E₂ by R₂ alone gives I₂ = 6.00 A"),
    ("one-loop-only", "pier", "current:R5", Fraction(20, 2),
     "Dividing E₂ by R₅ alone gives I₅ = 10.0 A"),
    # E1 alone drives through 1 Ω and then through 0.5 Ω beside 25 Ω.
    ("others-forgotten", "batteries", "current:R1",
     14 / (1 + Fraction(1, 2) * 25 / (Fraction(1, 2) + 25)),
     "Working out the current of E₁ as if it were the only source gives I₁ ≈ 9.39 A"),
    # E2 alone drives through 3 Ω and then through 6 Ω beside 6 Ω.
    ("others-forgotten", "panel", "current:R2", Fraction(18, 3 + 3),
     "Working out the current of E₂ as if it were the only source gives I₂ = 3.00 A"),
    # 2 Ω beside 6 Ω are 1.5 Ω; with 1 Ω and beside 10 Ω that is 2 Ω, and 3 Ω in all.
    ("others-forgotten", "pier", "current:R1", Fraction(24, 3),
     "Working out the current of E₁ as if it were the only source gives I₁ = 8.00 A"),
    # The same 8 A take 8 V in R1, and of the 16 V left 1.5 parts of 2.5 come to c.
    ("others-forgotten", "pier", "potential:c", 16 * Fraction(3, 5),
     "Counting with E₁ alone gives φ_c = 9.60 V"),
    # 26 V in both branches: at b (26/1 + 26/0.5) / (1/1 + 1/0.5 + 1/25) = 78/3.04 V.
    ("emfs-added", "batteries", "current:R3", Fraction(78, 25) / Fraction(304, 100),
     "Adding the voltages of E₁ and E₂ gives I₃ ≈ 1.03 A"),
    # 42 V in both branches: at b (42/6 + 42/3) / (1/6 + 1/3 + 1/6) = 21 · 6/4 V.
    ("emfs-added", "panel", "current:R3", Fraction(21 * 6, 4 * 6),
     "Adding the voltages of E₁ and E₂ gives I₃ = 5.25 A"),
    # 6 V behind 1 Ω, and 10 Ω.
    ("emfs-added", "cells", "current:R3", Fraction(6, 11),
     "Adding the voltages of E₁ and E₂ gives I₃ ≈ 545 mA"),
    # At b (14 − 24) / 3.04 V.
    ("source-turned", "batteries", "current:R1", 14 + Fraction(10 * 100, 304),
     "Counting E₂ the other way round gives I₁ ≈ 17.3 A"),
    ("source-turned", "ring", "current:R1", Fraction(24 + 12, 60),
     "Counting E₂ the other way round gives I₁ = 600 mA"),
    # At b (24/3 − 29/7) / (1/3 + 1/3 + 1/7) = 81/17 V.
    ("source-turned", "two-loops", "current:R2", Fraction(81, 17 * 3),
     "Counting E₂ the other way round gives I₂ ≈ 1.59 A"),
    # 8 A by E1 alone, and 4 A against them by E2 alone.
    ("source-turned", "pier", "current:R1", Fraction(8 + 4),
     "Counting E₂ the other way round gives I₁ = 12.0 A"),
    ("emfs-averaged", "batteries", "voltage:R3", Fraction(14 + 12, 2),
     "Taking the average of E₁ and E₂ gives V₃ = 13.0 V"),
    ("emfs-averaged", "panel", "current:R3", Fraction(24 + 18, 2) / 6,
     "Taking the average of E₁ and E₂ gives I₃ = 3.50 A"),
    ("emfs-averaged", "cells", "current:R3", Fraction(3 + 3, 2) / 10,
     "Taking the average of E₁ and E₂ gives I₃ = 300 mA"),
    # By hand as above: 1 A and 1.5 A in 6 Ω.
    ("powers-added", "panel", "power:R3", 6 * (1 + Fraction(9, 4)),
     "Adding up the powers that E₁ and E₂ would cause in R₃ if each were alone gives P₃ = 19.5 W"),
    # At c there are 9.6 V by E1 alone and 8.4 V by E2 alone.
    ("powers-added", "pier-in-turn", "power:R4",
     (Fraction(96, 10) ** 2 + Fraction(84, 10) ** 2) / 6,
     "Adding up the powers that E₁ and E₂ would cause in R₄ if each were alone gives P₄ ≈ 27.1 W"),
    # At b there are 14/3.04 V by E1 alone and 24/3.04 V by E2 alone.
    ("powers-added", "batteries-in-turn", "power:R3",
     (14 * 14 + 24 * 24) / Fraction(304, 100) ** 2 / 25,
     "Adding up the powers that E₁ and E₂ would cause in R₃ if each were alone gives P₃ ≈ 3.34 W"),
]  # fmt: skip

SIGNS = [
    # 26 A + 25 B = 14 and −25 A + 25.5 B = −12.
    ("drop-taken-wrong", "batteries", "current:A",
     (14 * Fraction(51, 2) + 12 * 25) / (26 * Fraction(51, 2) + 25 * 25),
     "Counting what I_B does in the first loop with the wrong sign gives I_A ≈ 0.510 A"),
    # 6 A + 3 B = 24 and −3 A + 10 B = −29.
    ("drop-taken-wrong", "two-loops", "current:A", Fraction(24 * 10 + 29 * 3, 60 + 9),
     "Counting what I_B does in the first loop with the wrong sign gives I_A ≈ 4.74 A"),
    # 12 A + 10 B = 3 and −10 A + 12 B = −3.
    ("drop-taken-wrong", "cells", "current:R1", Fraction(3 * 12 + 3 * 10, 144 + 100),
     "Counting what I_B does in the first loop with the wrong sign gives I₁ ≈ 270 mA"),
    # 2.1 b + c = 24 and −b + (5/3) c = 10: 3.5 c − 21 + c = 24, c = 10.
    ("potentials-added", "pier", "potential:b", Fraction(50, 3) - 10,
     "Adding potentials where differences belong in the equation of junction b gives φ_b ≈ 6.67 V"),
    # 18 b + 6 c = 108 and −6 b + 12 c = 24: b = 2 c − 4, 42 c = 180.
    ("potentials-added", "charges-by-junctions", "potential:b", 2 * Fraction(180, 42) - 4,
     "Adding potentials where differences belong in the equation of junction b gives φ_b ≈ 4.57 V"),
    # 1.15 b + 0.4 c = 5 and −0.4 b + 1.6 c = −4: b = 4 c + 10, 5 c = −6.5.
    ("potentials-added", "nodes", "potential:b", 10 - 4 * Fraction(13, 10),
     "Adding potentials where differences belong in the equation of junction b gives φ_b = 4.80 V"),
    # 3 A by E1 and 1.5 A against them by E2; 2 A by E1 against 3 A by E2.
    ("signs-dropped", "panel", "current:R1", 3 + Fraction(3, 2),
     "Adding I₁′ and I₁″ without their signs gives I₁ = 4.50 A"),
    ("signs-dropped", "pier-in-turn", "current:R1", Fraction(8 + 4),
     "Adding I₁′ and I₁″ without their signs gives I₁ = 12.0 A"),
    # By E1 (14 − 14/3.04)/1, and against it by E2 24/3.04 over 1.
    ("signs-dropped", "batteries-in-turn", "current:R1", 14 + Fraction(10 * 100, 304),
     "Adding I₁′ and I₁″ without their signs gives I₁ ≈ 17.3 A"),
]  # fmt: skip

OPEN_ENDS = [
    ("no-current-no-voltage", "sensor", "voltage:open", Fraction(0),
     "Reasoning that without a current there is no voltage gives V_open = 0 V"),
    ("no-current-no-voltage", "divider", "voltage:open", Fraction(0),
     "Reasoning that without a current there is no voltage gives V_open = 0 V"),
    ("no-current-no-voltage", "middle", "voltage:open", Fraction(0),
     "Reasoning that without a current there is no voltage gives V_open = 0 V"),
    ("open-voltage-kept", "sensor", "voltage:R4", Fraction(18 * 12, 6 + 12),
     "Taking the open voltage for R₄ gives V₄ = 12.0 V"),
    ("open-voltage-kept", "divider", "voltage:R3", Fraction(10 * 6, 4 + 6),
     "Taking the open voltage for R₃ gives V₃ = 6.00 V"),
    ("open-voltage-kept", "middle", "voltage:R5", Fraction(24 * 35, 45) - Fraction(24 * 20, 60),
     "Taking the open voltage for R₅ gives V₅ ≈ 10.7 V"),
    # 12 V behind 2 + 6 · 12/18 = 6 Ω.
    ("quarter-forgotten", "sensor", "power:greatest", Fraction(12 * 12, 6),
     "Dividing the square of V_open by R_inner alone gives P_max = 24.0 W"),
    ("quarter-forgotten", "divider", "power:greatest", 36 / Fraction(24, 10),
     "Dividing the square of V_open by R_inner alone gives P_max = 15.0 W"),
    ("quarter-forgotten", "middle", "power:greatest", Fraction(32, 3) ** 2 / Fraction(190, 9),
     "Dividing the square of V_open by R_inner alone gives P_max ≈ 5.39 W"),
]  # fmt: skip

# The rules of nests, each once: arms of 20 + 40 and 10 + 20 Ω at 12 V carry 0.2 and 0.4 A;
# the cube is 2 + 1 + 2 Ω at 15 V, with 3 A, and 6, 3 and 6 V.
AS_IN_NESTS = [
    ("added-instead", "balanced", "resistance:total", Fraction(60 + 30),
     "Adding R₁₃ and R₂₄ gives R_eq = 90.0 Ω"),
    # With the load off and V0 a wire, 6 Ω lie beside 12 Ω.
    ("added-instead", "sensor", "resistance:R12@inner", Fraction(6 + 12),
     "Adding R₁ and R₂ gives R₁₂ = 18.0 Ω"),
    ("reciprocals-instead", "balanced", "resistance:R13", Fraction(20 * 40, 20 + 40),
     "Adding the reciprocals of R₁ and R₃ gives R₁₃ ≈ 13.3 Ω"),
    ("never-inverted", "balanced", "resistance:total", Fraction(1, 60) + Fraction(1, 30),
     "Stopping at the sum of the reciprocals of R₁₃ and R₂₄ gives R_eq = 0.0500 Ω"),
    ("averaged", "balanced", "resistance:R24", Fraction(10 + 20, 2),
     "Taking the average of R₂ and R₄ gives R₂₄ = 15.0 Ω"),
    ("product-over-sum", "cube", "resistance:R123", Fraction(6 * 6 * 6, 6 + 6 + 6),
     "Taking product over sum of R₁, R₂ and R₃ gives R₁₂₃ = 12.0 Ω"),
    ("third-left-out", "cube", "resistance:R123", Fraction(6 * 6, 6 + 6),
     "Taking product over sum of R₁ and R₂ and stopping there gives R₁₂₃ = 3.00 Ω"),
    ("going-on", "cube", "resistance:total", Fraction(18 + 36 + 18),
     "Adding the members of each group and going on from there gives R_eq = 72.0 Ω"),
    # 20 · 40/60 beside 10 · 20/30, which is 40/3 beside 20/3.
    ("going-on", "balanced", "resistance:total", Fraction(40, 9),
     "Adding the reciprocals of R₁ and R₃ and likewise R₂ and R₄ and going on from there "
     "gives R_eq ≈ 4.44 Ω"),
    ("equal-voltages", "cube", "voltage:R123", Fraction(15, 3),
     "Sharing the voltage equally between R₁₂₃, R_a and R_10,11,12 gives V₁₂₃ = 5.00 V"),
    # With 5 V on each, R4 would carry 5/6 A.
    ("equal-voltages", "cube-currents", "current:R4", Fraction(5, 6),
     "Sharing the voltage equally between R₁₂₃, R_a and R_10,11,12 gives I₄ ≈ 833 mA"),
    # Without the load, 9 V at each of R1 and R2.
    ("equal-voltages", "sensor", "voltage:open", Fraction(18, 2),
     "Sharing the voltage equally between R₁ and R₂ gives V_open = 9.00 V"),
    # R1, R2 and R3 take 2 parts of 5, and one sixth of the rest goes through R4.
    ("used-up", "cube-currents", "current:R4", 3 * Fraction(3, 5) / 6,
     "Letting R₁₂₃ use up its share of the current gives I₄ = 300 mA"),
    ("used-up", "balanced", "current:R3", Fraction(2, 10) * Fraction(40, 60),
     "Letting R₁ use up its share of the current gives I₃ ≈ 133 mA"),
    ("inner-uncharged", "c-cube", "charge:C4", Fraction(0),
     "Leaving C_a uncharged because neither of its plates is wired to the source gives Q₄ = 0 C"),
    # 1/2, 1 and 1/2 are as 1, 2 and 1.
    ("divided-the-wrong-way", "cube", "voltage:R123", Fraction(15, 4),
     "Dividing the voltage between R₁₂₃, R_a and R_10,11,12 in inverse proportion to their "
     "resistances gives V₁₂₃ = 3.75 V"),
    ("split-the-wrong-way", "balanced", "current:R1", Fraction(6, 10) * Fraction(60, 90),
     "Splitting the current between R₁₃ and R₂₄ in proportion to their resistances "
     "gives I₁ = 400 mA"),
    ("group-for-one", "cube", "current:R1", Fraction(3),
     "Taking the whole current of R₁, R₂ and R₃ together for R₁ gives I₁ = 3.00 A"),
    ("group-for-one", "cube-currents", "current:R4", Fraction(3),
     "Taking the whole current of the group for R₄ gives I₄ = 3.00 A"),
    ("chain-charges-added", "c-cube", "charge:total", 3 * 108 * MICRO,
     "Adding up the charges of C₁₂₃, C_a and C_10,11,12 along the chain gives Q = 324 µC"),
    ("whole-voltage", "bridge", "current:R3", Fraction(24, 35),
     "Taking the source's whole voltage for R₃ gives I₃ ≈ 686 mA"),
    ("whole-voltage", "sensor", "voltage:open", Fraction(18),
     "Taking the source's whole voltage for the open ends gives V_open = 18.0 V"),
    ("first-alone", "cube", "current:total", Fraction(15, 2),
     "Letting R₁₂₃, the first in the chain, alone decide how much current comes gives I = 7.50 A"),
    ("half-dropped", "charges", "energy:C1", 36 * 4 * MICRO,
     "Taking Q₁ times V₁ without the ½ gives U₁ = 144 µJ"),
    ("charge-for-capacitance", "charges", "energy:C1", Fraction(36 * 4 * 4, 2) * MICRO,
     "Writing Q₁ for C₁ in U = ½CV² gives U₁ = 288 µJ"),
    ("wrong-pair", "powers", "power:R1", Fraction(2, 10) * 12,
     "Pairing I₁ with V₁₃ gives P₁ = 2.40 W"),
]  # fmt: skip

# University Physics Volume 2 (OpenStax), section 10.1, and College Physics 2e, section 21.2:
# emf, internal resistance and load.
BATTERIES_WITH_INSIDES = [
    ("12", "0.1", "10", Fraction(12, 10), "gives I₁ = 1.20 A"),
    ("12", "0.5", "0.5", 12 / Fraction(1, 2), "gives I₁ = 24.0 A"),
    ("1.58", "0.1", "2.3", Fraction(158, 230), "gives I₁ ≈ 687 mA"),
]


def _told(rule: str, display: NetworkDisplay, key: str) -> dict[str, Fraction]:
    """What a rule alone says of a quantity, with its numbers."""
    slips = [slip for slip in slips_of(display, [BY_ID[rule]]) if slip.wrong.name == name_of(key)]
    assert all(slip.wrong.step in {step.id for step in display.solution.steps} for slip in slips)
    return {plain(slip.sentence, display): as_fraction(slip.wrong.value) for slip in slips}


WORKED = [*BRIDGES, *SOURCES, *SIGNS, *OPEN_ENDS, *AS_IN_NESTS]


@pytest.mark.parametrize(("rule", "called", "key", "value", "sentence"), WORKED)
def test_a_wrong_rule_leads_to_its_number(
    rule: str, called: str, key: str, value: Fraction, sentence: str
) -> None:
    """The number, worked by hand in the table, and the sentence that tells it."""
    assert _told(rule, display_of(*CIRCUITS[called]), key)[f"{sentence}."] == value


@pytest.mark.parametrize(("emf", "inner", "load", "value", "sentence"), BATTERIES_WITH_INSIDES)
def test_without_its_inside_a_battery_drives_more(
    emf: str, inner: str, load: str, value: Fraction, sentence: str
) -> None:
    """All of the voltage lies at the load, which carries emf over resistance."""
    text = (
        "title: A battery\ncircuit:\n  branches:\n"
        f"    E1: {{emf: {emf} V, inner: {inner} ohm, between: [a, b]}}\n"
        f"    R1: {{resistance: {load} ohm, between: [a, b]}}\nfind: [current: R1]\n"
    )
    told = _told("inner-forgotten", lesson_of_text(text).display, "current:R1")
    assert told == {f"Leaving out the internal resistance of the source {sentence}.": value}


def test_every_rule_is_worked_by_hand() -> None:
    """Three times in the tables above, and once if it is worked in nests as well."""
    rows = Counter(row[0] for row in WORKED)
    rows["inner-forgotten"] = len(BATTERIES_WITH_INSIDES)
    assert set(rows) == set(BY_ID)
    assert all(rows[rule] >= (1 if rule in OF_NESTS_TOO else 3) for rule in BY_ID)
