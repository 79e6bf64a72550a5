"""What the tests of pages share: a problem's page, and its markup as a tree."""

from __future__ import annotations

from html.parser import HTMLParser
from pathlib import Path

from builder.lesson import write_lesson
from builder.problem import read_problem_text
from builder.problem.model import Problem, Unit
from builder.site.page import PARTS, ProblemPage
from builder.solution import solve

UNIT = Unit("Harbour Lights", objectives={"merge-parallel": "Merge a parallel group"})

FLASHER = """\
title: Two reservoirs behind one lamp
level: core
objectives: [merge-parallel]
scenario: |
  A flasher board stores its charge in {C2} and {C3}, fed through {C1} from a {V0} battery.
circuit:
  source: {V0: 12 V}
  series:
    - C1: 15 uF
    - parallel:
        - C2: 22 uF
        - C3: 8 uF
find: [equivalent, charge, "voltage: C2", "energy: total"]
"""

HEATER = """\
title: Keeping the battery box warm
scenario: Two heating wires behind a ballast resistor.
circuit:
  source: 24 V
  series:
    - R1: 3.3 ohm
    - parallel:
        - R2: 15 ohm
        - R3: 10 ohm
find: [current, power]
"""

LEFTOVERS = """\
title: One value from leftovers
circuit:
  parallel:
    - series:
        - C1: 4.7 nF
        - C2: 10 nF
    - C3: 33 nF
find: equivalent
"""

CIRCUITS = {"flasher": FLASHER, "heater": HEATER, "leftovers": LEFTOVERS}

VOID = frozenset("area base br col embed hr img input link meta source track wbr".split())


def page_of(text: str, slug: str = "flasher") -> ProblemPage:
    """The page of a problem given as YAML."""
    lesson = write_lesson(solve(read_problem_text(text, f"{slug}.yml", UNIT)))
    return ProblemPage(lesson, UNIT, slug)


def problem_of(farads: int) -> Problem:
    """A small problem, named by its capacitance in nanofarads, that has no other numbers."""
    text = LEFTOVERS.replace("33 nF", f"{farads} nF") + "vary: none\n"
    return read_problem_text(text, f"p{farads}.yml", UNIT)


def html_of(text: str, slug: str = "flasher") -> str:
    """All parts of a problem's page, one after the other."""
    page = page_of(text, slug)
    return "\n".join(str(page.part(part)) for part in PARTS)


class Markup(HTMLParser):
    """Start tags with their attributes, and whether every tag closes where it should.

    Attributes:
        tags: each start tag with its attributes, in order.
        faults: tags that close what is not open, or stay open.
    """

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.faults: list[str] = []
        self._open: list[str] = []
        self.feed(html)
        self.close()
        self.faults += [f"open: {tag}" for tag in self._open]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note a start tag."""
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note a tag that closes itself."""
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        """Check that an end tag closes the tag opened last."""
        if self._open and self._open[-1] == tag:
            self._open.pop()
        else:
            self.faults.append(f"closes: {tag}")


def write_unit(folder: Path, problems: dict[str, str], pages: dict[str, str] | None = None) -> None:
    """A small unit, ready for MkDocs.

    Args:
        folder: empty, or not there yet.
        problems: YAML by slug.
        pages: Markdown by path.
    """
    content = folder / "content"
    (content / "problems").mkdir(parents=True)
    (content / "unit.yml").write_text(
        "title: A small unit\nobjectives:\n  merge-parallel: Merge a parallel group\n",
        encoding="utf-8",
    )
    for slug, text in problems.items():
        (content / "problems" / f"{slug}.yml").write_text(text, encoding="utf-8")
    for path, markdown in ({"index.md": "# A small unit\n"} | (pages or {})).items():
        (content / path).write_text(markdown, encoding="utf-8")
    (folder / "mkdocs.yml").write_text(
        "site_name: A small unit\ndocs_dir: content\nuse_directory_urls: false\n"
        "theme: {name: material, font: false}\nplugins: [search, offline, stepwell]\n"
        "markdown_extensions: [attr_list]\n"
        "nav: [{Home: index.md}]\nvalidation: {nav: {omitted_files: ignore}}\n",
        encoding="utf-8",
    )
