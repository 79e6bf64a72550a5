"""The figures of steps: which wires are traced, and what their legend says."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from hypothesis import given, settings

from builder.circuit.between import lay_between
from builder.circuit.law import PARALLEL
from builder.circuit.tree import Group, Tree
from builder.lesson import Lesson
from builder.lesson.lesson import TaughtStep
from builder.lesson.nest.write import NestLesson
from builder.problem.model import NestProblem
from builder.site.figures import figure_maker
from builder.site.figures.tracing import circuit_before
from builder.site.unit_site import read_unit_site
from builder.solution.nest.step import StepKind
from tests.conftest import ROOT
from tests.lesson.telling import lesson_of, move_of, plain, taught_problems

TRACE = re.compile(r'data-trace="(\w)" data-traces="([^"]*)"')


@pytest.fixture(scope="module")
def lessons() -> dict[str, Lesson]:
    """Every lesson of the unit, by its slug."""
    return dict(read_unit_site(ROOT / "content").lessons)


def _traced(svg: str) -> dict[str, str]:
    return {junction: look for look, junction in TRACE.findall(svg)}


def _met_by_members(group: Group, circuit: Tree) -> set[str]:
    """The junctions that a group's members meet at: all share two, or each shares one in turn."""
    between = lay_between(circuit)
    ends = [set(between[part.id]) for part in group.parts]
    if group.connection == PARALLEL:
        return set.intersection(*ends)
    return set.union(*(one & other for one, other in pairwise(ends)))


def _expected(taught: TaughtStep) -> tuple[set[str], set[str]]:
    """What the figures before and after a step must trace, by where its elements lie."""
    step = move_of(taught)
    if step.kind is StepKind.MERGE:
        assert step.group is not None
        before = _met_by_members(step.group, circuit_before(step))
        after = set(lay_between(step.circuit)[step.group.id])
        if len(before) > 2:
            return set(), set()
        return before, after if step.group.connection == PARALLEL else set()
    if step.kind is StepKind.OPEN:
        assert step.group is not None
        met = _met_by_members(step.group, step.circuit)
        return set(), met if len(met) <= 2 else set()
    if step.kind is StepKind.TOTAL:
        return set(), {"+"} if step.id == "current-total" else set()
    return set(), {"+", "−"} if step.kind is StepKind.DRIVE else set()


def test_the_junctions_of_a_step_are_traced(lessons: dict[str, Lesson]) -> None:
    """Each step of a nest traces the junctions where its members meet, and no other wire."""
    kinds = set()
    nests = {slug: each for slug, each in lessons.items() if isinstance(each, NestLesson)}
    for slug, lesson in nests.items():
        maker = figure_maker(lesson, slug, "iec")
        for number, taught in enumerate(lesson.steps, 1):
            figures = maker.of_step(number, taught)
            before, after = _traced(figures.before), _traced(figures.after)
            assert (set(before), set(after)) == _expected(taught), (slug, taught.step.id)
            assert {*before.values(), *after.values()} == {look for look, _ in figures.legend}
            assert all(after.get(name, look) == look for name, look in before.items()) or (
                set(before) != set(after)
            )
            step = move_of(taught)
            kinds.add((step.kind, step.group and step.group.connection))
    assert len(kinds) == 7


@settings(max_examples=25)
@given(taught_problems(10))
def test_whatever_the_circuit_a_trace_means_one_junction(problem: NestProblem) -> None:
    """No look stands for two junctions of a figure, and a traced junction has its wire."""
    lesson = lesson_of(problem)
    maker = figure_maker(lesson, "any", "iec")
    for number, taught in enumerate(lesson.steps, 1):
        figures = maker.of_step(number, taught)
        for svg in (figures.before, figures.after):
            found = TRACE.findall(svg)
            assert len({look for look, _ in found}) == len({name for _, name in found})
            assert len(found) == len(set(found))
            assert all(f'class="sw-wire" data-junction="{name}"' in svg for _, name in found)


@pytest.mark.parametrize(
    ("step", "legend"),
    [
        ("merge-C23", ["one junction that C₂ and C₃ share", "the other"]),
        ("merge-total", ["the wire between C₁ and C₂₃: nothing else joins it"]),
        ("charge", ["from + to C_eq: one junction", "from C_eq to −: the other"]),
        ("open-C23", ["one junction that C₂ and C₃ share", "the other"]),
        ("energy-total", []),
    ],
)
def test_the_legend_says_what_is_traced(
    lessons: dict[str, Lesson], step: str, legend: list[str]
) -> None:
    """Under the figures of a step stands what each look means, in words."""
    lesson = lessons["flasher-reservoir"]
    ((number, taught),) = (pair for pair in enumerate(lesson.steps, 1) if pair[1].step.id == step)
    figures = figure_maker(lesson, "flasher", "iec").of_step(number, taught)
    assert [plain(says, lesson.display) for _, says in figures.legend] == legend
