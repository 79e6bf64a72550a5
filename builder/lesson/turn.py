"""Choosing by a problem's name, so that its page asks the same with whatever numbers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar
from zlib import crc32

_Item = TypeVar("_Item")


def turn(slug: str, about: str, items: Sequence[_Item]) -> _Item:
    """One of several things, the same for the same problem whatever its numbers are.

    Args:
        slug: of the problem.
        about: what is chosen, so that one problem does not always get the first of everything.
        items: at least one.
    """
    return items[crc32(f"{about}/{slug}".encode()) % len(items)]
