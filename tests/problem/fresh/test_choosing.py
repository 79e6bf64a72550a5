"""Without a word of its author, a problem takes other values that are like its own."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from builder.errors import FaultyFile
from builder.problem import read_problem_text
from builder.problem.fresh import choices, follows, renewed, stated_values
from builder.problem.model import Problem, StepWords
from builder.quantity.measure import MeasureError, read_measure
from builder.quantity.names import Name
from tests.problem.fresh.files import FILES, problem_in

V0, C1, C2 = Name("voltage", "V0"), Name("capacitance", "C1"), Name("capacitance", "C2")


def chain(source: str = "12 V", first: str = "10 uF", second: str = "20 uF", **own: str) -> Problem:
    """Two capacitors in series; further keys are lines of the file."""
    lines = "".join(f"{key}: {value}\n" for key, value in {"title": "T", **own}.items())
    return read_problem_text(
        f"{lines}circuit:\n  source: {source}\n  series:\n    - C1: {first}\n"
        f"    - C2: {second}\nfind: equivalent\n", "chain.yml")  # fmt: skip


def numbers(typed: tuple[str, ...], unit: str) -> str:
    """The numbers of typed values that all have the unit as it was typed."""
    assert all(text.endswith(unit) for text in typed)
    return " ".join(text.removesuffix(unit) for text in typed)


@pytest.mark.parametrize(
    ("typed", "unit", "expected"),
    [
        ("220 uF", " uF", "82 100 120 150 180 220 270 330 390 470 560"),  # all of E12
        ("4.7 nF", " nF", "1.8 2.2 2.7 3.3 3.9 4.7 5.6 6.8 8.2 10 12"),
        ("470 nF", " nF", "180 220 270 330 390 470 560 680 820"),  # the unit stays readable
        ("51uF", "uF", "18 20 22 24 27 30 33 36 39 43 47 51 56 62 68 75 82 91 100 110 120 130 150"),
        ("6 uF", " uF", "2 3 4 5 6 8 9 10 12 15 16 18"),  # round: whole numbers stay whole
        ("7 uF", " uF", "3 4 5 6 7 8 9 10 12 15 16 18 20"),
        ("0.5 uF", " uF", "0.2 0.3 0.4 0.5 0.6 0.8 0.9 1 1.2 1.5"),
        ("2.4 uF", " uF", "0.8 0.9 1 1.2 1.5 1.6 1.8 2 2.4 2.5 3 3.2 3.6 4 4.5 4.8 5 6 7.2"),
        ("0.02 mF", " mF", "0.01 0.02 0.03 0.04 0.05 0.06"),
        ("2/3 uF", " uF", "2/3"),
        ("1e-5 F", " F", "1e-5"),
    ],
)
def test_elements_stay_like_those_that_were_typed(typed: str, unit: str, expected: str) -> None:
    """A third to three times the value, in its unit, of a standard series or as round as it is."""
    problem = chain(first=typed, second=typed)
    assert follows(problem)[C2].leader == C1
    assert numbers(choices(problem).get(C1, (typed,)), unit) == expected


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("12 V", "4.5 5 6 7.5 9 12 15 18 24 30 36"),
        ("1.5 V", "1.5 3 4.5"),
        ("36 V", "12 15 18 24 30 36 48 60"),  # no page becomes more dangerous than it was
        ("400 V", "150 180 200 240 250 300 350 400"),
        ("14 V", "5 6 8 9 10 12 14 15 16 18 20 24 25 30 32 36 40"),  # no voltage of a supply
    ],
)
def test_sources_are_those_of_a_supply(typed: str, expected: str) -> None:
    """Batteries and bench supplies come in steps of their own."""
    assert numbers(choices(chain(source=typed))[V0], " V") == expected


def test_one_round_value_among_standard_ones_leaves_the_series() -> None:
    """A series is taken where all elements of a kind are of it and not all are merely round."""
    assert "27 uF" in choices(chain(first="22 uF", second="47 uF"))[C1]
    assert "27 uF" not in choices(chain(first="22 uF", second="8 uF"))[C1]
    assert "27 uF" not in choices(chain(first="12 uF", second="18 uF"))[C1]


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_choices_are_values_of_the_same_kind(file: Path) -> None:
    """Each can be typed, stands once, keeps kind and unit, and the first value is among them."""
    problem = problem_in(file)
    stated = {value.name: value for value in stated_values(problem)}
    followers = follows(problem)
    for name, typed in choices(problem).items():
        value = stated[name]
        assert name not in followers
        assert len(typed) > 1
        assert len(set(typed)) == len(typed) <= 200
        if problem.vary is None:
            assert problem.text[value.start : value.end] in typed
        for text in typed:
            measure = read_measure(text)
            assert measure.kind == value.measure.kind
            assert problem.vary is not None or measure.shown.unit == value.measure.shown.unit
            assert measure.value * value.measure.value > 0
    assert {follower.leader for follower in followers.values()} <= set(stated)
    assert not {follower.leader for follower in followers.values()} & set(followers)


def test_equal_values_stay_equal() -> None:
    """All twelve wires of a cube are other wires together, so its symmetry stays."""
    problem = next(problem_in(file) for file in FILES if file.stem == "heater-cube")
    first = Name("resistance", "R1")
    assert set(choices(problem)) == {first, V0}
    other = renewed(problem, {first: "8 ohm"})
    assert {value.measure.shown.text for value in stated_values(other)} == {"15 V", "8 Ω"}
    alone = {first: "8 ohm", Name("resistance", "R12"): "9 ohm"}
    shown = [value.measure.shown.text for value in stated_values(renewed(problem, alone))]
    assert shown.count("8 Ω") == 11
    assert shown.count("9 Ω") == 1


@pytest.mark.parametrize(
    ("key", "text", "held"),
    [
        ("title", "What 12 V can do", {V0}),
        ("scenario", "The lamp runs on 12\u00a0V.", {V0}),
        ("scenario", "The lamp runs on 12 volts, or on a 0.012kV line.", {V0}),
        ("scenario", "A 12-V lamp.", {V0}),
        ("scenario", "A lamp of 10 µF and one of 0.02 mF.", {C1, C2}),
        ("plan", "Find what 10 uF and {C2} make.", {C1}),
        ("scenario", '"The lamp runs on {V0} through {C1}, 12 m away, for 12 s and 112 V, 3.12 V."',
         set()),
    ],
)  # fmt: skip
def test_what_texts_spell_out_is_held(key: str, text: str, held: set[Name]) -> None:
    """A number with its unit in the author's own words would no longer be true."""
    assert {V0, C1, C2} - set(choices(chain(**{key: text}))) == held


def test_questions_and_words_are_read_as_well() -> None:
    """Options, replies and reasons may spell out a value too, and hold all that follows it."""
    problem = chain(second="10 uF")
    assert set(choices(problem)) == {V0, C1}
    words = {"merge-total": StepWords(reason="Both have 10 µF.")}
    assert set(choices(replace(problem, words=words))) == {V0}
    asked = read_problem_text(
        problem.text + "questions:\n  - ask: Which?\n    choices:\n      - {text: A, right: yes, "
        "reply: It has 12 V across it.}\n      - B\n", "asked.yml")  # fmt: skip
    assert set(choices(asked)) == {C1}


def test_materials_and_letters_stay() -> None:
    """Glass stays glass; what is a letter is no number."""
    by_name = {file.stem: problem_in(file) for file in FILES}
    layers = by_name["bilge-sensor-layers"]
    assert {name.of for name in choices(layers)} == {"A", "d", "V", "d1"}
    assert choices(by_name["tide-gauge"]) == {}


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_most_single_choices_can_be_read(file: Path) -> None:
    """Each choice alone gives a file that reads, unless one of two things must fit another."""
    problem = problem_in(file)
    refused = []
    for name, typed in choices(problem).items():
        for text in typed:
            try:
                renewed(problem, {name: text})
            except (FaultyFile, MeasureError) as error:
                refused.append(str(error))
    assert not refused or file.stem == "bilge-sensor-layers"
    assert all("fit into the gap" in told or '"E2"' in told for told in refused)
