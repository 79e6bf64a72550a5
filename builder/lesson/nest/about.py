"""A nest in a few words, for lists."""

from __future__ import annotations

from builder.circuit.tree import groups
from builder.lesson.prose import number_word
from builder.problem.model import NestProblem


def about(problem: NestProblem) -> str:
    """``five capacitors, three groups``."""
    number = len(problem.network.elements)
    one = problem.law.element
    elements = f"{number_word(number)} {one}{'' if number == 1 else 's'}"
    merged = sum(1 for _ in groups(problem.tree))
    if merged == 0:
        return elements
    return f"{elements}, {number_word(merged)} group{'' if merged == 1 else 's'}"


def topic(problem: NestProblem) -> str:
    """What a list of problems can be narrowed down to: ``capacitors``."""
    return f"{problem.law.element}s"
