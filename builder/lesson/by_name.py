"""Choosing by a problem's name, so that its page asks the same with whatever numbers."""

from __future__ import annotations

from collections.abc import Sequence
from hashlib import sha256
from typing import TypeVar

from builder.lesson.lesson import Lesson

Item = TypeVar("Item")


def turn(slug: str, about: str, items: Sequence[Item]) -> Item:
    """One of several things, the same for the same problem whatever its numbers are.

    Args:
        slug: of the problem.
        about: what is chosen, so that one problem does not always get the first of everything.
        items: at least one.
    """
    return items[place(f"{about}/{slug}") % len(items)]


def place(words: str) -> int:
    """A large number that depends on some words alone, and is the same in every build.

    A checksum such as CRC-32 will not do: choices between two by it would go together.
    """
    return int.from_bytes(sha256(words.encode()).digest()[:8])


def lot(lesson: Lesson, word: str) -> bytes:
    """What is drawn for a word: sorting by it gives each problem an order of its own."""
    return sha256(f"{lesson.solution.problem.slug} {word}".encode()).digest()


def shuffled(items: Sequence[Item], lesson: Lesson, purpose: str) -> list[Item]:
    """``items`` in an order that the lesson's problem and the purpose decide, and no value."""
    places = sorted(range(len(items)), key=lambda place: lot(lesson, f"{purpose} {place}"))
    return [items[place] for place in places]
