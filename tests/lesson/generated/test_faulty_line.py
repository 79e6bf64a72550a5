"""A worked mistake: the first line whose number differs from the right one is the fault."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings

from builder.circuit.law import Law
from builder.lesson.generated.faulty_line import (
    MARK,
    faulty_line,
    mistakes_of,
    rules_of,
    worked,
)
from builder.lesson.generated.wrong_formulas import _FAMILIES
from builder.lesson.lesson import Lesson
from builder.lesson.prose import NumberOf, Prose, WrongNumber
from builder.lesson.questions.step_forms import FaultyLineQuestion, WorkedLine
from builder.problem.model import NestProblem
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.show import show
from builder.quantity.symbolic import same
from builder.solution.program import value_of
from tests.lesson.generated.lessons import SLUGS, bare_lesson, lesson_of_unit, said
from tests.lesson.generated.rules import every_rule
from tests.lesson.telling import asking, parallel, series, taught_problems
from tests.solution.network.drawn import tables
from tests.solution.network.test_random_networks import problem_of

EXAMPLES = 50


def question_of(lesson: Lesson) -> FaultyLineQuestion:
    """The question of a lesson that has one."""
    question = faulty_line(lesson)
    assert question is not None
    return question


def worked_by(rule: str, step: str, slug: str) -> list[str]:
    """The lines of a problem with a certain mistake, in plain text with their states."""
    lesson = lesson_of_unit(slug)
    (chosen,) = (
        mistake
        for one in rules_of(lesson)
        if one.id == rule
        for mistake in mistakes_of(one, lesson)
        if lesson.steps[mistake.at].step.id == step
    )
    return [
        f"{line.state}: "
        + " | ".join(said(part, lesson.display) for part in (line.goal, *line.results))
        for line in worked(chosen, lesson).lines
    ]


WORKED = [
    # 22 µF and 8 µF behind 15 µF at 12 V; with 6 V on each, 22 · 6 = 132 and 8 · 6 = 48.
    pytest.param("equal-voltages", "open-total", "flasher-reservoir", [
        "fine: Merge C₂ and C₃, which share both junctions | C₂₃ = C₂ + C₃ = 30.0 µF",
        "fine: Merge what is left, C₁ and C₂₃ | C_eq = 1/(1/C₁ + 1/C₂₃) = 10.0 µF",
        "fine: Find the charge that the source delivers | Q = C_eq · V₀ = 120 µC",
        "fault: Walk back to C₁ and C₂₃ | Q₁ = Q = 120 µC | Q₂₃ = Q = 120 µC | "
        "V₁ = V₀/2 = 6.00 V | V₂₃ = V₀/2 = 6.00 V",
        "misled: Walk back to C₂ and C₃ | V₂ = V₂₃ = 6.00 V | V₃ = V₂₃ = 6.00 V | "
        "Q₂ = C₂V₂ = 132 µC | Q₃ = C₃V₃ = 48.0 µC",
        "fine: Find the energy of the whole circuit | U = ½QV₀ = 720 µJ",
    ], id="nest"),
    # 20 Ω and 40 Ω in one arm, 10 Ω and 20 Ω in the other, at 12 V: 12/13.3 = 0.9.
    pytest.param("reciprocals-instead", "merge-R13", "bench-bridge", [
        "fine: Nothing flows through R₅: take it out | V₅ = 0 V | I₅ = 0 A",
        "fault: Merge R₁ with R₃ and R₂ with R₄, which each form one chain | "
        "R₁₃ = 1/(1/R₁ + 1/R₃) ≈ 13.3 Ω | R₂₄ = 1/(1/R₂ + 1/R₄) ≈ 6.67 Ω",
        "misled: Merge what is left, R₁₃ and R₂₄ | R_eq = 1/(1/R₁₃ + 1/R₂₄) ≈ 4.44 Ω",
        "misled: Walk back to R₁₃ and R₂₄ | V₁₃ = V₀ = 12.0 V | V₂₄ = V₀ = 12.0 V | "
        "I₁₃ = V₁₃/R₁₃ = 900 mA | I₂₄ = V₂₄/R₂₄ = 1.80 A",
        "misled: Walk back to R₁, R₂, R₃ and R₄ | I₁ = I₁₃ = 900 mA | I₃ = I₁₃ = 900 mA | "
        "I₂ = I₂₄ = 1.80 A | I₄ = I₂₄ = 1.80 A",
    ], id="network"),
    # 6 µF at 20 V and 4 µF at 5 V, joined crosswise: 140/10 = 14, and ½ · 10 · 14² = 980.
    pytest.param("polarity-ignored", "stage-1-island", "bench-crossed-leads", [
        "fine: Find the charges on C₁ and C₂ at the start | Q₁ = C₁V₁ = 120 µC | "
        "Q₂ = C₂V₂ = 20.0 µC",
        "fault: Count the charge on the plates that are joined | Q = Q₁ + Q₂ = 140 µC",
        "misled: Find the one voltage at which C₁ and C₂ settle | V′ = Q/(C₁ + C₂) = 14.0 V | "
        "V₁′ = V′ = 14.0 V | V₂′ = −V′ = −14.0 V",
        "misled: Walk back to the charges on C₁ and C₂ | Q₁′ = C₁V₁′ = 84.0 µC | "
        "Q₂′ = C₂V₂′ = −56.0 µC",
        "fine: Find the energy stored at the start | U₁ = ½Q₁V₁ = 1.20 mJ | "
        "U₂ = ½Q₂V₂ = 50.0 µJ | U = U₁ + U₂ = 1.25 mJ",
        "misled: Find the energy stored after S₁ is closed | U₁′ = ½Q₁′V₁′ = 588 µJ | "
        "U₂′ = ½Q₂′V₂′ = 392 µJ | U′ = U₁′ + U₂′ = 980 µJ",
        "misled: Account for the energy after S₁ is closed | U_lost = U − U′ = 270 µJ",
    ], id="stages"),
    # From 6 V towards 2 V: 3 kΩ · 300 µF = 0.9 s, 2 + 4e^(−0.4/0.9), 0.9 · ln 4.
    pytest.param("added-instead", "seen", "lantern-switched-over", [
        "fine: See what C₁ holds when the change comes | R_eq(0⁻) = R₁ + R₃ = 3.00 kΩ | "
        "I(0⁻) = V₁/R_eq(0⁻) = 3.00 mA | V_R3(0⁻) = R₃ · I₃(0⁻) = 6.00 V | "
        "V_C1(0) = V_C1(0⁻) = 6.00 V",
        "fine: Find the voltage that C₁ is heading for | R_eq(∞) = R₂ + R₃ = 3.00 kΩ | "
        "I(∞) = V₂/R_eq(∞) = 1.00 mA | V_R3(∞) = R₃ · I₃(∞) = 2.00 V | "
        "V_C1(∞) = V_R3(∞) = 2.00 V",
        "fine: Find what flows at the first instant | I_A(0) = −3.00 mA | I₂(0) = −I_A(0) = "
        "3.00 mA",
        "fault: Find the resistance that C₁ sees | R_seen = R₂ + R₃ = 3.00 kΩ",
        "misled: Find the time constant | τ = R_seen · C₁ = 900 ms",
        "misled: Find the voltage across C₁ after 0.4 s | V_C1(t₁) ≈ 4.56 V",
        "misled: Find when C₁ reaches 3 V | t_3 V ≈ 1.25 s",
    ], id="transient"),
    # 720 pC · 12 V without the half is 8.64 nJ; 8.64 − 1.44 = 7.20.
    pytest.param("half-dropped", "find-U0", "tuner-plates-cut-off", [
        "fine: Find the capacitance C | C = κC₀ = 180 pF",
        "fine: Find the charge before (Q₀) | Q₀ = C₀V₀ = 720 pC",
        "fine: Find the charge on the plates (Q) | Q = Q₀ = 720 pC",
        "fine: Find the voltage across the plates (V) | V = Q/C = 4.00 V",
        "fault: Find the energy before (U₀) | U₀ = Q₀V₀ = 8.64 nJ",
        "fine: Find the energy that is stored (U) | U = QV/2 = 1.44 nJ",
        "misled: Find the work that is done on the filling as it is drawn in (W_in) | "
        "W_in = U₀ − U = 7.20 nJ",
    ], id="relations"),
    # The equivalent, 4 µF, at the 8 V of C₂ would hold 32 µC.
    pytest.param("equivalent-for-one", "find-capacitance-C2", "capacitor-without-a-mark", [
        "fine: Find the capacitance of C₂₃ | C₂₃ = 1/(1/C_eq − 1/C₁) = 6.00 µF",
        "fault: Find the capacitance of C₂ | C₂ = C_eq = 4.00 µF",
        "fine: Find the voltage across C₁ | V₁ = Q₁/C₁ = 4.00 V",
        "fine: Find the voltage across C₂₃ | V₂₃ = V₀ − V₁ = 8.00 V",
        "fine: Find the voltage across C₂ | V₂ = V₂₃ = 8.00 V",
        "misled: Find the charge on C₂ | Q₂ = C₂V₂ = 32.0 µC",
    ], id="unknown"),
]  # fmt: skip


@pytest.mark.parametrize(("rule", "step", "slug", "lines"), WORKED)
def test_worked_by_hand(rule: str, step: str, slug: str, lines: list[str]) -> None:
    """A mistake in each kind of problem: formulas, numbers and signs of exactness."""
    assert worked_by(rule, step, slug) == lines


def numbers(line: WorkedLine) -> Iterator[tuple[Name, WrongNumber | NumberOf]]:
    """The number at the end of each formula of a line, with its quantity."""
    for result in line.results:
        last = result[-1]
        assert isinstance(last, WrongNumber | NumberOf)
        yield last.name, last


def check_lines(question: FaultyLineQuestion, lesson: Lesson) -> None:
    """What holds of every such question, by numbers worked out again without its maker."""
    states = [line.state for line in question.lines]
    assert states.count("fault") == 1
    at = states.index("fault")
    assert set(states[:at]) <= {"fine"}
    assert question.lines[at].step == question.look_at
    wrong = {
        name: number
        for line in question.lines
        for name, number in numbers(line)
        if isinstance(number, WrongNumber)
    }
    right = lesson.solution.values
    for line in question.lines:
        differs = any(
            number.shown.text != show(right[name], name.quantity, lesson.display.digits).text
            for name, number in numbers(line)
            if isinstance(number, WrongNumber)
        )
        assert line.state != "fine" or not differs
        assert line.state != "fault" or differs
    assert {number.rule for number in wrong.values()} == {MARK}
    check_carried_on(question, lesson)


def check_carried_on(question: FaultyLineQuestion, lesson: Lesson) -> None:
    """Every later number is what the right formulas give with the wrong numbers of the fault."""
    (fault,) = (line for line in question.lines if line.state == "fault")
    steps = [taught.step for taught in lesson.steps]
    at = [step.id for step in steps].index(fault.step)
    shown = {name: number for line in question.lines for name, number in numbers(line)}
    digits = lesson.display.digits
    for values in wrong_runs(question, lesson):
        for step in steps[at + 1 :]:
            for line in step.lines:
                values[line.name] = value_of(line.formula, values, {})
                number = shown.get(line.name)
                if isinstance(number, WrongNumber):
                    assert number.shown == show(values[line.name], line.name.quantity, digits)
                elif number is not None:
                    assert same(values[line.name], lesson.solution.values[line.name])


def wrong_runs(question: FaultyLineQuestion, lesson: Lesson) -> Iterator[dict[Name, Exact]]:
    """The values after the faulty step, as the rules of the lesson give them; exactly one fits."""
    (fault,) = (line for line in question.lines if line.state == "fault")
    shown = dict(numbers(fault))
    step = next(taught.step for taught in lesson.steps if taught.step.id == fault.step)
    fitting = []
    rules = {one.rule.id: one.rule for slip in lesson.slips for one in (slip, *slip.also)}
    for rule in rules.values():
        found: dict[Name, Exact] = {}
        for wrong in rule.find(lesson.display):
            if wrong.step == step.id and wrong.name in step.found:
                found.setdefault(wrong.name, wrong.value)
        values = dict(lesson.solution.values)
        for line in step.lines:
            values[line.name] = found.get(line.name) or value_of(line.formula, values, {})
        if found and all(
            fits(values[name], name, number, lesson) for name, number in shown.items()
        ):
            fitting.append(values)
    assert fitting
    yield fitting[0]


def fits(value: Exact, name: Name, number: WrongNumber | NumberOf, lesson: Lesson) -> bool:
    """Whether a value is the one that is shown."""
    if isinstance(number, WrongNumber):
        return number.shown == show(value, name.quantity, lesson.display.digits)
    return same(value, lesson.solution.values[name])


@pytest.mark.parametrize("slug", SLUGS)
def test_the_fault_is_the_first_line_whose_number_differs(slug: str) -> None:
    """Lines before it are as in the solution; later ones go on with what it gave."""
    lesson = lesson_of_unit(slug)
    question = faulty_line(lesson)
    if question is not None:
        assert 3 <= len(question.lines) <= 7
        check_lines(question, lesson)


@settings(max_examples=EXAMPLES, deadline=None)
@given(problem=taught_problems(most=8))
def test_faults_of_random_nests_are_carried_on(problem: NestProblem) -> None:
    """Whatever the circuit, its values and its source are."""
    lesson = bare_lesson(problem)
    question = faulty_line(lesson)
    if question is not None:
        check_lines(question, lesson)


@settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(drawn=tables())
def test_faults_of_random_networks_are_carried_on(drawn: tuple[Law, str]) -> None:
    """By whatever method the network is solved."""
    lesson = bare_lesson(problem_of(*drawn))
    question = faulty_line(lesson)
    if question is not None:
        check_lines(question, lesson)


def test_the_mistakes_of_a_unit_are_of_many_kinds() -> None:
    """No one mistake is made all the time, and most of them are not in the first line."""
    happened, first = [], 0
    for slug in SLUGS:
        lesson = lesson_of_unit(slug)
        question = faulty_line(lesson)
        if question is not None:
            happened.append(said(question.mistake, lesson.display).split()[2])
            first += question.lines[0].state == "fault"
    assert len(happened) >= 25
    assert len(set(happened)) >= 5
    assert first <= len(happened) / 3


def test_the_mistake_is_told_with_what_is_right() -> None:
    """Which mistake it is, why one makes it, and the right number."""
    lesson = lesson_of_unit("flasher-reservoir")
    told = said(question_of(lesson).mistake, lesson.display)
    assert told.startswith("The mistake: ")
    assert "It should be C" in told or "It should be V" in told or "It should be Q" in told


def test_a_long_solution_is_shown_in_part() -> None:
    """The question says which steps these are."""
    lesson = lesson_of_unit("rescue-lamp-bank")
    question = question_of(lesson)
    numbers = [line.number for line in question.lines]
    assert len(numbers) == 6
    assert numbers == list(range(numbers[0], numbers[0] + 6))
    told = said(question.ask, lesson.display)
    assert ("its first six steps" in told) == (numbers[0] == 1)


def test_a_step_without_a_number_is_a_line_too() -> None:
    """Junctions that are joined are told in words alone."""
    lesson = lesson_of_unit("heater-cube")
    assert question_of(lesson).lines[0].results == ()


def test_too_short_a_solution_asks_nothing() -> None:
    """With one or two steps there is nothing to look for."""
    assert faulty_line(bare_lesson(asking(series("C1", "C2"), None))) is None


def test_other_values_show_the_same_lines() -> None:
    """The mistake and the formulas do not hang on the values."""
    tree = series("C1", parallel("C2", "C3"))
    values = {"C1": "1 uF", "C2": "47 uF", "C3": "3.3 uF"}
    one, other = (
        question_of(bare_lesson(problem))
        for problem in (asking(tree, "12 V"), asking(tree, "5 V", values=values))
    )
    assert [bare(line) for line in one.lines] == [bare(line) for line in other.lines]


def bare(line: WorkedLine) -> tuple[str, list[Prose]]:
    """A line without its numbers and the signs before them."""
    return line.state, [tuple(str(piece).rstrip(" =≈") for piece in result[:-1])
                        for result in line.results]  # fmt: skip


def test_every_mistake_that_can_be_written_has_a_rule() -> None:
    """No formula waits for a rule that there is not."""
    assert set(_FAMILIES) <= every_rule()
