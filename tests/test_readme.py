"""What the README shows is what Stepwell does."""

from __future__ import annotations

import re

import pytest
from click.testing import CliRunner

from builder.cli import COMMANDS, main
from builder.errors import FaultyFile
from builder.problem import read_problem_text
from builder.site.guide.pages import TEXT
from tests.conftest import ROOT
from tests.site.guide.texts import PAGES

README = (ROOT / "README.md").read_text(encoding="utf-8")
FLASHER = ROOT / "content" / "problems" / "flasher-reservoir.yml"
GUIDE = TEXT.relative_to(ROOT).as_posix()
LONGEST = 200


def test_it_is_short() -> None:
    """The README is an overview; what can be written stands in the guide."""
    assert README.count("\n") < LONGEST


def test_the_shown_problem_is_the_one_that_is_shipped() -> None:
    """The README's problem file is the unit's own, to the letter."""
    (shown,) = re.findall(r"^```yaml\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)
    assert shown == FLASHER.read_text(encoding="utf-8")


def test_the_shown_output_is_what_the_command_prints() -> None:
    """The README's terminal output is how the command's output begins."""
    shown = README.split("flasher-reservoir.yml\n", 1)[1].split("…")[0]
    printed = CliRunner().invoke(main, ["solve", str(FLASHER)]).output
    assert len(shown) > 300
    assert printed.startswith(shown)


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
    assert shown.group(1) == caught.value.told() + "\n"


def test_every_command_is_listed() -> None:
    """The table of commands holds each of them once, and no other."""
    listed = re.findall(r"^\| `stepwell ([a-z]+)` \|", README, re.MULTILINE)
    assert sorted(listed) == sorted(COMMANDS)


def test_the_guide_is_found_from_it() -> None:
    """Its links lead to files that are there, and its table to every kind of problem."""
    linked = re.findall(r"\]\(([^)#:]+)\)", README)
    assert [path for path in linked if not (ROOT / path).exists()] == []
    kinds = set(re.findall(r"\((\S+\.md)\)", PAGES["authors/index.md"].split("## What goes")[0]))
    kinds -= {"first-problem.md"}
    assert len(kinds) == 9
    assert {f"{GUIDE}/authors/{kind}" for kind in kinds} <= set(linked)
    built = re.findall(r"`guide/(\S+)\.html`", README)
    assert [f"{page}.md" for page in built if f"{page}.md" not in PAGES] == []
    assert len(built) == 3
