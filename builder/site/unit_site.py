"""The whole unit on its way to a site: its lessons, the pages made of them, and their filling."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from markupsafe import Markup, escape

from builder.errors import Fault, FaultyFile, StepwellError
from builder.lesson import Lesson, write_lesson
from builder.problem import read_problem, read_unit
from builder.problem.model import LEVELS, Problem, Unit
from builder.problem.unit_of import UNIT_FILE
from builder.site.finished import LEADS_ON, Head, Making
from builder.site.front import Front, LessonPage, lesson_pages, stages_of
from builder.site.kept import KeptPages, Store
from builder.site.listing import card, listing_pages
from builder.site.online import Online
from builder.site.page import Link, render
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
    """A unit whose problems are solved, taught and drawn, as far as that can be.

    Attributes:
        unit: what ``unit.yml`` says.
        folder: the folder of the problems inside the content, with forward slashes.
        problems: those that have a page, in the order of the site.
        pages_kept: what is made of them.
        heads: what the site must know of them, by slug.
        faulty: what is wrong with the others, by slug.
        pages_of_prose: the author's own lesson pages, in teaching order.
        at_large: what is wrong with no single problem; only a preview goes on with any.
    """

    unit: Unit
    folder: str
    problems: tuple[Problem, ...]
    pages_kept: KeptPages
    heads: Mapping[str, Head]
    faulty: Mapping[str, StepwellError]
    pages_of_prose: tuple[LessonPage, ...] = ()
    at_large: tuple[Fault, ...] = ()

    def stop(self) -> None:
        """Raise what is wrong with any problem.

        Raises:
            FaultyFile: with the faults of all files.
            Disagreement, CheckFailed: if a solution cannot be trusted.
        """
        faults: list[Fault] = []
        for error in self.faulty.values():
            if not isinstance(error, FaultyFile):
                raise error
            faults.extend(error.faults)
        if faults:
            raise FaultyFile(tuple(faults))

    @cached_property
    def slugs(self) -> tuple[str, ...]:
        """The names of all problems, in the order of the site; then of the faulty ones."""
        return (*(problem.slug for problem in self.problems), *self.faulty)

    @cached_property
    def _places(self) -> Mapping[str, int]:
        """Where each problem comes in the order of the site, by its slug."""
        return {problem.slug: at for at, problem in enumerate(self.problems)}

    @cached_property
    def lessons(self) -> Mapping[str, Lesson]:
        """Every lesson by its slug: solved and taught here and now, which takes its time."""
        return {one.slug: write_lesson(solve(one)) for one in self.problems}

    def page_path(self, slug: str) -> str:
        """The source path of a problem's page."""
        return f"{self.folder}/{slug}.md"

    def online(self, name: str, about: str, base: str) -> Online:
        """The unit as those see it who have not opened it yet.

        Args:
            name: of the site.
            about: the site in a sentence.
            base: the address of the published site; empty if it has none.
        """
        abouts = {self.page_path(slug): head.about for slug, head in self.heads.items()}
        images = {self.page_path(slug): head.image for slug, head in self.heads.items()}
        return Online(name, about, base, abouts, images)

    def pages(self, *, style: bool = False) -> dict[str, str]:
        """The Markdown of every page that is made, by its source path.

        Args:
            style: whether the style page is among them.
        """
        pages = {self.page_path(one.slug): self.heads[one.slug].skeleton for one in self.problems}
        lists = listing_pages(self.folder, self.problems, self.unit)
        shown = StylePage(self.unit, self.lessons).pages() if style else {}
        return lists | self._reference.pages() | shown | pages

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
            found = self.heads[slug].words.get(id, "")
            return f'<div data-stepwell-part="{slug}/{id}"><p>{escape(found)}</p></div>'

        def reference_words(match: re.Match[str]) -> str:
            kind, id = match.groups()
            found = self._reference.search_words(id) if kind == "reference" else ""
            return f'<div data-stepwell-made="{kind}/{id}"><p>{escape(found)}</p></div>'

        return _MADE.sub(reference_words, _PART.sub(words, html))

    def fill(self, html: str, address: Address, own: str = "") -> str:
        """Put the parts of problems and the listings where their placeholders stand.

        Args:
            html: a page as MkDocs made it.
            address: gives addresses relative to it.
            own: its source path; problems offer other numbers on their own pages, and stay as
                they are written in lessons.
        """
        ready: dict[str, Mapping[str, str]] = {}

        def part(match: re.Match[str]) -> str:
            slug, id = match.groups()
            if id == LEADS_ON:
                filling = str(render("parts/onward.html", links=self._links(slug, address)))
            else:
                if slug not in ready:
                    theirs = own == self.page_path(slug)
                    problem = self.problems[self._places[slug]]
                    ready[slug] = self.pages_kept.parts(problem, own=theirs)
                filling = ready[slug][id]
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
        here = self._places[slug]
        around = (("Previous problem", here - 1), ("Next problem", here + 1))
        links = [
            Link(role, self.problems[at].title, address(self.page_path(self.problems[at].slug)))
            for role, at in around
            if 0 <= at < len(self.problems)
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


def unkept(unit: Unit) -> KeptPages:
    """Pages without other numbers, none of which is kept for the next build."""
    return KeptPages(Making(unit), Store(None))


def read_unit_site(
    content: Path,
    folder: str = "problems",
    nav: Any = None,
    pages: Callable[[Unit], KeptPages] = unkept,
) -> UnitSite:
    """Read, solve and teach every problem of a unit.

    Args:
        content: the folder of ``unit.yml``.
        folder: the folder of the problems in it.
        nav: the navigation as mkdocs.yml gives it; lessons are taught in its order.
        pages: makes the problems' pages.

    Raises:
        FaultyFile: if the unit's own file cannot be used, or two problems share a name. What is
            wrong with single problems is in the result.
    """
    sources = problem_sources(content, folder)
    unit = read_unit(content / UNIT_FILE, folder=folder)
    problems, faulty = _read_problems(sources, unit, content.parent)
    prose = tuple(lesson_pages(content, folder, nav, unit.path))
    return arranged(unit, folder, problems, faulty, pages(unit), prose)


def arranged(
    unit: Unit,
    folder: str,
    problems: Iterable[Problem],
    faulty: Mapping[str, StepwellError],
    pages: KeptPages,
    prose: tuple[LessonPage, ...],
) -> UnitSite:
    """A unit of problems that are read, in their order, those with pages apart from the others.

    Args:
        unit: that they belong to.
        folder: of the problems inside the content.
        problems: in any order.
        faulty: what is wrong with those that could not be read, by slug.
        pages: makes their pages.
        prose: the author's own lesson pages, in teaching order.
    """
    ordered = sorted(problems, key=lambda problem: _place(problem, unit))
    prepared = pages.prepare(ordered)
    sound = tuple(one for one in ordered if one.slug in prepared.heads)
    wrong = {**faulty, **prepared.troubles}
    return UnitSite(unit, folder, sound, pages, prepared.heads, wrong, prose)


def _place(problem: Problem, unit: Unit) -> tuple[int, int, str]:
    """Where a problem comes: along the author's path, then by level and name."""
    stops = unit.path
    at = stops.index(problem.slug) if problem.slug in stops else len(stops)
    return (at, LEVELS.index(problem.level), problem.slug)


def _read_problems(
    paths: list[Path], unit: Unit, home: Path
) -> tuple[list[Problem], dict[str, StepwellError]]:
    """Read several problems; those that can be read, and what is wrong with the others."""
    problems: list[Problem] = []
    faulty: dict[str, StepwellError] = {}
    for path in paths:
        try:
            name = path.relative_to(home).as_posix()
            problems.append(read_problem(path, unit=unit, name=name))
        except FaultyFile as error:
            faulty[path.stem] = error
    return problems, faulty
