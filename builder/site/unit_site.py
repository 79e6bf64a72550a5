"""The whole unit on its way to a site: its lessons, the pages made of them, and their filling."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from markupsafe import Markup, escape

from builder.errors import Fault, FaultyFile
from builder.lesson import Lesson, write_lesson
from builder.problem import read_problem, read_unit
from builder.problem.model import LEVELS, Problem, Unit
from builder.problem.unit_of import UNIT_FILE
from builder.site.front import Front, LessonPage, lesson_pages, stages_of
from builder.site.kept import KeptPages
from builder.site.listing import card, listing_pages
from builder.site.page import PARTS, Link, ProblemPage, render, skeleton
from builder.site.plain_text import search_words
from builder.site.reference import Reference
from builder.site.sources import problem_sources
from builder.site.style_page import StylePage
from builder.solution import solve

_PART = re.compile(r'<div data-stepwell-part="([^"/]+)/([^"]+)">(?:<p>[^<]*</p>)?</div>')
_MADE = re.compile(
    r'<div data-stepwell-made="(front|reference|style)/([^"]+)">(?:<p>[^<]*</p>)?</div>'
)
_LIST = re.compile(r'<div data-stepwell-list="([^"]+)"></div>')

Address = Callable[[str], str]
"""Gives the address of a page, by its source path, relative to the page being filled."""


@dataclass(frozen=True)
class UnitSite:
    """A unit with every problem solved and taught.

    Attributes:
        unit: what ``unit.yml`` says.
        folder: the folder of the problems inside the content, with forward slashes.
        lessons: by the problem's slug, in the order of the site.
        pages_of_prose: the author's own lesson pages, in teaching order.
    """

    unit: Unit
    folder: str
    lessons: Mapping[str, Lesson]
    pages_of_prose: tuple[LessonPage, ...] = ()

    def page_path(self, slug: str) -> str:
        """The source path of a problem's page."""
        return f"{self.folder}/{slug}.md"

    def pages(self, *, style: bool = False) -> dict[str, str]:
        """The Markdown of every page that is made, by its source path.

        Args:
            style: whether the style page is among them.
        """
        pages = {
            self.page_path(slug): skeleton(lesson.solution.problem, lesson)
            for slug, lesson in self.lessons.items()
        }
        lists = listing_pages(self.folder, self.problems, self.unit)
        shown = StylePage(self.unit, self.lessons).pages() if style else {}
        return lists | self._reference.pages() | shown | pages

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Every problem, in the order of the site."""
        return tuple(lesson.solution.problem for lesson in self.lessons.values())

    @cached_property
    def _reference(self) -> Reference:
        return Reference(self.problems, self.unit.symbols, self.folder)

    def hint(self, html: str) -> str:
        """Put into the placeholders of parts what the search is to find there.

        The search would take longer over formulas and figures than all else takes, and find
        nothing in them that anybody types.
        """

        def words(match: re.Match[str]) -> str:
            slug, id = match.groups()
            found = search_words(self.lessons[slug], id)
            return f'<div data-stepwell-part="{slug}/{id}"><p>{escape(found)}</p></div>'

        def reference_words(match: re.Match[str]) -> str:
            kind, id = match.groups()
            found = self._reference.search_words(id) if kind == "reference" else ""
            return f'<div data-stepwell-made="{kind}/{id}"><p>{escape(found)}</p></div>'

        return _MADE.sub(reference_words, _PART.sub(words, html))

    def fill(
        self, html: str, address: Address, own: str = "", kept: KeptPages | None = None
    ) -> str:
        """Put the parts of problems and the listings where their placeholders stand.

        Args:
            html: a page as MkDocs made it.
            address: gives addresses relative to it.
            own: its source path.
            kept: gives the parts of problems' own pages, which offer other numbers; without it,
                and in lessons, problems stay as they are written.
        """
        made: dict[str, ProblemPage] = {}
        ready: dict[str, Mapping[str, str]] = {}

        def part(match: re.Match[str]) -> str:
            slug, id = match.groups()
            if slug not in made:
                links = self._links(slug, address)
                made[slug] = ProblemPage(self.lessons[slug], self.unit, slug, links)
                theirs = own == self.page_path(slug)
                ready[slug] = kept.parts(self.lessons[slug]) if kept and theirs else {}
            wanted = next(part for part in PARTS if part.id == id)
            filling = ready[slug][id] if id in ready[slug] else made[slug].part(wanted)
            start = f'<div class="sw-part" data-part="{id}" data-part-of="{slug}">'
            return f"{start}{filling}</div>" if filling else ""

        def made_part(match: re.Match[str]) -> str:
            kind, id = match.groups()
            if kind == "reference":
                return str(self._reference.part(id, address))
            if kind == "style":
                return str(StylePage(self.unit, self.lessons).part(id))
            stages = stages_of(self.unit, self.pages_of_prose, self.problems)
            return str(Front(self.unit, self.folder, stages, address).part(id))

        filled = _MADE.sub(made_part, _PART.sub(part, html))
        return _LIST.sub(lambda match: str(self._listing(match.group(1), address)), filled)

    def _links(self, slug: str, address: Address) -> tuple[Link, ...]:
        slugs = list(self.lessons)
        here = slugs.index(slug)
        around = (("Previous problem", here - 1), ("Next problem", here + 1))
        links = [
            Link(role, self.lessons[slugs[at]].solution.problem.title,
                 address(self.page_path(slugs[at])))
            for role, at in around
            if 0 <= at < len(slugs)
        ]  # fmt: skip
        return (*links, Link("Back to", "All problems", address(f"{self.folder}/index.md")))

    def _listing(self, chosen: str, address: Address) -> Markup:
        kind, _, wanted = chosen.partition(":")
        cards = [
            card(problem, address(self.page_path(problem.slug)))
            for problem in self.problems
            if (problem.level == wanted if kind == "level" else wanted in problem.objectives)
        ]
        return render("listing.html", cards=cards, unit=self.unit)


def read_unit_site(content: Path, folder: str = "problems", nav: Any = None) -> UnitSite:
    """Read, solve and teach every problem of a unit.

    Args:
        content: the folder of ``unit.yml``.
        folder: the folder of the problems in it.
        nav: the navigation as mkdocs.yml gives it; lessons are taught in its order.

    Raises:
        FaultyFile: with the faults of all files.
        Disagreement, CheckFailed: if a solution cannot be trusted.
    """
    sources = problem_sources(content, folder)
    unit = read_unit(content / UNIT_FILE, folder=folder)
    problems, faults = _read_problems(sources, unit, content.parent)
    if faults:
        raise FaultyFile(faults)
    problems.sort(key=lambda problem: _place(problem, unit))
    lessons = {problem.slug: write_lesson(solve(problem)) for problem in problems}
    prose = tuple(lesson_pages(content, folder, nav, unit.path))
    return UnitSite(unit, folder, lessons, prose)


def _place(problem: Problem, unit: Unit) -> tuple[int, int, str]:
    """Where a problem comes: along the author's path, then by level and name."""
    stops = unit.path
    at = stops.index(problem.slug) if problem.slug in stops else len(stops)
    return (at, LEVELS.index(problem.level), problem.slug)


def _read_problems(
    paths: list[Path], unit: Unit, home: Path
) -> tuple[list[Problem], tuple[Fault, ...]]:
    """Read several problems; those that can be read, and the faults of the others."""
    problems: list[Problem] = []
    faults: list[Fault] = []
    for path in paths:
        try:
            name = path.relative_to(home).as_posix()
            problems.append(read_problem(path, unit=unit, name=name))
        except FaultyFile as error:
            faults.extend(error.faults)
    return problems, tuple(faults)
