"""Lessons of nests whose values are symbols."""

from __future__ import annotations

import pytest

from builder.lesson.answers import answers
from builder.lesson.equations import Equation, InLetters, Result
from builder.lesson.nest.write import NestLesson, write_nest_lesson
from builder.lesson.questions import ChoiceQuestion, TypedQuestion
from builder.problem import read_problem_text
from builder.problem.model import NestProblem
from builder.quantity.compact import compact
from builder.quantity.names import Name
from builder.site.plain_text import worked_solution
from builder.solution.nest.solve import solve_nest
from tests.lesson.telling import plain

CAPACITORS = ("V", "C1: C", "C2: 2*C")
RESISTORS = ("V", "R1: R1", "R2: R2")
MIXED = ("12 V", "R1: R", "R2: 100 ohm")
EVERYTHING = {
    "C": "[equivalent, charge: all, voltage: all, energy: all]",
    "R": "[equivalent, current: all, voltage: all, power: all]",
}


def lesson_of(circuit: tuple[str, str, str], find: str = "", join: str = "series") -> NestLesson:
    """The lesson of two elements and a source, of which everything is asked."""
    source, first, second = circuit
    text = (
        f"title: A pair\ncircuit:\n  source: {source}\n  {join}:\n    - {first}\n    - {second}\n"
        f"find: {find or EVERYTHING[first[0]]}\n"
    )
    problem = read_problem_text(text, "pair.yml")
    assert isinstance(problem, NestProblem)
    return write_nest_lesson(solve_nest(problem))


def lines(lesson: NestLesson, step: str) -> list[str]:
    """The equations of a step as plain text, one line each."""
    text = worked_solution(lesson)
    part = text.split(f"[{step}]", 1)[1].split("\n\n", 1)[0]
    return [line.strip() for line in part.splitlines() if line.startswith("     ")]


def test_a_merge_in_letters_ends_in_one_fraction() -> None:
    """Reciprocals of letters are added over their common denominator, then turned over."""
    assert lines(lesson_of(CAPACITORS), "merge-total") == [
        "1/C_eq = 1/C₁ + 1/C₂",
        "= 1/C + 1/(2C)",
        "= 3/(2C)",
        "C_eq = 2C/3",
    ]


def test_what_would_only_be_repeated_is_not_written() -> None:
    """Elements that are their own letters need no second line, nor does a sum of them."""
    assert lines(lesson_of(RESISTORS), "merge-total") == ["R_eq = R₁ + R₂"]
    assert lines(lesson_of(RESISTORS), "current") == ["I = V / R_eq", "= V / (R₁ + R₂)"]
    assert lines(lesson_of(RESISTORS, join="parallel"), "merge-total") == [
        "1/R_eq = 1/R₁ + 1/R₂",
        "= (R₁ + R₂)/(R₁R₂)",
        "R_eq = R₁R₂/(R₁ + R₂)",
    ]


def test_numbers_among_letters_keep_their_units() -> None:
    """A mixed circuit is written with units where numbers stand."""
    assert lines(lesson_of(MIXED), "merge-total") == ["R_eq = R₁ + R₂", "= R + 100 Ω"]
    # No one fraction of reciprocals is offered, since its numbers would want units of their own.
    parallel = lesson_of(MIXED, join="parallel")
    found = [e for taught in parallel.steps for e in taught.equations if isinstance(e, Equation)]
    assert not any(isinstance(row.side, InLetters) for each in found for row in each.rows)
    assert any(isinstance(row.side, Result) for each in found for row in each.rows)


def test_predictions_compare_what_can_be_compared() -> None:
    """Multiples of one letter are compared; two letters leave only where the whole will lie."""
    for circuit, asked in (
        (CAPACITORS, "Which of them gets the larger voltage?"),
        (RESISTORS, "Where will the resistance of their equivalent lie?"),
    ):
        lesson = lesson_of(circuit)
        assert plain(lesson.predict.ask, lesson.display).endswith(asked)


def test_wrong_rules_lead_to_expressions() -> None:
    """Each slip is worked with letters; worked by hand for C and 2C across V."""
    lesson = lesson_of(CAPACITORS)
    told = {(w.rule.id, w.wrong.name.key): w.shown.text for w in lesson.warnings}
    assert told == {
        ("added-instead", "capacitance:total"): "3C",
        ("equal-voltages", "voltage:C1"): "V/2",
        ("whole-voltage", "charge:C1"): "CV",
        ("half-dropped", "energy:C1"): "4CV²/9",
        ("first-alone", "charge:C2"): "CV",
    }
    others = {(s.rule.id, s.wrong.name.key): s.shown.text for s in lesson.slips}
    assert others["never-inverted", "capacitance:total"] == "3/(2C)"
    assert others["chain-charges-added", "charge:total"] == "4CV/3"


def test_no_prefix_slips_where_there_is_none() -> None:
    """An expression has no prefix, and mixed sums have no common unit to forget."""
    rules = {slip.rule.id for slip in lesson_of(CAPACITORS).warnings}
    assert "prefix-slipped" not in rules
    mixed = lesson_of(MIXED, join="parallel")
    assert "never-inverted" not in {slip.rule.id for slip in mixed.warnings}


@pytest.mark.parametrize("circuit", [CAPACITORS, RESISTORS, MIXED])
def test_expressions_are_asked_by_choice_and_typed(circuit: tuple[str, str, str]) -> None:
    """Every choice has one right option of three at least; letters can be typed as well."""
    lesson = lesson_of(circuit)
    choices = [question for question in lesson.questions if isinstance(question, ChoiceQuestion)]
    typed = [question for question in lesson.questions if isinstance(question, TypedQuestion)]
    assert choices
    assert typed
    for question in choices:
        assert sum(option.right for option in question.options) == 1
        texts = [str(option.text) for option in question.options]
        assert len(set(texts)) == len(texts) >= 3


def test_extremes_are_told_and_asked() -> None:
    """Both ends of the last element for the equivalent, then what others come to."""
    lesson = lesson_of(RESISTORS, "[equivalent, current: total, voltage: R2]")
    assert [plain(case, lesson.display) for case in lesson.limits] == [
        "When R₂ is very large, it is no more than a gap, and the equivalent resistance grows "
        "beyond all bounds.",
        "When R₂ is very small, it is no more than a piece of wire, and the equivalent resistance "
        "comes close to R₁.",
        "When R₁ is very small, it is no more than a piece of wire, and the voltage across R₂ "
        "comes close to V.",
        "When R₁ is very small, it is no more than a piece of wire, and the current that the "
        "source delivers comes close to V/R₂.",
    ]
    asked = lesson.questions[0]
    assert isinstance(asked, ChoiceQuestion)
    assert plain(asked.ask, lesson.display) == (
        "Suppose R₂ is made smaller and smaller. What does the equivalent resistance come close to?"
    )
    assert [plain(option.text, lesson.display) for option in asked.options if option.right] == [
        "R₁"
    ]


def test_a_shared_letter_has_no_extremes() -> None:
    """Where no element can change alone, nothing is told."""
    assert lesson_of(CAPACITORS).limits == ()


@pytest.mark.parametrize(
    ("source", "first", "second", "caution"),
    [
        ("V", "C1: C", "C2: C", None),
        ("48 V", "R1: R", "R2: R", None),
        ("400 V", "R1: R", "R2: R", "400 V is more than can be touched safely."),
    ],
)
def test_a_caution_needs_numbers(source: str, first: str, second: str, caution: str | None) -> None:
    """Letters harm nobody; a voltage that is told in numbers still does."""
    lesson = lesson_of((source, first, second))
    said = plain(lesson.caution.says, lesson.display) if lesson.caution else None
    assert said == caution or (said is not None and said.startswith(str(caution)))


def test_answers_carry_expressions() -> None:
    """The data of an answer has its expression, no number, and what the page shows."""
    lesson = lesson_of(CAPACITORS, "[equivalent, charge: C1]")
    told = answers(lesson.solution)
    assert told["agree"] is True
    assert told["answers"] == [
        {"quantity": "equivalent", "of": "total", "unit": "F", "exact": "2*C/3", "value": None,
         "shown": "2C/3"},
        {"quantity": "charge", "of": "C1", "unit": "C", "exact": "2*C*V/3", "value": None,
         "shown": "2CV/3"},
    ]  # fmt: skip


def test_a_letter_that_is_its_own_name_is_told_once() -> None:
    """R₁ = R₁ would tell nothing; R₁ = R does."""
    itself, other = lesson_of(RESISTORS).display, lesson_of(MIXED).display
    name = Name("resistance", "R1")
    assert itself.names_itself(name)
    assert not other.names_itself(name)
    assert compact(itself.shown(name).expression) == "R₁"  # type: ignore[attr-defined]
