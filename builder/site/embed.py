"""Problems embedded in a lesson's Markdown by a fenced block.

The block names the problem and, if only some parts of it are wanted, the parts::

    ```problem
    flasher-reservoir
    parts: opening, solution
    ```
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass, field
from typing import Protocol

from builder.errors import Fault, FaultyFile
from builder.problem.faults.gathering import Correction, Mark, fault_in, meant, quoted
from builder.site.page import FRESH, PARTS, placeholder

DEFAULT_PARTS = ("opening", "caution", "predict", "solution", "checks")

_FENCE = re.compile(r"^(?P<fence>`{3,}|~{3,})[ ]*(?P<info>[^`\n]*)$")


class StandIn(Protocol):
    """What stands in a lesson in place of problems that cannot be shown."""

    def of_problem(self, slug: str) -> str | None:
        """Markdown in place of a problem; None if it can be shown."""
        ...

    def of_block(self, faults: tuple[Fault, ...]) -> str:
        """Markdown in place of a block that has faults itself."""
        ...


def embed(
    markdown: str,
    path: str,
    known: Collection[str],
    instead: StandIn | None = None,
    source: str = "",
) -> str:
    """Replace the fenced blocks that embed problems by placeholders.

    Args:
        markdown: a page's Markdown.
        path: the page, as faults name it.
        known: the slugs of all problems.
        instead: takes the place of what is faulty, as in a preview.
        source: the page's whole file, if the Markdown is only its end.

    Raises:
        FaultyFile: if a block names no problem, an unknown one or an unknown part, or does not
            end, and nothing stands in for it.
    """
    ahead = source[: -len(markdown)].count("\n") if source.endswith(markdown) else 0
    lines = markdown.split("\n")
    out: list[str] = []
    faults: list[Fault] = []
    at = 0
    while at < len(lines):
        match = _FENCE.match(lines[at])
        if match is None:
            out.append(lines[at])
            at += 1
            continue
        end = _closing(lines, at, match["fence"])
        if match["info"].strip() != "problem":
            out.extend(lines[at : end + 1])
        else:
            block = _Block(path, ahead + at + 1, lines[at:end], known)
            ends = end < len(lines)
            out.append(block.filling(instead, "" if ends else match["fence"]))
            faults.extend(block.faults)
        at = end + 1
    if faults:
        raise FaultyFile(tuple(faults))
    return "\n".join(out)


def _closing(lines: list[str], start: int, fence: str) -> int:
    for at in range(start + 1, len(lines)):
        line = lines[at].rstrip()
        if line.startswith(fence) and set(line) == {fence[0]}:
            return at
    return len(lines)


@dataclass
class _Block:
    """A block that embeds a problem.

    Attributes:
        path: the page, as faults name it.
        start: the number of its first line, which opens it.
        lines: that line and those up to its end.
        known: the slugs of all problems.
        faults: what is wrong with it.
    """

    path: str
    start: int
    lines: list[str]
    known: Collection[str]
    faults: list[Fault] = field(default_factory=list)

    def filling(self, instead: StandIn | None, awaited: str = "") -> str:
        """What stands in the Markdown in place of the block.

        Args:
            instead: takes the place of what is faulty; the faults are its own then.
            awaited: what should end the block, if nothing does.
        """
        made = self._made(instead)
        if awaited:
            self.faults.clear()  # The rest of the page is no part of it.
            self._add(0, self.lines[0].strip(), "a block that does not end",
                      f'a line "{awaited}" after it', "Close the block.")  # fmt: skip
        if self.faults and instead is not None:
            made = f"\n\n{instead.of_block(tuple(self.faults))}\n"
            self.faults.clear()
        return made

    def _made(self, instead: StandIn | None) -> str:
        slug = ""
        parts: tuple[str, ...] = DEFAULT_PARTS
        for offset, text in enumerate(self.lines[1:], start=1):
            word = text.strip()
            if word.startswith("parts:"):
                parts = tuple(part.strip() for part in word.removeprefix("parts:").split(","))
                for part in parts:
                    if part not in _EMBEDDABLE:
                        self._add(offset, part or word, f"the part {quoted(part)}",
                                  "parts of a problem's page",
                                  meant(part, _EMBEDDABLE, f"Parts are {', '.join(_EMBEDDABLE)}."),
                                  )  # fmt: skip
            elif word and not slug:
                slug = word
                if slug not in self.known:
                    self._add(offset, word, quoted(slug), "the name of a problem",
                              _suggest(slug, self.known))  # fmt: skip
            elif word:
                self._add(offset, word, quoted(word), 'nothing, or "parts: …"',
                          "Remove this line.")  # fmt: skip
        if not slug:
            self._add(0, self.lines[0].strip(), "a block without a problem",
                      "the name of a problem on the line after it", _NAME_ALONE)  # fmt: skip
        if instead is not None and (panel := instead.of_problem(slug)) is not None:
            return f"\n\n{panel}\n"
        return "\n\n".join(["", *(placeholder(slug, part) for part in parts), ""])

    def _add(self, offset: int, word: str, found: str, expected: str, advice: str) -> None:
        text = self.lines[offset]
        at = Mark(self.start + offset, text.rfind(word) + 1, max(len(word), 1))
        self.faults.append(fault_in(text, self.path, at, (found, expected, advice)))


_EMBEDDABLE = tuple(part.id for part in PARTS if part.id not in (FRESH, "onward"))


_NAME_ALONE = "Name the problem's file without its .yml."


def _suggest(slug: str, known: Collection[str]) -> str:
    bare = slug.removesuffix(".yml")
    return Correction(_NAME_ALONE, slug, bare) if bare in known else meant(slug, known, _NAME_ALONE)
