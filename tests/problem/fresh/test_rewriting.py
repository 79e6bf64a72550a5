"""Other values stand in a file where the first ones stood, and nothing else changes."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.errors import FaultyFile
from builder.problem import read_problem_text
from builder.problem.fresh import StatedValue, renewed, rewritten, stated_values
from builder.quantity.measure import Measure, read_measure
from builder.quantity.names import Name
from builder.quantity.units import read_unit
from builder.solution.solve import solve
from tests.problem.fresh.files import FILES, SPELLINGS, problem_in

UNITS = {"capacitance": "uF", "resistance": "ohm", "voltage": "V", "current": "mA",
         "charge": "µC", "energy": "mJ", "power": "W", "time": "ms", "length": "mm",
         "area": "cm^2", "field": "MV/m", "ratio": ""}  # fmt: skip
NUMBERS = st.one_of(
    st.integers(1, 999).map(str),
    st.decimals("0.01", "99", places=2).map(str),
    st.tuples(st.integers(1, 9), st.integers(1, 9)).map(lambda pair: f"{pair[0]}/{pair[1]}"),
    st.integers(1, 9).map(lambda digit: f"{digit}e-3"),
)


def typed(value: StatedValue, text: str) -> str:
    """What stands in the file."""
    return text[value.start : value.end]


def measured(text: str) -> tuple[str, Any]:
    """Kind and value of a typed value, a pure number included."""
    number_only = text.replace(".", "").replace("/", "").replace("e-", "").isdigit()
    measure: Measure = read_measure(f"{text} V" if number_only else text)
    return ("ratio" if number_only else measure.kind), measure.value


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_stated_values_are_those_of_the_solution(file: Path) -> None:
    """Each has the name under which the solution keeps it, and stands as typed in the file."""
    problem = problem_in(file)
    givens = solve(problem).givens
    stated = stated_values(problem)
    for value in stated:
        assert givens[value.name] == value.measure.shown
        assert measured(typed(value, problem.text)) == (value.measure.kind, value.measure.value)
        line = problem.text.splitlines()[value.at.line - 1]
        assert line[value.at.column - 1 :].lstrip("\"'").startswith(typed(value, problem.text))
    asked = {"time", "permittivity"} if "quantities:" not in problem.text else {"permittivity"}
    missing = {name for name, shown in givens.items() if not shown.number.startswith("0")}
    missing -= {value.name for value in stated}
    letters = {n for n in missing if givens[n].unit == "" and n.quantity != "ratio"}
    levels = {name for name in missing if ">" in name.of}
    assert {name.quantity for name in missing - letters - levels} <= asked


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_files_own_values_give_the_same_file(file: Path) -> None:
    """Rewriting with what is typed already changes nothing, to the byte."""
    problem = problem_in(file)
    stated = stated_values(problem)
    same = {value.name: typed(value, problem.text) for value in stated}
    assert rewritten(problem.text, stated, same) == problem.text
    assert problem.text.encode() == file.read_bytes()
    assert renewed(problem, same) == problem
    assert renewed(problem, {}) == problem


@given(data=st.data())
def test_new_values_and_nothing_else_change(data: st.DataObject) -> None:
    """What is read from a rewritten file has the new values, and all the rest as before."""
    problem = problem_in(data.draw(st.sampled_from(FILES)))
    stated = stated_values(problem)
    if not stated:
        return
    # A layer of any thickness would not fit into a gap of any other.
    free = [value for value in stated if value.called not in ("d", "d1")]
    chosen = data.draw(st.lists(st.sampled_from(free), unique=True, min_size=1))
    new = {v.name: f"{data.draw(NUMBERS)} {UNITS[v.name.quantity]}".strip() for v in chosen}
    text = rewritten(problem.text, stated, new)
    # Wishes for other numbers may no longer hold for these.
    again = read_problem_text(text, problem.path, with_wishes=False)
    by_name = {value.name: value for value in stated_values(again)}
    assert tuple(by_name) == tuple(value.name for value in stated)
    for value in stated:
        now = typed(by_name[value.name], text)
        assert now == new.get(value.name, typed(value, problem.text))
        assert by_name[value.name].called == value.called
        assert measured(now)[1] == by_name[value.name].measure.value
    back = {value.name: typed(value, problem.text) for value in stated}
    assert rewritten(text, tuple(by_name.values()), back) == problem.text
    shared = {field.name for field in fields(problem)} & {
        "slug", "title", "level", "objectives", "scenario", "find", "digits", "plan", "words",
        "questions", "switches", "stages", "shares", "times", "levels", "method", "load",
    }  # fmt: skip
    assert {name: getattr(again, name) for name in shared} == {
        name: getattr(problem, name) for name in shared
    }


@pytest.mark.parametrize("text", SPELLINGS.values(), ids=SPELLINGS.keys())
def test_any_spelling_of_a_file_takes_other_values(text: str) -> None:
    """Flow or block, quoted or bare, whatever ends its lines: only the three values change."""
    problem = read_problem_text(text, "spelled.yml")
    new = {Name("voltage", "V0"): "9 V", Name("capacitance", "C1"): "4.7 uF",
           Name("capacitance", "C2"): "3/2 nF"}  # fmt: skip
    stated = stated_values(problem)
    assert [value.name for value in stated] == list(new)
    read = renewed(problem, new)
    assert solve(read).givens == {name: read_measure(text).shown for name, text in new.items()}
    marks = rewritten(problem.text, stated, dict.fromkeys(new, "1 F"))
    without = problem.text
    for value in reversed(stated):
        without = without[: value.start] + "1 F" + without[value.end :]
    assert marks == without
    assert read.text.count("\n") <= problem.text.count("\n")


def test_a_value_in_a_block_of_lines_is_none_that_could_be_another() -> None:
    """Such a value is indented with its block; it is left as it is."""
    text = SPELLINGS["CRLF"].replace("\r", "").replace("10 uF", ">-\n        10 uF")
    problem = read_problem_text(text, "block.yml")
    assert [value.called for value in stated_values(problem)] == ["V0", "C2"]
    assert renewed(problem, {Name("voltage", "V0"): "9 V"}).text == text.replace("12 V", "9 V")


@pytest.mark.parametrize("wrong", ["9", "nine volts", "9 V\nfind: x", "9 V, C9: 1 F", "", "V"])
def test_only_values_are_put_into_a_file(wrong: str) -> None:
    """What is no number with a unit never reaches the file, or is refused by its reader."""
    problem = read_problem_text(SPELLINGS["flow"], "flow.yml")
    with pytest.raises((ValueError, FaultyFile)):
        renewed(problem, {Name("voltage", "V0"): wrong})


def test_a_name_that_is_not_stated_is_refused() -> None:
    """A misspelled name does not pass for a change."""
    problem = read_problem_text(SPELLINGS["flow"], "flow.yml")
    with pytest.raises(KeyError, match="C9"):
        renewed(problem, {Name("capacitance", "C9"): "1 uF"})


def test_values_that_the_circuit_cannot_have_are_faults_with_their_place() -> None:
    """A value of zero is refused as in any file, where it stands."""
    problem = read_problem_text(SPELLINGS["flow"], "flow.yml")
    with pytest.raises(FaultyFile, match=r"flow\.yml:2:45: found a capacitor of 0"):
        renewed(problem, {Name("capacitance", "C1"): "0 uF"})


def test_digits_of_the_unit_stay() -> None:
    """A problem read in a unit of four digits keeps them when it is read anew without it."""
    from builder.problem.model import Unit

    problem = read_problem_text(SPELLINGS["flow"], "flow.yml", Unit("U", digits=4))
    assert renewed(problem, {Name("voltage", "V0"): "9 V"}).digits == 4


def test_units_of_this_test_are_units() -> None:
    """The table above names a unit of each kind that is varied."""
    assert all(read_unit(unit)[0] == kind for kind, unit in UNITS.items() if unit)  # type: ignore[index]
