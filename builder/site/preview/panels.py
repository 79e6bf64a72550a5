"""What a preview shows in place of what is faulty: pages, and panels on other pages."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from markupsafe import Markup

from builder.errors import Fault
from builder.site.assets import BASE
from builder.site.page import heading_text, render
from builder.site.preview.lines import trouble_with, troubles_of
from builder.site.unit_site import Address, UnitSite

STYLE = f"{BASE}/preview.css"
"""The style sheet of the panels, where a preview has it."""

STYLE_FILE = Path(__file__).with_name("preview.css")
FRONT = "index.md"

_PLACE = re.compile(r'<div data-stepwell-faulty="(\w+)/(\d+)"></div>')
_PAGE_NAME = re.compile(r"(?!(?:index|by-objective)$)\w[\w-]*", re.IGNORECASE)
_HEADING_END = "</h1>"


@dataclass(frozen=True)
class FaultPages:
    """All that is shown of what is wrong with a unit; nothing, if nothing is.

    Attributes:
        site: the unit.
        warn: told each fault once.
    """

    site: UnitSite
    warn: Callable[[str], None]
    _blocks: list[tuple[Fault, ...]] = field(default_factory=list)

    def tell(self) -> None:
        """Warn of what is wrong with the unit and its problems."""
        for fault in self.site.at_large:
            self.warn(str(fault))
        for error in self.site.faulty.values():
            for line in str(error).splitlines():
                self.warn(line)

    def pages(self, made: Mapping[str, str]) -> dict[str, str]:
        """The pages of a unit, with one for each faulty problem, and all of them in the lists.

        Args:
            made: the Markdown of its pages by their source path.
        """
        pages = dict(made)
        for number, slug in enumerate(self._slugs):
            heading = f"# {heading_text(f'{slug}.yml')}"
            pages[self.page_path(slug)] = f"{heading}\n\n{_place('page', number)}\n"
        lists = (f"{self.site.folder}/index.md", f"{self.site.folder}/by-objective.md")
        if self.site.faulty:
            for path in lists:
                pages[path] += f"\n## Not to be shown yet {{#faulty}}\n\n{_place('list')}\n"
        return pages

    def page_path(self, slug: str) -> str:
        """The source path of the page of a faulty problem, whatever its file is called."""
        if _PAGE_NAME.fullmatch(slug):
            return self.site.page_path(slug)
        return f"{self.site.folder}/faulty-file-{self._slugs.index(slug) + 1}.md"

    def of_problem(self, slug: str) -> str | None:
        """What stands in the Markdown of a lesson in place of a problem; None if it is sound."""
        faulty = self.site.faulty
        return _place("short", self._slugs.index(slug)) if slug in faulty else None

    def of_block(self, faults: tuple[Fault, ...]) -> str:
        """What stands in the Markdown of a lesson in place of a faulty block."""
        for fault in faults:
            self.warn(str(fault))
        self._blocks.append(faults)
        return _place("block", len(self._blocks) - 1)

    def on_front(self, html: str, own: str) -> str:
        """Let the front say what is wrong, below its heading."""
        if own != FRONT or not (self.site.faulty or self.site.at_large):
            return html
        heading, end, rest = html.partition(_HEADING_END)
        return f"{heading}{end}{_place('front')}{rest}" if end else _place("front") + html

    def fill(self, html: str, address: Address) -> str:
        """Put the panels where their placeholders stand."""
        return _PLACE.sub(lambda match: self._panel(match[1], int(match[2]), address), html)

    @property
    def _slugs(self) -> list[str]:
        return list(self.site.faulty)

    def _panel(self, kind: str, number: int, address: Address) -> Markup:
        problems = [
            trouble_with(slug, error, address(self.page_path(slug)))
            for slug, error in self.site.faulty.items()
        ]
        if kind in ("page", "short"):
            return render(f"preview/{kind}.html", trouble=problems[number])
        if kind == "block":
            return render("preview/block.html", troubles=troubles_of(self._blocks[number]))
        at_large = troubles_of(self.site.at_large)
        return render(f"preview/{kind}.html", problems=problems, troubles=at_large)


def _place(kind: str, number: int = 0) -> str:
    """What stands in a page where a panel will be."""
    return f'<div data-stepwell-faulty="{kind}/{number}"></div>'
