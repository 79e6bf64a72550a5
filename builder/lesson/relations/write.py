"""The lesson of a problem of relations."""

from __future__ import annotations

from builder.lesson.general_mistakes import GENERAL_RULES
from builder.lesson.lesson import Lesson, Row, Table, taught_steps
from builder.lesson.prose import SymbolOf, say
from builder.lesson.questions import find_list, self_check
from builder.lesson.relations.addup import add_up
from builder.lesson.relations.caution import caution
from builder.lesson.relations.display import RelationsDisplay
from builder.lesson.relations.narration import narrate
from builder.lesson.relations.plan import plan
from builder.lesson.relations.plates import tables_of_plates
from builder.lesson.relations.predict import predict
from builder.lesson.relations.prompts import prompt
from builder.lesson.relations.wrong_rules import RULES
from builder.lesson.slips import every_slip, told_together, worth_a_warning
from builder.solution.relations.solve import WHOLE_SYSTEM, RelationsSolution

_SECOND = {
    True: "by solving all equations at once as one system",
    False: "by taking the equations in another order",
}


def write_relations_lesson(solution: RelationsSolution) -> Lesson:
    """Write the lesson of solved relations."""
    display = RelationsDisplay(solution)
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
        tables=_tables(display),
        second_method=_SECOND[solution.method == WHOLE_SYSTEM],
        turns=turns,
        slips=slips,
        warnings=worth_a_warning(turns),
        questions=self_check(display, slips),
        caution=caution(display),
    )


def _tables(display: RelationsDisplay) -> tuple[Table, ...]:
    plates = display.solution.problem.plates
    if plates is not None and plates.battery:
        return tables_of_plates(display)
    return (_results(display),)


def _results(display: RelationsDisplay) -> Table:
    """Every unknown with its value."""
    rows = tuple(
        Row(say("{symbol}", symbol=SymbolOf(name)), (name,))
        for name in display.solution.problem.unknowns
    )
    return Table((), "Quantity", ("Value",), rows)
