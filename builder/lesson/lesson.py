"""A lesson: a solved problem with all that teaches it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from builder.lesson.caution import Caution
from builder.lesson.checked import CHECKS_PROMPT, Shows
from builder.lesson.display import Display
from builder.lesson.equations import AnyEquation, equations
from builder.lesson.gaps import gaps
from builder.lesson.prose import Prose
from builder.lesson.questions import Question, TypedQuestion
from builder.lesson.slips import Slip
from builder.lesson.words import Words, refuse_strange_ids, with_own
from builder.quantity.names import Name
from builder.solution import Solution, Step


@dataclass(frozen=True)
class TaughtStep:
    """A step with its words and equations.

    Attributes:
        step: the move.
        words: what the teacher says.
        equations: its statements and lines, written out.
        known: every quantity known after it that is no given.
        prompt: what the class is asked before it is shown.
        gaps: what is asked in its place where it is left blank.
    """

    step: Step
    words: Words
    equations: tuple[AnyEquation, ...]
    known: tuple[Name, ...]
    prompt: Prose
    gaps: tuple[TypedQuestion, ...]

    @property
    def known_before(self) -> tuple[Name, ...]:
        """Every quantity found by earlier steps."""
        return self.known[: len(self.known) - len(self.step.found)]


@dataclass(frozen=True)
class Row:
    """A row of a table of results.

    Attributes:
        label: what the row is about.
        names: one for each column; None leaves it empty.
        total: whether it sums up the rows above.
    """

    label: Prose
    names: tuple[Name | None, ...]
    total: bool = False


@dataclass(frozen=True)
class Table:
    """A table of results.

    Attributes:
        title: above it; empty where there is one table only.
        first: what heads the column of labels.
        heads: what heads each other column.
        rows: at least one.
    """

    title: Prose
    first: str
    heads: tuple[str, ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class Lesson:
    """Everything that a page tells.

    Attributes:
        display: how quantities are written.
        find: what is asked, in words.
        predict: the question before the solution, if there is one.
        plan: the solution in a line.
        steps: the solution.
        checks: what must add up, with numbers.
        checks_rest: a sentence on checks that are not told; may be empty.
        tables: all results.
        second_method: how every value was found again, to go on after “step by step and”.
        turns: every mistake that fits, each by itself, whether its number can be told from the
            right one or not.
        slips: those that stand, each wrong number once.
        warnings: those of them worth warning of here.
        questions: the self-check.
        caution: a warning of danger, if there is any.
        limits: what answers come close to at the extremes of single elements.
        before: more questions to answer before the solution is opened.
    """

    display: Display
    find: tuple[Prose, ...]
    predict: Question | None
    plan: Prose
    steps: tuple[TaughtStep, ...]
    checks: tuple[Shows, ...]
    checks_rest: Prose
    tables: tuple[Table, ...]
    second_method: str
    turns: tuple[Slip, ...]
    slips: tuple[Slip, ...]
    warnings: tuple[Slip, ...]
    questions: tuple[Question, ...]
    caution: Caution | None
    limits: tuple[Prose, ...] = field(default=(), kw_only=True)
    before: tuple[Question, ...] = field(default=(), kw_only=True)

    @property
    def solution(self) -> Solution:
        """What is taught."""
        return self.display.solution

    @property
    def checks_prompt(self) -> Prose:
        """What the class is asked before the checks are shown."""
        return CHECKS_PROMPT

    @property
    def asked(self) -> frozenset[Name]:
        """The quantities that are asked for."""
        return frozenset(map(self.display.resolve, self.solution.problem.find))


def taught_steps(
    display: Display,
    narrate: Callable[[Any, Any], Words],
    prompt: Callable[[Any, Any], Prose],
) -> tuple[TaughtStep, ...]:
    """The steps of a solution with their words, the author's own where there are any.

    Args:
        display: of the solution.
        narrate: gives the words of a step.
        prompt: gives the question to the class before a step.

    Raises:
        FaultyFile: if the author has words for a step that there is not.
    """
    ids = tuple(dict.fromkeys(step.id for step in display.solution.every_step))
    refuse_strange_ids(display.solution.problem, ids)
    known: list[Name] = []
    taught: list[TaughtStep] = []
    for step in display.solution.steps:
        before = {*display.solution.givens, *known}
        known.extend(step.found)
        own = display.solution.problem.words.get(step.id)
        taught.append(
            TaughtStep(
                step=step,
                words=with_own(narrate(step, display), own),
                equations=equations(step, before, display),
                known=tuple(known),
                prompt=prompt(step, display),
                gaps=gaps(step, display),
            )
        )
    return tuple(taught)
