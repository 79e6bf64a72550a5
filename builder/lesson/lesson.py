"""A lesson: a solved problem with all that teaches it."""

from __future__ import annotations

from dataclasses import dataclass

from builder.lesson.addup import Shows, add_up
from builder.lesson.caution import Caution, caution
from builder.lesson.display import Display
from builder.lesson.equations import Equation, equations
from builder.lesson.narration import narrate
from builder.lesson.plan import plan
from builder.lesson.predict import predict
from builder.lesson.prompts import CHECKS_PROMPT, prompt
from builder.lesson.prose import Prose
from builder.lesson.questions import ChoiceQuestion, Question, find_list, self_check
from builder.lesson.words import Words
from builder.lesson.wrong_rules import RULES, Slip, slips_of
from builder.quantity.names import Name
from builder.solution import Solution, Step

MOST_WARNINGS = 5


@dataclass(frozen=True)
class TaughtStep:
    """A step with its words and equations.

    Attributes:
        step: the move.
        words: what the teacher says.
        equations: its lines, written out.
        known: every quantity known after it that is no given.
        prompt: what the class is asked before it is shown.
    """

    step: Step
    words: Words
    equations: tuple[Equation, ...]
    known: tuple[Name, ...]
    prompt: Prose

    @property
    def known_before(self) -> tuple[Name, ...]:
        """Every quantity found by earlier steps."""
        return self.known[: len(self.known) - len(self.step.found)]


@dataclass(frozen=True)
class Lesson:
    """Everything that a page tells.

    Attributes:
        display: how quantities are written.
        find: what is asked, in words.
        predict: the question before the solution.
        plan: the solution in a line.
        steps: the solution.
        checks: what must add up, with numbers.
        checks_rest: a sentence on checks that are not told; may be empty.
        warnings: the wrong rules worth warning of here.
        questions: the self-check.
        caution: a warning of danger, if there is any.
    """

    display: Display
    find: tuple[Prose, ...]
    predict: ChoiceQuestion
    plan: Prose
    steps: tuple[TaughtStep, ...]
    checks: tuple[Shows, ...]
    checks_rest: Prose
    warnings: tuple[Slip, ...]
    questions: tuple[Question, ...]
    caution: Caution | None

    @property
    def solution(self) -> Solution:
        """What is taught."""
        return self.display.solution

    @property
    def checks_prompt(self) -> Prose:
        """What the class is asked before the checks are shown."""
        return CHECKS_PROMPT


def write_lesson(solution: Solution) -> Lesson:
    """Write the lesson of a solution."""
    display = Display(solution)
    slips = slips_of(display, RULES)
    checks, rest = add_up(display)
    return Lesson(
        display=display,
        find=find_list(display),
        predict=predict(display),
        plan=plan(display),
        steps=_taught(display),
        checks=checks,
        checks_rest=rest,
        warnings=_worth_a_warning(slips),
        questions=self_check(display, slips),
        caution=caution(display),
    )


def _taught(display: Display) -> tuple[TaughtStep, ...]:
    known: list[Name] = []
    taught: list[TaughtStep] = []
    for step in display.solution.steps:
        known.extend(step.found)
        taught.append(
            TaughtStep(
                step=step,
                words=narrate(step, display),
                equations=equations(step.lines, display),
                known=tuple(known),
                prompt=prompt(step, display),
            )
        )
    return tuple(taught)


def _worth_a_warning(slips: tuple[Slip, ...]) -> tuple[Slip, ...]:
    """Each rule once, where it first bites."""
    first: dict[str, Slip] = {}
    for slip in slips:
        first.setdefault(slip.rule.id, slip)
    return tuple(first.values())[:MOST_WARNINGS]
