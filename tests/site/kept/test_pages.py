"""Pages that are kept are those that would be made."""

from __future__ import annotations

import os
from pathlib import Path

from builder.lesson import write_lesson
from builder.problem import read_problem_text
from builder.problem.model import Problem, Unit
from builder.site.kept import KeptPages, Store
from builder.site.kept.pages import parts_of
from builder.solution import solve
from tests.site.pages import FLASHER, LEFTOVERS, UNIT

SMALL = LEFTOVERS + "vary: none\n"


def _problem(text: str, slug: str = "leftovers", unit: Unit = UNIT) -> Problem:
    return read_problem_text(text, f"{slug}.yml", unit)


def test_kept_parts_are_those_that_are_made(tmp_path: Path) -> None:
    """Made here, made by other processes and read again: the same bytes; old ones are gone."""
    problems = [_problem(SMALL.replace("33 nF", f"{number} nF"), f"p{number}")
                for number in (33, 34, 35, 36)]  # fmt: skip
    pages = KeptPages(UNIT, Store(tmp_path))
    old = tmp_path / "old.kept"
    old.write_bytes(b"")
    os.utime(old, (0, 0))
    pages.prepare(problems)
    assert len(list(tmp_path.iterdir())) == len(problems)
    for problem in problems:
        lesson = write_lesson(solve(problem))
        assert pages.parts(lesson) == parts_of(lesson, UNIT)


def test_other_input_is_made_anew(tmp_path: Path) -> None:
    """Another text, name or unit never gets what was kept of the first."""
    first, store = _problem(SMALL), Store(tmp_path)
    KeptPages(UNIT, store).parts(write_lesson(solve(first)))
    other_unit = Unit("Harbour Lights", digits=4, objectives=UNIT.objectives)
    others = [
        (_problem(SMALL.replace("10 nF", "12 nF")), UNIT),
        (_problem(SMALL, "renamed"), UNIT),
        (_problem(SMALL, unit=other_unit), other_unit),
    ]
    for number, (problem, unit) in enumerate(others, start=2):
        lesson = write_lesson(solve(problem))
        assert KeptPages(unit, store).parts(lesson) == parts_of(lesson, unit)
        assert len(list(tmp_path.iterdir())) == number


def test_a_spoilt_page_is_made_anew(tmp_path: Path) -> None:
    """What a crash left behind is never published."""
    lesson = write_lesson(solve(_problem(FLASHER.replace("find:", "vary: none\nfind:"), "flasher")))
    pages = KeptPages(UNIT, Store(tmp_path))
    made = pages.parts(lesson)
    (entry,) = tmp_path.iterdir()
    entry.write_bytes(entry.read_bytes()[:-20])
    assert pages.parts(lesson) == made
    assert Store(tmp_path).get(entry.stem) == made
