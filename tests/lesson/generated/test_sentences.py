"""Every sentence of a ranking, of picking and of a what-if is well formed."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings

from builder.lesson.display import Display
from builder.lesson.generated.by_kind import pick, ranking, what_if
from builder.lesson.generated.picking import pick_of
from builder.lesson.generated.ranking import ranking_of
from builder.lesson.generated.what_if.asking import question
from builder.lesson.generated.what_if.spots import spots
from builder.lesson.kinds import KINDS
from builder.lesson.prose import Prose
from builder.lesson.questions import Question
from builder.lesson.questions.forms import ChoiceQuestion, PickQuestion, RankingQuestion
from builder.problem import read_problem
from builder.problem.model import NestProblem
from builder.solution import solve
from tests.lesson.generated.views import view_of_nest
from tests.lesson.telling import plain
from tests.lesson.test_sentences import Kind, blemishes
from tests.strategies import problems

PROBLEMS = sorted((Path(__file__).parents[3] / "content" / "problems").glob("*.yml"))


def _texts(asked: Question | None) -> Iterator[tuple[Kind, Prose]]:
    """Every text of a question with what it is."""
    if isinstance(asked, RankingQuestion):
        yield Kind.SENTENCES, asked.ask
        yield from ((Kind.SENTENCES, reason.text) for reason in asked.reasons)
    elif isinstance(asked, PickQuestion):
        yield Kind.SENTENCES, asked.ask
        yield from ((Kind.SENTENCES, item.why) for item in asked.items)
        if asked.tracing:
            yield Kind.HEADING, asked.tracing
    elif isinstance(asked, ChoiceQuestion):
        yield Kind.QUESTION, asked.ask
        yield from ((Kind.HEADING, option.text) for option in asked.options)
        yield from ((Kind.SENTENCES, option.reply) for option in asked.options)


def _are_well_formed(asked: Question | None, display: Display) -> None:
    for kind, prose in _texts(asked):
        text = plain(prose, display)
        assert not blemishes(text, kind), (text, blemishes(text, kind))


@pytest.mark.parametrize("path", PROBLEMS, ids=lambda path: path.stem)
def test_what_the_unit_asks_is_well_formed(path: Path) -> None:
    """Of each of its problems, whatever its kind."""
    solution = solve(read_problem(path))
    lesson = KINDS[type(solution.problem)].write(solution)
    for make in (pick, ranking, what_if):
        _are_well_formed(make(lesson), lesson.display)


@given(problem=problems(least=2, most=9))
@settings(max_examples=60)
def test_what_any_nest_is_asked_is_well_formed(problem: NestProblem) -> None:
    """Rankings, picking, and every change that could be asked about."""
    view = view_of_nest(problem)
    _are_well_formed(ranking_of(view), view.display)
    _are_well_formed(pick_of(view), view.display)
    for spot in list(spots(view))[:30]:
        _are_well_formed(question(spot, view), view.display)
