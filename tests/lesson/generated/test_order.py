"""Steps in order: every order that uses nothing too early is right, and no other."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.circuit.law import Law
from builder.lesson.generated.order import order
from builder.lesson.lesson import Lesson
from builder.lesson.questions.step_forms import OrderQuestion
from builder.problem import read_problem_text
from builder.problem.model import NestProblem
from builder.solution.program import value_of
from tests.lesson.generated.lessons import SLUGS, bare_lesson, lesson_of_unit, said
from tests.lesson.network.networks import LESSONS, problem_text
from tests.lesson.telling import asking, parallel, series, taught_problems
from tests.solution.network.drawn import tables
from tests.solution.network.test_random_networks import problem_of

EXAMPLES = 60


def question_of(lesson: Lesson) -> OrderQuestion:
    """The question of a lesson that has one."""
    question = order(lesson)
    assert question is not None
    return question


def too_early(slug: str, *rows: int) -> str | None:
    """What the page says of an order of a problem's rows; None if it is right."""
    lesson = lesson_of_unit(slug)
    question = question_of(lesson)
    found = question.first_lack(rows)
    if found is None:
        return None
    row, lack = found
    goal = said(question.rows[row].goal, lesson.display)
    what = said(lack.what, lesson.display)
    return f"“{goal}” needs {what}, which nobody has {'made' if lack.made else 'found'} yet."


ORDERS = [
    pytest.param(
        "flasher-reservoir", (0, 1, 2, 4, 3, 5),
        "“Walk back to C₂ and C₃” needs the voltage across C₂₃, which nobody has found yet.",
        id="nest",
    ),
    pytest.param("flasher-reservoir", (0, 1, 2, 5, 3, 4), None, id="nest-energy-earlier"),
    pytest.param("repeater-leftovers", (1, 0, 2), None, id="nest-either-group-first"),
    pytest.param(
        "bench-bridge", (1, 0, 2, 3, 4),
        "“Merge R₁ with R₃ and R₂ with R₄, which each form one chain” needs the circuit without "
        "R₅, which nobody has made yet.",
        id="network-balance",
    ),
    pytest.param(
        "heater-cube", (1, 0, 2, 3, 4, 5, 6),
        "“Merge three groups that each share both junctions: R₁ to R₃; R₄ to R₉; R₁₀ to R₁₂” needs "
        "the circuit with its like junctions joined, which nobody has made yet.",
        id="network-symmetry",
    ),
    pytest.param(
        "panel-and-battery", (1, 0, 2, 3, 4, 5),
        "“Merge R₂ and R₃, which share both junctions” needs the circuit with E₁ alone, which "
        "nobody has made yet.",
        id="network-superposition",
    ),
    pytest.param(
        "bench-crossed-leads", (0, 1, 3, 2, 4, 5, 6),
        "“Walk back to the charges on C₁ and C₂” needs the voltage across C₁ after S₁ is closed, "
        "which nobody has found yet.",
        id="stages",
    ),
    pytest.param("bench-crossed-leads", (0, 4, 1, 2, 3, 5, 6), None, id="stages-energy-earlier"),
    pytest.param(
        "lantern-switched-over", (0, 1, 2, 4, 3, 5, 6),
        "“Find the time constant” needs the resistance that C₁ sees, which nobody has found yet.",
        id="transient",
    ),
    pytest.param("lantern-switched-over", (3, 4, 0, 1, 6, 5, 2), None, id="transient-other-way"),
    pytest.param(
        "tuner-plates-cut-off", (0, 2, 1, 3, 4, 5, 6),
        "“Find the charge on the plates (Q)” needs the charge before (Q₀), which nobody has found "
        "yet.",
        id="relations",
    ),
    pytest.param(
        "capacitor-without-a-mark", (0, 1, 3, 2, 4, 5),
        "“Find the voltage across C₂₃” needs the voltage across C₁, which nobody has found yet.",
        id="unknown",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("slug", "rows", "says"), ORDERS)
def test_orders_of_each_kind_are_judged(slug: str, rows: tuple[int, ...], says: str | None) -> None:
    """The first place is told where something is used before it is found."""
    assert too_early(slug, *rows) == says


ASKED = [
    ("flasher-reservoir", "Put the steps of the solution in order."),
    ("bench-bridge-astray", "Put the first six steps of the solution in order."),
    ("sensor-supply", "Put the last six steps of the solution in order."),
    (
        "lantern-ladder",
        "Put steps 3 to 8 of the solution in order. What comes before them is done.",
    ),
]


@pytest.mark.parametrize(("slug", "asks"), ASKED)
def test_of_a_long_solution_a_part_is_asked(slug: str, asks: str) -> None:
    """The question says which."""
    lesson = lesson_of_unit(slug)
    question = question_of(lesson)
    assert said(question.ask, lesson.display) == asks
    assert 3 <= len(question.rows) <= 7


@pytest.mark.parametrize("slug", SLUGS)
def test_what_is_shown_first_is_not_right(slug: str) -> None:
    """All rows are there, each once with a text of its own, and the order of the solution fits."""
    question = order(lesson_of_unit(slug))
    if question is None:
        assert len(lesson_of_unit(slug).steps) < 3
        return
    assert sorted(question.shown) == list(range(len(question.rows)))
    assert question.first_lack(question.shown) is not None
    assert question.first_lack(range(len(question.rows))) is None
    assert len({row.goal for row in question.rows}) == len(question.rows)


def test_where_everything_may_come_first_nothing_is_asked() -> None:
    """Three steps that need nothing of each other can be in no wrong order."""
    lesson = bare_lesson(asking(parallel("R1", "R2"), "24 V", "current:R1", "current:R2"))
    assert order(lesson) is None


def test_other_values_are_mixed_alike() -> None:
    """What is shown first does not hang on the values."""
    tree = series("C1", parallel("C2", "C3"))
    one = question_of(bare_lesson(asking(tree, "12 V")))
    values = {"C1": "1 uF", "C2": "47 uF", "C3": "3.3 uF"}
    other = question_of(bare_lesson(asking(tree, "5 V", values=values)))
    assert (one.shown, [row.goal for row in one.rows]) == (
        other.shown, [row.goal for row in other.rows],
    )  # fmt: skip


def runs(lesson: Lesson, question: OrderQuestion, rows: tuple[int, ...]) -> bool:
    """Whether the program can be run in an order: nothing is used before it has a value."""
    goals = [taught.words.goal for taught in lesson.steps]
    size = len(question.rows)
    start = next(
        at for at in range(len(goals) - size + 1)
        if goals[at : at + size] == [row.goal for row in question.rows]
    )  # fmt: skip
    known = {name: lesson.solution.values[name] for name in lesson.solution.givens}
    steps = [taught.step for taught in lesson.steps]
    for step in (*steps[:start], *(steps[start + row] for row in rows)):
        for line in step.lines:
            try:
                known[line.name] = value_of(line.formula, known, {})
            except KeyError:
                return False
    return True


@settings(max_examples=EXAMPLES, deadline=None)
@given(problem=taught_problems(), data=st.data())
def test_what_can_be_run_is_right_in_nests(problem: NestProblem, data: st.DataObject) -> None:
    """An order of a nest's steps is accepted if the program runs in it, and only then."""
    lesson = bare_lesson(problem)
    question = order(lesson)
    if question is None:
        return
    size = len(question.rows)
    assert runs(lesson, question, tuple(range(size)))
    some = list(permutations(range(size))) if size < 5 else []
    drawn = [tuple(data.draw(st.permutations(range(size)))) for _ in range(6)]
    for rows in (*some, *drawn, question.shown):
        assert (question.first_lack(rows) is None) == runs(lesson, question, rows)


@settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(drawn=tables(), data=st.data())
def test_what_is_right_can_be_run_in_networks(drawn: tuple[Law, str], data: st.DataObject) -> None:
    """An order that is accepted can be run; the order of the solution is accepted."""
    lesson = bare_lesson(problem_of(*drawn))
    question = order(lesson)
    if question is None:
        return
    size = len(question.rows)
    assert question.first_lack(range(size)) is None
    for _ in range(6):
        rows = tuple(data.draw(st.permutations(range(size))))
        if question.first_lack(rows) is None:
            assert runs(lesson, question, rows)


@pytest.mark.parametrize("name", LESSONS)
def test_networks_of_every_method_can_be_put_in_order(name: str) -> None:
    """The order of the solution is right, what is shown is not, and the texts have a place."""
    rows, find, more = LESSONS[name]
    lesson = bare_lesson(read_problem_text(problem_text(rows, find, more), "a.yml"))
    question = order(lesson)
    if question is not None:
        assert question.first_lack(range(len(question.rows))) is None
        assert question.first_lack(question.shown) is not None
        for row in question.rows:
            for lack in row.lacks:
                assert said(lack.what, lesson.display).startswith("the ")
