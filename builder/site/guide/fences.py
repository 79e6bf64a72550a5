"""The fenced blocks of the guide's Markdown, and what each is good for.

A word after the language says what a block is::

    ```yaml problem=two-lamps       a whole problem, shown with what comes of it
    ```yaml part-of=two-lamps       some more lines of it, to be added at its end
    ```yaml wrong=no-unit           a whole problem that is refused
    ```yaml unit                    a unit.yml
    ```yaml site                    a part of mkdocs.yml
    ```markdown lesson              a page that shows problems
    ```markdown front               what a front page is made of
    ```console                      commands after a $ sign, and what they print; … for any more
    ```sh                           commands that print nothing of interest

The tests run all of them. On the page they are plain blocks.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

_FENCE = re.compile(
    r"^(?P<fence>`{3,})(?P<language>[a-z]+)(?: (?P<role>[a-z-]+)(?:=(?P<of>[\w.-]+))?)?\n"
    r"(?P<text>.*?)^(?P=fence)$",
    re.DOTALL | re.MULTILINE,
)


@dataclass(frozen=True)
class Block:
    """A fenced block.

    Attributes:
        language: ``yaml``, ``markdown``, ``console`` or ``sh``.
        role: what it is, such as ``problem``; empty for nothing in particular.
        of: the name it has, or the name of the problem it belongs to; may be empty.
        text: what stands in it.
    """

    language: str
    role: str
    of: str
    text: str


def blocks(markdown: str) -> Iterator[Block]:
    """Every fenced block of a page, in order."""
    for match in _FENCE.finditer(markdown):
        yield _block(match)


def plain(markdown: str, below: Callable[[Block], str]) -> str:
    """The Markdown with blocks as the host reads them.

    Args:
        markdown: a page of the guide.
        below: gives what stands below a block; nothing for most.
    """

    def replaced(match: re.Match[str]) -> str:
        block = _block(match)
        fence = match["fence"]
        return f"{fence}{block.language}\n{block.text}{fence}\n{below(block)}"

    return _FENCE.sub(replaced, markdown)


def _block(match: re.Match[str]) -> Block:
    return Block(match["language"], match["role"] or "", match["of"] or "", match["text"])
