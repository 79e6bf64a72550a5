"""What commands tell of faults: in colour where colours are wanted, and the same without."""

from __future__ import annotations

import io
import re
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from builder.cli import main
from builder.commands.telling import shown
from builder.errors import Fault
from builder.problem.faults.near_file import near_file, problems_in

TOLD = "\n\n".join(
    [
        Fault("lamps.yml", 3, 7, '"15 uf"', "a value", "Change it.",
              "  C1: 15 uf", "  C1: 15 uF", 5, mends=True).told(),
        Fault("lamps.yml", 0, 0, "a folder", "a file", "Name one.").told(),
    ]
)  # fmt: skip
_CODES = re.compile("\x1b\\[[0-9;]*m")


class Terminal(io.StringIO):
    """Something that a person reads."""

    def isatty(self) -> bool:
        """Whether it is a terminal: yes."""
        return True


@pytest.fixture(autouse=True)
def _usual_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")


def test_places_and_marks_are_coloured_on_a_terminal() -> None:
    """The rest stays as it is, and without the colours nothing is missing."""
    painted = shown(TOLD, on=Terminal())
    assert click.style("lamps.yml:3:7", bold=True) + ": found" in painted
    assert "|       " + click.style("^^^^^", fg="red", bold=True) in painted
    assert painted.count("\x1b") == 5
    assert _CODES.sub("", painted) == TOLD


@pytest.mark.parametrize(("name", "value"), [("NO_COLOR", "1"), ("TERM", "dumb")])
def test_who_wants_no_colours_gets_none(
    monkeypatch: pytest.MonkeyPatch, name: str, value: str
) -> None:
    """Both usual variables are kept, on a terminal too."""
    monkeypatch.setenv(name, value)
    assert shown(TOLD, on=Terminal()) == TOLD


def test_what_is_piped_has_no_colours() -> None:
    """A file and another program get plain text."""
    assert shown(TOLD, on=io.StringIO()) == TOLD


def test_a_command_tells_the_line_and_the_correction(tmp_path: Path) -> None:
    """Not only the first line of a fault."""
    file = tmp_path / "lamps.yml"
    file.write_text("title: Two lamps\ncircuit:\n  source: 12 V\n  R1: 6\nfind: current\n", "utf-8")
    result = CliRunner().invoke(main, ["solve", str(file)])
    assert result.exit_code == 1
    assert "  4 |   R1: 6\n    |       ^\n  Corrected:\n  4 |   R1: 6 ohm\n" in result.stderr


@pytest.fixture
def unit(tmp_path: Path) -> Path:
    """A unit with two problems."""
    problems = tmp_path / "content" / "problems"
    problems.mkdir(parents=True)
    (problems / "flasher-reservoir.yml").touch()
    (problems / "bench-bridge.yml").touch()
    return tmp_path


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("content/problems/flasher-resevoir.yml", "content/problems/flasher-reservoir.yml"),
        ("content/problems/flasher-reservoir", "content/problems/flasher-reservoir.yml"),
        ("content/problems/bench_bridge.yaml", "content/problems/bench-bridge.yml"),
        ("content/problem/bench-bridge.yml", "content/problems"),
        ("contents", "content"),
    ],
)
def test_the_nearest_file_is_proposed(unit: Path, typed: str, near: str) -> None:
    """Of a file that is not there, and of a folder on the way to it."""
    assert near_file(unit / typed) == f'Did you mean "{unit / near}"?'


@pytest.mark.parametrize("typed", ["content/problems/lantern.yml", "elsewhere/x/y/z.yml"])
def test_nothing_is_proposed_that_is_not_like_it(unit: Path, typed: str) -> None:
    """Better no word than a wrong one."""
    assert near_file(unit / typed) == ""


def test_a_folder_in_place_of_a_file_is_told(unit: Path) -> None:
    """With files in it that could be meant."""
    folder = unit / "content" / "problems"
    result = CliRunner().invoke(main, ["solve", str(folder)])
    assert result.exit_code == 1
    assert (
        result.stderr == f"{folder}: found a folder; expected a YAML file. {problems_in(folder)}\n"
    )
    assert problems_in(folder) == (
        f"Name one of its files, such as {folder / 'bench-bridge.yml'} or "
        f"{folder / 'flasher-reservoir.yml'}."
    )
    assert problems_in(unit) == "Name a file that ends in .yml."
