"""Checking what the files of a unit say of each other."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from builder.errors import Fault, FaultyFile, Oddity
from builder.problem.faults.gathering import LINE_END, Faults, Mark, quoted
from builder.problem.model import Unit
from builder.problem.reader import read_unit
from builder.problem.unit_of import UNIT_FILE
from builder.problem.yaml_text.composing import compose
from builder.problem.yaml_text.located import Map
from builder.site.checking.report import PAGE, UNIT, Checked
from builder.site.embed import embed

UNUSED_OBJECTIVE = "unused-objective"
SAME_TITLE = "same-title"
OFF_THE_PATH = "off-the-path"
_SHOWN = re.compile(r'<div data-stepwell-part="([^"/]+)/')
"""What stands in a lesson page where a part of a problem is shown."""
_FEW = 10
"""Up to one problem in so many may have been forgotten; more are left out on purpose."""


@dataclass(frozen=True)
class _File:
    """A file of YAML with its places."""

    path: Path

    def oddity(self, at: Mark, kind: str, seen: str, advice: str) -> Oddity:
        """Something odd in it."""
        source = LINE_END.split(self._text)[at.line - 1]
        return Oddity(str(self.path), at.line, at.column, kind, seen, advice, source, at.width)

    @property
    def root(self) -> Map:
        """All of it."""
        return compose(self._text, Faults(str(self.path)))

    @property
    def _text(self) -> str:
        return self.path.read_text(encoding="utf-8-sig")

    def value_of(self, key: str) -> Mark:
        """The place of what stands under a key; the start without that key."""
        entry = self.root.get(key)
        return entry.value.at if entry else Mark(1, 1)


def unit_in(folder: Path, problems: str) -> tuple[Unit | None, Checked]:
    """The unit that lies in a folder, and what is wrong with its own file.

    Args:
        folder: of ``unit.yml``.
        problems: the folder of its problems in it.
    """
    path = folder / UNIT_FILE
    try:
        return read_unit(path, folder=problems), Checked(str(path), part=UNIT)
    except FaultyFile as error:
        return None, Checked(str(path), part=UNIT, faults=error.faults)


def lesson_pages_in(folder: Path, known: Sequence[str]) -> tuple[list[Checked], set[str]]:
    """The lesson pages of a unit, and the problems that they show.

    Args:
        folder: of the unit.
        known: the names of its problems.
    """
    pages: list[Checked] = []
    shown: set[str] = set()
    for path in sorted(folder.rglob("*.md")):
        faults: tuple[Fault, ...] = ()
        try:
            markdown = path.read_text(encoding="utf-8-sig")
        except UnicodeDecodeError:
            faults = (Fault(str(path), 0, 0, "bytes that are no text in UTF-8", "text in UTF-8",
                            "Save the file again with the encoding UTF-8."),)  # fmt: skip
            markdown = ""
        try:
            shown |= set(_SHOWN.findall(embed(markdown, str(path), known)))
        except FaultyFile as error:
            faults = tuple(_in_line(fault, markdown) for fault in error.faults)
        pages.append(Checked(str(path), part=PAGE, faults=faults))
    return pages, shown


def _in_line(fault: Fault, markdown: str) -> Fault:
    """The fault of a page with its line, from the place on."""
    source = markdown.split("\n")[fault.line - 1]
    return replace(fault, source=source, width=max(1, len(source.rstrip()) - fault.column + 1))


def odd_together(
    folder: Path, unit: Unit, problems: Sequence[Checked], shown: set[str]
) -> Mapping[str, list[Oddity]]:
    """What is odd about a unit and its problems together, by the path of the file.

    Args:
        folder: of the unit.
        unit: what its file says.
        problems: all of its problems, checked. If one could not be read, nothing is said: it
            might be what is missing.
        shown: the problems that lesson pages show.
    """
    found: dict[str, list[Oddity]] = {}
    if all(one.about for one in problems):
        for oddity in (
            *_unused_objectives(folder, unit, problems),
            *_same_titles(problems),
            *_off_the_path(unit, problems, shown),
        ):
            found.setdefault(oddity.path, []).append(oddity)
    return found


def _unused_objectives(folder: Path, unit: Unit, problems: Sequence[Checked]) -> Iterator[Oddity]:
    trained = {id for one in problems if one.about for id in one.about.objectives}
    unused = [id for id in unit.objectives if id not in trained]
    if not unused:
        return
    file = _File(folder / UNIT_FILE)
    entry = file.root.get("objectives")
    for objective in entry.value.entries if entry and isinstance(entry.value, Map) else ():
        if objective.key.value in unused:
            yield file.oddity(
                objective.key.at, UNUSED_OBJECTIVE,
                f"No problem trains the objective {quoted(objective.key.value)}.",
                "Name it under objectives: in a problem, or delete it.",
            )  # fmt: skip


def _same_titles(problems: Sequence[Checked]) -> Iterator[Oddity]:
    first: dict[str, Checked] = {}
    for one in problems:
        assert one.about is not None
        title = one.about.title.casefold()
        if title in first:
            file = _File(Path(one.path))
            yield file.oddity(
                file.value_of("title"), SAME_TITLE,
                f"{Path(first[title].path).name} has the same title.",
                "Change one of the two: lists show titles alone.",
            )  # fmt: skip
        first.setdefault(title, one)


def _off_the_path(unit: Unit, problems: Sequence[Checked], shown: set[str]) -> Iterator[Oddity]:
    """Problems that the path leaves out though it names nearly all."""
    named = {*unit.path, *shown}
    left = [one for one in problems if Path(one.path).stem not in named]
    if not unit.path or len(problems) < 3 or len(left) > max(1, len(problems) // _FEW):
        return
    for one in left:
        file = _File(Path(one.path))
        yield file.oddity(
            file.value_of("title"), OFF_THE_PATH,
            "The path of the unit names nearly every problem, but not this one.",
            f'Add "- {Path(one.path).stem}" below path: in {UNIT_FILE}.',
        )  # fmt: skip
