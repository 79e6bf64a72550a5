"""What a teacher says at each step, sentence by sentence."""

from __future__ import annotations

from dataclasses import replace

import pytest

from builder.circuit.tree import Tree
from builder.problem.model import StepWords
from tests.lesson.telling import asking, lesson_of, parallel, plain, series, words_of


def _numbered(letter: str, last: int) -> list[str]:
    return [f"{letter}{number}" for number in range(1, last + 1)]


CHAIN_OF_C = (
    "follow one another with nothing else joined on in between, so {all} carry the same charge: "
    "{wires}, and what leaves one plate must arrive on the next. Their voltages add up, and since "
    "each voltage is charge over capacitance, the reciprocals of the capacitances add up."
)
ONE_WIRE, WIRES = "the wire between them starts neutral", "the wires between them start neutral"
CHAIN_OF_R = (
    "follow one another with nothing else joined on in between, so {all} carry the same current: "
    "there is no branch where current could leave or join. Their voltages add up, and so do their "
    "resistances."
)
BANK_OF_C = (
    "begin at the same junction and end at the same junction, so {all} have the same voltage. "
    "Their charges add up at that one voltage, and so do their capacitances."
)
BANK_OF_R = (
    "begin at the same junction and end at the same junction, so {all} have the same voltage. "
    "Their currents add up, and since each current is voltage over resistance, the reciprocals of "
    "the resistances add up."
)

FIRST_MERGES = [
    (parallel("C1", "C2"), "C₁ and C₂", BANK_OF_C, "both", "more than either of the two"),
    (parallel("C1", "C2", "C3"), "C₁, C₂ and C₃", BANK_OF_C, "all three",
     "more than any of the three"),
    (series("C1", "C2"), "C₁ and C₂", CHAIN_OF_C.replace("{wires}", ONE_WIRE), "both",
     "less than either of the two"),
    (series("C1", "C2", "C3"), "C₁, C₂ and C₃", CHAIN_OF_C.replace("{wires}", WIRES), "all three",
     "less than any of the three"),
    (parallel("R1", "R2"), "R₁ and R₂", BANK_OF_R, "both", "less than either of the two"),
    (parallel("R1", "R2", "R3"), "R₁, R₂ and R₃", BANK_OF_R, "all three",
     "less than any of the three"),
    (series("R1", "R2"), "R₁ and R₂", CHAIN_OF_R, "both", "more than either of the two"),
    (series("R1", "R2", "R3"), "R₁, R₂ and R₃", CHAIN_OF_R, "all three",
     "more than any of the three"),
    (series(*_numbered("R", 4)), "R₁, R₂, R₃ and R₄", CHAIN_OF_R, "all four",
     "more than any of the four"),
    (series(*_numbered("R", 5)), "R₁ to R₅", CHAIN_OF_R, "all five", "more than any of the five"),
    (parallel(*_numbered("C", 12)), "C₁ to C₁₂", BANK_OF_C, "all twelve",
     "more than any of the twelve"),
    (parallel("C2", "C1", "C3", "C4", "C5"), "C₂, C₁, C₃, C₄ and C₅", BANK_OF_C, "all five",
     "more than any of the five"),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "named", "reason", "everyone", "compared"), FIRST_MERGES)
def test_the_first_merge_of_a_kind_is_told_in_full(
    tree: Tree, named: str, reason: str, everyone: str, compared: str
) -> None:
    """Two, three or more members, in series or in parallel, of either law."""
    goal, why, remark = words_of(asking(tree, None), "merge-total")
    kind = "in parallel" if "begin at" in reason else "in series"
    joined = "share both junctions" if kind == "in parallel" else "form one chain"
    noun = "capacitors" if named.startswith("C") else "resistors"
    assert goal == f"Merge {named}, which {joined}"
    assert why == f"{named} {reason.format(all=everyone)}"
    assert remark == f"That is {compared}, as it must be for {noun} {kind}."


C_NEST = series("C1", parallel("C2", "C3"))
LADDER = parallel("R1", series("R2", parallel("R3", "R4")))
C_LADDER = parallel("C1", series("C2", parallel("C3", "C4")))
THREE_PAIRS = series(parallel("R1", "R2"), parallel("R3", "R4"), parallel("R5", "R6"))
TWO_CHAINS = series("C1", parallel(series("C2", "C3"), series("C4", "C5")))

LATER_MERGES = [
    (C_NEST, "merge-C23", "Merge C₂ and C₃, which share both junctions",
     f"C₂ and C₃ {BANK_OF_C.format(all='both')}",
     "That is more than either of the two, as it must be for capacitors in parallel."),
    (C_NEST, "merge-total", "Merge what is left, C₁ and C₂₃",
     f"C₁ and C₂₃ {CHAIN_OF_C.format(all='both', wires=ONE_WIRE)}",
     "That is less than either of the two, as it must be for capacitors in series."),
    (LADDER, "merge-R234", "Merge R₂ and R₃₄, which form one chain",
     f"R₂ and R₃₄ {CHAIN_OF_R.format(all='both')}",
     "That is more than either of the two, as it must be for resistors in series."),
    (LADDER, "merge-total", "Merge what is left, R₁ and R₂₃₄",
     "R₁ and R₂₃₄ share both junctions, so again they have the same voltage, and the reciprocals "
     "of their resistances add up.",
     "Again, that is less than either of the two."),
    (C_LADDER, "merge-total", "Merge what is left, C₁ and C₂₃₄",
     "C₁ and C₂₃₄ share both junctions, so again they have the same voltage, and their "
     "capacitances add up.",
     "Again, that is more than either of the two."),
    (TWO_CHAINS, "merge-C45", "Merge C₄ and C₅, which form one chain",
     "C₄ and C₅ follow one another with nothing joined on in between, so again they carry the "
     "same charge, and the reciprocals of their capacitances add up.",
     "Again, that is less than either of the two."),
    (TWO_CHAINS, "merge-total", "Merge what is left, C₁ and C₂₃₄₅",
     "The same once more: C₁ and C₂₃₄₅ form one chain, so the reciprocals of their capacitances "
     "add up.", ""),
    (THREE_PAIRS, "merge-R56", "Merge R₅ and R₆, which share both junctions",
     "The same once more: R₅ and R₆ share both junctions, so the reciprocals of their "
     "resistances add up.", ""),
    (parallel(series("R1", "R2"), series("R3", "R4", "R5")), "merge-R345",
     "Merge R₃, R₄ and R₅, which form one chain",
     "R₃, R₄ and R₅ follow one another with nothing joined on in between, so again they carry "
     "the same current, and their resistances add up.",
     "Again, that is more than any of the three."),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "step", "goal", "reason", "remark"), LATER_MERGES)
def test_later_merges_say_less(tree: Tree, step: str, goal: str, reason: str, remark: str) -> None:
    """A kind that was told in full comes again in short, and then in shorter; so do remarks."""
    assert words_of(asking(tree, None), step) == (goal, reason, remark)


ACROSS = "sits straight across the source, so it has the source's whole voltage."
DRIVES = [
    (series("C1", "C2"), "12 V", (), "charge", "Find the charge that the source delivers",
     "Only C_eq is left, straight across the source, and it has the source's whole voltage. Its "
     "charge follows from Q = CV."),
    (series("R1", "R2"), "12 V", (), "current", "Find the current that the source delivers",
     "Only R_eq is left, straight across the source, and it has the source's whole voltage. Its "
     "current follows from I = V/R."),
    (parallel("C1", "C2"), "12 uC", (), "charge", "Find the voltage across the whole circuit",
     "C_eq carries the whole charge of the source, so its voltage follows from V = Q/C."),
    (parallel("R1", "R2"), "2 A", (), "current", "Find the voltage across the whole circuit",
     "R_eq carries the whole current of the source, so its voltage follows from V = RI."),
    ("C1", "12 V", (), "charge", "Find the charge on C₁",
     f"C₁ {ACROSS} Its charge follows from Q = CV."),
    ("R1", "12 V", (), "current", "Find the current through R₁",
     f"R₁ {ACROSS} Its current follows from I = V/R."),
    ("C1", "12 uC", (), "charge", "Find the voltage across C₁",
     "C₁ carries the whole charge of the source, so its voltage follows from V = Q/C."),
    ("R1", "2 A", (), "current", "Find the voltage across R₁",
     "R₁ carries the whole current of the source, so its voltage follows from V = RI."),
    ("C1", "12 V", ("energy:C1",), "charge", "Find the voltage across C₁", f"C₁ {ACROSS}"),
    ("R1", "2 A", ("power:R1",), "current", "Find the current through R₁",
     "R₁ carries the whole current of the source."),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "source", "asked", "step", "goal", "reason"), DRIVES)
def test_the_source_meets_what_is_left(
    tree: Tree | str, source: str, asked: tuple[str, ...], step: str, goal: str, reason: str
) -> None:
    """A voltage gives the flow and a flow the voltage, of the equivalent or a single element."""
    assert words_of(asking(tree, source, *asked), step) == (goal, reason, "")


# Values: 10, 20, 30 … by number. C1 and C2 in series: 20/3 µF, on 12 V 80 µC.
# R1, R2, R3 in series: 60 Ω, on 12 V 200 mA; R1, R2: 30 Ω, 400 mA; R1 to R6: 210 Ω, 57.14 mA.
# C1 with C2 ∥ C3 = 50 µF: 25/3 µF, 100 µC, so 2 V across the pair.
# R1 with R2 ∥ R3 = 12 Ω: 22 Ω, 6/11 A, so 72/11 = 6.545 V across the pair.
CHAIN = "stood for a chain, and along a chain the"
# R3 ∥ R4 = 120/7 Ω, with R2 260/7 Ω, beside R5 1300/61 Ω, with R1 1910/61 Ω: so 12 V leave
# 12 · 1300/1910 = 8.17 V for the bank, 8.17 V · 7/260 Ω = 220 mA and 3.77 V for R3 ∥ R4.
R_NEST = series("R1", parallel("R2", "R3"))
DEEP_R = series("R1", parallel(series("R2", parallel("R3", "R4")), "R5"))
OPENINGS = [
    (series("C1", "C2"), (), "open-total", "Walk back to C₁ and C₂",
     f"C_eq {CHAIN} charge is the same everywhere. So C₁ and C₂ both carry what C_eq carried: "
     "80.0 µC. The voltages then follow from V = Q/C."),
    (series("R1", "R2", "R3"), (), "open-total", "Walk back to R₁, R₂ and R₃",
     f"R_eq {CHAIN} current is the same everywhere. So R₁, R₂ and R₃ all carry what R_eq "
     "carried: 200 mA. The voltages then follow from V = RI."),
    (series("C1", "C2"), ("voltage:C2",), "open-total", "Walk back to C₂",
     f"C_eq {CHAIN} charge is the same everywhere. So C₂ carries what C_eq carried: 80.0 µC. "
     "The voltage then follows from V = Q/C."),
    (series("R1", "R2"), ("current:R2",), "open-total", "Walk back to R₂",
     f"R_eq {CHAIN} current is the same everywhere. So R₂ carries what R_eq carried: 400 mA."),
    (series(*_numbered("R", 6)), (), "open-total", "Walk back to all six",
     f"R_eq {CHAIN} current is the same everywhere. So R₁ to R₆ all carry what R_eq carried: "
     "57.1 mA. The voltages then follow from V = RI."),
    (series(*_numbered("R", 6)), [f"voltage:R{n}" for n in range(1, 6)], "open-total",
     "Walk back to five of the six",
     f"R_eq {CHAIN} current is the same everywhere. So R₁ to R₅ all carry what R_eq carried: "
     "57.1 mA. The voltages then follow from V = RI."),
    (C_NEST, (), "open-C23", "Walk back to C₂ and C₃",
     "C₂ and C₃ have the same two junctions as C₂₃ had, so the voltage is the same: 2.00 V. The "
     "charges then follow from Q = CV."),
    (R_NEST, ("current:R3",), "open-R23", "Walk back to R₃",
     "R₃ has the same two junctions as R₂₃ had, so the voltage is the same: 6.55 V. The current "
     "then follows from I = V/R."),
    (R_NEST, ("voltage:R3",), "open-R23", "Walk back to R₃",
     "R₃ has the same two junctions as R₂₃ had, so the voltage is the same: 6.55 V."),
    # Only what is asked of some members is told of these.
    (series("C1", "C2"), ("charge:C1", "voltage:C2"), "open-total", "Walk back to C₁ and C₂",
     f"C_eq {CHAIN} charge is the same everywhere. So C₁ and C₂ both carry what C_eq carried: "
     "80.0 µC. The voltage across C₂ then follows from V = Q/C."),
    (series("R1", parallel("R2", "R3", "R4")), ("current:R2", "current:R3", "power:R4"),
     "open-R234", "Walk back to R₂, R₃ and R₄",
     # 1/20 + 1/30 + 1/40 = 13/120 behind 10 Ω: 120/13 of 250/13 Ω, so 5.76 V.
     "R₂, R₃ and R₄ have the same two junctions as R₂₃₄ had, so the voltage is the same: 5.76 V. "
     "The currents through R₂ and R₃ then follow from I = V/R."),
    # A second chain or bank is told in short.
    (DEEP_R, (), "open-R234", "Walk back to R₂ and R₃₄",
     "R₂₃₄ stood for a chain too, so R₂ and R₃₄ both carry what it carried: 220 mA. The voltages "
     "then follow from V = RI."),
    (DEEP_R, (), "open-R34", "Walk back to R₃ and R₄",
     "R₃ and R₄ sit between the same two junctions as R₃₄ did, so they have the same voltage: "
     "3.77 V. The currents then follow from I = V/R."),
    (DEEP_R, ("current:R4",), "open-R34", "Walk back to R₄",
     "R₄ sits between the same two junctions as R₃₄ did, so it has the same voltage: 3.77 V. The "
     "current then follows from I = V/R."),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "asked", "step", "goal", "reason"), OPENINGS)
def test_walking_back_says_what_is_carried_over(
    tree: Tree, asked: tuple[str, ...], step: str, goal: str, reason: str
) -> None:
    """Same flow along a chain, same voltage across a bank, for all members or for one."""
    assert words_of(asking(tree, "12 V", *asked), step) == (goal, reason, "")


UNMERGED = "No merging is needed for that."
STRAIGHT = [
    (parallel("C1", "C2"), "12 V", ("charge:C1", "charge:C2"), "C₁ and C₂",
     "C₁ and C₂ sit straight across the source, so both have the source's whole voltage. "
     f"{UNMERGED} The charges then follow from Q = CV."),
    (parallel("R1", "R2", "R3"), "12 V", ("current:R1", "current:R2", "current:R3"),
     "R₁, R₂ and R₃",
     "R₁, R₂ and R₃ sit straight across the source, so all three have the source's whole "
     f"voltage. {UNMERGED} The currents then follow from I = V/R."),
    (parallel("R1", "R2", "R3"), "12 V", ("current:R1", "current:R2"), "R₁ and R₂",
     "R₁ and R₂ sit straight across the source, so both have the source's whole voltage, "
     f"whatever hangs beside them. {UNMERGED} The currents then follow from I = V/R."),
    (parallel("C1", "C2"), "12 V", ("charge:C1",), "C₁",
     "C₁ sits straight across the source, so it has the source's whole voltage, whatever hangs "
     "beside it. The charge then follows from Q = CV."),
    (parallel("R1", series("R2", "R3")), "12 V", ("current:R1", "current:R2"), "R₁ and R₂₃",
     "R₁ and R₂₃ sit straight across the source, so both have the source's whole voltage. The "
     "currents then follow from I = V/R."),
    (series("R1", "R2"), "2 A", ("voltage:R1", "voltage:R2"), "R₁ and R₂",
     "R₁ and R₂ each carry the whole current of the source: there is no branch where current "
     f"could leave or join. {UNMERGED} The voltages then follow from V = RI."),
    (series("R1", "R2"), "2 A", ("voltage:R1",), "R₁",
     "R₁ carries the whole current of the source, as everything in its chain does. "
     f"{UNMERGED} The voltage then follows from V = RI."),
    (series("C1", "C2", "C3"), "12 uC", ("voltage:C1", "voltage:C2"), "C₁ and C₂",
     f"C₁ and C₂ each carry the whole charge of the source: {WIRES}, and what leaves one plate "
     f"must arrive on the next. {UNMERGED} The voltages then follow from V = Q/C."),
    (C_NEST, "12 uC", ("voltage:C1", "voltage:C2"), "C₁ and C₂₃",
     f"C₁ and C₂₃ each carry the whole charge of the source: {ONE_WIRE}, and what leaves one "
     "plate must arrive on the next. The voltages then follow from V = Q/C."),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "source", "asked", "named", "reason"), STRAIGHT)
def test_what_the_source_sets_by_itself_is_where_one_starts(
    tree: Tree, source: str, asked: tuple[str, ...], named: str, reason: str
) -> None:
    """Straight across a voltage, or in the chain that a charge or current goes through."""
    told = words_of(asking(tree, source, *asked), "open-total")
    assert told == (f"Start at the source with {named}", reason, "")


HALF = (
    "While a capacitor charges, its voltage climbs from zero to its final value, so the charge "
    "moves across half of it on average. That is where the ½ comes from."
)
HEAT = "A resistor turns energy into heat at the rate of its voltage times its current."
WORKS = [
    (series("C1", "C2"), (), "energy", "Find the energy stored in C₁ and C₂", HALF),
    (series("R1", "R2"), (), "power", "Find the power in R₁ and R₂", HEAT),
    (parallel("C1", "C2"), ("energy:C1",), "energy", "Find the energy stored in C₁",
     f"{HALF} Here we know the voltage, so Q = CV stands in for the charge."),
    (series("C1", "C2"), ("energy:C2",), "energy", "Find the energy stored in C₂",
     f"{HALF} Here we know the charge, so V = Q/C stands in for the voltage."),
    (parallel("R1", "R2"), ("power:R1", "power:R2"), "power", "Find the power in R₁ and R₂",
     f"{HEAT} Here we know the voltage, so I = V/R stands in for the current."),
    (series("R1", "R2"), ("power:R1",), "power", "Find the power in R₁",
     f"{HEAT} Here we know the current, so V = RI stands in for the voltage."),
    (R_NEST, ("power:R1", "power:R2"), "power", "Find the power in R₁ and R₂",
     f"{HEAT} Where only the current or only the voltage is known, V = RI or I = V/R stands in "
     "for the other."),
    (C_NEST, ("energy:C1", "energy:C2"), "energy", "Find the energy stored in C₁ and C₂",
     f"{HALF} Where only the charge or only the voltage is known, V = Q/C or Q = CV stands in "
     "for the other."),
    (series("C1", "C2"), (), "energy-total", "Find the energy of the whole circuit",
     "Nothing is counted twice, so we add up what each capacitor stores."),
    (series("R1", "R2"), (), "power-total", "Find the power of the whole circuit",
     "Nothing is counted twice, so we add up what each resistor turns into heat."),
    (series("C1", "C2"), ("energy:total",), "energy-total", "Find the energy of the whole circuit",
     "Seen from the source the whole circuit is one capacitor, so its energy follows as for a "
     "single one, with the same ½."),
    (series("R1", "R2"), ("power:total",), "power-total", "Find the power of the whole circuit",
     "Seen from the source the whole circuit is one resistor, so its power follows as for a "
     "single one."),
    (parallel("C1", "C2"), ("charge:C1", "charge:C2", "charge:total"), "charge-total",
     "Add up what the source delivers",
     "At the source's terminal the charges of all branches come together, so the source delivers "
     "their sum."),
    (parallel("R1", "R2"), ("current:R1", "current:R2", "current:total"), "current-total",
     "Add up what the source delivers",
     "At the source's terminal the currents of all branches come together, so the source delivers "
     "their sum."),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "asked", "step", "goal", "reason"), WORKS)
def test_energy_power_and_totals(
    tree: Tree, asked: tuple[str, ...], step: str, goal: str, reason: str
) -> None:
    """The reason names the law that stands in for what is not known, and how a sum is allowed."""
    assert words_of(asking(tree, "12 V", *asked), step) == (goal, reason, "")


MERGED_GOAL = "Merge what is left, C₁ and C₂₃"
MERGED_REASON = f"C₁ and C₂₃ {CHAIN_OF_C.format(all='both', wires=ONE_WIRE)}"
MERGED_REMARK = "That is less than either of the two, as it must be for capacitors in series."
OWN = [
    (StepWords(goal="Tie it *all* up"), ("Tie it *all* up", MERGED_REASON, MERGED_REMARK)),
    (StepWords(reason="See {C1}."), (MERGED_GOAL, "See {C1}.", "")),
    (StepWords(goal="Up", reason="Because."), ("Up", "Because.", "")),
    (StepWords(), (MERGED_GOAL, MERGED_REASON, MERGED_REMARK)),
]


@pytest.mark.parametrize(("own", "told"), OWN)
def test_an_authors_own_words_replace_the_generated_ones(
    own: StepWords, told: tuple[str, str, str]
) -> None:
    """Goal and reason each on their own; a remark would not fit to a reason it does not know."""
    problem = replace(asking(C_NEST, "12 V"), words={"merge-total": own})
    assert words_of(problem, "merge-total") == told
    assert words_of(problem, "merge-C23")[0] == "Merge C₂ and C₃, which share both junctions"


PLANS = [
    (C_NEST, "12 V", (),
     "In two moves, merge from the inside out until one capacitor is left. Find its charge, "
     "then walk back to the single elements. The energy comes last."),
    (R_NEST, "12 V", ("current:R2",),
     "In two moves, merge from the inside out until one resistor is left. Find its current, "
     "then walk back to the single elements."),
    (series("R1", "R2"), "12 V", ("voltage:R1",),
     "Merge everything into one resistor in a single move. Find its current, then walk "
     "back."),
    (series("R1", "R2"), "12 V", ("current:total",),
     "Merge everything into one resistor in a single move. Then find its current."),
    (parallel("C1", "C2"), "12 V", ("energy:total",),
     "Merge everything into one capacitor in a single move. The energy comes last."),
    (series("R1", "R2"), "2 A", ("voltage:R1", "power:total"),
     "Merge everything into one resistor in a single move. Then walk back. The power comes last."),
    (C_NEST, None, (),
     "In two moves, merge from the inside out until one capacitor is left."),
    (parallel("R1", "R2"), None, (), "Merge everything into one resistor in a single move."),
    (parallel("R1", series("R2", "R3")), "12 V", ("current:R2",),
     "Merge only the one group that we need, then work outward from the source."),
    (parallel("R1", series("R2", "R3"), series("R4", "R5")), "12 V", ("current:R2", "current:R4"),
     "Merge only the two groups that we need, then work outward from the source."),
    (parallel("C1", "C2"), "12 V", ("charge:C1",),
     "Nothing has to be merged: the source sets the voltage of every element that is asked "
     "about."),
    (series("C1", "C2"), "6 uC", ("voltage:C1",),
     "Nothing has to be merged: the source sets the charge of every element that is asked about."),
    (parallel("R1", "R2"), "12 V", ("current:R1", "current:R2", "current:total", "power:total"),
     "Nothing has to be merged: the source sets the voltage of every element that is asked about. "
     "The currents of the branches then add up. The power comes last."),
    ("C1", "12 V", ("charge:C1",),
     "There is nothing to merge: the source sets the voltage across C₁ itself."),
    ("R1", "2 A", ("voltage:R1", "power:R1"),
     "There is nothing to merge: the source sets the current through R₁ itself. The power comes "
     "last."),
    ("C1", "6 uC", ("voltage:C1",),
     "There is nothing to merge: the source sets the charge on C₁ itself."),
    (series("C1", "C2"), "12 V", ("voltage:total",), "What is asked is given already."),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "source", "asked", "told"), PLANS)
def test_the_plan_tells_the_moves_in_order(
    tree: Tree | str, source: str | None, asked: tuple[str, ...], told: str
) -> None:
    """Merging, the source, the way back, energy or power: as far as the solution goes."""
    lesson = lesson_of(asking(tree, source, *asked))
    assert plain(lesson.plan, lesson.display) == told


def test_an_authors_own_plan_is_the_plan() -> None:
    """Whatever the circuit."""
    lesson = lesson_of(replace(asking(C_NEST, "12 V"), plan="First the pair, then the rest."))
    assert plain(lesson.plan, lesson.display) == "First the pair, then the rest."
