"""The key of all sets on a terminal and as JSON, and sheets with the numbers of a set."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from builder.lesson import Lesson, write_lesson
from builder.lesson.answers import answers
from builder.problem import read_problem, read_problem_text
from builder.problem.fresh import renewed, stated_values
from builder.problem.model import Unit
from builder.quantity.names import Name
from builder.site.fresh import FreshLesson, fresh_lessons
from builder.site.paper.key_table import key_data, key_of, key_text
from builder.solution import solve
from tests.conftest import ROOT

UNIT = Unit("")
C1, V0 = Name("capacitance", "C1"), Name("voltage", "V0")
PAIR = """\
title: Two capacitors
circuit:
  source: 12 V
  parallel:
    - C1: 10 uF
    - C2: 10 uF
find: [equivalent, {charge: total}]
vary: {V0: [6 V, 12 V, 24 V], C1: [10 uF, 15 uF], C2: C1}
"""
LETTERS = """\
title: Letters
circuit:
  source: V
  parallel:
    - C1: C
    - C2: 2*C
find: equivalent
"""


@pytest.fixture
def unit(tmp_path: Path) -> Path:
    """The content of a small unit: a problem with few sets of values, and one with letters."""
    problems = tmp_path / "content" / "problems"
    problems.mkdir(parents=True)
    (problems / "pair.yml").write_text(PAIR, encoding="utf-8")
    (problems / "letters.yml").write_text(LETTERS, encoding="utf-8")
    (tmp_path / "content" / "unit.yml").write_text("title: Harbour\n", encoding="utf-8")
    return tmp_path / "content"


def run(unit: Path, command: str, *arguments: str) -> Result:
    """A command beside a unit."""
    out = ("--out", str(unit.parent / "sheets")) if command == "sheet" else ()
    return CliRunner().invoke(main, [command, "--unit", str(unit), *out, *arguments])


def lesson_of(text: str) -> Lesson:
    """The lesson of a problem."""
    return write_lesson(solve(read_problem_text(text, "pair.yml")))


def with_values(lesson: Lesson, new: dict[Name, str]) -> Lesson:
    """The same lesson with other values."""
    return write_lesson(solve(renewed(lesson.solution.problem, new)))


def numbered(*lessons: Lesson) -> tuple[FreshLesson, ...]:
    """Lessons as the sets of a page."""
    return tuple(FreshLesson(number, lesson) for number, lesson in enumerate(lessons, start=1))


def test_the_table_tells_values_and_answers_of_each_set() -> None:
    """Set 0 is the problem as it is written; what always equals another has no column."""
    first = lesson_of(PAIR)
    other = with_values(first, {C1: "15 uF", V0: "24 V"})
    key = key_of(first, UNIT, lambda *_: numbered(other))
    assert key_text(key, 80) == (
        "Two capacitors (pair)\n"
        "\n"
        "set │    C₁    V₀ │    C_eq       Q\n"
        "────┼─────────────┼────────────────\n"
        "  0 │ 10 µF  12 V │ 20.0 µF  240 µC\n"
        "  1 │ 15 µF  24 V │ 30.0 µF  720 µC\n"
        "\n"
        "Always as C₁: C₂.\n"
    )


def test_a_table_that_is_too_wide_goes_on_in_another() -> None:
    """No line is wider than the terminal, and each part tells the numbers of the sets."""
    first = lesson_of(PAIR)
    other = with_values(first, {C1: "15 uF", V0: "24 V"})
    text = key_text(key_of(first, UNIT, lambda *_: numbered(other)), 24)
    assert max(map(len, text.splitlines())) <= 24
    assert text.count("set │") == 2
    assert "  1 │ 15 µF  24 V\n" in text
    assert "  1 │ 30.0 µF  720 µC\n" in text


def test_a_problem_without_other_numbers_says_so(unit: Path) -> None:
    """Letters are no numbers; their one answer is printed all the same."""
    result = run(unit, "key", "letters")
    assert result.exit_code == 0
    assert "  0 │   3C\n" in result.output
    assert result.output.endswith("This problem has no other numbers.\n")


def test_json_has_every_set_with_values_and_answers(unit: Path) -> None:
    """Programs get all values in SI units, those that follow others too."""
    (key,) = json.loads(run(unit, "key", "pair", "--json").output)
    assert key["problem"] == "pair"
    assert [row["set"] for row in key["sets"]] == list(range(len(key["sets"])))
    assert len(key["sets"]) > 3
    first = key["sets"][0]
    assert first["answers"][1] == {"quantity": "charge", "of": "total", "unit": "C",
                                   "exact": "3/12500", "value": 0.00024,
                                   "shown": "240 µC"}  # fmt: skip
    for row in key["sets"]:
        values = {value["of"]: value["value"] for value in row["values"]}
        assert values["C1"] == values["C2"]
        equivalent, charge = (answer["value"] for answer in row["answers"])
        assert equivalent == pytest.approx(2 * values["C1"])
        assert charge == pytest.approx(equivalent * values["V0"])
    assert [value["of"] for value in first["values"]] == ["C1", "C2", "V0"]


@pytest.mark.parametrize("name", ["bench-crossed-leads", "capacitor-without-a-mark"])
def test_sets_are_those_of_the_page(name: str) -> None:
    """Key, page and sheet count the same sets, with the same answers."""
    problem = read_problem(ROOT / "content" / "problems" / f"{name}.yml")
    lesson = write_lesson(solve(problem))
    data = key_data(key_of(lesson, UNIT))
    page = fresh_lessons(lesson, UNIT)
    assert len(page) > 6
    for row, fresh in zip(data["sets"][1:], page, strict=True):
        assert row["set"] == fresh.number
        assert row["answers"] == answers(fresh.lesson.solution)["answers"]
        stated = {
            value.name: value.measure for value in stated_values(fresh.lesson.solution.problem)
        }
        for value in row["values"]:
            (measure,) = [m for n, m in stated.items() if (n.quantity, n.of) == (
                value["quantity"], value["of"])]  # fmt: skip
            assert measure.shown.text == value["shown"]


def test_a_sheet_has_the_numbers_of_its_set(unit: Path) -> None:
    """Worksheet and key say which set they are of, and the files do not replace those of others."""
    (key,) = json.loads(run(unit, "key", "pair", "--json").output)
    told = key["sets"][2]
    result = run(unit, "sheet", "pair", "letters", "--set", "2", "--title", "Week 3")
    assert result.exit_code == 0, result.output
    assert "letters has no other numbers and stays as it is written." in result.output
    folder = unit.parent / "sheets"
    worksheet = (folder / "week-3-set-2-worksheet.html").read_text(encoding="utf-8")
    solved = (folder / "week-3-set-2-key.html").read_text(encoding="utf-8")
    for page in (worksheet, solved):
        assert ", set 2</p>" in page
        assert ", set 2</title>" in page
    charge = told["answers"][1]["shown"].split()[0]
    assert charge in solved
    assert charge not in worksheet.partition("<main")[2]
    assert run(unit, "sheet", "pair", "letters", "--title", "Week 3").exit_code == 0
    assert len(list(folder.glob("*.html"))) == 4
    plain = (folder / "week-3-key.html").read_text(encoding="utf-8")
    assert ", set" not in plain.partition("<main")[0]
    assert "240" in plain


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (("pair", "--set", "9"), "sheet: found set 9 of pair; expected a set from 0 to 5. See them "
         "all with stepwell key pair.\n"),
        (("letters", "--set", "1"), "sheet: found set 1 of problems without other numbers; "
         "expected at least one that can have others. Leave --set out, or choose other "
         "problems.\n"),
    ],
)  # fmt: skip
def test_a_set_that_is_not_there_is_refused(
    unit: Path, arguments: tuple[str, ...], told: str
) -> None:
    """Nothing is written with other numbers than were asked for."""
    result = run(unit, "sheet", *arguments)
    assert result.exit_code == 1
    assert result.output == told
    assert not (unit.parent / "sheets").exists()


def test_a_wrong_name_is_told(unit: Path) -> None:
    """The nearest problem is proposed."""
    result = run(unit, "key", "pears")
    assert result.exit_code == 1
    assert result.output == ('key: found "pears"; expected the file of a problem or its name '
                             'without .yml. Did you mean "pair"?\n')  # fmt: skip
    assert run(unit, "key").exit_code == 2


def test_a_wrong_rule_that_fits_nowhere_is_told_by_every_command(unit: Path) -> None:
    """Checking finds it as well as what needs the sets."""
    file = unit / "problems" / "pair.yml"
    file.write_text(PAIR + "keep: {apart: half-life}\n", encoding="utf-8")
    for command in (["check", str(file)], ["key", "--unit", str(unit), "pair"]):
        result = CliRunner().invoke(main, command)
        assert result.exit_code == 1
        assert ':9:15: found the wrong rule "half-life"' in result.output
