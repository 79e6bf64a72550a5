"""The words of the pages, each with what it means."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from builder.lesson.nest.uses import ASKED, NESTED, SOURCE


@dataclass(frozen=True)
class Word:
    """One entry of the glossary.

    Attributes:
        word: as the pages say it; also, with hyphens, the name of its anchor.
        means: one or two sentences.
        needs: what must occur in a problem for the word to be met there, as ``uses`` tells it;
            empty for words that every page uses.
        best: what should occur in its example, if any problem has it.
        part: the part of a problem's page where it is met; empty for the whole page.
    """

    word: str
    means: str
    needs: str = ""
    best: str = ""
    part: str = ""

    @property
    def anchor(self) -> str:
        """The name of its place on the page."""
        return self.word.replace(" ", "-")


WORDS = (
    Word("bridge", "Two arms side by side with an element between their middles. If both arms "
         "divide the voltage in the same ratio, the bridge is balanced and that element carries "
         "nothing.", "bridge", "balanced-bridge"),
    Word("capacitance", "How much charge a capacitor takes for each volt across it. It is measured "
         "in farads.", "capacitance", f"{ASKED}capacitance"),
    Word("capacitor", "An element that stores charge: two plates that face each other without "
         "touching. What leaves one plate gathers on the other.", "capacitor"),
    Word("charge", "What moves in a wire and gathers on a capacitor's plates. A capacitor with the "
         "charge Q has Q on one plate and just as much missing on the other. It is measured in "
         "coulombs.", "charge", f"{ASKED}charge"),
    Word("charge sharing", "What happens when a switch joins charged capacitors: charge moves "
         "until their voltages are equal. No charge is lost, but some energy turns into heat.",
         "sharing"),
    Word("charging", "What a capacitor does while current flows to its plates: its voltage climbs, "
         "fast at first and ever more slowly.", "transient"),
    Word("check", "A sum that has to come out right if every result is right, such as the "
         "voltages along a path adding up to that of the source.", part="checks"),
    Word("circuit", "Elements joined by wires, so that charge can move from one side of the "
         "source, through them, to its other side."),
    Word("current", "How much charge passes in a second. It is measured in amperes.", "current",
         f"{ASKED}current"),
    Word("dielectric strength", "The strongest field that a material between two plates stands. "
         "Beyond it, a spark punches through.", "strength"),
    Word("discharging", "What a capacitor does while the charges of its plates flow together "
         "again: its voltage falls, fast at first and ever more slowly.", "transient"),
    Word("element", "One part of a circuit with two ends, such as a capacitor, a resistor or "
         "the source."),
    Word("energy", "What a charged capacitor has stored and can give back, for instance as one "
         "flash of a lamp. It is measured in joules.", "energy", f"{ASKED}energy"),
    Word("equation", "Two expressions that are equal. One equation finds one unknown; several "
         "unknowns that stand together need as many equations that are independent of each "
         "other.", "relations"),
    Word("equivalent", "The single element that could take the place of a group without the rest "
         "of the circuit noticing: the same voltage would drive the same charge or current.",
         best=NESTED),
    Word("equivalent source", "One source with one resistance that could take the place of all "
         "that a load sees, without the load noticing.", "equivalent-source"),
    Word("field strength", "How hard a field pulls at a charge between two plates: the voltage "
         "for each metre of the way. It is measured in volts per metre.", "field"),
    Word("first instant", "The moment just after a change, when no charge has had time to move. A "
         "capacitor still has the voltage that it had before: none if it was empty, just as a wire "
         "has none.", "transient"),
    Word("group", "Elements that are merged in one move because they are in series or in "
         "parallel.", best=NESTED),
    Word("in parallel", "Side by side: the elements share both junctions, so the same voltage is "
         "across each of them.", "parallel"),
    Word("in series", "In a chain: each element ends where the next begins, with nothing else "
         "joined on between. All of them carry the same charge or current.", "series"),
    Word("internal resistance", "The resistance that a source has itself. The more current it "
         "delivers, the more of its voltage that resistance keeps.", "inner"),
    Word("island", "Plates and wire that are joined to each other and to nothing else. Around an "
         "island are only gaps, so its charge stays what it is.", "island"),
    Word("junction", "All points that are joined by wire. However long the wires are, they count "
         "as one point."),
    Word("junction equation", "Says that what flows into a junction flows out of it, with each "
         "flow told by the potentials at its two ends.", "junctions"),
    Word("law", "What ties the quantities of one element together, such as its voltage and what "
         "flows because of it."),
    Word("lesson", "A page that explains an idea slowly, with one solved circuit as its example."),
    Word("loop", "A way through a circuit that comes back to where it began.", "loops"),
    Word("loop equation", "Says that the voltages round a loop add up to what its sources lift, "
         "with each flow told by the currents of the loops.", "loops"),
    Word("matching", "To choose the load that takes the most power: one equal to the inner "
         "resistance of what drives it.", "equivalent-source"),
    Word("open voltage", "The voltage between two points while nothing is connected to them.",
         "equivalent-source"),
    Word("polarity", "Which plate of a capacitor is + and which is −. Like plates are of the same "
         "sign; where a + plate meets a − plate, they are unlike.", "sharing", "unlike"),
    Word("potential", "The voltage of a junction against one junction that counts as zero.",
         "potential", f"{ASKED}potential"),
    Word("power", "How much energy a resistor turns into heat in a second. It is measured in "
         "watts.", "power", f"{ASKED}power"),
    Word("problem", "A circuit with some of its values given and some to be found. Each has a page "
         "with its worked solution and its questions."),
    Word("quantity", "Something that can be measured, told by a number and a unit: 12 V, for "
         "instance."),
    Word("relative permittivity", "How many times as large a capacitance becomes when a material "
         "fills the gap between the plates. It is a pure number, written κ; for air it is 1 to "
         "three digits.", "filling"),
    Word("resistance", "How many volts a resistor needs for each ampere through it. It is "
         "measured in ohms.", "resistance", f"{ASKED}resistance"),
    Word("resistor", "An element that hinders the current and turns energy into heat, as a "
         "heating wire does, or a lamp, or a long cable.", "resistor"),
    Word("self-check", "The questions at the end of a problem. A wrong answer is told which "
         "step to look at again.", part="self-check"),
    Word("source", "What drives the circuit, such as a battery or a supply. Charge leaves it at "
         "its + side and comes back at its − side.", SOURCE),
    Word("stage", "What is done to the switches at once, and all that settles after it.",
         "stages"),
    Word("star", "Three elements that meet in one junction and end in three others. It can be "
         "replaced by a triangle, and the other way round.", "exchange"),
    Word("steady state", "What a circuit comes to long after a change, when nothing changes any "
         "more. No current flows into a capacitor then.", "transient"),
    Word("step", "One move of a solution: what it is for, why it is allowed, its formula, its "
         "numbers, and the circuit after it.", part="solution"),
    Word("superposition", "To let each source act alone, with the others turned off, and to add "
         "up what they do.", "superposition"),
    Word("switch", "Joins two junctions into one while it is closed, and leaves a gap while it is "
         "open.", "switch"),
    Word("symmetry", "If nothing tells two junctions apart, they are at the same potential and may "
         "be joined.", "symmetry"),
    Word("time constant", "How long a charge takes for 63\u00a0% of the way ahead of it: the "
         "resistance that the capacitor sees times its capacitance, written τ. After five of them, "
         "less than 1\u00a0% is left.", "transient", f"{ASKED}time-constant"),
    Word("triangle", "Three elements between three junctions, each of them between two, also "
         "called a delta. It can be replaced by a star.", "exchange"),
    Word("unknown", "What is to be found. An element whose value is not known is told by "
         "something else that was measured in its circuit.", "unknown"),
    Word("voltage", "What lies between two junctions and drives charge from one to the other. It "
         "is measured in volts.", "voltage", f"{ASKED}voltage"),
    Word("walk back", "After merging, to undo the merges one by one. The equivalent hands on what "
         "its members share: the voltage in parallel, the charge or current in series.",
         best=NESTED),
)  # fmt: skip
"""Every word, in the order of the alphabet."""


def words(used: Collection[str]) -> tuple[Word, ...]:
    """The words that a reader of a unit meets, given what occurs in it."""
    return tuple(word for word in WORDS if not word.needs or word.needs in used)
