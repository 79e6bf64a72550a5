"""Which move comes first: what is offered is true of the circuit, and never another right move."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from builder.circuit.law import PARALLEL, SERIES, Law
from builder.circuit.tree import Group, Leaf, Tree
from builder.lesson.generated.false_merges import false_merges
from builder.lesson.generated.first_move import first_move
from builder.lesson.lesson import Lesson
from builder.lesson.nest.display import NestDisplay
from builder.lesson.questions import ChoiceQuestion
from builder.problem import read_problem_text
from builder.problem.model import NestProblem
from builder.quantity.formula import evaluate
from builder.quantity.names import Name
from builder.solution import Step
from builder.solution.nest.solve import solve_nest
from builder.solution.network.step import NetworkMove, NetworkStep
from tests.lesson.generated.lessons import SLUGS, bare_lesson, lesson_of_unit, said
from tests.lesson.network.networks import LESSONS, problem_text
from tests.lesson.telling import asking, parallel, series, taught_problems
from tests.solution.network.drawn import tables
from tests.solution.network.test_random_networks import problem_of

EXAMPLES = 60


def told(question: ChoiceQuestion, lesson: Lesson) -> dict[str, str]:
    """Each option with its reply."""
    return {
        said(option.text, lesson.display): said(option.reply, lesson.display)
        for option in question.options
    }


def question_of(lesson: Lesson) -> ChoiceQuestion:
    """The question of a lesson that has one."""
    question = first_move(lesson)
    assert question is not None
    return question


MOVES = [
    pytest.param(
        "flasher-reservoir",
        {
            "Merge C₂ and C₃, which share both junctions": "Yes. It needs nothing but what is "
            "given, and the circuit becomes simpler.",
            "Merge what is left, C₁ and C₂₃": "No. That needs the capacitance of C₂₃, which "
            "nobody has found yet.",
            "Find the charge that the source delivers": "No. That needs the equivalent "
            "capacitance, which nobody has found yet.",
            "Merge C₁ and C₂, which share both junctions": "No. C₁ and C₂ share only one "
            "junction. Their other ends lie apart, so they need not have the same voltage.",
        },
        id="nest",
    ),
    pytest.param(
        "bench-bridge-astray",
        {
            "Replace the triangle R₁, R₂ and R₅ by a star": "Yes. It needs nothing but what is "
            "given, and the circuit becomes simpler.",
            "Merge R_b with R₃ and R_c with R₄, which each form one chain": "No. That needs the "
            "resistance R_b, which nobody has found yet.",
            "Find the current that the source delivers": "No. That needs the equivalent "
            "resistance, which nobody has found yet.",
            "Merge R₃ and R₅, which share both junctions": "No. R₃ and R₅ share only one "
            "junction. Their other ends lie apart, so they need not have the same voltage.",
        },
        id="network",
    ),
    pytest.param(
        "bench-crossed-leads",
        {
            "Find the charges on C₁ and C₂ at the start": "Yes. It needs nothing but what is "
            "given.",
            "Walk back to the charges on C₁ and C₂": "No. That needs the voltage across C₁ after "
            "S₁ is closed, which nobody has found yet.",
            "Account for the energy after S₁ is closed": "No. That needs the energy stored in all "
            "capacitors after S₁ is closed, which nobody has found yet.",
            "Find the energy stored after S₁ is closed": "No. That needs the charge on C₁ after "
            "S₁ is closed, which nobody has found yet.",
        },
        id="stages",
    ),
    pytest.param(
        "lantern-switched-over",
        {
            "See what C₁ holds when the change comes": "Yes. It needs nothing but what is given.",
            "Find what flows at the first instant": "No. That needs the voltage across C₁ at the "
            "first instant, which nobody has found yet.",
            "Find the voltage across C₁ after 0.4 s": "No. That needs the time constant, which "
            "nobody has found yet.",
            "Find when C₁ reaches 3 V": "No. That needs the time constant, which nobody has found "
            "yet.",
        },
        id="transient",
    ),
    pytest.param(
        "tuner-plates-cut-off",
        {
            "Find the capacitance C": "Yes. It needs nothing but what is given.",
            "Find the energy that is stored (U)": "No. That needs the voltage across the plates "
            "(V), which nobody has found yet.",
            "Find the work that is done on the filling as it is drawn in (W_in)": "No. That needs "
            "the energy that is stored (U), which nobody has found yet.",
        },
        id="relations",
    ),
    pytest.param(
        "capacitor-without-a-mark",
        {
            "Find the charge that the source delivers": "Yes. It needs nothing but what is given.",
            "Find the charge on C₂": "No. That needs the voltage across C₂, which nobody has found "
            "yet.",
            "Merge C₁ and C₂, which form one chain": "No. C₁ and C₂ meet at a junction, but C₃ is "
            "joined on there as well, so they need not carry the same charge.",
            "Merge C₁ and C₃, which share both junctions": "No. C₁ and C₃ share only one "
            "junction. Their other ends lie apart, so they need not have the same voltage.",
        },
        id="unknown",
    ),
]


@pytest.mark.parametrize(("slug", "options"), MOVES)
def test_each_kind_of_problem_asks_for_its_first_move(slug: str, options: dict[str, str]) -> None:
    """Options and replies, looked over by hand in the circuit of each problem."""
    lesson = lesson_of_unit(slug)
    assert told(question_of(lesson), lesson) == options


@pytest.mark.parametrize("slug", SLUGS)
def test_the_first_step_is_the_one_right_option(slug: str) -> None:
    """Two or three others stand beside it, all of them different, and say No."""
    lesson = lesson_of_unit(slug)
    question = first_move(lesson)
    if question is None:
        return
    (right,) = (option for option in question.options if option.right)
    assert right.text == lesson.steps[0].words.goal
    assert 3 <= len({option.text for option in question.options}) == len(question.options) <= 4
    for option in question.options:
        assert said(option.reply, lesson.display).startswith("Yes." if option.right else "No. ")


def test_the_right_option_does_not_always_stand_in_one_place() -> None:
    """Over the unit it is first, last and in between."""
    places = set()
    for slug in SLUGS:
        question = first_move(lesson_of_unit(slug))
        if question is not None:
            places.add([option.right for option in question.options].index(True))
    assert places >= {0, 1, 2}


def test_of_two_groups_that_may_both_come_first_only_one_is_offered() -> None:
    """In two chains side by side either may be merged first."""
    tree = parallel(series("C1", "C2"), series("C3", "C4"))
    lesson = bare_lesson(asking(tree, None))
    texts = told(question_of(lesson), lesson)
    assert "Merge C₁ and C₂, which form one chain" in texts
    assert "Merge C₃ and C₄, which form one chain" not in texts


def test_what_a_well_known_formula_gives_at_once_is_not_called_wrong() -> None:
    """The power of what lies straight across the source follows from V²/R, without its current."""
    lesson = bare_lesson(asking(parallel("R1", "R2", "R3"), "24 V", "current:total", "power:R1"))
    texts = told(question_of(lesson), lesson)
    assert not any("power" in text for text in texts)


def test_a_circuit_without_its_load_is_no_place_to_begin() -> None:
    """Its first merge is possible only once the load is off, which the goal does not say."""
    assert first_move(lesson_of_unit("sensor-supply")) is None


def test_other_values_ask_the_same() -> None:
    """Options and their order do not hang on the values."""
    tree = series("C1", parallel("C2", "C3"))
    one = bare_lesson(asking(tree, "12 V"))
    other = bare_lesson(asking(tree, "5 V", values={"C1": "1 uF", "C2": "47 uF", "C3": "3.3 uF"}))
    assert list(told(question_of(one), one)) == list(told(question_of(other), other))


def joins(tree: Tree) -> Iterator[tuple[frozenset[str], str]]:
    """Every pair of single elements that a nest truly joins, with the connection."""
    if isinstance(tree, Leaf):
        return
    parts = tree.parts
    pairs = (
        pairwise(parts)
        if tree.connection == SERIES
        else ((one, other) for one in parts for other in parts if one is not other)
    )
    for one, other in pairs:
        if isinstance(one, Leaf) and isinstance(other, Leaf):
            yield frozenset((one.id, other.id)), tree.connection
    for part in parts:
        yield from joins(part)


@settings(max_examples=EXAMPLES, deadline=None)
@given(problem=taught_problems())
def test_false_merges_of_nests_are_false(problem: NestProblem) -> None:
    """No pair that is offered is joined in that way in the tree, which the offer does not see."""
    display = NestDisplay(solve_nest(problem))
    true = set(joins(problem.tree))
    for merge in false_merges(problem.network, problem.law, display):
        for pair in pairwise(merge.members):
            assert (frozenset(pair), merge.connection) not in true


@settings(max_examples=EXAMPLES, deadline=None)
@given(problem=taught_problems())
def test_wrong_moves_of_nests_are_not_possible(problem: NestProblem) -> None:
    """Later steps that are offered miss a value; no element that is offered has the whole drop."""
    lesson = bare_lesson(problem)
    question = first_move(lesson)
    for option in question.options if question is not None else ():
        step = step_of(option.text, lesson)
        if not option.right and step is not None:
            assert not possible_at_once(step, lesson)
        text = said(option.text, lesson.display)
        if "from the whole" in text:
            (of,) = (piece.name.of for piece in option.text if hasattr(piece, "name"))
            source = problem.network.sources[0]
            assert lesson.solution.values[Name(source.quantity, of)] < source.value


def step_of(goal: object, lesson: Lesson) -> Step | None:
    """The step with that goal."""
    return next((taught.step for taught in lesson.steps if taught.words.goal == goal), None)


def possible_at_once(step: Step, lesson: Lesson) -> bool:
    """Whether a step can be taken with what is given alone, by its formulas or by the law's."""
    problem = lesson.solution.problem
    law: Law = problem.law  # type: ignore[attr-defined]
    known = {name: lesson.solution.values[name] for name in lesson.solution.givens}
    for taught in lesson.steps:
        for line in taught.step.lines:
            if line.carries:
                try:
                    known[line.name] = evaluate(line.formula, known)
                except KeyError:
                    continue
    for line in step.lines:
        try:
            known[line.name] = evaluate(line.formula, known)
        except KeyError:
            of = line.name.of
            one = Name(law.value, of) in known
            if not one or not {Name(law.flow, of), Name(law.drop, of)} & set(known):
                return False
    return True


@settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(drawn=tables(), number=st.integers(0, 3))
def test_wrong_moves_of_networks_are_not_possible(drawn: tuple[Law, str], number: int) -> None:
    """False merges are no pairs of the network; later steps that are offered miss a value."""
    law, rows = drawn
    problem = problem_of(law, rows)
    lesson = bare_lesson(problem)
    network = problem.network
    for merge in false_merges(network, law, lesson.display):
        ends = [network.element(member).between for member in merge.members]
        if merge.connection == PARALLEL:
            assert len({frozenset(pair) for pair in ends}) > 1
            continue
        for one, other in pairwise(ends):
            shared = set(one) & set(other)
            ends_of = [one.between for one in network.elements]
            ends_of += [one.between for one in network.sources]
            meeting = [sum(end in pair for pair in ends_of) for end in shared]
            assert all(count > 2 for count in meeting)
    question = first_move(lesson)
    for option in question.options if question is not None else ():
        step = step_of(option.text, lesson)
        if step is not None and not option.right:
            assert not possible_at_once(step, lesson)


@pytest.mark.parametrize("name", LESSONS)
def test_networks_of_every_method_ask_or_leave_it(name: str) -> None:
    """The right first move is the first step; merges that are offered need an equivalent."""
    rows, find, more = LESSONS[name]
    lesson = bare_lesson(read_problem_text(problem_text(rows, find, more), "a.yml"))
    question = first_move(lesson)
    for option in question.options if question is not None else ():
        step = step_of(option.text, lesson)
        if isinstance(step, NetworkStep) and step.kind is NetworkMove.MERGE and not option.right:
            single = {element.name for element in lesson.display.network.elements}  # type: ignore[attr-defined]
            members = {member for group in step.merged for member in group.members}
            assert not members <= single or "nobody has made" in said(option.reply, lesson.display)


def test_groups_are_what_the_helper_says() -> None:
    """The check of this file itself: a pair in a bank, a pair in a chain, and no other."""
    tree = series("C1", parallel("C2", "C3"), "C4")
    named = asking(tree, "12 V").tree
    assert isinstance(named, Group)
    assert set(joins(named)) == {(frozenset(("C2", "C3")), PARALLEL)}
