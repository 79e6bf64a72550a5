"""Values that an author's own texts spell out, instead of a placeholder that would change."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from builder.problem.model import Problem
from builder.problem.relations.model import RelationsProblem
from builder.quantity.exact import as_fraction
from builder.quantity.measure import Measure, MeasureError, read_measure

_PLACEHOLDER = re.compile(r"\{\{|\}\}|\{[^{}]*\}")
_UNIT = r"[A-Za-zµμΩ\u2126]+(?:\^?[23](?![0-9])|[²³])?"
_SPELLED = re.compile(
    r"(?<![\w.,/])(?P<number>[+\-−]?\d+(?:\.\d+)?(?:/\d+)?)"
    r"(?:[ \u00a0\u2009\u202f-]|\n\s*)?"
    rf"(?P<unit>{_UNIT}(?:/{_UNIT})?)(?!\w)"
)


def spelled_values(problem: Problem) -> tuple[Measure, ...]:
    """Every number with a unit in the author's own texts, outside placeholders."""
    return tuple(value for text in own_texts(problem) for _, value in spelled_in(text))


def own_texts(problem: Problem) -> Iterator[str]:
    """All that the author has written for readers."""
    yield problem.title
    yield problem.scenario
    yield problem.plan or ""
    for words in problem.words.values():
        yield words.goal or ""
        yield words.reason or ""
    for question in problem.questions:
        yield question.ask
        for choice in question.choices:
            yield choice.text
            yield choice.reply
    if isinstance(problem, RelationsProblem):
        if problem.plates is None:
            yield from (stated.means for stated in problem.quantities if not stated.source)
            yield from (relation.because for relation in problem.relations)
        else:
            yield from (part.called for part in problem.plates.parts)


def spelled_in(text: str) -> Iterator[tuple[str, Measure]]:
    """Every number with a unit in a text, outside placeholders, as it is written and as a value."""
    for found in _SPELLED.finditer(_PLACEHOLDER.sub(" … ", text)):
        try:
            yield found.group(), read_measure(f"{found['number']} {found['unit']}")
        except MeasureError:
            continue


def is_spelled(kind: str, value: Fraction, spelled: tuple[Measure, ...]) -> bool:
    """Whether a given value stands among those that texts spell out."""
    return any(one.kind == kind and as_fraction(one.value) == value for one in spelled)
