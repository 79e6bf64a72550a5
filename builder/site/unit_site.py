"""The whole unit on its way to a site: its lessons, the pages made of them, and their filling."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup, escape

from builder.circuit.tree import groups
from builder.errors import Fault, FaultyFile
from builder.lesson import Lesson, write_lesson
from builder.lesson.prose import number_word
from builder.problem import read_problem, read_unit
from builder.problem.model import LEVELS, Problem, Unit
from builder.site.listing import listing_pages
from builder.site.page import PARTS, Link, ProblemPage, render, skeleton
from builder.site.plain_text import search_words
from builder.site.sources import problem_sources
from builder.solution import solve

UNIT_FILE = "unit.yml"
_PART = re.compile(r'<div data-stepwell-part="([^"/]+)/([^"]+)">(?:<p>[^<]*</p>)?</div>')
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
    """

    unit: Unit
    folder: str
    lessons: Mapping[str, Lesson]

    def page_path(self, slug: str) -> str:
        """The source path of a problem's page."""
        return f"{self.folder}/{slug}.md"

    def pages(self) -> dict[str, str]:
        """The Markdown of every page that is made, by its source path."""
        pages = {
            self.page_path(slug): skeleton(lesson.solution.problem, lesson)
            for slug, lesson in self.lessons.items()
        }
        return listing_pages(self.folder, self.problems, self.unit) | pages

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Every problem, in the order of the site."""
        return tuple(lesson.solution.problem for lesson in self.lessons.values())

    def hint(self, html: str) -> str:
        """Put into the placeholders of parts what the search is to find there.

        The search would take longer over formulas and figures than all else takes, and find
        nothing in them that anybody types.
        """

        def words(match: re.Match[str]) -> str:
            slug, id = match.groups()
            found = search_words(self.lessons[slug], id)
            return f'<div data-stepwell-part="{slug}/{id}"><p>{escape(found)}</p></div>'

        return _PART.sub(words, html)

    def fill(self, html: str, address: Address) -> str:
        """Put the parts of problems and the listings where their placeholders stand."""
        made: dict[str, ProblemPage] = {}

        def part(match: re.Match[str]) -> str:
            slug, id = match.groups()
            if slug not in made:
                links = self._links(slug, address)
                made[slug] = ProblemPage(self.lessons[slug], self.unit, slug, links)
            wanted = next(part for part in PARTS if part.id == id)
            filling = made[slug].part(wanted)
            return f'<div class="sw-part" data-part="{id}">{filling}</div>' if filling else ""

        filled = _PART.sub(part, html)
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
            {
                "problem": problem,
                "about": about(problem),
                "address": address(self.page_path(problem.slug)),
            }
            for problem in self.problems
            if (problem.level == wanted if kind == "level" else wanted in problem.objectives)
        ]
        return render("listing.html", cards=cards)


def about(problem: Problem) -> str:
    """A problem in a few words: ``five capacitors, three groups``."""
    number = len(problem.network.elements)
    one = problem.law.element
    elements = f"{number_word(number)} {one}{'' if number == 1 else 's'}"
    merged = sum(1 for _ in groups(problem.tree))
    if merged == 0:
        return elements
    return f"{elements}, {number_word(merged)} group{'' if merged == 1 else 's'}"


def read_unit_site(content: Path, folder: str = "problems") -> UnitSite:
    """Read, solve and teach every problem of a unit.

    Args:
        content: the folder of ``unit.yml``.
        folder: the folder of the problems in it.

    Raises:
        FaultyFile: with the faults of all files.
        Disagreement, CheckFailed: if a solution cannot be trusted.
    """
    sources = problem_sources(content, folder)
    unit = read_unit(content / UNIT_FILE)
    problems, faults = _read_problems(sources, unit, content.parent)
    if faults:
        raise FaultyFile(faults)
    problems.sort(key=lambda problem: (LEVELS.index(problem.level), problem.slug))
    lessons = {problem.slug: write_lesson(solve(problem)) for problem in problems}
    return UnitSite(unit, folder, lessons)


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
