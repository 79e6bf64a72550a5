"""The question before the solution: which one is asked, and which answer is right."""

from __future__ import annotations

import pytest

from tests.lesson.network.networks import BATTERIES, BRIDGE, LESSONS, PANEL, lesson_of
from tests.lesson.telling import options_of, plain

PIER = {
    "E1": "24 V a d", "R1": "1 ohm a b", "R2": "10 ohm b d", "R3": "1 ohm b c", "R4": "6 ohm c d",
    "R5": "2 ohm e c", "E2": "20 V e d",
}  # fmt: skip
"""At b there are 20 V, at c 18 V."""
TURNED = {"V0": "24 V a d", **BRIDGE, "R5": "50 ohm c b"}
ALIKE = PANEL | {"E2": "24 V c d", "R2": "6 ohm c b"}
AGAINST = PANEL | {"E2": "18 V d c", "R2": "30 ohm b c"}
ASKED = [
    (LESSONS["balanced"], "Which way will the current flow through R₅?",
     ["From b to c", "From c to b", "Neither way: no current flows there *"]),
    (LESSONS["bridge"], "Which way will the current flow through R₅?",
     ["From b to c *", "From c to b", "Neither way: no current flows there"]),
    ((TURNED, "current", ""), "Which way will the current flow through R₅?",
     ["From c to b", "From b to c *", "Neither way: no current flows there"]),
    (LESSONS["charges"], "Which plate of C₅ becomes the positive one?",
     ["The one at b *", "The one at c", "Neither: no charge gathers there"]),
    (LESSONS["cube"], "Which of these junctions is at the same potential as junction b?",
     ["Junction a", "Junction c", "Junction d *"]),
    (LESSONS["batteries"], "Which of the batteries is being charged here?",
     ["E₁", "E₂ *", "Neither: both deliver"]),
    ((PIER, "current", ""), "Which way will the current flow through R₃?",
     ["From b to c *", "From c to b", "Neither way: both ends are alike"]),
    (LESSONS["panel"], "E₂ is taken out and a wire put in its place. What happens to the size of "
     "the current through R₃?", ["It grows", "It stays the same", "It falls *"]),
    (LESSONS["sensor"], "Let the resistance of the load grow from nearly nothing to very much. "
     "What does the power in it do?",
     ["It falls all the time", "It grows, then falls *", "It grows all the time"]),
    (LESSONS["bare"], "Suppose every resistance were twice as large. What would happen to the "
     "equivalent resistance?", ["It becomes half as large", "It stays the same", "It doubles *"]),
]  # fmt: skip


@pytest.mark.parametrize(("lesson", "question", "options"), ASKED)
def test_the_question_fits_the_network(
    lesson: tuple[dict[str, str], str, str], question: str, options: list[str]
) -> None:
    """A bridge, a symmetry, batteries, a load: each has its own question, without sums."""
    written = lesson_of(*lesson)
    assert plain(written.predict.ask, written.display) == question
    assert options_of(written.predict, written.display) == options


def test_two_sources_that_drive_against_each_other_are_told_so() -> None:
    """Turned off, the second source no longer hinders the first."""
    lesson = lesson_of(AGAINST, "current")
    right = next(option for option in lesson.predict.options if option.right)
    assert plain(lesson.predict.ask, lesson.display).endswith("current through R₃?")
    assert plain(right.text, lesson.display) == "It grows"
    assert plain(right.reply, lesson.display) == (
        "Yes. The two drive current through R₃ in opposite directions, so with E₁ alone the "
        "current is no longer hindered."
    )


@pytest.mark.parametrize("called", LESSONS)
def test_exactly_one_answer_is_right(called: str) -> None:
    """And every option has its own words."""
    lesson = lesson_of(*LESSONS[called])
    assert [option.right for option in lesson.predict.options].count(True) == 1
    texts = [plain(option.text, lesson.display) for option in lesson.predict.options]
    assert len(set(texts)) == len(texts)


def test_the_reason_of_a_bridge_compares_its_arms() -> None:
    """Balanced: the same ratio; else the end that keeps more of the voltage."""
    for called, words in (
        ("balanced", "R₁ and R₃ divide the voltage in the same ratio as R₂ and R₄"),
        ("bridge", "junction b would then keep more of the voltage than junction c"),
    ):
        lesson = lesson_of(*LESSONS[called])
        for option in lesson.predict.options:
            assert words in plain(option.reply, lesson.display)


def test_batteries_that_share_the_load_are_told_apart_from_charging() -> None:
    """Of two that both deliver nobody asks which is being charged."""
    lesson = lesson_of(ALIKE, "current")
    assert "charged" not in plain(lesson.predict.ask, lesson.display)
    assert "charged" in plain(lesson_of(BATTERIES, "current").predict.ask, lesson.display)
