"""What a teacher says at each step with equations."""

from __future__ import annotations

import pytest

from builder.lesson.lesson import Lesson
from builder.lesson.prose import NumberOf, Prose, SymbolOf, Written
from builder.lesson.relations.display import symbol_for
from builder.lesson.relations.write import write_relations_lesson
from builder.problem.relations.model import RelationsProblem
from builder.solution.relations.solve import solve_relations
from tests.problem.relations.test_plates import plates_problem
from tests.problem.relations.written import relations_problem


def lesson_of(problem: RelationsProblem) -> Lesson:
    """The lesson of a problem."""
    return write_relations_lesson(solve_relations(problem))


def told(prose: Prose, lesson: Lesson) -> str:
    """A text with its symbols and numbers."""
    pieces = []
    for piece in prose:
        match piece:
            case str():
                pieces.append(piece)
            case SymbolOf(name):
                pieces.append(symbol_for(name.of).text)
            case NumberOf(name):
                pieces.append(lesson.display.shown(name).text)
            case Written(markdown):
                pieces.append(markdown)
            case _:
                raise AssertionError(piece)
    return "".join(pieces)


FLASH = relations_problem("U: 0.36 J; C: 5 mF; V: voltage; Q: charge",
                          ("U = 1/2*C*V^2", "Q = C*V"), "[V, Q]")  # fmt: skip
WIRES = relations_problem(
    "s: 10 ohm; p: 2.4 ohm; a: {kind: resistance, choose: smaller}; "
    "b: {kind: resistance, choose: larger}", ("s = a+b", "p = a*b/(a+b)"), "[a, b]",
)  # fmt: skip
SIDE = relations_problem("a: 3 m; x: {kind: length, is: the side of the square sheet}",
                         ("x^2 + a*x = 10 m^2",), "[x]")  # fmt: skip
GAP = relations_problem("C: 7 pF; A: 8 cm^2; d: length", ("C = eps0*A/d",), "[d]")
SPARK = plates_problem("{area: 50 cm^2, gap: 0.02 mm, voltage: 500 V, "
                       "filling: {kappa: 2.5, strength: 20 MV/m}}", "[V_max, E]")  # fmt: skip


@pytest.mark.parametrize(
    ("problem", "number", "goal", "reason", "remark"),
    [
        (FLASH, 0, "Find the voltage V",
         "V is the only unknown in this relation. To leave V alone, divide by what multiplies it, "
         "then take the square root, on both sides alike.",
         "The negative root satisfies the relation as well: it is the same size, counted in the "
         "other direction."),
        (FLASH, 1, "Find the charge Q", "Now that V is known, this relation tells Q outright.", ""),
        (WIRES, 0, "Find the resistance a and the resistance b",
         "Both relations hold more than one unknown, so no single one gives a or b. Solve one "
         "relation for one of them and put that into the other, until a single unknown is left. "
         "That is a quadratic equation, which the usual formula solves.",
         "b₁ and b₂ both satisfy the relation; the larger of the two is meant here."),
        (SIDE, 0, "Find the side of the square sheet (x)",
         "x is the only unknown, but its square occurs as well. Order the relation by powers of "
         "x: a quadratic equation, which the usual formula solves.",
         "Of x₁ and x₂ only one is above zero, and a length is never negative."),
        (GAP, 0, "Find the length d",
         "d is the only unknown in this relation. It stands below the line: multiply both sides "
         "by it, and divide by what it is equal to then.",
         "ε₀ is the electric constant (CODATA 2022)."),
        (SPARK, 0, "Find the highest voltage that the filling stands (V_max)",
         "At that voltage the field is as strong as the filling stands.", ""),
        (SPARK, 1, "Find the field strength between the plates (E)",
         "The field is the same all along its way, so it is the voltage per length.",
         "That is more than the 20 MV/m that it stands: a spark would break through it."),
    ],
)  # fmt: skip
def test_a_step_says_what_is_sought_and_why_it_can_be_found(
    problem: RelationsProblem, number: int, goal: str, reason: str, remark: str
) -> None:
    """The goal names the unknown, the reason the move, the remark what else there was."""
    lesson = lesson_of(problem)
    words = lesson.steps[number].words
    assert told(words.goal, lesson) == goal
    assert told(words.reason, lesson) == reason
    assert told(words.remark, lesson) == remark


@pytest.mark.parametrize(
    ("problem", "plan"),
    [
        (FLASH, "Look for a relation with a single unknown, find it, and go on from there: first "
         "V, then Q."),
        (WIRES, "No relation has a single unknown, so begin with several at once: a and b "
         "together."),
        (GAP, "One relation holds everything: the unknown d and what is given."),
        (SPARK, "The filling multiplies the capacitance by κ."),
    ],
)  # fmt: skip
def test_the_plan_tells_the_order(problem: RelationsProblem, plan: str) -> None:
    """What is found first and what follows, in a line."""
    lesson = lesson_of(problem)
    assert told(lesson.plan, lesson) == plan


def test_a_field_that_is_too_strong_calls_for_a_caution() -> None:
    """A spark is warned of with both field strengths and the problem itself as the source."""
    caution = lesson_of(SPARK).caution
    assert caution is not None
    assert "strength" in caution.source
    assert told(caution.says, lesson_of(SPARK)).startswith(
        "At 25.0 MV/m the filling, which stands 20 MV/m, breaks down"
    )
