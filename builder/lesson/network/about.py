"""A network in a few words, for lists."""

from __future__ import annotations

from builder.lesson.prose import number_word
from builder.problem.model import NetworkProblem


def about(problem: NetworkProblem) -> str:
    """``five resistors, two sources``."""
    number, sources = len(problem.network.elements), len(problem.network.sources)
    one = problem.law.element
    elements = f"{number_word(number)} {one}{'' if number == 1 else 's'}"
    if sources < 2:
        return f"{elements} between {number_word(len(problem.network.junctions))} junctions"
    return f"{elements}, {number_word(sources)} sources"


def topic(problem: NetworkProblem) -> str:
    """What a list of problems can be narrowed down to: ``resistors``."""
    return f"{problem.law.element}s"
