"""What the guide shows of a terminal is what a terminal shows."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from builder.cli import main
from tests.site.guide.texts import BLOCKS, PROBLEMS, in_role

CONSOLES = [(path, block.text) for path, block in BLOCKS if block.language == "console"]


def calls(text: str) -> list[tuple[str, str]]:
    """The commands of a block, each with what is shown below it."""
    parts = re.split(r"^\$ (.*)\n", text, flags=re.MULTILINE)
    assert parts[0] == ""
    return list(zip(parts[1::2], parts[2::2], strict=True))


def _timeless(text: str) -> str:
    """A text without the seconds that something took."""
    return re.sub(r"\([0-9.]+ s\)", "(some s)", text)


@pytest.fixture
def unit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A unit of all problems of the guide, and the folder in which commands are given."""
    problems = tmp_path / "content" / "problems"
    problems.mkdir(parents=True)
    (block,) = in_role("unit")
    (tmp_path / "content" / "unit.yml").write_text(block.text, encoding="utf-8")
    (tmp_path / "content" / "two-in-one.md").write_text("# Two in one\n", encoding="utf-8")
    for slug, text in PROBLEMS.items():
        (problems / f"{slug}.yml").write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setattr("builder.commands.check_telling.is_terminal", lambda: True)
    return tmp_path


@pytest.mark.parametrize(
    ("path", "text"), CONSOLES, ids=[text.split("\n")[0] for _, text in CONSOLES]
)
def test_commands_print_what_is_shown(path: str, text: str, unit: Path) -> None:
    """Each command runs, and prints the lines below it; … stands for any more of them."""
    wrong = {block.of: block.text for block in in_role("wrong")}
    for command, shown in calls(text):
        words = shlex.split(command)
        assert words[0] == "stepwell"
        for slug, bad in wrong.items():
            if (name := f"content/problems/{slug}.yml") in words:
                (unit / name).write_text(bad, encoding="utf-8")
        result = CliRunner().invoke(main, words[1:])
        assert result.exception is None or isinstance(result.exception, SystemExit)
        printed = _timeless(result.output)
        start, more, rest = _timeless(shown).partition("…\n")
        assert rest == ""
        assert len(start) > 20
        assert printed.startswith(start) if more else printed == start, printed


def test_what_is_shown_as_wrong_is_refused(unit: Path) -> None:
    """Every file that the guide calls wrong is, and its message stands below it."""
    shown = "".join(text for _, text in CONSOLES)
    assert len(in_role("wrong")) >= 2
    for block in in_role("wrong"):
        assert f"$ stepwell solve content/problems/{block.of}.yml\n" in shown
        file = unit / "content" / "problems" / f"{block.of}.yml"
        file.write_text(block.text, encoding="utf-8")
        assert CliRunner().invoke(main, ["check", str(file)]).exit_code == 1
