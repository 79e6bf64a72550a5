"""The figures of a network's lesson: what each shows, and what is traced in it."""

from __future__ import annotations

import re
from functools import cache

import pytest

from builder.site.figures import figure_maker
from builder.site.figures.step_figures import StepFigures
from tests.lesson.network.networks import LESSONS, lesson_of
from tests.lesson.telling import plain


@cache
def _figures(called: str) -> dict[str, StepFigures]:
    """The figures of each step of a lesson, by the step's id."""
    lesson = lesson_of(*LESSONS[called])
    maker = figure_maker(lesson, "a", "iec")
    return {
        taught.step.id: maker.of_step(number, taught)
        for number, taught in enumerate(lesson.steps, start=1)
    }


def _given(called: str) -> str:
    return str(figure_maker(lesson_of(*LESSONS[called]), "a", "iec").given())


def _elements(svg: str) -> set[str]:
    return set(re.findall(r'data-element="([^"]+)"', svg))


def _sources(svg: str) -> set[str]:
    return set(re.findall(r'data-source="([^"]+)"', svg))


def _numbers(svg: str) -> set[str]:
    return set(re.findall(r'data-q="([^"]+)"', svg))


def _traced(svg: str) -> dict[str, set[str]]:
    """The junctions that are traced, by the look of the trace."""
    found: dict[str, set[str]] = {}
    for look, junction in re.findall(r'data-trace="(\w)" data-traces="([^"]+)"', svg):
        found.setdefault(look, set()).add(junction)
    return found


def _text(svg: str) -> str:
    return re.sub(r"<[^>]+>", "|", svg)


@pytest.mark.parametrize("called", LESSONS)
def test_every_lesson_is_drawn(called: str) -> None:
    """The network as given has all its elements and sources, and every step has its figure."""
    lesson = lesson_of(*LESSONS[called])
    network = lesson.display.network
    svg = _given(called)
    assert _elements(svg) == {element.name for element in network.elements}
    assert _sources(svg) == {source.name for source in network.sources}
    for figures in _figures(called).values():
        assert figures.after.startswith("<svg")
        assert len(re.findall(r'id="([^"]+)"', figures.after)) == len(
            set(re.findall(r'id="([^"]+)"', figures.after))
        )


def test_a_figure_shows_what_is_known_by_then() -> None:
    """Values as given, and what the steps have found so far; each number names its quantity."""
    figures = _figures("star")
    assert {"resistance:R1", "voltage:V0"} <= _numbers(_given("star"))
    assert not any(key.startswith("current") for key in _numbers(_given("star")))
    after = _numbers(figures["open-R_a"].after)
    assert {"current:R1", "voltage:R5", "current:R5"} <= after
    assert "current:R1" not in _numbers(figures["star-R_a"].after)


def test_before_and_after_stand_side_by_side() -> None:
    """What a move takes out is there before it, what it puts in is there after it."""
    star = _figures("star")["star-R_a"]
    assert {"R1", "R2", "R5"} <= _elements(star.before)
    assert _elements(star.after) == {"R_a", "R_b", "R_c", "R3", "R4"}
    balance = _figures("balanced")["balance-R5"]
    assert "R5" in _elements(balance.before)
    assert "R5" not in _elements(balance.after)
    alone = _figures("panel")["alone-E1"]
    assert _sources(alone.before) == {"E1", "E2"}
    assert _sources(alone.after) == {"E1"}


def test_joined_junctions_are_traced_in_one_look() -> None:
    """Each set has its look before the move, and the junction that it becomes after it."""
    joined = _figures("cube")["join-1"]
    assert _traced(joined.before) == {"a": {"b", "d", "e"}, "b": {"c", "f", "h"}}
    assert {look: len(names) for look, names in _traced(joined.after).items()} == {"a": 1, "b": 1}
    display = lesson_of(*LESSONS["cube"]).display
    assert [plain(says, display) for _, says in joined.legend] == [
        "junctions b, d and e: one potential", "junctions c, f and h: one potential",
    ]  # fmt: skip


def test_what_a_merge_shares_is_traced() -> None:
    """Both junctions of a parallel pair, the wire inside a chain."""
    lesson = lesson_of(*LESSONS["star"])
    parallel = _figures("star")["merge-R_f"]
    assert len(_traced(parallel.before)) == 2
    assert [plain(says, lesson.display) for _, says in parallel.legend] == [
        "one junction that R_d and R_e share", "the other",
    ]  # fmt: skip
    chain = _figures("star")["merge-total"]
    assert len(_traced(chain.before)) == 1
    assert plain(chain.legend[0][1], lesson.display) == (
        "the wire between R_a and R_f: nothing else joins it"
    )


def test_loop_equations_have_loop_arrows_and_junction_equations_a_ground() -> None:
    """The chosen currents are seen where the equations are written."""
    loops = _text(_figures("batteries")["loops"].after)
    assert re.search(r"I\|+A\|", loops)
    assert re.search(r"I\|+B\|", loops)
    junctions = str(_figures("batteries-by-junctions")["junctions"].after)
    assert "sw-ground" in junctions
    assert "sw-ground" not in _given("batteries-by-junctions")


def test_potentials_stand_at_their_junctions() -> None:
    """Once they are known, with the ground that they count from."""
    figures = _figures("charges-by-junctions")
    for step in ("junctions", "branches"):
        assert {"potential:b", "potential:c"} <= _numbers(figures[step].after)
        assert "sw-ground" in figures[step].after
        assert "b: |8.00 V" in re.sub(r"\|+", "|", _text(figures[step].after))
    assert "potential:b" not in _numbers(_given("charges-by-junctions"))


def test_directions_are_drawn_where_they_matter() -> None:
    """Arrows with their currents where something can flow against them, and else none."""
    assert re.search(r"I\|+2\|", _text(_given("batteries")))
    assert not re.search(r"I\|+2\|", _text(_given("balanced")))


def test_the_equivalent_source_is_drawn_with_its_load() -> None:
    """The open voltage, the inner resistance, and what is connected to them."""
    load = _figures("sensor")["load-R4"]
    assert _sources(load.after) == {"open"}
    assert _elements(load.after) == {"inner", "R4"}
    match = _figures("sensor")["match"]
    assert _elements(match.after) == {"inner", "matched"}
    assert {"resistance:matched", "power:greatest"} <= _numbers(match.after)
    assert "resistance:total@open" in _numbers(_figures("sensor")["opened-merge-total"].after)


def test_the_circuit_is_told_in_words() -> None:
    """A sentence for each junction, with all elements."""
    maker = figure_maker(lesson_of(*LESSONS["bridge"]), "a", "iec")
    told = [re.sub(r"<[^>]+>", "", str(sentence)) for sentence in maker.in_words()]
    assert len(told) >= 4
    for number in range(1, 6):
        assert sum(f"R{number}" in sentence for sentence in told) >= 2
