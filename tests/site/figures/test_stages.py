"""The figures of problems in stages, by their parsed structure."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from builder.lesson import Lesson
from builder.site.figures import figure_maker
from builder.site.figures.step_figures import StepFigures
from tests.lesson.stages.stories import (
    BRIDGE,
    CHAIN,
    EVERY,
    LIKE,
    TRANSFER,
    TURNED,
    UNLIKE,
    lesson_of,
)


def _figures(lesson: Lesson) -> dict[str, StepFigures]:
    maker = figure_maker(lesson, "p", "iec")
    return {
        taught.step.id: maker.of_step(number, taught)
        for number, taught in enumerate(lesson.steps, start=1)
    }


def _at(svg: str, element: str) -> list[str]:
    """What is written at an element, each text in one piece."""
    for group in ElementTree.fromstring(svg).iter():
        if group.get("data-element") == element:
            return ["".join(t.itertext()) for t in group.iter() if t.tag.endswith("text")]
    raise KeyError(element)


def test_charges_are_written_at_the_plates_with_their_signs() -> None:
    """The + plate carries +, the other one −; after turning over they have changed."""
    figures = _figures(lesson_of(UNLIKE))
    before = str(figures["stage-1-island"].before)
    after = str(figures["stage-1-charges"].after)
    assert {"+18.0 µC", "−18.0 µC"} <= set(_at(before, "C2"))
    told = _at(after, "C2")
    assert {"+10.0 µC", "−10.0 µC"} <= set(told)
    assert "V2′ = −5.00 V" in told


def test_before_and_after_stand_side_by_side_where_a_stage_begins() -> None:
    """The first step of a stage shows the switch as it was and as it is."""
    figures = _figures(lesson_of(TRANSFER))
    opening = [id for id, figure in figures.items() if figure.before]
    assert opening == ["stage-1-battery", "stage-3-island"]
    third = figures["stage-3-island"]
    assert "the open switch S1" in str(third.before)
    assert "the open switch S2" in str(third.before)
    assert "the closed switch S2" in str(third.after)


def test_the_islands_that_a_step_speaks_of_are_traced_through_the_switch() -> None:
    """Both sides of the closed switch are one island, in one look; the legend names both."""
    figure = _figures(lesson_of(LIKE))["stage-1-island"]
    traces = re.findall(r'data-trace="(\w)" data-traces="(\w)"', str(figure.after))
    assert {junction: look for look, junction in traces} == {"a": "a", "b": "a", "g": "b"}
    assert [look for look, _ in figure.legend] == ["a", "b"]


def test_what_is_not_known_yet_is_not_shown() -> None:
    """After closing, no charge stands at a plate before it has been found."""
    figures = _figures(lesson_of(LIKE))
    assert not any("µC" in text for text in _at(str(figures["stage-1-island"].after), "C1"))
    assert any("µC" in text for text in _at(str(figures["stage-1-charges"].after), "C1"))


def test_equations_count_from_the_marked_side() -> None:
    """While voltages are unknown, each capacitor is marked + and −."""
    figure = _figures(lesson_of(BRIDGE))["stage-1-equations"]
    for name in ("C1", "C2", "C3", "C4", "C5"):
        assert {"+", "−"} <= set(_at(str(figure.after), name))


def test_the_given_circuit_shows_what_is_stated() -> None:
    """A stated voltage stands beside the capacitor, with + and − at its plates."""
    lesson = lesson_of(TURNED)
    texts = _at(str(figure_maker(lesson, "p", "iec").given()), "C2")
    assert {"+", "−", "V2 = 12 V"} <= set(texts)


@pytest.mark.parametrize("name", EVERY)
def test_every_figure_is_sound_and_has_its_words(name: str) -> None:
    """Each parses, has a title and a description, and ids of its own."""
    lesson = lesson_of(EVERY[name])
    maker = figure_maker(lesson, "p", "iec")
    every = [str(maker.given())]
    for figure in _figures(lesson).values():
        every += [str(figure.before)] * bool(figure.before) + [str(figure.after)]
    ids: list[str] = []
    for svg in every:
        root = ElementTree.fromstring(svg)
        ids += [node.get("id", "") for node in root.iter() if node.get("id")]
        assert {"title", "desc"} <= {node.tag.rpartition("}")[2] for node in root}
    assert len(ids) == len(set(ids))
    assert len(maker.in_words()) >= 3


def test_a_chain_marks_its_members() -> None:
    """The capacitors of a single loop are marked while the loop is spoken of."""
    figure = _figures(lesson_of(CHAIN))["stage-1-chain"]
    marked = re.findall(r'class="sw-element sw-marked" data-element="(\w+)"', str(figure.after))
    assert sorted(marked) == ["C1", "C2"]
