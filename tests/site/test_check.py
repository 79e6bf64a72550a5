"""``stepwell check``: its report on a terminal, in lines and as data; whole units."""

from __future__ import annotations

import fcntl
import json
import os
import pty
import re
import struct
import subprocess
import sys
import termios
from collections.abc import Mapping
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from builder.pointing import columns
from builder.problem.model import Unit
from builder.site.checking import one as checking_one
from builder.site.checking.data import as_data
from builder.site.checking.files import to_check
from builder.site.checking.lines import counted, lines_of, summary
from builder.site.checking.one import Task, check_problem
from builder.site.checking.report import Checked, Report
from builder.site.checking.run import check
from builder.site.checking.table import table
from tests.bench.solving import problem_text
from tests.conftest import ROOT
from tests.problem.samples import changed
from tests.site.pages import FLASHER

GOOD = changed(FLASHER, "objectives: [merge-parallel]\n", "")
ODD = changed(GOOD, "C3: 8 uF", "C3: 8 MF").replace("energy: total", "charge: C2")
FAULTY = changed(GOOD, "C3: 8 uF", "C3: 8 uG")
COLOUR = re.compile(r"\x1b\[[0-9;]*m")
UNIT = """\
title: Test benches
objectives:
  merge-parallel: Merge a parallel group
  walk-back: Walk back
path:
  - intro.md
  - a
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a sound problem, a faulty one and one with two oddities."""
    for name, text in (("good", GOOD), ("faulty", FAULTY), ("odd", ODD)):
        (tmp_path / f"{name}.yml").write_text(text, encoding="utf-8")
    return tmp_path


@pytest.fixture
def unit(tmp_path: Path) -> Path:
    """A unit with two problems and a lesson page, all sound."""
    home = tmp_path / "content"
    (home / "problems").mkdir(parents=True)
    (home / "unit.yml").write_text(UNIT, encoding="utf-8")
    (home / "intro.md").write_text("# Start\n\n```problem\na\n```\n", encoding="utf-8")
    train = "objectives: [merge-parallel, walk-back]\n"
    both = changed(FLASHER, "objectives: [merge-parallel]\n", train)
    title = GOOD.splitlines()[0]
    (home / "problems" / "a.yml").write_text(both, encoding="utf-8")
    other = changed(GOOD, title, "title: Another board")
    (home / "problems" / "b.yml").write_text(other, encoding="utf-8")
    return home


def called(*arguments: str | Path) -> Result:
    """What the command does, called with these arguments."""
    return CliRunner().invoke(main, ["check", *map(str, arguments)])


def on_terminal(
    *arguments: str | Path, width: int = 80, more: Mapping[str, str] | None = None
) -> tuple[str, int]:
    """What the command prints on a terminal of that width, and its exit code."""
    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, width, 0, 0))
    plain = {name: value for name, value in os.environ.items()
             if name not in ("NO_COLOR", "TERM", "COLUMNS")}  # fmt: skip
    command = [sys.executable, "-c", "from builder.cli import main; main()", "check"]
    process = subprocess.Popen(
        [*command, *map(str, arguments)], stdin=theirs, stdout=theirs, stderr=theirs, cwd=ROOT,
        env=plain | {"TERM": "xterm"} | dict(more or {}),
    )  # fmt: skip
    os.close(theirs)
    said = b""
    while True:
        try:
            piece = os.read(ours, 65536)
        except OSError:
            break
        if not piece:
            break
        said += piece
    os.close(ours)
    return said.decode().replace("\r\n", "\n"), process.wait()


@pytest.mark.parametrize(
    ("name", "options", "code"),
    [
        ("good", (), 0),
        ("good", ("--strict",), 0),
        ("odd", (), 0),
        ("odd", ("--strict",), 1),
        ("faulty", (), 1),
        ("faulty", ("--json",), 1),
        ("nowhere", (), 1),
        ("good", ("--such-an-option",), 2),
    ],
)
def test_exit_codes(folder: Path, name: str, options: tuple[str, ...], code: int) -> None:
    """0 if all can be published, 1 for faults and, with --strict, for oddities, 2 for the call."""
    assert called(folder / f"{name}.yml", *options).exit_code == code


def test_lines_for_other_programs(folder: Path) -> None:
    """Without a terminal each fault and each oddity has a line, in the order of the files."""
    result = called(folder)
    lines = result.stdout.splitlines()
    assert [line.removeprefix(f"{folder}/").split(": ")[0] for line in lines] == [
        "faulty.yml:11:15", "odd.yml:11:15", "odd.yml:12:43",
    ]  # fmt: skip
    assert ": found " in lines[0]
    assert ": odd: C3 is 8 MF, more than is usual" in lines[1]
    assert result.stderr == "3 problems read, 1 fault, 2 oddities.\n"


def test_quiet_tells_faults_alone(folder: Path) -> None:
    """With --quiet neither oddities nor the summary are printed."""
    result = called(folder, "--quiet")
    assert len(result.stdout.splitlines()) == 1
    assert result.stderr == ""
    assert called(folder / "good.yml", "-q").output == ""


def test_the_report_as_data(folder: Path) -> None:
    """--json prints one document with every file, its verdict, and all fields of what is found."""
    told = json.loads(called(folder, "--json").stdout)
    assert told["totals"] == {"files": 3, "problems": 3, "agree": 2, "faults": 1, "oddities": 2}
    faulty, good, odd = told["files"]
    assert good == {
        "path": str(folder / "good.yml"), "part": "problem", "verdict": "agree", "kind": "nest",
        "steps": 6, "answers": 6, "agree": True, "faults": [], "oddities": [], "broke": "",
    }  # fmt: skip
    assert (faulty["verdict"], faulty["agree"], faulty["kind"]) == ("faulty", False, None)
    (fault,) = faulty["faults"]
    assert fault.keys() >= {"line", "column", "found", "expected", "advice", "source", "right"}
    assert (fault["line"], fault["source"].strip()) == (11, "- C3: 8 uG")
    assert odd["verdict"] == "odd"
    assert odd["oddities"][0] == {
        "line": 11, "column": 15, "kind": "far-from-usual",
        "seen": "C3 is 8 MF, more than is usual for a capacitance (0.1 pF to 10 F).",
        "advice": "m stands for milli, M for mega: was 8 mF meant?",
        "source": "        - C3: 8 MF", "width": 4,
    }  # fmt: skip


def test_a_terminal_gets_a_table(folder: Path) -> None:
    """On a terminal each problem has a row; then come faults and oddities with their lines."""
    said, code = on_terminal(folder)
    assert code == 1
    marks = COLOUR.findall(said.split("\n\n")[0])
    assert marks == ["\x1b[31m", "\x1b[0m", "\x1b[32m", "\x1b[0m", "\x1b[33m", "\x1b[0m"]
    plain = COLOUR.sub("", said)
    head, where, *rows = plain.split("\n\n")[0].splitlines()
    assert head.split() == ["problem", "kind", "steps", "answers", "verdict"]
    assert folder.as_posix().startswith(where.removesuffix("…"))
    assert [row.split() for row in rows] == [
        ["faulty", "–", "–", "–", "1", "fault"],
        ["good", "series,", "parallel", "6", "6", "agree"],
        ["odd", "series,", "parallel", "5", "5", "agree,", "2", "oddities"],
    ]
    assert "\n  11 |         - C3: 8 MF\n     |               ^^^^\n" in plain
    assert re.search(r"\n\n3 problems read, 1 fault, 2 oddities\. \(\d+\.\d s\)\n$", plain)


@pytest.mark.parametrize("without", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_no_colour_where_none_is_wanted(folder: Path, without: dict[str, str]) -> None:
    """NO_COLOR and a dumb terminal get the same report without colours."""
    said, _ = on_terminal(folder, more=without)
    assert "\x1b" not in said
    assert "2 oddities" in said


def test_an_empty_no_color_counts_as_none(folder: Path) -> None:
    """The variable counts where it is not empty, as no-color.org has it."""
    said, _ = on_terminal(folder / "good.yml", more={"NO_COLOR": ""})
    assert COLOUR.search(said)


REPORT = Report((
    Checked("content/unit.yml", part="unit"),
    check_problem(Task(str(ROOT / "content/problems/reservoir-through-a-resistor.yml"), None)),
    check_problem(Task(str(ROOT / "content/problems/tide-gauge.yml"), None)),
    Checked("content/problems/broken.yml", broke="Stepwell itself failed here"),
))  # fmt: skip


@pytest.mark.parametrize("width", [80, 70, 60, 40, 24])
def test_the_table_fits(width: int) -> None:
    """No row is wider than the terminal, and each tells its verdict."""
    rows = list(table(REPORT, width))
    assert max(map(columns, rows)) <= width
    assert [row.split()[-1] for row in rows if row.startswith("  ")] == ["agree", "agree", "failed"]
    full = width >= 70
    assert ("RC circuit" in "\n".join(rows)) == full
    assert ("unit" in "\n".join(rows)) is False


def test_the_unit_agrees() -> None:
    """The unit, with its own file and its lesson pages, has neither faults nor oddities."""
    result = called(ROOT / "content")
    assert result.exit_code == 0
    assert re.fullmatch(r"\d+ problems solved twice, \d+ lesson pages read; everything agrees\.\n",
                        result.output)  # fmt: skip


def test_both_processors_tell_the_same(tmp_path: Path) -> None:
    """With other processes the report is the same, in the same order, as with one."""
    for number in range(12):
        text = problem_text(number) if number % 4 else FAULTY
        (tmp_path / f"p{number:02}.yml").write_text(text, encoding="utf-8")
    seen: list[None] = []
    alone = check(to_check([tmp_path]), lambda: seen.append(None), fewest=1000)
    together = check(to_check([tmp_path]), fewest=2)
    assert len(seen) == 12
    assert as_data(alone) == as_data(together)
    assert list(lines_of(alone)) == list(lines_of(together))
    assert alone.faults == 3


def odd_in(unit: Path) -> list[str]:
    """The oddities of a unit as they are printed, without the folder."""
    told = [str(oddity) for one in check(to_check([unit])).files for oddity in one.oddities]
    return [line.removeprefix(f"{unit}/") for line in told]


def test_a_sound_unit_has_no_oddities(unit: Path) -> None:
    """A problem that the path leaves out on purpose, as one of two, is not told."""
    assert odd_in(unit) == []
    report = check(to_check([unit]))
    assert [one.verdict for one in report.files] == ["sound", "sound", "agree", "agree"]
    assert summary(report) == "2 problems solved twice, 1 lesson page read; everything agrees."


def test_an_objective_that_no_problem_trains(unit: Path) -> None:
    """It is told with its line in unit.yml, unless a problem that might train it is faulty."""
    more = changed(UNIT, "path:", "  energy: Find the energy\npath:")
    (unit / "unit.yml").write_text(more, encoding="utf-8")
    assert odd_in(unit) == [
        'unit.yml:5:3: odd: No problem trains the objective "energy". Name it under objectives: in '
        "a problem, or delete it."
    ]
    (unit / "problems" / "c.yml").write_text(FAULTY, encoding="utf-8")
    assert odd_in(unit) == []


def test_problems_of_one_title(unit: Path) -> None:
    """Two problems whose titles read the same are told at the second one."""
    (unit / "problems" / "b.yml").write_text(GOOD, encoding="utf-8")
    assert odd_in(unit) == [
        "problems/b.yml:1:8: odd: a.yml has the same title. Change one of the two: lists show "
        "titles alone."
    ]


def test_a_problem_that_the_path_forgets(unit: Path) -> None:
    """Where the path or a lesson page names all problems but one, that one is told."""
    for name in ("c", "d"):
        text = changed(GOOD, GOOD.splitlines()[0], f"title: Board {name}")
        (unit / "problems" / f"{name}.yml").write_text(text, encoding="utf-8")
    (unit / "unit.yml").write_text(UNIT + "  - c\n", encoding="utf-8")
    assert odd_in(unit) == []
    (unit / "intro.md").write_text("```problem\nd\n```\n", encoding="utf-8")
    assert odd_in(unit) == [
        "problems/b.yml:1:8: odd: The path of the unit names nearly every problem, but not this "
        'one. Add "- b" below path: in unit.yml.'
    ]


@pytest.mark.parametrize("named", [".", "content", "content/unit"])
def test_a_unit_is_found(unit: Path, named: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The folder above a unit stands for it, as does the unit's own; its name is no matter."""
    monkeypatch.chdir(unit.parent)
    if named.endswith("unit"):
        unit.rename("other")
        Path("content").mkdir()
        Path("other").rename(named)
    found = to_check([Path(named)])
    home = Path(named) if named != "." else Path("content")
    assert list(found.units) == [home]
    assert list(found.files) == [home / "problems" / "a.yml", home / "problems" / "b.yml"]


def test_inside_the_folder_of_problems(unit: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """From where the problems lie, files are named as they are typed and know their unit."""
    monkeypatch.chdir(unit / "problems")
    text = (unit / "problems" / "a.yml").read_text(encoding="utf-8")
    Path("a.yml").write_text(changed(text, "walk-back", "walk-bak"), encoding="utf-8")
    for paths in ([Path()], [Path("a.yml"), Path("b.yml")]):
        report = check(to_check(paths))
        assert [one.path for one in report.files] == ["a.yml", "b.yml"]
        (fault,) = report.files[0].faults
        assert 'Did you mean "walk-back"?' in fault.advice


def test_the_fault_of_a_unit_is_told_once(unit: Path) -> None:
    """Where unit.yml is faulty, that is told once, and its problems are checked all the same."""
    (unit / "unit.yml").write_text(changed(UNIT, "title", "titel"), encoding="utf-8")
    for paths in ([unit], [unit / "problems"], [unit / "problems" / "a.yml"]):
        report = check(to_check(paths))
        (broken, *_) = report.files
        assert (broken.part, broken.verdict) == ("unit", "faulty")
        assert report.faults == len(broken.faults)
        assert report.problems[0].verdict == "agree"


def test_what_a_build_would_refuse(unit: Path) -> None:
    """Faulty lesson pages and files that a build does not read are told with a unit."""
    (unit / "intro.md").write_text("# Start\n\n```problem\nc\n```\n", encoding="utf-8")
    (unit / "latin.md").write_bytes("Größe".encode("latin-1"))
    (unit / "problems" / "c.yaml").write_text(GOOD, encoding="utf-8")
    report = check(to_check([unit]))
    told = [(one.part, fault.found) for one in report.files for fault in one.faults]
    assert told == [
        ("lesson page", '"c"'),
        ("lesson page", "bytes that are no text in UTF-8"),
        ("other file", 'a file that ends in ".yaml"'),
    ]
    (page, *_) = [fault for one in report.files for fault in one.faults]
    assert page.told().splitlines()[1:] == ["  4 | c", "    | ^"]


def test_words_for_steps_that_there_are_not(tmp_path: Path) -> None:
    """What only a solution shows, such as a step that there is not, is a fault with its line."""
    text = (ROOT / "content/problems/bench-bridge.yml").read_text(encoding="utf-8")
    file = tmp_path / "p.yml"
    file.write_text(text + "words:\n  merge-nothing: Nothing\n", encoding="utf-8")
    found = check_problem(Task(str(file), None))
    (fault,) = found.faults
    assert fault.found == 'the step "merge-nothing"'
    assert fault.source == "  merge-nothing: Nothing"
    file.write_text(text + "keep: {apart: no-such-rule}\n", encoding="utf-8")
    (fault,) = check_problem(Task(str(file), None)).faults
    assert "no-such-rule" in fault.found


def test_a_failure_of_stepwell_itself(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An error that nobody foresaw is told with its file, and the others are checked."""

    def fail(solution: object) -> tuple[()]:
        raise ZeroDivisionError(f"nothing to divide {type(solution).__name__} by")

    monkeypatch.setattr(checking_one, "odd_about", fail)
    report = check(to_check([folder]))
    assert [one.verdict for one in report.files] == ["faulty", "broken", "broken"]
    told = list(lines_of(report))[1]
    assert told.startswith(f"{folder / 'good.yml'}: Stepwell itself failed here (ZeroDivisionError")
    assert told.endswith("This is a fault in Stepwell: please report it with the file.")
    assert report.faults == 3


def test_files_of_other_programs_are_passed_over(tmp_path: Path) -> None:
    """Settings and hidden folders are no problems, wherever a folder is named."""
    (tmp_path / ".hidden").mkdir()
    (tmp_path / "week").mkdir()
    for name in ("mkdocs.yml", ".hidden/a.yml", "week/a.yml"):
        (tmp_path / name).write_text(GOOD, encoding="utf-8")
    assert list(to_check([tmp_path, tmp_path]).files) == [tmp_path / "week" / "a.yml"]


@pytest.mark.parametrize(
    ("number", "noun", "said"),
    [(0, "fault", "0 faults"), (1, "oddity", "1 oddity"), (2, "oddity", "2 oddities")],
)
def test_plurals(number: int, noun: str, said: str) -> None:
    """Numbers and nouns agree."""
    assert counted(number, noun) == said


def test_units_can_be_handed_to_other_processes() -> None:
    """A task holds nothing but its path and its unit."""
    assert Task("a.yml", Unit("Harbour Lights")) == Task("a.yml", Unit("Harbour Lights"))
