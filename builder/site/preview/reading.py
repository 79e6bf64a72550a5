"""Reading a unit for a preview, again and again: as far as that can be, and what has changed."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from builder.errors import FaultyFile, StepwellError
from builder.problem import read_problem, read_unit
from builder.problem.model import Problem, Unit
from builder.problem.unit_of import UNIT_FILE
from builder.site.front import lesson_pages
from builder.site.kept import KeptPages
from builder.site.sources import sources_and_faults
from builder.site.unit_site import UnitSite, arranged

_Signs = tuple[int, int, int]
"""What a change of a file changes: its number on the disk, its size, and when it was written."""


@dataclass
class Preview:
    """What is remembered from one rebuild of a preview to the next.

    Attributes:
        unit: the last one whose file could be used; it serves while the file is faulty.
    """

    unit: Unit | None = None
    _read: dict[Path, tuple[_Signs, Problem | FaultyFile]] = field(default_factory=dict)
    _read_for: Unit | None = None

    def read(
        self, content: Path, folder: str, nav: Any, pages: Callable[[Unit], KeptPages]
    ) -> UnitSite:
        """Read, solve and teach every problem that can be, and gather what is wrong.

        Args:
            content: the folder of ``unit.yml``.
            folder: the folder of the problems in it.
            nav: the navigation as mkdocs.yml gives it.
            pages: makes the problems' pages.
        """
        sources, at_large = sources_and_faults(content, folder)
        try:
            self.unit = read_unit(content / UNIT_FILE, folder=folder)
        except FaultyFile as error:
            named = (content / UNIT_FILE).relative_to(content.parent).as_posix()
            at_large += tuple(dataclasses.replace(fault, path=named) for fault in error.faults)
        problems, faulty = self._problems(sources, content.parent)
        unit = self.unit or _made_up(problems)
        prose = tuple(lesson_pages(content, folder, nav, unit.path))
        site = arranged(unit, folder, problems, faulty, pages(unit), prose)
        return dataclasses.replace(site, at_large=at_large)

    def _problems(
        self, sources: Iterable[Path], home: Path
    ) -> tuple[list[Problem], Mapping[str, StepwellError]]:
        """Those that can be read, and what is wrong with the others, by slug."""
        known = self._read if self._read_for == self.unit else {}
        self._read, self._read_for = {}, self.unit
        for path in sources:
            signs = _signs(path)
            before = known.get(path)
            if before is None or before[0] != signs:
                before = (signs, _problem_or_faults(path, self.unit, home))
            self._read[path] = before
        results = {path.stem: result for path, (_, result) in self._read.items()}
        faulty = {slug: one for slug, one in results.items() if isinstance(one, FaultyFile)}
        return [one for one in results.values() if isinstance(one, Problem)], faulty


def _signs(path: Path) -> _Signs:
    try:
        seen = path.stat()
    except OSError:
        return (0, 0, 0)  # Deleted since the folder was read; the next rebuild will see it.
    return (seen.st_ino, seen.st_size, seen.st_mtime_ns)


def _problem_or_faults(path: Path, unit: Unit | None, home: Path) -> Problem | FaultyFile:
    try:
        return read_problem(path, unit=unit, name=path.relative_to(home).as_posix())
    except FaultyFile as error:
        return error


def _made_up(problems: Iterable[Problem]) -> Unit:
    """A unit for problems whose own unit cannot be used, with all objectives that they name."""
    named = sorted({id for problem in problems for id in problem.objectives})
    return Unit("This unit", objectives={id: id.replace("-", " ").capitalize() for id in named})
