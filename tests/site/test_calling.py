"""How the commands are called: names, help and exit codes."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import COMMANDS, main
from builder.problem import unit_schema


def call(*arguments: str) -> Result:
    """Call stepwell."""
    return CliRunner().invoke(main, arguments)


@pytest.mark.parametrize(
    ("typed", "near"),
    [("slove", "solve"), ("Check", "check"), ("strat", "start"), ("sheets", "sheet"),
     ("drow", "draw"), ("nwe", "new"), ("shema", "schema")],
)  # fmt: skip
def test_a_mistyped_command_gets_the_nearest_name(typed: str, near: str) -> None:
    """It is proposed, and nothing is done."""
    result = call(typed, "x.yml")
    assert result.exit_code == 2
    assert f'There is no command "{typed}". Did you mean "{near}"?' in result.stderr


def test_a_word_that_is_near_to_nothing_gets_no_proposal() -> None:
    """The error then points to the list."""
    result = call("xyzzy")
    assert result.exit_code == 2
    assert 'There is no command "xyzzy".\n' in result.stderr
    assert "Try 'stepwell --help' for help." in result.stderr or "--help" in result.stderr


@pytest.mark.parametrize("command", sorted(COMMANDS))
def test_every_help_shows_an_example(command: str) -> None:
    """The example calls this very command, in one line of a narrow terminal."""
    result = call(command, "--help")
    assert result.exit_code == 0
    assert re.search(rf"^  Example: stepwell {command} ", result.output, re.MULTILINE)


def test_the_help_lists_every_command_and_the_exit_codes() -> None:
    """What each exit code means is told once, for all commands."""
    output = call("--help").output
    for name, summary in COMMANDS.items():
        assert re.search(rf"^  {name} +{re.escape(summary)}$", output, re.MULTILINE)
    codes = output.split("Exit codes of all commands:\n")[1].splitlines()
    assert [line.split()[0] for line in codes] == ["0", "1", "2"]


@pytest.mark.parametrize("command", sorted(COMMANDS))
def test_an_option_that_does_not_exist_is_a_wrong_call(command: str) -> None:
    """Exit code 2 tells that apart from a fault in a file."""
    assert call(command, "--nonsense").exit_code == 2


def test_both_schemas_are_written_into_a_folder(tmp_path: Path) -> None:
    """--out makes the folder; what stands in the way is told; another name is a wrong call."""
    folder = tmp_path / "a" / "b"
    result = call("schema", "--out", str(folder))
    assert result.exit_code == 0
    told = [line.rpartition(" (")[0] for line in result.output.splitlines()]
    assert told == [str(folder / f"{of}.schema.json") for of in ("problem", "unit")]
    assert json.loads((folder / "unit.schema.json").read_text(encoding="utf-8")) == unit_schema()
    assert call("schema", "--out", str(folder)).output == result.output
    blocked = call("schema", "--out", str(folder / "unit.schema.json"))
    assert blocked.exit_code == 1
    assert "a folder that cannot be written" in blocked.stderr
    assert call("schema", "units").exit_code == 2
