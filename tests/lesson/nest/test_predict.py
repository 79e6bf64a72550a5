"""The question that is asked before the solution."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings

from builder.circuit.tree import groups
from builder.lesson.prose import SymbolOf
from builder.lesson.questions import ChoiceQuestion, Option
from builder.problem.model import NestProblem
from builder.quantity.names import TOTAL, Name
from builder.solution.nest.solve import NestSolution, solve_nest
from tests.lesson.telling import (
    asking,
    lesson_of,
    options_of,
    parallel,
    plain,
    series,
    taught_problems,
)


def _is_right(question: ChoiceQuestion, solution: NestSolution) -> bool:
    """Whether the right option of a question before the solution is borne out by the values."""
    (right,) = (option for option in question.options if option.right)
    ask = "".join(piece for piece in question.ask if isinstance(piece, str))
    if "Which of them" in ask:
        return _has_the_most(question, right, ask, solution)
    if "lie?" in ask:
        return _lies_there(question, right, solution)
    assert "doubled" in ask
    return _doubles(right, ask, solution)


def _has_the_most(
    question: ChoiceQuestion, right: Option, ask: str, solution: NestSolution
) -> bool:
    law = solution.problem.law
    quantity = law.drop if law.drop in ask else law.flow
    assert quantity in ask
    members = [p.name.of for p in question.ask if isinstance(p, SymbolOf)]
    offered = [p.name.of for o in question.options for p in o.text if isinstance(p, SymbolOf)]
    assert offered == members
    (chosen,) = (piece.name.of for piece in right.text if isinstance(piece, SymbolOf))
    values = {member: solution.second[Name(quantity, member)] for member in members}
    return all(values[chosen] > values[other] for other in members if other != chosen)


def _lies_there(question: ChoiceQuestion, right: Option, solution: NestSolution) -> bool:
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


def _doubles(right: Option, ask: str, solution: NestSolution) -> bool:
    problem = solution.problem
    source = problem.network.source
    assert source is not None
    stronger = replace(source, value=2 * source.value)
    again = solve_nest(replace(problem, network=replace(problem.network, sources=(stronger,))))
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
