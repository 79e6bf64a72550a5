"""The lesson of a network."""

from __future__ import annotations

from dataclasses import dataclass

from builder.lesson.general_mistakes import GENERAL_RULES
from builder.lesson.lesson import Lesson, taught_steps
from builder.lesson.network.addup import add_up
from builder.lesson.network.caution import caution
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.network.narration import narrate
from builder.lesson.network.plan import plan
from builder.lesson.network.predict import predict
from builder.lesson.network.prompts import prompt
from builder.lesson.network.tables import tables
from builder.lesson.network.wrong_rules import RULES
from builder.lesson.questions import ChoiceQuestion, find_list, self_check
from builder.lesson.slips import every_slip, told_together, worth_a_warning
from builder.solution.network.solve import NetworkSolution


@dataclass(frozen=True)
class NetworkLesson(Lesson):
    """The lesson of a network, which always has a question before the solution.

    Attributes:
        display: how its quantities are written.
        predict: the question before the solution.
    """

    display: NetworkDisplay
    predict: ChoiceQuestion

    @property
    def solution(self) -> NetworkSolution:
        """What is taught."""
        return self.display.solution


def write_network_lesson(solution: NetworkSolution) -> NetworkLesson:
    """Write the lesson of a solved network."""
    display = NetworkDisplay(solution)
    turns = every_slip(display, (*RULES, *GENERAL_RULES))
    slips = told_together(turns)
    checks, rest = add_up(display)
    return NetworkLesson(
        display=display,
        find=find_list(display),
        predict=predict(display),
        plan=plan(display),
        steps=taught_steps(display, narrate, prompt),
        checks=checks,
        checks_rest=rest,
        tables=tables(display),
        second_method=_second_method(display),
        turns=turns,
        slips=slips,
        warnings=worth_a_warning(turns),
        questions=self_check(display, slips),
        caution=caution(display),
    )


def _second_method(display: NetworkDisplay) -> str:
    return "by solving all junctions at once"
