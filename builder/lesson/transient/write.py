"""The lesson of a circuit that charges or discharges."""

from __future__ import annotations

from dataclasses import dataclass, field

from builder.lesson.caution import Caution, caution_of_charged
from builder.lesson.general_mistakes import GENERAL_RULES
from builder.lesson.lesson import Lesson, taught_steps
from builder.lesson.questions import self_check
from builder.lesson.slips import every_slip, told_together, worth_a_warning
from builder.lesson.transient.addup import add_up
from builder.lesson.transient.course import Course, course_of
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.transient.find import find_list
from builder.lesson.transient.narration import narrate
from builder.lesson.transient.plan import plan
from builder.lesson.transient.predict import predict
from builder.lesson.transient.prompts import prompt
from builder.lesson.transient.tables import tables
from builder.lesson.transient.wrong_rules import RULES
from builder.problem.transient.moments import END, START, at
from builder.solution.transient.solve import TransientSolution


@dataclass(frozen=True)
class TransientLesson(Lesson):
    """The lesson of a circuit that charges or discharges.

    Attributes:
        course: the whole course of the voltage, if there is a single one.
    """

    course: Course | None = field(default=None, kw_only=True)


def write_transient_lesson(solution: TransientSolution) -> TransientLesson:
    """Write the lesson of a solved circuit."""
    display = TransientDisplay(solution)
    turns = every_slip(display, (*RULES, *GENERAL_RULES))
    slips = told_together(turns)
    checks, rest = add_up(display)
    return TransientLesson(
        display=display,
        find=find_list(display),
        predict=predict(display),
        plan=plan(display),
        steps=taught_steps(display, narrate, prompt),
        checks=checks,
        checks_rest=rest,
        tables=tables(display),
        second_method="with the capacitor as a source of whatever voltage it holds",
        turns=turns,
        slips=slips,
        warnings=worth_a_warning(turns),
        questions=self_check(display, slips),
        caution=_caution(display),
        course=course_of(display),
    )


def _caution(display: TransientDisplay) -> Caution | None:
    """By the moment at which most is stored."""
    values = display.solution.values
    one = max(display.capacitors, key=lambda name: max(
        abs(values.get(at("voltage", name, when), 0)) for when in (START, END)))  # fmt: skip
    when = max((START, END), key=lambda w: values.get(at("energy", one, w), 0))
    if at("energy", one, when) not in values:
        return None
    they = "the capacitor holds"
    return caution_of_charged(at("voltage", one, when), at("energy", one, when), values, they)
