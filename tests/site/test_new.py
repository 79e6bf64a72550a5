"""``stepwell new``: a problem that is ready to be changed."""

from __future__ import annotations

import os
import re
import select
import sys
import time
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator

from builder.cli import main
from builder.commands.new import _ask
from builder.lesson import write_lesson
from builder.lesson.answers import answers
from builder.lesson.apart import telling_apart
from builder.lesson.odd import odd_about
from builder.problem import problem_schema, read_problem, read_unit
from builder.problem.model import Problem
from builder.problem.varying.stated import stated_values
from builder.site.starting.draft import NotThat, draft
from builder.site.starting.guided import guided
from builder.site.starting.kinds import KINDS
from builder.site.starting.names import good_name, nearest_good
from builder.site.starting.new_problem import place_for
from builder.solution import solve
from tests.conftest import ROOT

CONTENT = ROOT / "content"


def new(folder: Path, *arguments: str) -> Result:
    """Call the command on the unit in a folder."""
    return CliRunner().invoke(main, ["new", *arguments, "--unit", str(folder / "content")])


@pytest.fixture
def unit(tmp_path: Path) -> Path:
    """A folder with a unit that has the objectives of the demonstration and no problems."""
    (tmp_path / "content").mkdir()
    described = (CONTENT / "unit.yml").read_text(encoding="utf-8").split("path:")[0]
    (tmp_path / "content" / "unit.yml").write_text(described, encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize("kind", list(KINDS))
def test_a_ready_problem_is_ready(unit: Path, kind: str) -> None:
    """Of every kind there is a sound problem in which nothing is odd, and editors take it."""
    result = new(unit, f"my-{kind}", "--kind", kind)
    assert result.exit_code == 0, result.output
    file = unit / "content" / "problems" / f"my-{kind}.yml"
    solution = solve(read_problem(file, unit=read_unit(unit / "content" / "unit.yml")))
    telling_apart(write_lesson(solution))
    assert [str(oddity) for oddity in odd_about(solution)] == []
    text = file.read_text(encoding="utf-8")
    assert list(Draft202012Validator(problem_schema()).iter_errors(yaml.safe_load(text))) == []
    assert text.count("#") >= 5
    assert max(map(len, text.splitlines())) <= 100


@pytest.mark.parametrize("kind", list(KINDS))
def test_a_ready_problem_has_clean_numbers_of_its_own(unit: Path, kind: str) -> None:
    """What is found takes three digits at most, and the demonstration has other values."""
    problem = draft(KINDS[kind], "new", read_unit(unit / "content" / "unit.yml")).problem
    told = [one["exact"] for one in answers(solve(problem))["answers"]]
    numbers = [Fraction(exact) for exact in told if re.fullmatch(r"-?\d+(/\d+)?", exact or "")]
    assert all(len(f"{float(number):.12g}".replace(".", "").split("e")[0].strip("0")) <= 3
               for number in numbers)  # fmt: skip
    assert len(numbers) >= 2 or kind == "letters"
    assert given(problem) not in GIVEN or kind == "letters"


def given(problem: Problem) -> dict[str, str]:
    """The values of a problem, as they are shown."""
    return {value.name.key: value.measure.shown.text for value in stated_values(problem)}


GIVEN = [given(read_problem(file)) for file in sorted((CONTENT / "problems").glob("*.yml"))]


def test_the_first_line_leads_editors_to_the_schema(unit: Path) -> None:
    """The way from the file to the schema is right, and the schema is there."""
    new(unit, "lamps", "--kind", "groups")
    file = unit / "content" / "problems" / "lamps.yml"
    line = file.read_text(encoding="utf-8").splitlines()[0]
    start, _, way = line.partition("=")
    assert start == "# yaml-language-server: $schema"
    assert yaml.safe_load((file.parent / way).read_text(encoding="utf-8")) == problem_schema()


def test_only_objectives_of_the_unit_are_named(unit: Path) -> None:
    """A unit with one of the usual objectives gets that one; a unit with none, a comment."""
    described = unit / "content" / "unit.yml"
    described.write_text("title: U\nobjectives: {energy: Find the energy}\n", encoding="utf-8")
    new(unit, "one", "--kind", "groups")
    described.write_text("title: U\nobjectives: {other: Do something else}\n", encoding="utf-8")
    new(unit, "two", "--kind", "groups")
    described.write_text("title: U\n", encoding="utf-8")
    new(unit, "three", "--kind", "groups")
    problems = unit / "content" / "problems"
    first, second, third = (
        (problems / f"{name}.yml").read_text(encoding="utf-8") for name in ("one", "two", "three")
    )
    assert "\nobjectives: [energy]\n" in first
    assert "\n# objectives: [other] " in second
    assert "\n# objectives: [my-objective] " in third
    assert read_problem(problems / "two.yml").objectives == ()


@pytest.mark.parametrize(
    ("typed", "title"),
    [
        ("Two lamps: a pair", "Two lamps: a pair"),
        ("“Warm” # or cold", "“Warm” # or cold"),
        ("- yes", "- yes"),
        ("it's  \n half", "it's half"),
    ],
)
def test_title_and_level_stand_as_typed(unit: Path, typed: str, title: str) -> None:
    """A title with signs of YAML is put in quotation marks."""
    result = new(unit, "lamps", "--kind", "resistors", "--title", typed, "--level", "stretch")
    assert result.exit_code == 0, result.output
    problem = read_problem(unit / "content" / "problems" / "lamps.yml")
    assert (problem.title, problem.level) == (title, "stretch")


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("Two Lamps", "two-lamps"),
        ("two_lamps", "two-lamps"),
        ("Zwölf Lämpchen", "zwolf-lampchen"),
        ("../../etc/passwd", "passwd"),
        ("..\\lamps", "lamps"),
        ("/lamps.yml", "lamps"),
        ("-lamps-", "lamps"),
        (".lamps", "lamps"),
        ("lamps?", "lamps"),
        ("", "my-problem"),
        ("灯", "my-problem"),
        ("aux", "aux-problem"),
        ("com1", "com1-problem"),
        ("index", "index-problem"),
        ("by-objective", "by-objective-problem"),
        ("x" * 70, "x" * 60),
    ],
)
def test_a_bad_name_is_refused_with_the_nearest_good_one(unit: Path, typed: str, near: str) -> None:
    """Nothing is written for such a name, and what is proposed is a good one."""
    command = ["new", "--kind", "groups", "--unit", str(unit / "content"), "--", typed]
    result = CliRunner().invoke(main, command)
    assert result.exit_code == 1
    told = result.stderr
    assert f"Call it {near}:" in told
    assert nearest_good(typed) == near == good_name(near)
    assert not (unit / "content" / "problems").exists()
    assert ("--unit" in told) == ("/" in typed or "\\" in typed)


def test_a_name_may_end_as_its_file_does(unit: Path) -> None:
    """``lamps.yml`` makes the file of that name."""
    assert new(unit, "lamps.yml", "--kind", "groups").exit_code == 0
    assert (unit / "content" / "problems" / "lamps.yml").is_file()


def test_a_file_is_never_overwritten_unasked(unit: Path) -> None:
    """A name that is taken, in capitals as well, is refused; --force takes it."""
    problems = unit / "content" / "problems"
    problems.mkdir()
    (problems / "Lamps.yml").write_text("mine", encoding="utf-8")
    result = new(unit, "lamps", "--kind", "groups")
    assert result.exit_code == 1
    assert "Lamps.yml: found a file that is there already; expected a name that is free." in (
        result.stderr
    )
    assert [file.name for file in problems.iterdir()] == ["Lamps.yml"]
    (problems / "Lamps.yml").rename(problems / "lamps.yml")
    assert new(unit, "lamps", "--kind", "groups").exit_code == 1
    assert (problems / "lamps.yml").read_text(encoding="utf-8") == "mine"
    assert new(unit, "lamps", "--kind", "groups", "--force").exit_code == 0
    assert read_problem(problems / "lamps.yml").title == KINDS["groups"].title


def test_a_unit_must_be_there(tmp_path: Path) -> None:
    """Without a unit the command says what to do, and makes no folder."""
    result = new(tmp_path, "lamps", "--kind", "groups")
    assert result.exit_code == 1
    assert "found no such folder; expected the folder of a unit, which holds unit.yml." in (
        result.stderr
    )
    assert "stepwell start" in result.stderr
    (tmp_path / "content").mkdir()
    assert "found no unit.yml in it;" in new(tmp_path, "lamps", "--kind", "groups").stderr
    assert list((tmp_path / "content").iterdir()) == []


def test_a_fault_of_the_unit_is_told(unit: Path) -> None:
    """A unit.yml that cannot be read stops the command with its fault."""
    (unit / "content" / "unit.yml").write_text("titel: U\n", encoding="utf-8")
    result = new(unit, "lamps", "--kind", "groups")
    assert result.exit_code == 1
    assert 'found the key "titel"' in result.stderr


def test_nothing_is_left_of_a_file_that_cannot_be_written(
    unit: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk that is full in the middle leaves no half a file, and no other file either."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "chmod", full)
    result = new(unit, "lamps", "--kind", "groups")
    assert result.exit_code == 1
    assert "a place that cannot be written (No space left on device)" in result.stderr
    left = [path for path in (unit / "content").rglob("*") if path.is_file()]
    assert [path.name for path in left] == ["unit.yml"]


def test_the_kinds_are_listed(unit: Path) -> None:
    """--list and --help name each kind with what it is about."""
    listed = CliRunner().invoke(main, ["new", "--list"])
    helped = CliRunner().invoke(main, ["new", "--help"])
    assert listed.exit_code == helped.exit_code == 0
    for kind in KINDS.values():
        assert f"{kind.name} " in listed.output
        assert kind.what in listed.output
        assert kind.what in helped.output


def test_nothing_is_asked_without_a_terminal(unit: Path) -> None:
    """Without --kind and without a terminal there is one clear error, and exit code 2."""
    result = new(unit, "lamps")
    assert result.exit_code == 2
    assert "There is no terminal to ask at, so name a kind with --kind: groups, resistors" in (
        " ".join(result.stderr.split())
    )
    assert not (unit / "content" / "problems").exists()


def asked(answers: dict[str, list[str]], told: list[str]) -> Callable[..., str]:
    """Answers questions as a teacher would who is told when an answer cannot be taken."""

    def ask(question: str, otherwise: str, check: Callable[[str], object]) -> str:
        told.append(f"{question} [{otherwise}]")
        for typed in [*answers.get(question, []), otherwise]:
            try:
                check(typed)
            except NotThat as trouble:
                told.append(str(trouble))
                continue
            return typed
        raise AssertionError(question)

    return ask


def test_the_guided_form_asks_for_each_value(unit: Path) -> None:
    """Title, kind and level are asked, then every value, with the ready one proposed."""
    told: list[str] = []
    place = place_for("lamps", unit / "content")
    answers = {"Kind": ["switches"], "Title": ["Old charge"], "C2, charged to": ["8 V"]}
    made = guided(place, asked(answers, told), told.append)
    assert [line for line in told if line.endswith("]")] == [
        "Kind [groups]",
        "Title [Yesterday's charge]",
        "Level (intro, core or stretch) [core]",
        "V0 [20 V]",
        "C1 [3 uF]",
        "C2 [2 uF]",
        "C2, charged to [5 V]",
    ]
    assert "charged: 8 V," in made.text
    assert made.problem.title == "Old charge"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("12", 'found "12"; expected a capacitance such as 12 uF.'),
        ("12 V", 'found "12 V"; expected a capacitance such as 12 uF.'),
        ("ten", 'found "ten"; expected a capacitance such as 12 uF. Start with a number.'),
        ("", "found nothing; expected a capacitance such as 12 uF."),
        ("10 uG", '"uG" is no unit'),
        ("0 uF", "expected a capacitance above zero"),
        ("-3 uF", "expected a capacitance above zero"),
        ("3 uF}, x: {y: 1", "is no unit"),
        ("3 uF # x", "is no unit"),
    ],
)
def test_a_value_that_cannot_be_is_told_and_asked_again(unit: Path, typed: str, said: str) -> None:
    """A value without its unit, of another kind or with signs of YAML is not taken."""
    told: list[str] = []
    place = place_for("lamps", unit / "content")
    made = guided(place, asked({"C1": [typed, "24 uF"]}, told), told.append)
    assert any(said in line for line in told)
    assert "    - C1: 24 uF\n" in made.text


def test_values_without_a_solution_are_told_and_asked_again(unit: Path) -> None:
    """Facts that contradict each other come to light at the end; then all is asked once more."""
    told: list[str] = []
    place = place_for("lost", unit / "content")
    answers = {"Kind": ["unknown"], "measured: current, total": ["12 A", "3 A"]}

    def ask(question: str, otherwise: str, check: Callable[[str], object]) -> str:
        typed = answers.get(question, [otherwise])
        answer = typed.pop(0) if typed else otherwise
        check(answer)
        return answer

    made = guided(place, ask, told.append)
    assert sum("With these values there is no solution: found" in line for line in told) == 1
    assert "current: {total: 3 A}" in made.text


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such terminals")
def test_at_a_terminal_it_asks(unit: Path) -> None:
    """At a real terminal the questions are asked, a wrong answer again, and the file is written."""
    import pty

    pid, terminal = pty.fork()
    if pid == 0:
        os.chdir(unit)
        os.execv(  # noqa: S606 - the command itself, without a shell
            sys.executable,
            [sys.executable, "-c", "from builder.cli import main; main()", "new", "lamps"],
        )
    shown = b""
    for answer in ("resistor", "resistors", "", "intro", "9 V", "3", "3 ohm", "", ""):
        shown += _until_asked(terminal)
        os.write(terminal, answer.encode() + b"\n")
    _until_asked(terminal)
    assert os.waitpid(pid, 0)[1] == 0
    assert b'Did you mean "resistors"?' in shown
    assert 'found "3"; expected a resistance such as 2 ohm.' in shown.decode()
    text = (unit / "content" / "problems" / "lamps.yml").read_text(encoding="utf-8")
    assert "source: {V0: 9 V}" in text
    assert "- R1: 3 ohm" in text
    assert "level: intro" in text


def _until_asked(terminal: int) -> bytes:
    """What a terminal shows until it waits for an answer, or until the command is done."""
    shown, end = b"", time.monotonic() + 30
    while time.monotonic() < end and not shown.rstrip(b" ").endswith(b"]:"):
        if select.select([terminal], [], [], 0.2)[0]:
            try:
                shown += os.read(terminal, 4096)
            except OSError:
                break
    return shown


def test_the_command_takes_only_answers_that_can_be_taken(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """What the check refuses is told at the terminal and asked again."""

    def never(typed: str) -> None:
        if typed != "right":
            raise NotThat("not that.")

    with CliRunner().isolation(input="wrong\n right \n") as (out, *_):
        assert _ask("What", "x", never) == "right"
        assert b"Error: not that." in out.getvalue()
