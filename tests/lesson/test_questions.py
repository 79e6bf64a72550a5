"""The self-check, and the question that is asked before the solution."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings

from builder.circuit.tree import Tree, groups
from builder.lesson import Lesson
from builder.lesson.prose import NumberOf, SymbolOf, WrongNumber
from builder.lesson.questions import ChoiceQuestion, Option, TypedQuestion
from builder.problem.model import Choice, OwnQuestion, NestProblem
from builder.quantity.exact import as_fraction
from builder.quantity.measure import read_measure
from builder.quantity.names import TOTAL, Name
from builder.solution import Solution, solve
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
            assert "gives this. " in plain(option.reply, lesson.display)
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
        else:
            assert each.answer not in given_away


# C1 = 10 µF behind C2 ∥ C3 = 20 + 30 = 50 µF: 500/60 = 8.33 µF.
# Wrong: 10 + 50; 1/10 + 1/50 = 0.12; (10 + 50)/2.
# R1 = 10 Ω behind 20 · 30/50 = 12 Ω on 22 V: 1 A, 12 V across the pair, I2 = 0.6 A.
# Wrong: half of 1 A, all of 1 A, 1000 times 0.6 A.
NEST_C, NEST_R = series("C1", parallel("C2", "C3")), series("R1", parallel("R2", "R3"))
ASKED = [
    (NEST_C, None, ("capacitance:total",), [
        "What is the equivalent capacitance?",
        ("Which of these is the equivalent capacitance?",
         ["0.120 µF", "8.33 µF *", "30.0 µF", "60.0 µF"]),
    ]),
    (NEST_R, "22 V", ("current:R2", "voltage:R2"), [
        ("Which of these is the current through R₂?",
         ["500 mA", "600 mA *", "1.00 A", "600 A"]),
        ("Which of these is the resistance of R₂₃?",
         ["0.0833 Ω", "12.0 Ω *", "25.0 Ω", "50.0 Ω"]),
        "What is the voltage across R₂?",
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
    assert replies == {
        "500 mA": "Splitting the current equally between the two branches gives this. A fork "
        "looks like an even split. But branches in parallel share their voltage, and the current "
        "of each then follows from I = V/R.",
        "600 mA": "Yes: the current through R₂ is 600 mA.",
        "1.00 A": "Taking the whole current of the group for R₂ gives this. What was found for an "
        "equivalent is easily carried too far. Along a chain the current stays the same, but at a "
        "fork it divides.",
        "600 A": "Slipping by one prefix gives this. Each prefix is a factor of a thousand, and "
        "one is lost easily when several meet in a product. Write the powers of ten out once and "
        "count.",
    }


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


def _is_right(question: ChoiceQuestion, solution: Solution) -> bool:
    """Whether the right option of a question before the solution is borne out by the values."""
    (right,) = (option for option in question.options if option.right)
    ask = "".join(piece for piece in question.ask if isinstance(piece, str))
    if "Which of them" in ask:
        return _has_the_most(question, right, ask, solution)
    if "lie?" in ask:
        return _lies_there(question, right, solution)
    assert "doubled" in ask
    return _doubles(right, ask, solution)


def _has_the_most(question: ChoiceQuestion, right: Option, ask: str, solution: Solution) -> bool:
    law = solution.problem.law
    quantity = law.drop if law.drop in ask else law.flow
    assert quantity in ask
    members = [p.name.of for p in question.ask if isinstance(p, SymbolOf)]
    offered = [p.name.of for o in question.options for p in o.text if isinstance(p, SymbolOf)]
    assert offered == members
    (chosen,) = (piece.name.of for piece in right.text if isinstance(piece, SymbolOf))
    values = {member: solution.second[Name(quantity, member)] for member in members}
    return all(values[chosen] > values[other] for other in members if other != chosen)


def _lies_there(question: ChoiceQuestion, right: Option, solution: Solution) -> bool:
    law = solution.problem.law
    named = [p.name.of for p in question.ask if isinstance(p, SymbolOf)]
    (group,) = (
        g for g in groups(solution.problem.tree)
        if named[0] == g.parts[0].id and named[-1] == g.parts[-1].id
    )  # fmt: skip
    whole = TOTAL if group.id == solution.problem.tree.id else group.id
    value = solution.second[Name(law.value, whole)]
    members = [solution.value(Name(law.value, part.id)) for part in group.parts]
    (text,) = right.text
    assert isinstance(text, str)
    return bool(value > max(members)) if text.startswith("Above") else (
        text.startswith("Below") and bool(value < min(members))
    )  # fmt: skip


def _doubles(right: Option, ask: str, solution: Solution) -> bool:
    problem = solution.problem
    source = problem.network.source
    assert source is not None
    stronger = replace(source, value=2 * source.value)
    again = solve(replace(problem, network=replace(problem.network, source=stronger)))
    effect = problem.law.flow if source.quantity == problem.law.drop else problem.law.drop
    assert f"to the {effect}?" in ask
    name = Name(effect, problem.tree.id)
    return right.text == ("It doubles",) and again.value(name) == 2 * solution.value(name)


@given(problem=taught_problems())
@settings(max_examples=150)
def test_the_question_before_the_solution_has_the_right_answer(problem: NestProblem) -> None:
    """The nodal method bears it out, whether it is about a share, an equivalent or a doubling."""
    lesson = lesson_of(problem)
    assert sum(option.right for option in lesson.predict.options) == 1
    assert len(lesson.predict.options) <= 6
    assert _is_right(lesson.predict, lesson.solution)


def _changed(question: ChoiceQuestion) -> ChoiceQuestion:
    first, second, *rest = question.options
    swapped = (replace(first, right=second.right), replace(second, right=first.right), *rest)
    return replace(question, options=swapped)


@pytest.mark.parametrize(
    "problem",
    [
        asking(parallel("C1", "C2"), "12 V"),
        asking(series("C1", "C2"), "12 V"),
        asking("C1", "12 V"),
        asking(parallel("C1", "C2"), None),
    ],
)
def test_a_wrong_answer_would_be_noticed(problem: NestProblem) -> None:
    """The judge of these questions tells right from wrong."""
    lesson = lesson_of(problem)
    assert _is_right(lesson.predict, lesson.solution)
    assert not _is_right(_changed(lesson.predict), lesson.solution)


VOLTS = "by V = Q/C the smaller capacitance gets the larger voltage."
PREDICTED = [
    (asking(series("C1", "C2"), "12 V", "voltage:C1"),
     "C₁ and C₂ form one chain. Which of them gets the larger voltage?",
     [("C₁ *", f"Yes. They carry the same charge, and {VOLTS}"),
      ("C₂", f"A large capacitance sounds like a large share. But they carry the same charge, and "
       f"{VOLTS}"),
      ("Both get the same",
       f"What they share is the charge, not the voltage. B{VOLTS[1:]}")]),
    (asking(parallel("C1", "C2", "C3"), "12 V", "charge:C1"),
     "C₁, C₂ and C₃ share both junctions. Which of them carries the largest charge?",
     [("C₁", "It is the other way round: they have the same voltage, and by Q = CV the largest "
       "capacitance carries the largest charge."),
      ("C₂", "Not this one: they have the same voltage, and by Q = CV the largest capacitance "
       "carries the largest charge."),
      ("C₃ *", "Yes. They have the same voltage, and by Q = CV the largest capacitance carries "
       "the largest charge."),
      ("They all carry the same", "What they share is the voltage, not the charge. By Q = CV the "
       "largest capacitance carries the largest charge.")]),
    (asking(series("R1", "R2"), None),
     "R₁ and R₂ are joined in series. Where will the resistance of their equivalent lie?",
     [("Above the larger of the two *",
       "Yes. The current has to pass both of them, one after another."),
      ("Somewhere between the two", "That would be their average, and an equivalent is no "
       "average. The current has to pass both of them, one after another."),
      ("Below the smaller of the two",
       "No. The current has to pass both of them, one after another.")]),
    (asking(parallel("R1", "R2", "R3"), None),
     "R₁, R₂ and R₃ are joined in parallel. Where will the resistance of their equivalent lie?",
     [("Above the largest of them", "No. Each branch is one more way for the current, so "
       "together they hinder it less than any of them alone."),
      ("Somewhere among them", "That would be their average, and an equivalent is no average. "
       "Each branch is one more way for the current, so together they hinder it less than any "
       "of them alone."),
      ("Below the smallest of them *", "Yes. Each branch is one more way for the current, so "
       "together they hinder it less than any of them alone.")]),
    (asking(series("C1", "C2"), "12 V", values={"C1": "5 uF", "C2": "5 uF"}),
     "C₁ and C₂ are joined in series. Where will the capacitance of their equivalent lie?",
     [("Above the value that they share", "No. Each has only a part of the voltage, so the chain "
       "takes less charge than either of them would alone."),
      ("At the value that they share", "That would be their average, and an equivalent is no "
       "average. Each has only a part of the voltage, so the chain takes less charge than either "
       "of them would alone."),
      ("Below the value that they share *", "Yes. Each has only a part of the voltage, so the "
       "chain takes less charge than either of them would alone.")]),
    (asking("C1", "12 uC"),
     "Suppose the charge of the source were doubled. What would happen to the voltage?",
     [("It stays the same", "No. By V = Q/C the voltage grows in step with the charge."),
      ("It doubles *", "Yes. By V = Q/C the voltage grows in step with the charge."),
      ("It becomes four times as large", "That is true of the energy, not of the voltage. By "
       "V = Q/C the voltage grows in step with the charge.")]),
]  # fmt: skip


@pytest.mark.parametrize(("problem", "ask", "options"), PREDICTED)
def test_the_question_before_the_solution_needs_no_arithmetic(
    problem: NestProblem, ask: str, options: list[tuple[str, str]]
) -> None:
    """Who takes more, where the equivalent lies, what doubling does; every reply says why."""
    lesson = lesson_of(problem)
    question = lesson.predict
    assert plain(question.ask, lesson.display) == ask
    replies = [plain(option.reply, lesson.display) for option in question.options]
    assert list(zip(options_of(question, lesson.display), replies, strict=True)) == options


def test_what_is_asked_chooses_the_question_before_the_solution() -> None:
    """In a circuit with a chain and a bank of single elements, either can be compared."""
    tree = parallel(series("R1", "R2"), series("R3", parallel("R4", "R5")))
    of_voltage = lesson_of(asking(tree, "12 V", "voltage:R1"))
    of_current = lesson_of(asking(tree, "12 V", "current:R1"))
    assert "voltage" in plain(of_voltage.predict.ask, of_voltage.display)
    assert "current" in plain(of_current.predict.ask, of_current.display)
