"""Lessons without generated questions, for the makers of these to work on."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from builder.lesson.display import Display
from builder.lesson.kinds import KINDS
from builder.lesson.lesson import Lesson
from builder.lesson.prose import Prose
from builder.problem import read_problem, read_problem_text, read_unit
from builder.problem.model import Problem
from builder.solution import solve
from tests.lesson.telling import plain

CONTENT = Path(__file__).parents[3] / "content"
SLUGS = tuple(sorted(file.stem for file in (CONTENT / "problems").glob("*.yml")))


def bare_lesson(problem: Problem) -> Lesson:
    """The lesson of a problem as its kind writes it."""
    return KINDS[type(problem)].write(solve(problem))


@cache
def lesson_of_unit(slug: str) -> Lesson:
    """The lesson of a problem of the unit."""
    unit = read_unit(CONTENT / "unit.yml")
    return bare_lesson(read_problem(CONTENT / "problems" / f"{slug}.yml", unit=unit))


def lesson_of_text(text: str, slug: str = "a-problem") -> Lesson:
    """The lesson of a file's text."""
    return bare_lesson(read_problem_text(text, f"{slug}.yml"))


def said(prose: Prose, display: Display) -> str:
    """A text as one reads it."""
    return plain(prose, display)
