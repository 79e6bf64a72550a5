"""The self-check: choices, typed answers, and an author's own questions."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings

from builder.circuit.tree import Tree
from builder.lesson import Lesson
from builder.lesson.prose import NumberOf, WrongNumber
from builder.lesson.questions import ChoiceQuestion, Option, TypedQuestion
from builder.problem.model import Choice, NestProblem, OwnQuestion
from builder.quantity.exact import as_fraction
from builder.quantity.measure import read_measure
from tests.lesson.telling import (
    asking,
    lesson_of,
    name_of,
    options_of,
    parallel,
    plain,
    series,
    taught_problems,
)


def _choices(lesson: Lesson) -> list[ChoiceQuestion]:
    return [question for question in lesson.questions if isinstance(question, ChoiceQuestion)]


def _typed(lesson: Lesson) -> list[TypedQuestion]:
    return [question for question in lesson.questions if isinstance(question, TypedQuestion)]


def _size(option: Option, lesson: Lesson) -> Fraction:
    return as_fraction(read_measure(plain(option.text, lesson.display)).value)


@given(problem=taught_problems())
@settings(max_examples=100)
def test_a_choice_has_one_right_option_and_it_is_right(problem: NestProblem) -> None:
    """The right option tells the value; every other tells the number of a named mistake."""
    lesson = lesson_of(problem)
    for question in _choices(lesson):
        (right,) = (option for option in question.options if option.right)
        (number,) = right.text
        assert isinstance(number, NumberOf)
        wrong = [option for option in question.options if not option.right]
        assert 2 <= len(wrong) <= 3
        for option in wrong:
            (piece,) = option.text
            assert isinstance(piece, WrongNumber)
            assert piece.name == number.name
            assert " gives this" in plain(option.reply, lesson.display)
        texts = [plain(option.text, lesson.display) for option in question.options]
        assert len(set(texts)) == len(texts)
        sizes = [_size(option, lesson) for option in question.options]
        assert sizes == sorted(set(sizes))
        replies = [plain(option.reply, lesson.display) for option in question.options]
        assert len(set(replies)) == len(replies)
        assert texts[question.options.index(right)] in replies[question.options.index(right)]


@given(problem=taught_problems())
@settings(max_examples=100)
def test_typed_questions_ask_what_was_asked_and_is_not_given(problem: NestProblem) -> None:
    """Each once, with the step that finds it; what a choice gives away is asked before it."""
    lesson = lesson_of(problem)
    display, solution = lesson.display, lesson.solution
    asked = {display.naming.resolve(name) for name in problem.find}
    typed = _typed(lesson)
    names = [question.answer for question in typed]
    assert len(set(names)) == len(names) <= 4
    found = {name: step.id for step in solution.steps for name in step.found}
    for question in typed:
        assert question.answer in asked
        assert question.answer not in solution.givens
        assert question.look_at == found[question.answer]
    if asked - set(solution.givens):
        assert typed
    given_away = set()
    for each in lesson.questions:
        if isinstance(each, ChoiceQuestion):
            given_away |= {p.name for o in each.options for p in o.text if isinstance(p, NumberOf)}
        elif isinstance(each, TypedQuestion):
            assert each.answer not in given_away


# C1 = 10 µF behind C2 ∥ C3 = 20 + 30 = 50 µF: 500/60 = 8.33 µF.
# Wrong: 10 + 50; 1/10 + 1/50 = 0.12; (10 + 50)/2.
# R1 = 10 Ω behind 20 · 30/50 = 12 Ω on 22 V: 1 A, 12 V across the pair, I2 = 0.6 A.
# Wrong: half of 1 A; 11 V across the pair; 22 V across R2. Of the voltage: halves, the 22 V the
# wrong way round (10 parts of 22), and all of it.
NEST_C, NEST_R = series("C1", parallel("C2", "C3")), series("R1", parallel("R2", "R3"))
ASKED = [
    (NEST_C, None, ("capacitance:total",), [
        "What is the equivalent capacitance?",
        ("Which of these is the equivalent capacitance?",
         ["0.120 µF", "8.33 µF *", "30.0 µF", "60.0 µF"]),
    ]),
    (NEST_R, "22 V", ("current:R2", "voltage:R2"), [
        "What is the current through R₂?",
        "What is the voltage across R₂?",
        ("Which of these is the current through R₂?",
         ["500 mA", "550 mA", "600 mA *", "1.10 A"]),
        ("Which of these is the voltage across R₂?",
         ["10.0 V", "11.0 V", "12.0 V *", "22.0 V"]),
    ]),
    (parallel("R1", "R2"), "12 V", ("voltage:R1",), ["What is the voltage across R₁?"]),
    (series("R1", "R2"), "12 V", ("voltage:total", "resistance:R1"), []),
    ("C1", "12 V", ("charge:C1", "charge:total", "voltage:C1"),
     ["What is the charge on C₁?", "What is the voltage across C₁?"]),
]  # fmt: skip


@pytest.mark.parametrize(("tree", "source", "asked", "told"), ASKED)
def test_the_self_check_of_some_circuits(
    tree: Tree | str, source: str | None, asked: tuple[str, ...], told: list[object]
) -> None:
    """Choices of what mistakes get wrong, then typed answers; nothing of what is given."""
    lesson = lesson_of(asking(tree, source, *asked))
    written: list[object] = []
    for question in lesson.questions:
        ask = plain(question.ask, lesson.display)
        if isinstance(question, ChoiceQuestion):
            written.append((ask, options_of(question, lesson.display)))
        else:
            written.append(ask)
    assert written == told


def test_a_wrong_choice_is_answered_by_the_mistake() -> None:
    """What was done, why it is tempting, and what is right."""
    lesson = lesson_of(asking(NEST_R, "22 V", "current:R2"))
    question = _choices(lesson)[0]
    replies = {plain(o.text, lesson.display): plain(o.reply, lesson.display)
               for o in question.options}  # fmt: skip
    assert list(replies) == ["500 mA", "550 mA", "600 mA", "1.10 A"]
    assert replies["550 mA"] == (
        "Sharing the voltage equally between R₁ and R₂₃ gives this. Equal shares look fair. But "
        "what is equal along a chain is the current, and by V = RI a larger resistance then gets "
        "a larger voltage."
    )
    assert replies["600 mA"] == "Yes: the current through R₂ is 600 mA."


def test_a_wrong_choice_is_answered_by_all_mistakes_that_lead_there() -> None:
    """Half of 1 A, and 10 V of the 22 V for the pair, are both 500 mA through R₂."""
    lesson = lesson_of(asking(NEST_R, "22 V", "current:R2"))
    first = _choices(lesson)[0].options[0]
    assert plain(first.reply, lesson.display) == (
        "Splitting the current equally between R₂ and R₃ gives this, and so does dividing the "
        "voltage between R₁ and R₂₃ in inverse proportion to their resistances. A fork looks "
        "like an even split. But the ways on from it need not be alike: how much each of them "
        "takes follows from its own voltage and resistance, by I = V/R. What is easy to pass "
        "sounds as if it kept more for itself. But with the same current all "
        "along, V = RI gives the larger voltage to the larger resistor."
    )


def test_an_authors_own_questions_come_last() -> None:
    """A typed one and a choice, with the author's replies or plain ones."""
    own = (
        OwnQuestion("How *much* does {C1} hold?", answer=name_of("charge:C1")),
        OwnQuestion("And in all?", answer=name_of("charge:total")),
        OwnQuestion(
            "Which is larger?",
            choices=(
                Choice("{C1}", right=False),
                Choice("{C2}", right=True),
                Choice("neither", right=False, reply="Look at $C$."),
            ),
        ),
    )
    problem = replace(asking(parallel("C1", "C2"), "12 V", "charge:C1"), questions=own)
    lesson = lesson_of(problem)
    first, whole, choice = lesson.questions[-3:]
    assert isinstance(first, TypedQuestion)
    assert plain(first.ask, lesson.display) == "How *much* does {C1} hold?"
    assert (first.answer, first.look_at) == (name_of("charge:C1"), "open-total")
    assert isinstance(whole, TypedQuestion)
    assert (whole.answer, whole.look_at) == (name_of("charge:total"), None)
    assert isinstance(choice, ChoiceQuestion)
    assert options_of(choice, lesson.display) == ["{C1}", "{C2} *", "neither"]
    assert [plain(option.reply, lesson.display) for option in choice.options] == [
        "No. Look at the circuit again.",
        "Yes.",
        "Look at $C$.",
    ]
