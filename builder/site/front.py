"""The front of a unit: what it teaches, the way through it, and its problems with a filter."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from markupsafe import Markup

from builder.lesson.kinds import topic
from builder.problem.model import LEVELS, Problem, Unit
from builder.problem.teaching_path import LESSON_ENDING
from builder.site.listing import LEVEL_HEADINGS, card, of_level
from builder.site.page import render

_HEADING = re.compile(r"^#[ \t]+(.+?)[ \t]*#*$", re.MULTILINE)


@dataclass(frozen=True)
class LessonPage:
    """A page of an author's prose.

    Attributes:
        path: its source path in the content.
        title: its first heading.
    """

    path: str
    title: str


@dataclass(frozen=True)
class Stage:
    """A stretch of the path.

    Attributes:
        lesson: the page it starts with, or None.
        problems: what is to be tried after it.
    """

    lesson: LessonPage | None
    problems: tuple[Problem, ...]


@dataclass(frozen=True)
class Front:
    """All that the front of a unit shows.

    Attributes:
        unit: what ``unit.yml`` says.
        folder: the folder of the problems.
        stages: the path.
        address: gives the address of a page by its source path.
    """

    unit: Unit
    folder: str
    stages: tuple[Stage, ...]
    address: Callable[[str], str]

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Every problem, in teaching order."""
        return tuple(problem for stage in self.stages for problem in stage.problems)

    def part(self, id: str) -> Markup:
        """``objectives``, ``path`` or ``problems``, as HTML.

        Raises:
            KeyError: for any other part.
        """
        return {"objectives": self._objectives, "path": self._path, "problems": self._problems}[
            id
        ]()

    def _objectives(self) -> Markup:
        trained = [
            {"sentence": sentence, "count": count,
             "address": self.address(f"{self.folder}/by-objective.md") + f"#{id}"}
            for id, sentence in self.unit.objectives.items()
            if (count := sum(id in problem.objectives for problem in self.problems))
        ]  # fmt: skip
        return render("front/objectives.html", trained=trained)

    def _path(self) -> Markup:
        stages = [
            {
                "lesson": stage.lesson,
                "address": self.address(stage.lesson.path) if stage.lesson else "",
                "cards": self._cards(stage.problems),
            }
            for stage in self.stages
        ]
        return render("front/path.html", stages=stages, unit=self.unit)

    def _problems(self) -> Markup:
        return render(
            "filter.html",
            cards=self._cards(self.problems),
            choices=list(_choices(self.problems, self.stages, self.unit)),
            unit=self.unit,
        )

    def _cards(self, problems: Iterable[Problem]) -> list[dict[str, Any]]:
        stage_of = {
            problem.slug: str(at)
            for at, stage in enumerate(self.stages)
            for problem in stage.problems
        }
        cards = []
        for problem in problems:
            shown = card(problem, self.address(f"{self.folder}/{problem.slug}.md"))
            shown["lesson"] = stage_of[problem.slug]
            cards.append(shown)
        return cards


@dataclass(frozen=True)
class Choice:
    """One select of the filter.

    Attributes:
        name: the name of the cards' data attribute.
        label: what is chosen.
        options: value and text of each.
    """

    name: str
    label: str
    options: tuple[tuple[str, str], ...]


def _choices(
    problems: tuple[Problem, ...], stages: tuple[Stage, ...], unit: Unit
) -> Iterator[Choice]:
    """The selects that leave a choice: one with a single option tells nothing."""
    lessons = tuple(
        (str(at), stage.lesson.title)
        for at, stage in enumerate(stages)
        if stage.lesson and stage.problems
    )
    levels = tuple((level, LEVEL_HEADINGS[level]) for level in LEVELS if of_level(problems, level))
    objectives = tuple(
        (id, sentence)
        for id, sentence in unit.objectives.items()
        if any(id in problem.objectives for problem in problems)
    )
    topics = sorted(dict.fromkeys(map(topic, problems)))
    kinds = tuple((name, name.capitalize()) for name in topics)
    for choice in (
        Choice("lesson", "Lesson", lessons),
        Choice("level", "Level", levels),
        Choice("objective", "What it trains", objectives),
        Choice("kind", "Elements", kinds),
    ):
        if len(choice.options) > 1:
            yield choice


def stages_of(
    unit: Unit, lessons: tuple[LessonPage, ...], problems: tuple[Problem, ...]
) -> tuple[Stage, ...]:
    """The path of a unit; by default its lessons in their order, then its problems.

    Problems that the author's path leaves out come last.
    """
    by_slug = {problem.slug: problem for problem in problems}
    by_path = {lesson.path: lesson for lesson in lessons}
    stages: list[Stage] = []
    for stop in unit.path or (lesson.path for lesson in lessons):
        if stop.endswith(LESSON_ENDING):
            stages.append(Stage(by_path.get(stop, LessonPage(stop, stop)), ()))
        elif stop in by_slug:
            before = stages.pop() if stages else Stage(None, ())
            stages.append(Stage(before.lesson, (*before.problems, by_slug.pop(stop))))
    if by_slug:
        stages.append(Stage(None, tuple(by_slug.values())))
    return tuple(stages)


def lesson_pages(content: Path, folder: str, nav: Any, path: Iterable[str]) -> Iterator[LessonPage]:
    """The pages of an author's prose in the order of the navigation, then those of the path.

    Args:
        content: the folder of all pages.
        folder: the folder of the problems, whose pages are no lessons.
        nav: the navigation as mkdocs.yml gives it, or None.
        path: the unit's own path.
    """
    named = dict.fromkeys([*_paths_in(nav), *(stop for stop in path if _is_page(stop))])
    for source in named:
        if source == "index.md" or source.startswith(f"{folder}/"):
            continue
        file = content / source
        if file.is_file():
            # What is no UTF-8 is refused by MkDocs, when it reads the page.
            heading = _HEADING.search(file.read_text(encoding="utf-8", errors="replace"))
            yield LessonPage(source, heading[1] if heading else Path(source).stem)


def _is_page(name: str) -> bool:
    return name.endswith(LESSON_ENDING)


def _paths_in(nav: Any) -> Iterator[str]:
    """The source paths of pages in a navigation, which is a nest of lists and titles."""
    if isinstance(nav, str):
        if _is_page(nav):
            yield nav
    elif isinstance(nav, dict | list):
        for part in nav.values() if isinstance(nav, dict) else nav:
            yield from _paths_in(part)
