"""The figures of charging: what a capacitor is like at each instant, and what carries nothing."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from builder.lesson.transient.write import TransientLesson, write_transient_lesson
from builder.problem import read_problem
from builder.problem.model import TransientProblem
from builder.site.figures.transient import TransientFigures
from builder.solution.transient.solve import solve_transient

PROBLEMS = Path(__file__).parents[3] / "content" / "problems"


@cache
def _lesson(name: str) -> TransientLesson:
    problem = read_problem(PROBLEMS / f"{name}.yml")
    assert isinstance(problem, TransientProblem)
    return write_transient_lesson(solve_transient(problem))


def _figure(name: str, step: str) -> tuple[str, str]:
    """The figure of a step, and its description."""
    lesson = _lesson(name)
    number, taught = next((n, t) for n, t in enumerate(lesson.steps, 1) if t.step.id == step)
    svg = str(TransientFigures.of(lesson, "p", "iec").of_step(number, taught).after)
    described = re.search(r"<desc[^>]*>(.*?)</desc>", svg)
    assert described is not None
    return svg, described.group(1)


@pytest.mark.parametrize(
    ("name", "step", "told"),
    [
        ("tide-gauge-smoother", "end", "an open gap"),
        ("tide-gauge-smoother", "start", "a plain wire"),
        ("tide-gauge-smoother", "seen", "an open gap"),
        ("tide-gauge-smoother", "constant", "the capacitor C1, 100 µF"),
        ("lantern-switched-over", "before", "an open gap"),
        ("lantern-switched-over", "start", "the battery C1"),
        ("bleeder-of-the-strobe", "start", "the battery C1"),
    ],
)
def test_the_capacitor_is_drawn_as_the_step_sees_it(name: str, step: str, told: str) -> None:
    """A gap long after, a wire or a battery at the first instant, itself in between."""
    _, described = _figure(name, step)
    assert told in described
    assert ("the capacitor C1" in described) == told.startswith("the capacitor")


def test_seen_from_the_capacitor_a_battery_is_a_wire() -> None:
    """No battery is left in the figure, and the resistors that are seen are marked."""
    svg, described = _figure("tide-gauge-smoother", "seen")
    assert "battery" not in described
    assert "R1, R2 and R3 are marked." in described
    assert "R seen is 3.00 kΩ" in described
    assert "sw-idle" not in svg


@pytest.mark.parametrize(
    ("name", "step", "idle"),
    [
        ("tide-gauge-smoother", "end", {"R3"}),
        ("tide-gauge-smoother", "start", set()),
        ("lantern-switched-over", "before", {"R2"}),
        ("lantern-switched-over", "end", {"R1"}),
        ("lantern-switched-over", "seen", {"R1"}),
    ],
)
def test_resistors_that_carry_nothing_are_told_apart(name: str, step: str, idle: set[str]) -> None:
    """They are drawn in broken lines."""
    svg, _ = _figure(name, step)
    assert set(re.findall(r'sw-idle" stroke-dasharray="[^"]*" data-element="(\w+)"', svg)) == idle


def test_currents_at_an_instant_are_arrows() -> None:
    """What is known to flow has an arrow; what does not flow has none."""
    svg, described = _figure("tide-gauge-smoother", "start")
    assert set(re.findall(r'data-arrow="(\w+)"', svg)) == {"R1"}
    assert "The arrow of I1(0), about 1.78 mA, points from feed to middle." in described


@pytest.mark.parametrize(
    ("step", "closed"), [("before", {"S1"}), ("end", {"S2"}), ("start", {"S2"})]
)
def test_switches_stand_as_they_do_at_that_instant(step: str, closed: set[str]) -> None:
    """Before the change as given, then changed."""
    _, described = _figure("lantern-switched-over", step)
    assert set(re.findall(r"the closed switch (\w+)", described)) == closed


def test_the_circuit_is_told_in_words() -> None:
    """As it stands before the change, a sentence for each junction."""
    figures = TransientFigures.of(_lesson("reservoir-through-a-resistor"), "p", "iec")
    words = " ".join(re.sub("<[^>]*>", "", str(sentence)) for sentence in figures.in_words())
    assert "S1" in words
    assert "C1" in words


def test_the_curve_is_described() -> None:
    """Its first and last value, the time constant and the asked times are told."""
    lesson = _lesson("bleeder-of-the-strobe")
    assert lesson.course is not None
    svg = str(TransientFigures.of(lesson, "p", "iec").curve(lesson.course))
    assert "from 300 V at time zero" in svg
    assert "The time constant, 10.0 s, is marked where 37 % are left." in svg
    assert 'id="p-curve-title"' in svg
