"""What comes of a problem in the guide: its circuit, its answers and its steps."""

from __future__ import annotations

from functools import cache

from markupsafe import Markup

from builder.lesson import write_lesson
from builder.problem import read_problem_text
from builder.site.figures import figure_maker
from builder.site.markup import Writer
from builder.site.page import render
from builder.solution import solve


@cache
def made_of(text: str, slug: str, symbols: str) -> Markup:
    """A problem solved, drawn and answered, as it stands below its YAML.

    The same text is worked out once only, however often a preview builds the site.

    Args:
        text: the whole file, as shown.
        slug: its name, which starts every id.
        symbols: ``iec`` or ``ieee`` shapes.

    Raises:
        FaultyFile, Disagreement, CheckFailed: if the guide shows a problem that is none.
    """
    lesson = write_lesson(solve(read_problem_text(text, f"{slug}.yml")))
    writer = Writer(lesson.display)
    found = dict.fromkeys(map(lesson.display.resolve, lesson.solution.problem.find))
    return render(
        "guide/example.html",
        figure=figure_maker(lesson, f"guide-{slug}", symbols).given(),
        answers=[(lesson.display.asks_for(name), name) for name in found],
        steps=lesson.steps,
        writer=writer,
        title=lesson.solution.problem.title,
    )
