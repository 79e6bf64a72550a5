"""Choices that look like chance and are the same in every build, whatever the numbers are."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from typing import TypeVar

from builder.lesson.lesson import Lesson

Item = TypeVar("Item")


def shuffled(items: Sequence[Item], lesson: Lesson, purpose: str) -> list[Item]:
    """``items`` in an order that the lesson's problem and the purpose decide, and no value."""

    def drawn(position: int) -> bytes:
        seed = f"{lesson.solution.problem.slug} {purpose} {position}"
        return sha256(seed.encode()).digest()

    return [items[position] for position in sorted(range(len(items)), key=drawn)]
