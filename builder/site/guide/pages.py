"""The pages of the guide on their way into a site."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from markupsafe import Markup, escape

from builder.problem.limits import LIMITS
from builder.site.guide.examples import made_of
from builder.site.guide.fences import Block, blocks, plain
from builder.site.guide.keys import KEYS_PAGE, Section, sections
from builder.site.page import render

AUDIENCES = ("students", "authors", "publishing")
"""For whom there is a guide, as the plugin's option names them."""

_AUTHORS = "authors/"
AUTHORS = tuple(
    f"{_AUTHORS}{name}.md"
    for name in (
        "first-problem", "groups", "letters", "unknown", "networks", "equivalent-source",
        "switches", "resistors-with-capacitors", "equations", "plates", "words", "fresh-numbers",
        "unit", "refused", "keys",
    )
)  # fmt: skip
"""The pages for authors below their first one, in the order of reading."""

TEXT = Path(__file__).parent / "text"
_HOME = "guide"
_MADE = re.compile(r'<div data-stepwell-guide="(example|keys)/([^"]+)">(?:<p>[^<]*</p>)?</div>')
_OPTION = re.compile(r"(?<!`)`--[^`\n]+`(?!`)")
_EACH_PROBLEM = "../problems/"
_BEHIND = "---\nsearch:\n  boost: 0.1\n---\n\n"
"""The search finds the unit's own pages first: students look for problems, not for the guide."""


@dataclass(frozen=True)
class Guide:
    """The guide of a unit.

    Attributes:
        audiences: for whom; some of ``AUDIENCES``.
        symbols: ``iec`` or ``ieee`` shapes, as in the unit.
        folder: the folder of the unit's problems, to which the guide links.
    """

    audiences: Collection[str]
    symbols: str = "iec"
    folder: str = "problems"

    def pages(self) -> dict[str, str]:
        """The Markdown of every page, by its source path; what is made enters later."""
        return {
            f"{_HOME}/{path}": _BEHIND + plain(self._linked(text, path), _place)
            for path, text in self._texts.items()
        }

    def hint(self, html: str) -> str:
        """Put into the placeholders what the search is to find there."""

        def words(match: re.Match[str]) -> str:
            found = self._search_words(*match.groups())
            return f"{match[0].partition('>')[0]}><p>{escape(found)}</p></div>"

        return _MADE.sub(words, html)

    def fill(self, html: str) -> str:
        """Put what is made where its placeholders stand."""
        return _MADE.sub(lambda match: str(self.part(*match.groups())), html)

    def part(self, kind: str, id: str) -> Markup:
        """What comes of the example ``id``, or the keys of the section ``id``."""
        if kind == "example":
            return made_of(self._examples[id], id, self.symbols)
        return render("guide/keys.html", section=self._sections[id])

    def _search_words(self, kind: str, id: str) -> str:
        if kind == "example":
            return ""  # The YAML above it holds them all.
        return " ".join(f"{key.name}: {key.about.striptags()}" for key in self._sections[id].keys)

    @cached_property
    def _texts(self) -> Mapping[str, str]:
        """The Markdown as it lies in the package, by path."""
        found = {}
        for path in sorted(TEXT.rglob("*.md")):
            name = path.relative_to(TEXT).as_posix()
            if name.removesuffix(".md").split("/")[0] in self.audiences:
                found[name] = path.read_text(encoding="utf-8")
        return found

    @cached_property
    def _examples(self) -> Mapping[str, str]:
        return {
            block.of: block.text
            for text in self._texts.values()
            for block in blocks(text)
            if block.role == "problem"
        }

    @cached_property
    def _sections(self) -> Mapping[str, Section]:
        return {section.anchor: section for section in sections()}

    def _linked(self, text: str, path: str) -> str:
        """With links to the problems' own folder, the sections of the keys, and a way onward.

        An option such as ``--png`` is marked, so that it never breaks after its first dash.
        """
        text = _OPTION.sub(r"\g<0>{.sw-guide-option}", text)
        if path == KEYS_PAGE:
            text += _headings(self._sections.values()) + _LIMITS
        if path in AUTHORS:
            text += _turn(self._texts, path)
        return text.replace(f"({_EACH_PROBLEM}", f"(../{self.folder}/")


def _limits() -> str:
    """A list of how much there may be of everything."""
    listed = "".join(f"- {_grouped(limit.most)} {limit.what}\n" for limit in LIMITS)
    return (
        "\n## How large all may be {#limits}\n\nMore than a class ever needs, and little enough "
        f"that no file can keep a build waiting. At most:\n\n{listed}"
    )


def _grouped(number: int) -> str:
    """A number whose thousands stand apart."""
    return f"{number:,}".replace(",", "\u00a0")


_LIMITS = _limits()


def _headings(sections: Collection[Section]) -> str:
    """A list of the sections, and each with the place of its keys."""
    listed = "".join(f"[{one.heading}](#{one.anchor})\n" for one in sections)
    listed += "[How large all may be](#limits)\n"
    return f"\n{listed}{{: .sw-guide-list }}\n" + "".join(
        f"\n## {one.heading} {{#{one.anchor}}}\n\n{one.about}\n\n"
        f'<div data-stepwell-guide="keys/{one.anchor}"></div>\n'
        for one in sections
    )


def _turn(texts: Mapping[str, str], path: str) -> str:
    """The way to the next page for authors."""
    at = AUTHORS.index(path) + 1
    onward = ""
    if at < len(AUTHORS):
        title = texts[AUTHORS[at]].splitlines()[0].removeprefix("# ")
        onward = f"[Next: {title}]({AUTHORS[at].removeprefix(_AUTHORS)})\n"
    return f"\n{onward}[Back to all pages for authors](index.md)\n{{: .sw-guide-turn }}\n"


def _place(block: Block) -> str:
    if block.role != "problem":
        return ""
    return f'\n<div data-stepwell-guide="example/{block.of}"></div>\n'
