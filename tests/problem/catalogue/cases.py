"""The cases of the catalogue, as its files have them, and what is told of each."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import yaml

from builder.errors import Fault, FaultyFile
from builder.lesson import write_lesson
from builder.lesson.apart import telling_apart
from builder.problem import read_problem_text, read_unit
from builder.problem.model import Unit
from builder.site.embed import embed
from builder.solution import solve

HERE = Path(__file__).parent
SOUND = HERE / "sound"
UNIT = Unit("Harbour Lights", objectives={"merge-parallel": "Merge", "same-voltage": "See"})


@dataclass(frozen=True)
class Case:
    """One mistake.

    Attributes:
        id: what it is, in a few words.
        of: the sound file that it is made in: ``nest.yml``; what is told names the same file.
        text: the file with the mistake.
        told: what its author is told.
        structural: whether an editor underlines it as it is typed, by the JSON Schema.
    """

    id: str
    of: str
    text: str
    told: str
    structural: bool


def cases() -> Iterator[Case]:
    """All cases, in the order of the files."""
    for file in sorted(HERE.glob("*.yml")):
        for entry in yaml.safe_load(file.read_text(encoding="utf-8")):
            yield case_of(entry)


def case_of(entry: dict[str, Any]) -> Case:
    """A case as its file has it."""
    text = entry.get("text")
    if text is None:
        text = (SOUND / entry["of"]).read_text(encoding="utf-8")
        for old, new in entry["change"].items():
            if text.count(old) != 1:
                raise ValueError(f"{entry['case']}: {old!r} stands {text.count(old)} times")
            text = text.replace(old, new)
    return Case(entry["case"], entry["of"], text, entry.get("told", ""), entry["structural"])


def faults_of(name: str, text: str) -> tuple[Fault, ...]:
    """All that is wrong with a file: of a problem, of a unit, or a lesson page."""
    try:
        if name == "unit.yml":
            _read_as_unit(text)
        elif name.endswith(".md"):
            embed(text, name, ["flasher-reservoir", "bench-bridge"])
        else:
            lesson = write_lesson(solve(read_problem_text(text, name, UNIT)))
            telling_apart(lesson)
    except FaultyFile as error:
        return error.faults
    return ()


def told_of(name: str, text: str) -> str:
    """What an author is told of a file; nothing of a sound one."""
    faults = faults_of(name, text)
    return FaultyFile(faults).told() + "\n" if faults else ""


def _read_as_unit(text: str) -> None:
    """Read the file of a unit that has one page and one problem."""
    with tempfile.TemporaryDirectory() as folder:
        content = Path(folder)
        (content / "problems").mkdir()
        (content / "problems" / "flasher-reservoir.yml").touch()
        (content / "sharing-a-junction.md").touch()
        (content / "unit.yml").write_text(text, encoding="utf-8")
        try:
            read_unit(content / "unit.yml")
        except FaultyFile as error:
            raise FaultyFile(tuple(_renamed(fault) for fault in error.faults)) from None


def _renamed(fault: Fault) -> Fault:
    return replace(fault, path="unit.yml")
