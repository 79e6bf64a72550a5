"""The commands, used as a teacher uses them."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli import main
from tests.site.pages import FLASHER


@pytest.fixture
def problem(tmp_path: Path) -> Path:
    """A problem's file."""
    file = tmp_path / "flasher-reservoir.yml"
    file.write_text(FLASHER.replace("objectives: [merge-parallel]\n", ""), encoding="utf-8")
    return file


def test_solve_prints_the_worked_solution(problem: Path) -> None:
    """``solve`` prints the plan, every step with its numbers, and the checks."""
    result = CliRunner().invoke(main, ["solve", str(problem)])
    assert result.exit_code == 0
    assert "1. Merge C₂ and C₃, which share both junctions   [merge-C23]" in result.output
    assert "C_eq = 10.0 µF" in result.output
    assert "U = ½ · Q · V₀" in result.output
    assert "= 720 µJ" in result.output
    assert "Both methods agree on every value." in result.output


def test_solve_prints_the_contract(problem: Path) -> None:
    """``solve --json`` prints the answers in SI units, exact, as a number and as shown."""
    result = CliRunner().invoke(main, ["solve", str(problem), "--json"])
    assert result.exit_code == 0
    told = json.loads(result.output)
    assert told["problem"] == "flasher-reservoir"
    assert told["agree"] is True
    # C23 = 30 µF, Ceq = 15·30/45 = 10 µF, Q = 120 µC, V2 = 120/30 = 4 V, Q2 = 22·4 = 88 µC.
    assert told["answers"][0] == {
        "quantity": "equivalent", "of": "total", "unit": "F", "exact": "1/100000",
        "value": 1e-05, "shown": "10.0 µF",
    }  # fmt: skip
    assert told["answers"][2] == {
        "quantity": "charge", "of": "C2", "unit": "C", "exact": "11/125000",
        "value": 8.8e-05, "shown": "88.0 µC",
    }  # fmt: skip


def test_solve_stops_with_the_fault_of_a_file(problem: Path) -> None:
    """A file that cannot be read ends with exit code 1 and its fault on standard error."""
    problem.write_text(problem.read_text(encoding="utf-8").replace("22 uF", "22 uG"))
    result = CliRunner().invoke(main, ["solve", str(problem)])
    assert result.exit_code == 1
    assert result.stdout == ""
    assert f"{problem}:10:" in result.stderr
    assert '"uG" is no unit' in result.stderr


def test_check_says_that_all_agree(problem: Path) -> None:
    """``check`` on a folder of good problems ends with exit code 0."""
    result = CliRunner().invoke(main, ["check", str(problem.parent)])
    assert result.exit_code == 0
    assert result.output == "1 problem solved twice; everything agrees.\n"


def test_check_prints_one_line_a_fault(problem: Path) -> None:
    """``check`` reads every file, prints one line a fault and ends with exit code 1."""
    good = problem.read_text(encoding="utf-8")
    (problem.parent / "a.yml").write_text(good.replace("8 uF", "8"), encoding="utf-8")
    (problem.parent / "b.yml").write_text(good.replace("find:", "fnd:"), encoding="utf-8")
    result = CliRunner().invoke(main, ["check", str(problem.parent)])
    assert result.exit_code == 1
    lines = result.stdout.splitlines()
    assert [Path(line.split(":")[0]).name for line in lines] == ["a.yml", "b.yml"]
    assert "Add the unit after 8" in lines[0]
    assert 'found the key "fnd"' in lines[1]
    assert result.stderr == "3 problems read, 2 faults.\n"


@pytest.mark.parametrize(
    ("name", "fault"),
    [
        ("nowhere", "no such file or folder"),
        ("empty", "a folder without a problem"),
    ],
)
def test_check_needs_something_to_check(tmp_path: Path, name: str, fault: str) -> None:
    """A path that holds no problem is a fault of its own."""
    (tmp_path / "empty").mkdir()
    result = CliRunner().invoke(main, ["check", str(tmp_path / name)])
    assert result.exit_code == 1
    assert fault in result.stderr


@pytest.mark.parametrize("command", [[], ["solve"], ["check"]])
def test_help_is_there(command: list[str]) -> None:
    """Every command explains itself."""
    result = CliRunner().invoke(main, [*command, "--help"])
    assert result.exit_code == 0
    assert "Usage:" in result.output
