"""Choices that look like chance and are the same in every build, whatever the numbers are."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from typing import TypeVar

from builder.lesson.lesson import Lesson

Item = TypeVar("Item")


def lot(lesson: Lesson, word: str) -> bytes:
    """What is drawn for a word: sorting by it gives each problem an order of its own."""
    return sha256(f"{lesson.solution.problem.slug} {word}".encode()).digest()


def shuffled(items: Sequence[Item], lesson: Lesson, purpose: str) -> list[Item]:
    """``items`` in an order that the lesson's problem and the purpose decide, and no value."""
    places = sorted(range(len(items)), key=lambda place: lot(lesson, f"{purpose} {place}"))
    return [items[place] for place in places]
