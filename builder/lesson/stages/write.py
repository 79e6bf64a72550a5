"""The lesson of a problem in stages."""

from __future__ import annotations

from builder.lesson.general_mistakes import GENERAL_RULES
from builder.lesson.lesson import Lesson, taught_steps
from builder.lesson.questions import self_check
from builder.lesson.slips import every_slip, told_together, worth_a_warning
from builder.lesson.stages.addup import add_up
from builder.lesson.stages.caution import caution
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.stages.find import find_list
from builder.lesson.stages.narration import narrate
from builder.lesson.stages.plan import plan
from builder.lesson.stages.predict import predict
from builder.lesson.stages.prompts import prompt
from builder.lesson.stages.tables import tables
from builder.lesson.stages.wrong_rules import RULES
from builder.solution.stages.solve import StagesSolution


def write_stages_lesson(solution: StagesSolution) -> Lesson:
    """Write the lesson of a solved problem in stages."""
    display = StagesDisplay(solution)
    turns = every_slip(display, (*RULES, *GENERAL_RULES))
    slips = told_together(turns)
    checks, rest = add_up(display)
    return Lesson(
        display=display,
        find=find_list(display),
        predict=predict(display),
        plan=plan(display),
        steps=taught_steps(display, narrate, prompt),
        checks=checks,
        checks_rest=rest,
        tables=tables(display),
        second_method="from the potentials of all junctions at once, stage by stage",
        turns=turns,
        slips=slips,
        warnings=worth_a_warning(turns),
        questions=self_check(display, slips),
        caution=caution(display),
    )
