"""What the teacher says at each move through a network, word by word."""

from __future__ import annotations

import pytest

from builder.lesson import write_lesson
from builder.lesson.network.narration import NARRATORS
from builder.lesson.network.prompts import PROMPTERS
from builder.problem import read_problem_text
from builder.solution import solve
from builder.solution.network.step import NetworkMove
from tests.lesson.network.networks import LESSONS, lesson_of, problem_text, told
from tests.lesson.telling import plain

TOLD = [
    ("balanced", "balance-R5",
     "Nothing flows through R₅: take it out",
     "R₁ and R₃ divide a voltage in the same ratio as R₂ and R₄, so junctions b and c are at the "
     "same potential. Between them there is no voltage, and so no current flows through R₅. The "
     "rest of the circuit does not notice when it is taken out.",
     "The value of R₅ does not matter at all. With the same right we could have joined its two "
     "ends by a wire: where there is no voltage, a gap and a wire are all the same."),
    ("balanced", "merge-R13",
     "Merge R₁ with R₃ and R₂ with R₄, which each form one chain",
     "The members of each group follow one another with nothing else joined on in between, so "
     "they carry the same current: there is no branch where current could leave or join. Their "
     "voltages add up, and so do their resistances.",
     "That is more than either of the two, as it must be for resistors in series."),
    ("balanced", "open-R13",
     "Walk back to R₁, R₂, R₃ and R₄",
     "Each of these equivalents stood for a chain, and along a chain the current is the same "
     "everywhere. The voltages then follow from V = RI.", ""),
    ("cube", "join-1",
     "Join the junctions that are alike: b, d and e; c, f and h",
     "All the resistors are equal, and the junctions of each set are equally many resistors away "
     "from + and equally many from −. Nothing tells one from the other, so they are at the same "
     "potential. A wire between points of the same potential carries nothing, so we may join "
     "them.",
     "Now there are resistors side by side that shared only one junction before."),
    ("cube", "merge-R123",
     "Merge three groups that each share both junctions: R₁ to R₃; R₄ to R₉; R₁₀ to R₁₂",
     "The members of each group begin at the same junction and end at the same junction, so they "
     "have the same voltage. Their currents add up, and since each current is voltage over "
     "resistance, the reciprocals of the resistances add up.",
     "That is less than any of its members, as it must be for resistors in parallel."),
    ("cube-face", "join-1",
     "Junctions b, d, f and h lie halfway: join them",
     "Swap the two terminals, and the circuit looks the same as before, only with + and − "
     "exchanged. What is its own mirror image can then only be at half the voltage, and so all "
     "of it is at one potential. A wire between points of the same potential carries nothing, so "
     "we may join them. R₅ and R₇ then begin and end at one junction, carry no current, and may "
     "go.",
     "Now there are resistors side by side that shared only one junction before."),
    ("star", "star-R_a",
     "Replace the triangle R₁, R₂ and R₅ by a star",
     "No two resistors are in series or in parallel here, so nothing can be merged. But a "
     "triangle between three junctions may give way to a star between the same three, if the "
     "star is made so that the rest of the circuit cannot tell. Each leg of the star is the "
     "product of the two sides that meet at its corner, over the sum of all three sides.",
     "The star has a new junction in its middle, s. Its legs R_b and R_c now lie in a chain with "
     "what hung on the corners."),
    ("star", "open-R_a",
     "Walk back to R₁, R₂ and R₅",
     "The three corners a, b and c have kept their potentials, whether a star or a triangle lies "
     "between them. Each side of the triangle has the difference between two corners, which we "
     "find by going along two legs of the star. The currents then follow from I = V/R.", ""),
    ("charges", "star-C_a",
     "Replace the triangle C₁, C₂ and C₅ by a star",
     "No two capacitors are in series or in parallel here, so nothing can be merged. But a "
     "triangle between three junctions may give way to a star between the same three, if the "
     "star is made so that the rest of the circuit cannot tell. For capacitors, each leg of the "
     "star is the sum of the three products of two sides, over the side that lies opposite.",
     "The star has a new junction in its middle, s. Its legs C_b and C_c now lie in a chain with "
     "what hung on the corners."),
    ("batteries", "loops",
     "Go round loops A and B",
     "Choose a current for each loop and a direction for each, without caring yet whether it is "
     "the right one. Whoever goes once round a loop comes back to the same potential, so the "
     "voltages across its resistors add up to what its sources lift. R₃ carries the current of "
     "one loop less that of the other, as both loops pass it.", ""),
    ("batteries", "branches",
     "Find the current through each resistor",
     "What lies in one loop carries the current of that loop. Where two loops meet, both count, "
     "each with its direction.",
     "I₂ is negative: the current really flows from b to c, against the direction in which we "
     "count it. Current enters E₂ at the + side: it is being charged."),
    ("batteries", "power-delivered",
     "Find the power that E₁ and E₂ deliver",
     "A source delivers its voltage times the current that leaves its + side.",
     "A minus means that the source takes energy in: it is being charged."),
    ("batteries-by-junctions", "junctions",
     "Balance the currents at junction b",
     "Only differences of potential matter, so we may call the potential of junction d zero. No "
     "charge piles up at a junction: what flows in flows out. Each current follows from the "
     "potentials at its two ends, by I = V/R, so there is one equation for the one unknown "
     "potential.", ""),
    ("charges-by-junctions", "junctions",
     "Balance the charges at junctions b and c",
     "Only differences of potential matter, so we may call the potential of junction d zero. The "
     "plates that meet at a junction, with the wire between them, touch nothing else: no charge "
     "can come or go, so their charges add up to zero. Each charge follows from the potentials "
     "at its two ends, by Q = CV, so there is one equation for each junction whose potential is "
     "unknown.", ""),
    ("panel", "alone-E1",
     "Let E₁ act alone",
     "Every current here grows in step with each source, so what all sources do together is the "
     "sum of what each would do alone. E₂, turned off, keeps no voltage between its ends, and "
     "that is what a plain wire does.", ""),
    ("panel", "alone-E2",
     "Let E₂ act alone", "Now E₂ acts, and a wire takes the place of E₁.", ""),
    ("panel", "E2-current",
     "Find the current that E₂ delivers",
     "Only R_eq″ is left, straight across the source, and it has the source's whole voltage. Its "
     "current follows from I = V/R.", ""),
    ("panel", "add",
     "Add up what the sources do alone",
     "All parts were counted in the same direction, so they simply add, each with its sign.",
     "Only currents and voltages add up like this. The power goes with the square of the "
     "current, so it has to be found from the whole current."),
    ("sensor", "opened-merge-total",
     "Merge R₁ and R₂, which form one chain",
     "First take R₄ off, so that nothing is between c and d. R₃ then carries no current and "
     "keeps no voltage. R₁ and R₂ follow one another with nothing else joined on in between, so "
     "both carry the same current: there is no branch where current could leave or join. Their "
     "voltages add up, and so do their resistances.",
     "That is more than either of the two, as it must be for resistors in series."),
    ("sensor", "open-voltage",
     "Find the open voltage between c and d",
     "Go from one point to the other by any way and add up the voltages on it. Whatever is "
     "connected there sees everything else as one source with one resistance, and this is the "
     "voltage of that source.", ""),
    ("sensor", "load-R4",
     "Connect R₄ to the equivalent source",
     "To R₄ the equivalent source is the same as the whole circuit. There is one loop: the open "
     "voltage drives the current through the inner resistance and through R₄, one after the "
     "other.", ""),
    ("points", "between",
     "Find the voltage of junction b against junction c",
     "Go from the one junction to the other by any way, and add up the voltages that are passed, "
     "each with its sign.", ""),
]  # fmt: skip


@pytest.mark.parametrize(("called", "step", "goal", "reason", "remark"), TOLD)
def test_a_move_is_told_in_these_words(
    called: str, step: str, goal: str, reason: str, remark: str
) -> None:
    """Its purpose as a goal, why it is allowed, and what to notice."""
    lesson = lesson_of(*LESSONS[called])
    ids = [taught.step.id for taught in lesson.steps]
    assert told(lesson)[ids.index(step)] == (goal, reason, remark)


def test_every_move_has_its_words_and_its_question() -> None:
    """A new kind of move cannot be forgotten."""
    assert set(NARRATORS) == set(PROMPTERS) == set(NetworkMove)


ASKED = [
    ("balanced", 0, "Which is at the higher potential, junction b or junction c?"),
    ("cube", 0, "Which junctions could change places without anybody noticing?"),
    ("star", 0, "Nothing can be merged here. Which three resistors form a triangle, and what would "
     "become of the circuit if a star stood in its place?"),
    ("batteries", 0, "How many loops are needed so that every resistor lies in one at least?"),
    ("batteries", 1, "Which loops pass each resistor, and in which direction?"),
    ("batteries-by-junctions", 0, "What flows into a junction, and what has to flow out of it?"),
    ("charges-by-junctions", 0, "What do the charges add up to on plates that touch nothing else?"),
    ("panel", 0, "E₂ is turned off: a wire or a gap in its place?"),
    ("panel", 3, "Only R_eq′ is left. Which law gives the current that the source delivers?"),
    ("sensor", 3, "The load is taken off. Which resistors carry a current then, and which carry "
     "none?"),
]  # fmt: skip


@pytest.mark.parametrize(("called", "number", "question"), ASKED)
def test_the_class_is_asked_before_the_move(called: str, number: int, question: str) -> None:
    """For a decision, not for sums."""
    lesson = lesson_of(*LESSONS[called])
    assert plain(lesson.steps[number].prompt, lesson.display) == question


PLANS = [
    ("balanced", "Use that the bridge is balanced, merge until one resistor is left, then walk "
     "back to the single elements. The power comes last."),
    ("star", "Turn a triangle into a star, merge until one resistor is left, find the current of "
     "the whole, then walk back to the single elements."),
    ("bare", "Turn a triangle into a star, then merge until one resistor is left."),
    ("cube", "Join the junctions that are alike by symmetry, merge until one resistor is left, "
     "find the current of the whole, then walk back to the single elements. The power comes last."),
    ("batteries", "Give each of the two loops a current of its own, add up the voltages round each "
     "of them, and solve the equations together. The power comes last."),
    ("batteries-by-junctions", "Write down how the currents balance at the junction whose "
     "potential is unknown, and solve for that potential. Every current then follows from it. The "
     "power comes last."),
    ("panel", "Let each of the two sources act alone while the other is turned off, then add up "
     "what they do. The power comes last."),
    ("sensor", "Seen from the two points, everything is one source with one resistance: find its "
     "open voltage, then its inner resistance. Then connect the load to it. Last, choose the load "
     "that takes the most power."),
]  # fmt: skip


@pytest.mark.parametrize(("called", "plan"), PLANS)
def test_the_plan_tells_the_way_in_a_line(called: str, plan: str) -> None:
    """In the order in which the moves are made."""
    lesson = lesson_of(*LESSONS[called])
    assert plain(lesson.plan, lesson.display) == plan


def test_an_author_may_say_it_in_other_words() -> None:
    """Own words take the place of the generated ones, and the remark on them goes."""
    rows, find, more = LESSONS["balanced"]
    own = "plan: Look first.\nwords:\n  balance-R5: {reason: Both ends agree.}\n"
    problem = read_problem_text(problem_text(rows, find, more) + own, "a.yml")
    lesson = write_lesson(solve(problem))
    first = lesson.steps[0].words
    assert plain(lesson.plan, lesson.display) == "Look first."
    assert plain(first.reason, lesson.display) == "Both ends agree."
    assert first.remark == ()
