"""The guide's texts, as its tests go through them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import yaml
from pydantic import BaseModel

from builder.problem.shape import ProblemShape, UnitShape
from builder.site.guide.fences import Block, blocks
from builder.site.guide.pages import TEXT

PAGES = {
    path.relative_to(TEXT).as_posix(): path.read_text(encoding="utf-8")
    for path in sorted(TEXT.rglob("*.md"))
}
"""The Markdown of every page, by its path."""

BLOCKS = [(path, block) for path, text in PAGES.items() for block in blocks(text)]
PROBLEMS = {block.of: block.text for _, block in BLOCKS if block.role == "problem"}
"""Every whole problem of the guide, by its name."""


def in_role(role: str) -> list[Block]:
    """Every block of a role."""
    return [block for _, block in BLOCKS if block.role == role]


def prose(markdown: str) -> str:
    """A page without its fenced blocks."""
    return re.sub(r"^(`{3,}).*?^\1$", "", markdown, flags=re.DOTALL | re.MULTILINE)


def codes(markdown: str) -> list[str]:
    """What stands between backticks in the prose of a page."""
    return re.findall(r"`([^`\n]+)`", prose(markdown))


def keys_in(text: str, shape: type[BaseModel]) -> set[tuple[type[BaseModel], str]]:
    """Every key that a file uses, each with the shape that it belongs to."""
    return set(_keys(shape.model_validate(yaml.safe_load(text))))


def _keys(part: Any) -> Iterator[tuple[type[BaseModel], str]]:
    if isinstance(part, BaseModel):
        for name, field in type(part).model_fields.items():
            if name in part.model_fields_set:
                yield type(part), field.alias or name
                yield from _keys(getattr(part, name))
        yield from _keys(part.model_extra)
    elif isinstance(part, dict):
        for value in part.values():
            yield from _keys(value)
    elif isinstance(part, list):
        for value in part:
            yield from _keys(value)


def all_examples() -> Iterator[tuple[str, type[BaseModel]]]:
    """Every whole file, and every whole file with more lines added, with its shape."""
    for text in PROBLEMS.values():
        yield text, ProblemShape
    for block in in_role("part-of"):
        yield PROBLEMS[block.of] + block.text, ProblemShape
    for block in in_role("unit"):
        yield block.text, UnitShape
