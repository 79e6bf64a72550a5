"""What is made of the problems of a unit: read if it is kept, else made and kept."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from builder.errors import StepwellError
from builder.lesson import Lesson, write_lesson
from builder.problem import read_problem_text
from builder.problem.model import Problem
from builder.site.finished import Head, Making, head_of, parts_of
from builder.site.kept.store import Store
from builder.site.kept.version import code_version
from builder.site.workers import each_done
from builder.solution import solve

Texts = dict[str, str]


@dataclass(frozen=True)
class Prepared:
    """The problems of a unit, each solved or refused.

    Attributes:
        heads: of those whose pages can be made, by slug.
        troubles: what is wrong with the others, by slug.
    """

    heads: Mapping[str, Head]
    troubles: Mapping[str, StepwellError]


@dataclass(frozen=True)
class KeptPages:
    """What is made of the problems of a unit.

    Attributes:
        making: how their pages are made.
        store: where what is made is kept.
    """

    making: Making
    store: Store
    _unkept: dict[str, Texts] = field(default_factory=dict, repr=False, compare=False)

    def prepare(self, problems: Sequence[Problem]) -> Prepared:
        """Make what is not kept yet, by all processors if it is much; throw away what is old."""
        self.store.tidy()
        heads = {one.slug: self._kept_head(one) for one in problems}
        missing = [self._task(one) for one in problems if heads[one.slug] is None]
        troubles: dict[str, StepwellError] = {}
        for made in each_done(_make, missing):
            self._unkept.update(made.unkept)
            heads[made.slug] = made.head
            if made.trouble is not None:
                troubles[made.slug] = made.trouble
        ready = {slug: head for slug, head in heads.items() if head is not None}
        return Prepared(ready, troubles)

    def parts(self, problem: Problem, *, own: bool) -> Mapping[str, str]:
        """The parts of a problem's page by their ids, but for the one that leads on.

        Args:
            problem: one of those that are prepared.
            own: whether for its own page, which may offer other numbers; else for a lesson.
        """
        fresh = own and self._is_fresh(problem)
        key = self._key(problem, _kind(fresh=fresh))
        found = self._unkept.get(key) or self.store.get(key)
        if found is None:
            found = parts_of(_lesson(problem.text, problem.path, self.making),
                             self.making.unit, fresh=fresh)  # fmt: skip
            self._keep(key, found)
        return found

    def _kept_head(self, problem: Problem) -> Head | None:
        """A kept head, if the parts of the problem's own page are kept as well."""
        kind = _kind(fresh=self._is_fresh(problem))
        texts = self.store.get(self._key(problem, "head"))
        whole = texts is not None and self.store.has(self._key(problem, kind))
        return Head.of_texts(texts) if texts is not None and whole else None

    def _is_fresh(self, problem: Problem) -> bool:
        """Whether the problem's own page offers other numbers."""
        if self.making.fresh and self.making.hurried:
            return self.store.has(self._key(problem, _kind(fresh=True)))
        return self.making.fresh

    def _keep(self, key: str, texts: Texts) -> None:
        if not self.store.put(key, texts):
            self._unkept[key] = texts

    def _key(self, problem: Problem, kind: str) -> str:
        """A name made of all that goes into what is made of a problem."""
        went_in = (code_version(), kind, str(self.making.images), problem.slug, problem.path,
                   problem.text, *self.making.hangs_on(problem))  # fmt: skip
        return hashlib.sha256("\0".join(went_in).encode()).hexdigest()

    def _task(self, problem: Problem) -> _Task:
        fresh = self._is_fresh(problem)
        head, body = (self._key(problem, kind) for kind in ("head", _kind(fresh=fresh)))
        return _Task(
            problem.slug, problem.text, problem.path, self.making, self.store, head, body, fresh
        )


@dataclass(frozen=True)
class _Task:
    """What it takes to make a problem's page, all of it fit for another process."""

    slug: str
    text: str
    path: str
    making: Making
    store: Store
    head_key: str
    body_key: str
    fresh: bool


@dataclass(frozen=True)
class _Made:
    """What came of a task; ``unkept`` holds what could not be kept, by its key."""

    slug: str
    head: Head | None = None
    trouble: StepwellError | None = None
    unkept: Mapping[str, Texts] = field(default_factory=dict)


def _make(task: _Task) -> _Made:
    """Make and keep head and parts of a problem; what its author can act on is handed back."""
    try:
        lesson = _lesson(task.text, task.path, task.making)
        head = head_of(lesson, task.making)
        body = parts_of(lesson, task.making.unit, fresh=task.fresh)
    except StepwellError as error:
        return _Made(task.slug, trouble=error)
    unkept = {} if task.store.put(task.body_key, body) else {task.body_key: body}
    task.store.put(task.head_key, head.as_texts())
    return _Made(task.slug, head, unkept=unkept)


def _lesson(text: str, path: str, making: Making) -> Lesson:
    return write_lesson(solve(read_problem_text(text, path, making.unit)))


def _kind(*, fresh: bool) -> str:
    return "fresh" if fresh else "plain"
