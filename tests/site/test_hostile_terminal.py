"""Hostile texts, names and arguments in what the commands tell: a terminal obeys none of them."""

from __future__ import annotations

import json
import os
import pty
import re
import subprocess
import sys
import unicodedata
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from builder.cli import main
from tests.site.hostile import ALL, PROBLEMS, write_hostile_unit

COLOURS = re.compile("\x1b\\[[0-9;]*m")
"""The only codes that a command may write, and on a terminal only."""
EVIL = "\x1b]0;owned\x07\x1b[31mred\x9b2J\u202etxt\u2028\r\n0 faults\x7f\u200b"
"""What would name the window, colour, clear, turn round, and begin a line of its own."""


def call(*arguments: str | Path) -> Result:
    """A command, as its user calls it where nobody sits at a terminal."""
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


def obeyed(text: str) -> set[str]:
    """What a terminal would act upon, save the ends of lines."""
    return {
        f"U+{ord(sign):04X}"
        for sign in text
        if sign != "\n" and unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")
    }


def told(result: Result) -> str:
    """What a command told, after a look at how it ended: with a word, never with a traceback."""
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    assert result.exit_code in (0, 1, 2)
    return result.output


@pytest.fixture
def unit(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of a hostile unit, in which the commands are called."""
    write_hostile_unit(tmp_path)
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize("slug", PROBLEMS)
@pytest.mark.parametrize(
    "command",
    ["solve F", "solve F --json", "key S", "key S --json", "numbers F", "numbers F --json",
     "draw F", "draw F --out -", "check F", "check F --quiet", "check F --json", "sheet S",
     "sheet F --out sheets"],
)  # fmt: skip
def test_texts_of_a_problem_are_not_obeyed(unit: Path, slug: str, command: str) -> None:
    """Whatever a command tells of it; and what is for machines says every sign of it."""
    file = f"content/problems/{slug}.yml"
    result = call(*command.replace("F", file).replace("S", slug).split())
    said = told(result)
    refused = (slug == "relations" and command.startswith("draw")) or (
        slug != "nest" and command.startswith("numbers")
    )
    assert refused or result.exit_code == 0, said
    assert obeyed(said) == set()
    if command.endswith("--json"):
        json.loads(result.stdout) if result.exit_code == 0 else None


@pytest.mark.parametrize("slug", PROBLEMS)
def test_a_title_is_told_whole(unit: Path, slug: str) -> None:
    """Nothing of it is lost: what cannot be shown is named."""
    said = call("solve", f"content/problems/{slug}.yml").stdout
    name = {"nest": "title", "relations": "title-r", "plates": "title-p"}[slug]
    plain = ALL
    for sign in sorted(set(ALL)):
        if obeyed(sign):
            plain = plain.replace(sign, f"‹U+{ord(sign):04X}›")
    assert said.startswith(f"[{name}] {plain}\n")
    assert "‹U+202E›" in said


@pytest.mark.parametrize("slug", ["evil", "end"])
@pytest.mark.parametrize(
    "command",
    ["solve F", "solve F --json", "key F", "numbers F", "draw F",
     "draw F --step 9", "check F", "check F --json", "check", "check --json", "sheet S"],
)  # fmt: skip
def test_names_of_files_are_not_obeyed(unit: Path, slug: str, command: str) -> None:
    """Of a sound problem and of a faulty one, whose name holds what a terminal obeys."""
    name = f"{slug}{EVIL}"
    text = (unit / "content/problems/plates.yml").read_text("utf-8")
    file = unit / "content/problems" / f"{name}.yml"
    file.write_text(text if slug == "evil" else text.replace("80 cm^2", "80 cm^\x1b2"), "utf-8")
    words = {"F": f"content/problems/{name}.yml", "S": name}
    result = call(*(words.get(word, word) for word in command.split()))
    said = told(result)
    assert obeyed(said) == set()
    assert "\n0 faults" not in said
    if command.endswith("--json") and result.stdout:
        json.loads(result.stdout)


@pytest.mark.parametrize(
    "command",
    ["E", "check E", "check content --E", "solve E", "solve a E", "solve --E", "draw E",
     "draw F --step E", "draw F --out E", "draw F --out E/x.svg", "draw F --width E --png",
     "key E", "key S --unit E", "new E --kind groups", "new a --kind E", "new a --level E",
     "new a --kind groups --title E", "new a --kind groups --unit E", "numbers F --vary E",
     "numbers F --keep E", "numbers F --series E", "numbers F --digits E", "pack --site E",
     "pack --config E", "schema E", "schema --out E", "sheet E",
     "sheet S --title E", "sheet S --out E", "sheet S --level E", "sheet --objective E",
     "sheet S --paper E", "start E", "start E --title T", "start new --title E", "draw E --png"],
)  # fmt: skip
def test_what_was_typed_is_not_obeyed(unit: Path, command: str) -> None:
    """Arguments and options that a command repeats, in a fault or in what it did."""
    words = {"E": EVIL, "--E": f"--{EVIL}", "E/x.svg": f"{EVIL}/x.svg", "S": "nest",
             "F": "content/problems/nest.yml", "T": "A title"}  # fmt: skip
    said = told(call(*(words.get(word, word) for word in command.split())))
    assert obeyed(said) == set()
    assert "\n0 faults" not in said


def at_a_terminal(folder: Path, *arguments: str) -> str:
    """What a command writes to a terminal."""
    ours, theirs = pty.openpty()
    environment = {**os.environ, "TERM": "xterm", "NO_MKDOCS_2_WARNING": "1"}
    environment.pop("NO_COLOR", None)
    with subprocess.Popen(
        [sys.executable, "-c", "from builder.cli import main; main()", *arguments],
        cwd=folder, env=environment, stdin=theirs, stdout=theirs, stderr=theirs,
    ) as process:  # fmt: skip
        os.close(theirs)
        written = b""
        try:
            while piece := os.read(ours, 65536):
                written += piece
        except OSError:
            pass  # so a terminal ends whose program has gone
        process.wait(timeout=60)
    os.close(ours)
    return written.decode("utf-8").replace("\r\n", "\n")


@pytest.mark.parametrize("command", ["check", "solve", "key", "draw"])
def test_a_terminal_gets_colours_and_nothing_else(unit: Path, command: str) -> None:
    """With a person before it: the table, faults in colour, and the words of a solution."""
    text = (unit / "content/problems/plates.yml").read_text("utf-8")
    faulty = unit / "content/problems" / f"end{EVIL}.yml"
    faulty.write_text(text.replace("80 cm^2", "80 cm^\u202e2"), "utf-8")
    wanted = {"check": [], "key": ["plates"]}.get(command, ["content/problems/plates.yml"])
    for arguments in ([command, *wanted], [command, f"content/problems/{faulty.name}"]):
        said = at_a_terminal(unit, *arguments)
        assert len(said) > 10
        assert "Traceback" not in said
        assert obeyed(COLOURS.sub("", said)) == set()
        assert "\n0 faults" not in said
