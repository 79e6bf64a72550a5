"""What the README shows is what Stepwell does."""

from __future__ import annotations

import re
import textwrap

import pytest
from click.testing import CliRunner

from builder.cli import main
from builder.errors import FaultyFile
from builder.lesson import write_lesson
from builder.problem import read_problem_text
from builder.solution import solve
from tests.conftest import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")
FLASHER = ROOT / "content" / "problems" / "flasher-reservoir.yml"
YAML = [
    textwrap.dedent(block)
    for block in re.findall(r"^ *```yaml\n(.*?)^ *```$", README, re.DOTALL | re.MULTILINE)
]


def test_the_shown_problem_is_the_one_that_is_shipped() -> None:
    """The README's problem file is the unit's own, to the letter."""
    assert YAML[0] == FLASHER.read_text(encoding="utf-8")


def test_the_shown_output_is_what_the_command_prints() -> None:
    """The README's terminal output is how the command's output begins."""
    shown = README.split("flasher-reservoir.yml\n", 1)[1].split("…")[0]
    printed = CliRunner().invoke(main, ["solve", str(FLASHER)]).output
    assert len(shown) > 300
    assert printed.startswith(shown)


def test_the_shown_additions_can_be_written() -> None:
    """Own words and own questions, as the README shows them, are read and reach the lesson."""
    assert len(YAML) == 3
    problem = read_problem_text("\n".join(YAML), "flasher-reservoir.yml")
    lesson = write_lesson(solve(problem))
    goals = [str(taught.words.goal) for taught in lesson.steps]
    assert any("Spot the pair" in goal for goal in goals)
    asked = [str(question.ask) for question in lesson.questions]
    assert any("How much charge reaches the pair?" in ask for ask in asked)
    assert any("if C₂ is taken out?" in ask for ask in asked)


def test_the_shown_fault_is_what_a_missing_unit_gives() -> None:
    """The README's fault is the one that its mistake leads to."""
    shown = re.search(r"^```\n(content/problems/.*?)^```$", README, re.DOTALL | re.MULTILINE)
    assert shown is not None
    line, column = map(int, shown.group(1).split(":")[1:3])
    source = FLASHER.read_text(encoding="utf-8").splitlines()
    assert source[line - 1][column - 1 :] == "22 uF"
    broken = FLASHER.read_text(encoding="utf-8").replace("22 uF", "22")
    with pytest.raises(FaultyFile) as caught:
        read_problem_text(broken, "content/problems/flasher-reservoir.yml")
    assert " ".join(shown.group(1).split()) == str(caught.value)
