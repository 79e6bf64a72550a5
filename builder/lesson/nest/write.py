"""The lesson of a nest."""

from __future__ import annotations

from dataclasses import dataclass

from builder.lesson.general_mistakes import GENERAL_RULES
from builder.lesson.lesson import Lesson, Row, Table, taught_steps
from builder.lesson.nest.addup import add_up
from builder.lesson.nest.caution import caution
from builder.lesson.nest.display import NestDisplay
from builder.lesson.nest.limits import limit_question, limiting_cases
from builder.lesson.nest.narration import narrate
from builder.lesson.nest.plan import plan
from builder.lesson.nest.predict import predict
from builder.lesson.nest.prompts import prompt
from builder.lesson.nest.wrong_rules import RULES
from builder.lesson.prose import say
from builder.lesson.questions import ChoiceQuestion, find_list, self_check
from builder.lesson.slips import every_slip, told_together, worth_a_warning
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name
from builder.solution.nest.solve import NestSolution


@dataclass(frozen=True)
class NestLesson(Lesson):
    """The lesson of a nest, which always has a question before the solution.

    Attributes:
        display: how its quantities are written.
        predict: the question before the solution.
    """

    display: NestDisplay
    predict: ChoiceQuestion

    @property
    def solution(self) -> NestSolution:
        """What is taught."""
        return self.display.solution


def write_nest_lesson(solution: NestSolution) -> NestLesson:
    """Write the lesson of a solved nest."""
    display = NestDisplay(solution)
    turns = every_slip(display, (*RULES, *GENERAL_RULES))
    slips = told_together(turns)
    checks, rest = add_up(display)
    asked = limit_question(display)
    return NestLesson(
        display=display,
        find=find_list(display),
        predict=predict(display),
        plan=plan(display),
        steps=taught_steps(display, narrate, prompt),
        checks=checks,
        checks_rest=rest,
        tables=(_results(display),),
        second_method="by solving all junctions at once",
        turns=turns,
        slips=slips,
        warnings=worth_a_warning(turns),
        questions=(*((asked,) if asked else ()), *self_check(display, slips)),
        caution=caution(display),
        limits=limiting_cases(display),
    )


def _results(display: NestDisplay) -> Table:
    """Every element, then the whole circuit, each with its quantities."""
    problem = display.solution.problem
    law = problem.law
    quantities = law.quantities if problem.network.source else (law.value,)
    rows = [
        Row((display.element(id),), tuple(Name(quantity, id) for quantity in quantities))
        for id in display.members
    ]
    if len(rows) > 1:
        whole = tuple(display.resolve(Name(quantity, TOTAL)) for quantity in quantities)
        rows.append(Row(say("Whole circuit"), whole, total=True))
    heads = tuple(KINDS[quantity].noun.capitalize() for quantity in quantities)
    return Table((), law.element.capitalize(), heads, tuple(rows))
