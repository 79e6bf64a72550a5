"""What a lesson in stages says, step by step."""

from __future__ import annotations

import re

import pytest

from builder.lesson.prose import SymbolOf
from builder.lesson.questions import ChoiceQuestion
from builder.lesson.stages.display import SWITCH, StagesDisplay
from builder.quantity.names import Name
from tests.lesson.stages.stories import (
    ALIKE,
    BRIDGE,
    CHAIN,
    CHARGING,
    EVERY,
    LIKE,
    SHORTED,
    TRANSFER,
    TURNED,
    UNLIKE,
    every_text,
    lesson_of,
    told,
)
from tests.lesson.telling import plain

NOUNS = "(?:plate|island|loop|capacitor)"
WRONG_NUMBER = re.compile(rf"\b(one {NOUNS}s|(?:two|three) {NOUNS}) ")
SAID = [
    (LIKE, "start", 0, "Find the charge on C₁ at the start"),
    (LIKE, "start", 1, "C₁ starts charged, and Q = CV tells how much its + plate holds. Just as "
     "much is missing on the other plate. C₂ holds nothing yet."),
    (LIKE, "stage-1-island", 1, "S₁ is closed. That makes one island of two plates, one of C₁ and "
     "one of C₂: they are joined by wire, and around them are only gaps. Charge can move from "
     "plate to plate, but none can leave, so the sum after is the sum before. C₂ brings nothing "
     "along, so all of it comes from C₁."),
    (LIKE, "stage-1-charges", 1, "The voltage of each is known, and Q = CV gives its charge. The "
     "larger capacitance, C₁, holds the larger charge."),
    (ALIKE, "stage-1-charges", 1, "The voltage of each is known, and Q = CV gives its charge."),
    (UNLIKE, "stage-1-voltage", 2, "The minus sign tells that C₂ has turned over: the plate that "
     "was + is now −."),
    (LIKE, "stage-1-voltage", 2, ""),
    (TRANSFER, "stage-3-voltage", 0, "Find the one voltage at which C₁ and C₂ settle"),
    (CHAIN, "stage-1-chain", 1, "S₁ is closed. C₁, C₂ and V₀ form a single loop without a branch. "
     "Whatever charge passes one of them passes all, so for that charge the two capacitors act as "
     "one: their reciprocals add up, as in any chain."),
    (CHAIN, "stage-1-round", 1, "What drives it is the difference between the voltage of V₀ and "
     "what is there already. It flows until, round the loop, nothing is left over: the chain "
     "takes up just that difference."),
    (SHORTED, "stage-1-short", 1, "S₁ is closed. A bare wire now joins the two plates of C₁. Both "
     "plates are one junction, so no voltage can stay between them, and the charge of one fills "
     "the lack on the other."),
    (SHORTED, "stage-1-short", 0, "Let C₁ discharge"),
    (TURNED, "stage-1-turn-C2", 1, "First C₂ is turned round. C₂ is taken out with its charge and "
     "put back with its plates changed about. Nothing can flow, but seen from the circuit the "
     "sign has turned."),
    (CHARGING, "stage-1-delivered", 1, "The charge that V₀ has moved is all that has arrived on "
     "the plates behind its + side. A battery keeps its full voltage all the time, so it delivers "
     "QV without any ½."),
    (BRIDGE, "stage-1-equations", 1, "S₁ is closed. There are several loops, so we ask for all "
     "voltages at once. First, two islands keep their charges: on each, the charge of a capacitor "
     "counts as plus where the figure marks its + side, and as minus where it marks its − side. "
     "Second, round every loop the voltages must agree with the batteries. That is just one "
     "equation for each voltage."),
]  # fmt: skip


@pytest.mark.parametrize(("text", "step", "part", "words"), SAID)
def test_a_step_says_what_a_teacher_says(text: str, step: str, part: int, words: str) -> None:
    """Goal, reason and remark of a step, word by word."""
    assert told(lesson_of(text))[step][part] == words


def test_a_stage_in_which_nothing_moves_is_told_with_the_next() -> None:
    """Opening a switch traps the charge; the reason stands before that of the next stage."""
    reason = told(lesson_of(TRANSFER))["stage-3-island"][1]
    assert reason.startswith(
        "When S₁ is opened, no charge moves: the plates are cut off as they are, and keep what "
        "they hold. Now S₂ is closed."
    )


def test_what_a_battery_did_before_the_start_is_told_so() -> None:
    """A capacitor that is joined to a battery at first is charged before anything is switched."""
    text = TRANSFER.replace("S1: {switch: open", "S1: {switch: closed").replace(
        "  - close: S1\n  - open: S1\n", "  - open: S1\n"
    ).replace("after 1", "before").replace("energy: V0, ", "")  # fmt: skip
    goal, reason, _ = told(lesson_of(text))["stage-0-battery"]
    assert goal == "Find the charge on C₁ at the start"
    assert reason == (
        "Before anything is switched, C₁ has been straight across V₀ for long, so the voltages "
        "agree. The charge on its plates follows from Q = CV."
    )
    assert lesson_of(text).display.symbol(Name("charge", "C1@0")).text == "Q₁"


def test_unlike_plates_are_told_from_like_ones() -> None:
    """The island's sentence says whether charges add or count against each other."""
    unlike = told(lesson_of(UNLIKE))["stage-1-island"][1]
    assert unlike.endswith("so the charges count against each other.")
    both = told(lesson_of(LIKE.replace("2 uF", "2 uF, charged: 6 V")))["stage-1-island"][1]
    assert both.endswith("Both are + plates, so their charges add.")


@pytest.mark.parametrize("name", EVERY)
def test_every_sentence_reads_well(name: str) -> None:
    """Capitals, full stops, single spaces; no step without goal and reason; no braces left."""
    lesson = lesson_of(EVERY[name])
    for goal, reason, _ in told(lesson).values():
        assert re.fullmatch(r"[A-Z].*[^.]", goal), goal
        assert re.fullmatch(r"[A-Z½].*\.", reason), reason
    for text in every_text(lesson):
        assert "  " not in text
        assert not re.search(r"[{}]|None[,.]| ,| \.", text), text
        assert not re.search(r"\b(\w+) \1\b", text), text
        assert not WRONG_NUMBER.search(text), text


SYMBOLS = [
    (LIKE, ("charge", "C1@0"), "Q₁"),
    (LIKE, ("charge", "C1@1"), "Q₁′"),
    (LIKE, ("voltage", "island@1"), "V′"),
    (LIKE, ("charge", "island@1"), "Q"),
    (LIKE, ("energy", "total@0"), "U"),
    (LIKE, ("energy", "lost@1"), "U_lost"),
    (TRANSFER, ("voltage", "C1@3"), "V₁″"),
    (TRANSFER, ("energy", "lost@3"), "U_lost″"),
    (TRANSFER, ("energy", "lost@all"), "U_lost"),
    (TRANSFER, ("energy", "V0@1"), "W₀′"),
    (CHARGING, ("charge", "V0@1"), "Q₀"),
    (CHAIN, ("charge", "round@1"), "q"),
    (CHAIN, ("capacitance", "chain@1"), "C_chain"),
    (CHAIN, (SWITCH, "S1"), "S₁"),
    (CHAIN.replace("V0", "V1"), ("voltage", "V1"), "E₁"),
    (CHAIN.replace("V0", "V1"), ("charge", "V1@1"), "Q_V1"),
]


@pytest.mark.parametrize(("text", "name", "symbol"), SYMBOLS)
def test_a_prime_tells_the_stage(text: str, name: tuple[str, str], symbol: str) -> None:
    """Before anything is switched there is none; what belongs to one stage alone needs none."""
    display = lesson_of(text).display
    assert display.symbol(Name(*name)).text == symbol


ASKED = [
    (LIKE, ["the voltage across C₁ after S₁ is closed",
            "the charge on each capacitor after S₁ is closed", "the energy that is lost"]),
    (TRANSFER, ["the charge on C₁ after S₁ is closed", "the voltage across each capacitor in the "
                "end", "the energy that V₀ delivers in all", "the energy that is lost in all"]),
    (LIKE.replace("find: [", "find: [energy: {total: before}, voltage: {C1: before}, "),
     ["the energy stored in all capacitors at the start", "the voltage across C₁ at the start",
      "the voltage across C₁ after S₁ is closed",
      "the charge on each capacitor after S₁ is closed", "the energy that is lost"]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "asked"), ASKED)
def test_what_is_asked_tells_the_moment(text: str, asked: list[str]) -> None:
    """The moment is told by what was done, and several capacitors stand in one line."""
    lesson = lesson_of(text)
    assert [plain(one, lesson.display) for one in lesson.find] == asked


def test_a_switch_that_is_closed_twice_is_told_apart() -> None:
    """The second time is called the second time."""
    text = CHARGING.replace("- close: S1", "- close: S1\n  - open: S1\n  - close: S1")
    display = lesson_of(text).display
    assert isinstance(display, StagesDisplay)
    assert plain(display.after(3), display) == "after S₁ is closed for the second time"


PREDICTED = [
    (LIKE, "Where will the voltage that they then share lie?", "Between the two, closer"),
    (ALIKE, "Where will the voltage that they then share lie?", "Between the two"),
    (UNLIKE, "How much charge is then left on the joined plates?", "Less than if"),
    (TURNED, "How much charge is then left on the joined plates?", "Less than if"),
    (CHARGING, "How much of the energy that the battery delivers is stored", "Half of it"),
    (BRIDGE, "How much of the energy that the battery delivers is stored", "Half of it"),
    (CHAIN, "What happens to the energy?", "Some of it turns into heat"),
    (SHORTED, "What happens to the energy?", "Some of it turns into heat"),
]


@pytest.mark.parametrize(("text", "asks", "right"), PREDICTED)
def test_one_question_comes_before_the_solution(text: str, asks: str, right: str) -> None:
    """It needs no arithmetic, has one right option, and each option is answered."""
    lesson = lesson_of(text)
    question = lesson.predict
    assert isinstance(question, ChoiceQuestion)
    assert asks in plain(question.ask, lesson.display)
    (one,) = [option for option in question.options if option.right]
    assert plain(one.text, lesson.display).startswith(right)
    assert all(plain(option.reply, lesson.display).endswith(".") for option in question.options)
    assert len({plain(o.text, lesson.display) for o in question.options}) == len(question.options)


def test_the_tables_follow_the_stages() -> None:
    """A table for each stage in which charge moves, then where the energy goes."""
    lesson = lesson_of(TRANSFER)
    titles = [plain(table.title, lesson.display) for table in lesson.tables]
    assert titles == ["After S₁ is closed", "After S₂ is closed", "Where the energy goes"]
    first = lesson.tables[0].rows[0]
    assert first.label == (SymbolOf(Name("capacitance", "C1")),)
    assert [name.key if name else None for name in first.names] == [
        "capacitance:C1", "charge:C1@1", "voltage:C1@1", "energy:C1@1"
    ]  # fmt: skip


def test_a_high_voltage_calls_for_a_caution() -> None:
    """The moment when most is stored decides."""
    text = LIKE.replace("4 uF, charged: 12 V", "400 uF, charged: 400 V")
    caution = lesson_of(text).caution
    assert caution is not None
    assert "2.2.13" in caution.source
    assert lesson_of(LIKE).caution is None


def test_checks_tell_opposite_signs() -> None:
    """Where unlike plates were joined, the voltages agree but for their signs."""
    lesson = lesson_of(UNLIKE)
    said = [plain(check.says, lesson.display) for check in lesson.checks]
    assert said == [
        "After S₁ is closed, the joined plates of C₁ and C₂ hold together what they held before:",
        "After S₁ is closed, the same voltage is across C₁ and C₂, counted with opposite signs:",
        "After S₁ is closed, the heat is what the two capacitors in series would store at the "
        "difference of their voltages, a sum where they have opposite signs:",
    ]
    plainer = [plain(check.says, lesson.display) for check in lesson_of(LIKE).checks]
    assert plainer[1].endswith("the same voltage is across C₁ and C₂:")
    assert plainer[2].endswith("the difference of their voltages:")


PAIRS = """\
title: Two sets at once
circuit:
  branches:
    C1: {capacitance: 4 uF, charged: 12 V, between: [a, g]}
    C2: {capacitance: 2 uF, between: [b, g]}
    C3: {capacitance: 3 uF, charged: 60 uC, between: [c, g]}
    C4: {capacitance: 2 uF, charged: 5 V, between: [d, g]}
    C5: {capacitance: 5 uF, charged: 5 V, between: [d, g]}
    S1: {switch: open, between: [a, b]}
    S2: {switch: open, between: [c, d]}
    S3: {switch: open, between: [b, c]}
stages:
  - close: [S1, S2]
  - turn: C5
  - close: S3
find: [charge: all, energy: lost]
"""
"""C3 to C5 hold 95 µC at 9.5 V, and with C5 turned 28.5 + 19 − 47.5 = 0."""


def test_several_sets_of_plates_are_told_one_after_the_other() -> None:
    """Each set has its letter; empty plates and many plates have sentences of their own."""
    words = told(lesson_of(PAIRS))
    assert words["start"][:2] == (
        "Find the charges and voltages of C₁, C₃, C₄ and C₅ at the start",
        "C₁, C₃, C₄ and C₅ start charged. Where the voltage is stated, Q = CV gives the charge; "
        "where the charge is stated, V = Q/C gives the voltage. C₂ holds nothing yet.",
    )
    islands = [words[f"stage-{one}-island"][1] for one in ("1-a", "1-b", "2", "3")]
    assert "one of C₁ and one of C₂" in islands[0]
    assert islands[1] == (
        "Again three plates, one each of C₃, C₄ and C₅, make one island, and its charge cannot "
        "leave. All are + plates, so their charges add."
    )
    assert "C₅ was turned round, so its other plate is here." in islands[2]
    assert islands[3].endswith(
        "C₃, C₄ and C₅ bring nothing along. The others are + plates, so their charges add."
    )
    assert "holds the" not in words["stage-2-charges"][1]
    display = lesson_of(PAIRS).display
    assert display.symbol(Name("charge", "islandb@1")).text == "Q_b"
