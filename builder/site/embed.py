"""Problems embedded in a lesson's Markdown by a fenced block.

The block names the problem and, if only some parts of it are wanted, the parts::

    ```problem
    flasher-reservoir
    parts: opening, solution
    ```
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Collection

from builder.errors import Fault, FaultyFile
from builder.site.page import FRESH, PARTS, placeholder

DEFAULT_PARTS = ("opening", "caution", "predict", "solution", "checks")

_FENCE = re.compile(r"^(?P<fence>`{3,}|~{3,})[ ]*(?P<info>[^`\n]*)$")


def embed(markdown: str, path: str, known: Collection[str]) -> str:
    """Replace the fenced blocks that embed problems by placeholders.

    Args:
        markdown: a page's Markdown.
        path: the page, as faults name it.
        known: the slugs of all problems.

    Raises:
        FaultyFile: if a block names no problem, an unknown one or an unknown part, or does not
            end.
    """
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
        elif end == len(lines):
            faults.append(Fault(path, at + 1, 1, "a block that does not end",
                                f'a line "{match["fence"]}" after it',
                                "Close the block."))  # fmt: skip
        else:
            out.append(_replaced(lines[at + 1 : end], path, at + 2, known, faults))
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


def _replaced(
    block: list[str], path: str, line: int, known: Collection[str], faults: list[Fault]
) -> str:
    slug = ""
    parts: tuple[str, ...] = DEFAULT_PARTS
    for offset, text in enumerate(block):
        word = text.strip()
        column = len(text) - len(text.lstrip()) + 1
        if word.startswith("parts:"):
            parts = tuple(part.strip() for part in word.removeprefix("parts:").split(","))
            for part in parts:
                if part not in _EMBEDDABLE:
                    advice = f"Parts are {', '.join(_EMBEDDABLE)}."
                    faults.append(Fault(path, line + offset, column, f'the part "{part[:40]}"',
                                        "parts of a problem's page", advice))  # fmt: skip
        elif word and not slug:
            slug = word
            if slug not in known:
                faults.append(Fault(path, line + offset, column, f'"{slug[:40]}"',
                                    "the name of a problem", _suggest(slug, known)))  # fmt: skip
        elif word:
            faults.append(Fault(path, line + offset, column, f'"{word[:40]}"',
                                'nothing, or "parts: …"', "Remove this line."))  # fmt: skip
    if not slug:
        faults.append(Fault(path, line - 1, 1, "a block without a problem",
                            "the name of a problem on the line after it",
                            "Name the problem's file without its .yml."))  # fmt: skip
    return "\n\n".join(["", *(placeholder(slug, part) for part in parts), ""])


_EMBEDDABLE = tuple(part.id for part in PARTS if part.id not in (FRESH, "onward"))


def _suggest(slug: str, known: Collection[str]) -> str:
    near = difflib.get_close_matches(slug, list(known), n=1, cutoff=0.4)
    if near:
        return f'Did you mean "{near[0]}"?'
    return "Name the problem's file without its .yml."
