"""A problem of relations in a few words, for lists."""

from __future__ import annotations

from builder.lesson.prose import number_word
from builder.problem.relations.model import RelationsProblem


def about(problem: RelationsProblem) -> str:
    """``two equations, three unknowns``."""
    relations, unknowns = len(problem.relations), len(problem.unknowns)
    return (
        f"{number_word(relations)} equation{'' if relations == 1 else 's'}, "
        f"{number_word(unknowns)} unknown{'' if unknowns == 1 else 's'}"
    )


def topic(_problem: RelationsProblem) -> str:
    """What a list of problems can be narrowed down to."""
    return "equations"
