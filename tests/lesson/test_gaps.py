"""What is asked where a step of a worked example is left blank."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.lesson import Lesson, write_lesson
from builder.lesson.gaps import MOST_GAPS
from builder.problem import read_problem
from builder.solution import solve
from tests.lesson.telling import plain
from tests.lesson.test_sentences import Kind, blemishes

CONTENT = Path("content/problems")


def _lesson(slug: str) -> Lesson:
    return write_lesson(solve(read_problem(CONTENT / f"{slug}.yml")))


def _asked(slug: str) -> dict[str, list[str]]:
    lesson = _lesson(slug)
    return {
        taught.step.id: [plain(gap.ask, lesson.display) for gap in taught.gaps]
        for taught in lesson.steps
    }


def test_every_step_of_a_nest_asks_for_what_it_finds() -> None:
    """An equivalent by what it stands for, then what is asked, never a value carried over alone."""
    assert list(_asked("flasher-reservoir").values()) == [
        ["What is the equivalent of C₂ and C₃?"],
        ["What is the equivalent capacitance?"],
        ["What is the charge that the source delivers?"],
        ["What is the charge on C₁?", "What is the voltage across C₁?"],
        ["What is the voltage across C₂?", "What is the charge on C₂?",
         "What is the charge on C₃?"],
        ["What is the total energy?"],
    ]  # fmt: skip


def test_made_up_names_are_not_asked_for() -> None:
    """Nobody who has not read the step can know which leg of a star bears which name."""
    asked = _asked("bench-bridge-astray")
    star, *rest = asked.values()
    assert star == []
    assert all(rest)


def test_a_phrase_that_asks_already_is_not_asked_twice() -> None:
    """“What is what is left of the gap?” is no question."""
    questions = [ask for asks in _asked("bilge-sensor-layers").values() for ask in asks]
    assert "What is left of the gap (d₂)?" in questions


@pytest.mark.parametrize("path", sorted(CONTENT.glob("*.yml")), ids=lambda path: path.stem)
def test_gaps_are_few_and_well_told(path: Path) -> None:
    """At most three a step, each found by it and by nothing before, each a proper question."""
    lesson = _lesson(path.stem)
    for taught in lesson.steps:
        assert len(taught.gaps) <= MOST_GAPS
        for gap in taught.gaps:
            assert gap.answer in taught.step.found
            assert gap.answer not in taught.known_before
            text = plain(gap.ask, lesson.display)
            assert not blemishes(text, Kind.QUESTION), text
    assert lesson.steps[-1].gaps
