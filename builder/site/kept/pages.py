"""The parts of problem pages, with their fresh numbers: read if kept, else made and kept."""

from __future__ import annotations

import hashlib
import multiprocessing
import os
from collections.abc import Iterable, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from builder.lesson import Lesson, write_lesson
from builder.problem import read_problem_text
from builder.problem.model import Problem, Unit
from builder.site.fresh import FreshPage
from builder.site.kept.store import Store
from builder.site.kept.version import code_version
from builder.site.page import PARTS, ProblemPage
from builder.solution import solve

_FEWEST_FOR_HELP = 4
"""Starting another process takes about as long as a page or two."""

LEADS_ON = "onward"
"""The part that hangs on other pages and is made anew in each build."""


@dataclass(frozen=True)
class KeptPages:
    """Finished parts of the problem pages of a unit.

    Attributes:
        unit: that the problems belong to.
        store: where the parts are kept.
    """

    unit: Unit
    store: Store

    def prepare(self, problems: Iterable[Problem]) -> None:
        """Make what is not kept yet, by all processors if it is much; throw away what is old.

        Raises:
            FaultyFile: if what an author asks of fresh numbers cannot be.
        """
        self.store.tidy()
        missing = [one for one in problems if self.store.get(self._key(one)) is None]
        workers = min(os.cpu_count() or 1, len(missing) // (_FEWEST_FOR_HELP // 2))
        if len(missing) < _FEWEST_FOR_HELP or workers < 2:
            return
        # A forked process would share the locks of the host's threads.
        context = multiprocessing.get_context("spawn")
        with ProcessPoolExecutor(workers, mp_context=context) as pool:
            tasks = [(str(self.store.folder), self._key(one), one.text, one.path, self.unit)
                     for one in missing]  # fmt: skip
            for _ in pool.map(_make_and_keep, tasks):
                pass

    def parts(self, lesson: Lesson) -> Mapping[str, str]:
        """The parts of a problem's page by their ids, but for the one that leads on."""
        problem = lesson.solution.problem
        key = self._key(problem)
        found = self.store.get(key)
        if found is None:
            found = parts_of(lesson, self.unit)
            self.store.put(key, found)
        return found

    def _key(self, problem: Problem) -> str:
        """A name made of all that a problem's page hangs on."""
        went_in = (code_version(), problem.slug, problem.path, problem.text, repr(self.unit))
        return hashlib.sha256("\0".join(went_in).encode()).hexdigest()


def parts_of(lesson: Lesson, unit: Unit) -> dict[str, str]:
    """The parts of a problem's page by their ids, made anew."""
    page = FreshPage.of(ProblemPage(lesson, unit, lesson.solution.problem.slug))
    return {part.id: str(page.part(part)) for part in PARTS if part.id != LEADS_ON}


def _make_and_keep(task: Sequence[object]) -> None:
    """What another process does: all from the text of a problem to its kept parts."""
    folder, key, text, path, unit = task
    assert isinstance(unit, Unit)
    problem = read_problem_text(str(text), str(path), unit)
    Store(Path(str(folder))).put(str(key), parts_of(write_lesson(solve(problem)), unit))
