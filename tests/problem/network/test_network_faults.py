"""What is told of mistakes in general networks; each sentence was read aloud."""

from __future__ import annotations

import pytest

from tests.problem.samples import changed, faults_of

BASE = """\
title: Two batteries on one line
circuit:
  branches:
    E1: {emf: 9 V, between: [a, g]}
    E2: {emf: 6 V, between: [b, g]}
    R1: {resistance: 2 ohm, between: [a, c]}
    R2: {resistance: 4 ohm, between: [b, c]}
    R3: {resistance: 4 ohm, between: [c, g]}
find: current
"""
CAPS = (
    BASE.replace("current", "charge")
    .replace("R", "C")
    .replace("resistance", "capacitance")
    .replace(" ohm", " uF")
)
ONE = BASE.replace("    E2: {emf: 6 V, between: [b, g]}\n", "").replace("[b, c]", "[a, c]")
NAMED = BASE.replace("R3", "r_E1")
VOLTS = BASE.replace("E1", "V1").replace("E2", "V2")
SERIES = """\
title: Two lamps
circuit:
  source: {E1: 3 V}
  across: [a, g]
  reference: g
  branches:
    R1: {resistance: 2 ohm, between: [a, c]}
    R2: {resistance: 4 ohm, between: [c, g]}
find: current
"""
NONE = """\
title: Two resistors
circuit:
  branches:
    R1: {resistance: 2 ohm, between: [a, c]}
    R2: {resistance: 4 ohm, between: [c, a]}
find: equivalent
"""
ACROSS = NONE.replace("  branches", "  across: [a, c]\n  branches")


@pytest.mark.parametrize("text", [BASE, CAPS, ONE, NAMED, VOLTS, SERIES, ACROSS])
def test_the_samples_are_sound(text: str) -> None:
    """Every fault below comes from its one change."""
    assert faults_of(text) == []


@pytest.mark.parametrize(
    ("sample", "old", "new", "faults"),
    [
        pytest.param(
            BASE,
            "a, g]",
            "a, a]",
            [
                '4:33: found both ends of E1 at the junction "a"; expected two different '
                "junctions. Change one of the two."
            ],
            id="source-shorted",
        ),
        pytest.param(
            BASE,
            "    R1",
            "    E3: {emf: 2 V, between: [a, b]}\n    R1",
            [
                "6:5: found E3 of 2 V between two points where E2 and E1 already make 3 V the "
                "same way round; expected sources that agree wherever they share both ends. "
                "Two points have one voltage only. Give one of them an internal resistance, "
                "such as inner: 0.5 ohm, or change a value."
            ],
            id="sources-in-a-loop-disagree",
        ),
        pytest.param(
            BASE,
            "    R1",
            "    E3: {emf: 2 V, between: [a, g]}\n    R1",
            [
                "6:5: found E3 of 2 V between two points where E1 already makes 9 V the same "
                "way round; expected sources that agree wherever they share both ends. Two "
                "points have one voltage only. Give one of them an internal resistance, such "
                "as inner: 0.5 ohm, or change a value."
            ],
            id="sources-side-by-side-disagree",
        ),
        pytest.param(
            BASE,
            "    R1",
            "    E3: {emf: 9 V, between: [g, a]}\n    R1",
            [
                "6:5: found E3 of 9 V between two points where E1 already makes 9 V the other "
                "way round; expected sources that agree wherever they share both ends. Two "
                "points have one voltage only. Give one of them an internal resistance, such "
                "as inner: 0.5 ohm, or change a value."
            ],
            id="sources-back-to-back",
        ),
        pytest.param(
            BASE,
            "    R1",
            "    E3: {emf: 3 V, between: [a, b]}\n    R1",
            [
                "6:5: found E3, which closes a loop of sources alone: E2, E1 and E3; expected "
                "an element in each loop. They agree, but nothing tells how much flows round "
                "the loop. Give one of them an internal resistance, such as inner: 0.5 ohm."
            ],
            id="sources-in-a-loop-agree",
        ),
        pytest.param(
            CAPS,
            "    C1",
            "    E3: {emf: 2 V, between: [a, g]}\n    C1",
            [
                "6:5: found E3 of 2 V between two points where E1 already makes 9 V the same "
                "way round; expected sources that agree wherever they share both ends. Two "
                "points have one voltage only. Leave one of them out, or change a value."
            ],
            id="sources-of-capacitors-disagree",
        ),
        pytest.param(
            CAPS,
            "    C1",
            "    J1: {current: 1 A, between: [a, b]}\n    C1",
            [
                "6:5: found the current source J1 in a circuit of capacitors; expected sources "
                "of voltage. A steady current would charge the capacitors for ever. Write emf: "
                "with a voltage."
            ],
            id="current-into-capacitors",
        ),
        pytest.param(
            CAPS,
            "9 V,",
            "9 V, inner: 1 ohm,",
            [
                "4:20: found inner, in a circuit of capacitors; expected sources without "
                "internal resistance. Delete it: it changes nothing once no charge moves any "
                "more."
            ],
            id="inner-among-capacitors",
        ),
        pytest.param(
            BASE,
            "find",
            "    J1: {current: 1 A, between: [x, c]}\n"
            "    J2: {current: 2 A, between: [g, x]}\n"
            "find",
            [
                '10:5: found J1 and J2, the only ways into the junction "x"; expected a way '
                "through elements or voltage sources as well. 1 A would flow out and never in "
                "again. Connect an element there, or leave a source out."
            ],
            id="currents-in-series-disagree",
        ),
        pytest.param(
            BASE,
            "find",
            "    J1: {current: 1 A, between: [x, c]}\n"
            "    J2: {current: 1 A, between: [g, x]}\n"
            "find",
            [
                '10:5: found J1 and J2, the only ways into the junction "x"; expected a way '
                "through elements or voltage sources as well. They agree, but nothing tells "
                "the voltage across them. Connect an element there, or leave a source out."
            ],
            id="currents-in-series-agree",
        ),
        pytest.param(
            BASE,
            "find",
            "    J1: {current: 1 A, between: [x, c]}\n"
            "    R4: {resistance: 1 ohm, between: [x, y]}\n"
            "    R5: {resistance: 1 ohm, between: [x, y]}\n"
            "find",
            [
                "10:39: found R4 and R5, which meet the rest of the circuit at the junction "
                '"x" alone; expected elements that something drives. They would carry nothing. '
                "Connect them at a second junction, or leave them out."
            ],
            id="one-current-into-a-part",
        ),
        pytest.param(
            BASE,
            "find",
            "    J1: {current: 1 A, between: [x, c]}\n"
            "    J2: {current: 1 A, between: [g, y]}\n"
            "    R4: {resistance: 1 ohm, between: [x, y]}\n"
            "find",
            [
                '10:5: found J1 and J2, the only ways into the junctions "x" and "y"; expected '
                "a way through elements or voltage sources as well. They agree, but nothing "
                "tells the voltage across them. Connect an element there, or leave a source "
                "out."
            ],
            id="currents-into-a-part",
        ),
        pytest.param(
            BASE,
            "[c, g]",
            "[c, k]",
            [
                '8:42: found the junction "k", where nothing but R3 ends; expected at least '
                "two elements at each junction between the terminals. Connect another element "
                "there, or leave R3 out."
            ],
            id="dangling-element",
        ),
        pytest.param(
            BASE,
            "[b, g]",
            "[b, k]",
            [
                '5:33: found the terminal "k", which no element reaches; expected a junction '
                "at which an element ends. Check the junctions of the elements."
            ],
            id="dangling-source",
        ),
        pytest.param(
            BASE,
            "[c, g]",
            "[cc, g]",
            [
                '8:39: found the junction "cc", where nothing but R3 ends; expected at least '
                'two elements at each junction between the terminals. Did you mean "c"?'
            ],
            id="misspelled-junction",
        ),
        pytest.param(
            BASE,
            "9 V, between: [a, g]",
            "9 V, inner: 1 ohm, between: [k, g]",
            [
                '4:44: found the junction "k", where nothing but E1 ends; expected at least '
                "two elements at each junction between the terminals. Connect another element "
                "there, or leave E1 out.",
                '6:39: found the junction "a", where nothing but R1 ends; expected at least '
                "two elements at each junction between the terminals. Connect another element "
                "there, or leave R1 out.",
            ],
            id="dangling-inner",
        ),
        pytest.param(
            BASE,
            "find",
            "    R4: {resistance: 1 ohm, between: [x, y]}\n"
            "    R5: {resistance: 1 ohm, between: [y, x]}\n"
            "find",
            [
                "9:5: found R4 and R5, which nothing joins to the rest of the circuit; "
                "expected one circuit that hangs together. Check the names of the junctions, "
                "or make two problems of it."
            ],
            id="unreachable-resistors",
        ),
        pytest.param(
            CAPS,
            "find",
            "    C4: {capacitance: 1 uF, between: [x, y]}\n"
            "    C5: {capacitance: 1 uF, between: [y, x]}\n"
            "find",
            [
                "9:5: found C4 and C5, which nothing joins to the rest of the circuit; "
                "expected one circuit that hangs together. Nothing fixes the voltage of such "
                "an island of capacitors. Check the names of the junctions, or make two "
                "problems of it."
            ],
            id="island-of-capacitors",
        ),
        pytest.param(
            BASE,
            "find",
            "    R4: {resistance: 1 ohm, between: [c, y]}\n"
            "    R5: {resistance: 1 ohm, between: [y, c]}\n"
            "find",
            [
                '9:39: found R4 and R5, which meet the rest of the circuit at the junction "c" '
                "alone; expected elements that something drives. They would carry nothing. "
                "Connect them at a second junction, or leave them out."
            ],
            id="hanging-on-one-junction",
        ),
        pytest.param(
            BASE,
            "4 ohm, between: [b",
            "0 ohm, between: [b",
            [
                "7:22: found a resistor of 0 Ω, R2; expected a resistance above zero. Leave R2 "
                "out, or change its value."
            ],
            id="zero",
        ),
        pytest.param(
            BASE,
            "4 ohm, between: [b",
            "-4 ohm, between: [b",
            [
                "7:22: found a resistor of −4 Ω, R2; expected a resistance above zero. Delete "
                "the minus sign."
            ],
            id="negative",
        ),
        pytest.param(
            BASE,
            "4 ohm, between: [b",
            "inf ohm, between: [b",
            ['7:22: found "inf ohm"; expected a resistance such as 100 ohm. Start with a number.'],
            id="infinite",
        ),
        pytest.param(
            BASE,
            "6 V",
            "0 V",
            [
                "5:15: found a source of 0 V; expected a voltage above zero. Leave the source "
                "out, or change its value."
            ],
            id="zero-source",
        ),
        pytest.param(
            BASE,
            "6 V",
            "-6 V",
            ["5:15: found a source of −6 V; expected a voltage above zero. Delete the minus sign."],
            id="negative-source",
        ),
        pytest.param(
            BASE,
            "6 V,",
            "6 V, inner: 0 ohm,",
            [
                "5:27: found an internal resistance of 0 Ω; expected a resistance above zero. "
                "Leave inner out for a source without one."
            ],
            id="zero-inner",
        ),
        pytest.param(
            BASE,
            "6 V,",
            "6 V, inner: -1 ohm,",
            [
                "5:27: found an internal resistance of −1 Ω; expected a resistance above zero. "
                "Delete the minus sign."
            ],
            id="negative-inner",
        ),
        pytest.param(
            BASE,
            "6 V,",
            "6 V, inner: 3 V,",
            [
                '5:27: found "3 V", a voltage; expected a resistance such as 100 ohm. Change '
                "the unit: V measures voltage."
            ],
            id="inner-of-volts",
        ),
        pytest.param(
            BASE,
            "4 ohm, between: [c",
            "4 ohm, inner: 1 ohm, between: [c",
            [
                "8:29: found inner beside resistance; expected inner only beside emf. Give the "
                "resistor a branch of its own."
            ],
            id="inner-of-a-resistor",
        ),
        pytest.param(
            BASE,
            "4 ohm, between: [c",
            "4 ohm, charged: 1 V, between: [c",
            [
                "8:29: found charged beside resistance; expected charged only beside "
                "capacitance. Delete it: only a capacitor can start charged."
            ],
            id="charged-resistor",
        ),
        pytest.param(
            BASE,
            "    R1",
            "    J1: {current: 6 V, between: [a, c]}\n    R1",
            [
                '6:19: found "6 V", a voltage; expected a current such as 2 A. Change the '
                "unit: V measures voltage."
            ],
            id="current-of-volts",
        ),
        pytest.param(
            BASE,
            "6 V,",
            "6 V, current: 1 A,",
            [
                "5:20: found two values for E2; expected current or emf, not both. Delete one "
                "of them."
            ],
            id="two-sources-in-one-row",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  method: loop\n  branches",
            [
                '3:11: found "loop"; expected merge, balance, symmetry, delta-star, junctions, '
                'loops, superposition or equivalent-source. Did you mean "loops"?'
            ],
            id="unknown-method",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  method: merge\n  branches",
            [
                "3:11: found method: merge in a circuit of several sources; expected "
                "junctions, loops, superposition or equivalent-source. Circuits get smaller "
                "step by step only where a single source drives them."
            ],
            id="merge-several-sources",
        ),
        pytest.param(
            ONE,
            "  branches",
            "  method: superposition\n  branches",
            [
                "3:11: found method: superposition with fewer than two sources; expected at "
                "least two sources. Delete the method, or choose another one."
            ],
            id="superposition-of-one",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  method: equivalent-source\n  branches",
            [
                "3:11: found method: equivalent-source without two points; expected load: with "
                "an element, or across: with two junctions. Say what the equivalent source is "
                "to drive."
            ],
            id="equivalent-source-of-nothing",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  load: R3\n  branches",
            [
                "3:3: found load without an equivalent source; expected load only with method: "
                "equivalent-source. Delete load, or add method: equivalent-source."
            ],
            id="load-without-equivalent-source",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  across: [c, g]\n  branches",
            [
                "3:3: found across beside a source with its own ends; expected only one of the "
                "two. Delete across, or add method: equivalent-source."
            ],
            id="across-beside-sources",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  method: equivalent-source\n  load: R4\n  branches",
            [
                '4:9: found "R4", which is no element of the circuit; expected R1, R2 or R3. '
                "Check its spelling."
            ],
            id="unknown-load",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  method: equivalent-source\n  load: E1\n  branches",
            [
                '4:9: found "E1", which is no element of the circuit; expected R1, R2 or R3. '
                "Check its spelling."
            ],
            id="source-as-load",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  method: equivalent-source\n  across: [c, k]\n  branches",
            [
                '4:15: found the terminal "k", which no element reaches; expected a junction '
                "at which an element ends. Check the junctions of the elements."
            ],
            id="unknown-point",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  method: equivalent-source\n  across: [c, g]\n  load: R3\n  branches",
            [
                "5:3: found load beside across; expected only one of the two. Delete across: "
                "the load's ends are the two points."
            ],
            id="load-and-across",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  reference: k\n  branches",
            [
                '3:14: found "k", which is no junction of the circuit; expected a, g, b or c. '
                "Check its spelling."
            ],
            id="unknown-reference",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  place: {a: [0, 1], k: [1, 1]}\n  branches",
            [
                '3:22: found "k", which is no junction of the circuit; expected a, g, b or c. '
                "Name one of the circuit."
            ],
            id="place-of-no-junction",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  place: {a: [0, 1], b: [0, 1]}\n  branches",
            [
                "3:25: found b in the place of a; expected each junction in a place of its "
                "own. Move one of the two."
            ],
            id="two-in-one-place",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  place: {a: left}\n  branches",
            [
                '3:14: found "left"; expected a column and a row, such as [1, 2]. Write two '
                "numbers from -100 to 100 in square brackets."
            ],
            id="place-in-words",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  source: 3 V\n  branches",
            [
                "3:3: found source beside the source E1 in branches; expected every source in "
                "the branches, with its ends. Move it there, such as V2: {emf: 3 V, between: "
                "[top, bottom]}, or delete it."
            ],
            id="source-beside-sources",
        ),
        pytest.param(
            BASE,
            "  branches",
            "  series: [R7: 1 ohm, R8: 1 ohm]\n  branches",
            [
                '3:3: found "series" beside branches; expected branches, source, across, '
                "method, load, reference or place. Put all elements under branches:."
            ],
            id="series-beside-branches",
        ),
        pytest.param(
            BASE,
            "find: current",
            "find: equivalent",
            [
                '9:7: found "equivalent" in a circuit of several sources; expected '
                "inner-resistance. Write inner-resistance for what two points see, with "
                "method: equivalent-source and across: for the two points."
            ],
            id="equivalent-of-several-sources",
        ),
        pytest.param(
            BASE,
            "find: current",
            "find: open-voltage",
            [
                '9:7: found "open-voltage" without an equivalent source; expected method: '
                "equivalent-source in the circuit. Add it there, with load: or with across: "
                "for the two points."
            ],
            id="open-voltage-without-method",
        ),
        pytest.param(
            BASE,
            "find: current",
            "find: [current: total]",
            [
                '9:17: found "current: total" in a circuit of several sources; expected '
                "current: E1 or current: E2. Say which source is meant."
            ],
            id="total-of-several-sources",
        ),
        pytest.param(
            BASE,
            "find: current",
            "find: [voltage: E1]",
            [
                "9:17: found the voltage of E1, which is given; expected a quantity that is "
                "not given. Delete it, or name elements."
            ],
            id="given-voltage",
        ),
        pytest.param(
            BASE,
            "find: current",
            "find: [potential: k]",
            [
                '9:19: found "k", which is no junction of the circuit; expected a, g, b or c. '
                "Name a junction of this circuit."
            ],
            id="potential-of-no-junction",
        ),
        pytest.param(
            BASE,
            "find: current",
            "find: ['voltage: between a and k']",
            [
                '9:8: found "k", which is no junction of the circuit; expected a, g, b or c. '
                "Name a junction of this circuit."
            ],
            id="between-no-junction",
        ),
        pytest.param(
            BASE,
            "find: current",
            "find: ['voltage: between a']",
            [
                '9:8: found "between a"; expected between two junctions, such as between a and '
                "b. Name the two junctions, with the word and between them."
            ],
            id="between-one",
        ),
        pytest.param(
            BASE,
            "find: current",
            "find: ['voltage: between a and a']",
            [
                '9:8: found "between a and a"; expected two different junctions. Change one of '
                "the two."
            ],
            id="between-twice-the-same",
        ),
        pytest.param(
            BASE,
            "find: current",
            "find: [current: R4]",
            [
                '9:17: found "R4", which is no element of the circuit; expected R1, R2, R3, '
                "all or total. Name an element of this circuit."
            ],
            id="unknown-element",
        ),
        pytest.param(
            BASE,
            "find: current",
            "find: [charge: R1]",
            [
                '9:8: found "charge"; expected a quantity of resistors: equivalent, current, '
                "voltage, power or potential. Resistors have no charge; did you mean current?"
            ],
            id="quantity-of-the-other-kind",
        ),
        pytest.param(
            NAMED,
            "9 V,",
            "9 V, inner: 1 ohm,",
            [
                "4:20: found the internal resistance of E1, which is called r_E1 as an element "
                "is; expected each name once. Give the element another name."
            ],
            id="inner-called-as-an-element",
        ),
        pytest.param(
            BASE,
            "R1:",
            "R_2:",
            [
                '7:5: found the names "R_2" and "R2"; expected names that look different on '
                "the page. Both would be printed alike. Give one of them another name."
            ],
            id="elements-that-look-alike",
        ),
        pytest.param(
            VOLTS,
            "V2:",
            "V_1:",
            [
                '5:5: found the names "V1" and "V_1"; expected names that look different on '
                "the page. Both would be printed alike. Give one of them another name."
            ],
            id="sources-that-look-alike",
        ),
        pytest.param(
            SERIES,
            "E1: 3 V",
            "R1: 3 V",
            [
                '3:12: found the name "R1" for a source and an element; expected each name '
                "once. Give one of the two another name."
            ],
            id="source-and-element-of-one-name",
        ),
        pytest.param(
            NONE,
            "  branches",
            "  reference: a\n  branches",
            [
                "4:3: found branches without terminals; expected a source among the branches, "
                "such as V0: {emf: 9 V, between: [top, bottom]}, or across: [top, bottom]. Add "
                "the source to the branches, or say with across: between which junctions the "
                "circuit is looked at."
            ],
            id="no-terminals",
        ),
        pytest.param(
            ACROSS,
            "  branches",
            "  method: loops\n  branches",
            [
                "4:11: found method: loops in a circuit without a source; expected merge, "
                "balance, symmetry or delta-star. Add a source, or choose another method."
            ],
            id="method-without-a-source",
        ),
    ],
)
def test_mistakes_in_networks_are_told_in_plain_words(
    sample: str, old: str, new: str, faults: list[str]
) -> None:
    """One change to a sound network yields just the faults of that change."""
    told = faults_of(changed(sample, old, new))
    assert told == [f"problem.yml:{fault}" for fault in faults]
