"""Pages that are kept are those that would be made."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from builder.errors import FaultyFile
from builder.lesson import write_lesson
from builder.problem import read_problem_text
from builder.problem.model import Problem, Unit
from builder.site.finished import Making, head_of, parts_of
from builder.site.kept import KeptPages, Store
from builder.solution import solve
from tests.site.pages import LEFTOVERS, UNIT

SMALL = LEFTOVERS + "vary: none\n"
MAKING = Making(UNIT, fresh=True)
UNSOLVABLE = """title: More charge than there can be
circuit:
  source: {V0: 12 V}
  series:
    - C1: 12 uF
    - C2: unknown
measured:
  charge: {C1: 480 uC}
find: C2
"""


def _problem(text: str, slug: str = "leftovers", unit: Unit = UNIT) -> Problem:
    return read_problem_text(text, f"{slug}.yml", unit)


def _small(slug: str, farads: int) -> Problem:
    return _problem(SMALL.replace("33 nF", f"{farads} nF"), slug)


def _anew(problem: Problem, making: Making = MAKING, *, own: bool = True) -> dict[str, str]:
    lesson = write_lesson(solve(problem))
    return parts_of(lesson, making.unit, fresh=own and making.fresh)


def test_kept_pages_are_those_that_are_made(tmp_path: Path) -> None:
    """Made here, made by other processes and read again: the same; old ones are gone."""
    problems = [_small(f"p{number}", number) for number in (33, 34, 35, 36)]
    pages = KeptPages(MAKING, Store(tmp_path))
    old = tmp_path / "old.kept"
    old.write_bytes(b"")
    os.utime(old, (0, 0))
    made = pages.prepare(problems)
    assert made.troubles == {}
    assert len(list(tmp_path.iterdir())) == 2 * len(problems)
    for problem in problems:
        assert made.heads[problem.slug] == head_of(write_lesson(solve(problem)), MAKING)
        assert pages.parts(problem, own=True) == _anew(problem)
        assert pages.parts(problem, own=False) == _anew(problem, own=False)
    assert KeptPages(MAKING, Store(tmp_path)).prepare(problems) == made


def test_what_is_kept_is_not_solved_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """With one file of several edited, that one is solved, and no other."""
    problems = [_small(f"p{number}", number) for number in (33, 34, 35)]
    KeptPages(MAKING, Store(tmp_path)).prepare(problems)
    solved: list[str] = []

    def noting(problem: Problem) -> object:
        solved.append(problem.slug)
        return solve(problem)

    monkeypatch.setattr("builder.site.kept.pages.solve", noting)
    edited = [*problems[:2], _small("p35", 47)]
    pages = KeptPages(MAKING, Store(tmp_path))
    made = pages.prepare(edited)
    for problem in edited:
        pages.parts(problem, own=True)
    assert solved == ["p35"]
    assert set(made.heads) == {"p33", "p34", "p35"}


def test_other_input_is_made_anew(tmp_path: Path) -> None:
    """Another text, name or unit, or another way to make it, never gets what was kept before."""
    first, store = _problem(SMALL), Store(tmp_path)
    KeptPages(MAKING, store).parts(first, own=True)
    other_unit = Unit("Harbour Lights", digits=4, objectives=UNIT.objectives)
    others = [
        (_problem(SMALL.replace("10 nF", "12 nF")), MAKING),
        (_problem(SMALL, "renamed"), MAKING),
        (_problem(SMALL, unit=other_unit), Making(other_unit, fresh=True)),
        (first, Making(UNIT, fresh=False)),
    ]
    for number, (problem, making) in enumerate(others, start=2):
        assert KeptPages(making, store).parts(problem, own=True) == _anew(problem, making)
        assert len(list(tmp_path.iterdir())) == number


def test_what_no_page_of_a_problem_tells_leaves_it_as_it_is(tmp_path: Path) -> None:
    """A new objective, or another order of the unit, makes no page anew."""
    problem = _problem(SMALL)
    KeptPages(MAKING, Store(tmp_path)).parts(problem, own=True)
    wider = Unit(
        UNIT.title, objectives={**UNIT.objectives, "solder": "Solder"}, path=("leftovers",)
    )
    KeptPages(Making(wider, fresh=True), Store(tmp_path)).parts(problem, own=True)
    assert len(list(tmp_path.iterdir())) == 1


def test_a_spoilt_page_is_made_anew(tmp_path: Path) -> None:
    """What a crash left behind is never published."""
    problem = _problem(SMALL)
    pages = KeptPages(MAKING, Store(tmp_path))
    made = pages.parts(problem, own=True)
    (entry,) = tmp_path.iterdir()
    entry.write_bytes(entry.read_bytes()[:-20])
    assert pages.parts(problem, own=True) == made
    assert Store(tmp_path).get(entry.stem) == made


def test_where_nothing_can_be_kept_pages_are_made_all_the_same() -> None:
    """Without a folder a build holds what was made until its end."""
    problems = [_small(f"p{number}", number) for number in (33, 34)]
    pages = KeptPages(MAKING, Store(None))
    assert set(pages.prepare(problems).heads) == {"p33", "p34"}
    assert [pages.parts(one, own=True) for one in problems] == [_anew(one) for one in problems]


@pytest.mark.parametrize("others", [0, 5])
def test_a_problem_that_cannot_be_solved_is_told_and_spoils_no_other(
    others: int, tmp_path: Path
) -> None:
    """Here and by other processes: its faults come back, the rest is made."""
    sound = [_small(f"p{number}", 33 + number) for number in range(others)]
    faulty = _problem(UNSOLVABLE, "too-much")
    made = KeptPages(MAKING, Store(tmp_path)).prepare([*sound, faulty])
    assert set(made.heads) == {one.slug for one in sound}
    (trouble,) = made.troubles.values()
    assert isinstance(trouble, FaultyFile)
    assert trouble.faults[0].path == "too-much.yml"
