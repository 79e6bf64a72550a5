"""Faults as they are gathered while a file is read, and how they quote what they found."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass

from builder.errors import Fault, FaultyFile

MOST_QUOTED = 40


@dataclass(frozen=True, order=True)
class Mark:
    """A place in a file; line and column count from 1."""

    line: int
    column: int


START = Mark(1, 1)


class Faults:
    """The faults of one file.

    Attributes:
        path: the file, as faults name it.
    """

    def __init__(self, path: str) -> None:
        self.path = path
        self._faults: list[Fault] = []

    def __len__(self) -> int:
        return len(self._faults)

    def add(self, at: Mark, found: str, expected: str, advice: str) -> None:
        """Note a fault and go on reading."""
        self._faults.append(Fault(self.path, at.line, at.column, found, expected, advice))

    def as_error(self) -> FaultyFile:
        """All faults so far, each once, in the order of the file."""
        return FaultyFile(tuple(sorted(set(self._faults))))

    def stop(self) -> None:
        """Raise what was gathered, if anything.

        Raises:
            FaultyFile: if there is at least one fault.
        """
        if self._faults:
            raise self.as_error()


def shortened(text: str) -> str:
    """``text`` on one line, of at most 40 characters."""
    line = " ".join(text.split())
    return line if len(line) <= MOST_QUOTED else line[: MOST_QUOTED - 1] + "…"


def quoted(text: str) -> str:
    """``text`` in quotation marks, shortened; ``nothing`` if it is empty."""
    return f'"{shortened(text)}"' if text.strip() else "nothing"


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The one of ``known`` that ``word`` was probably meant to be."""
    by_fold = {name.lower(): name for name in reversed(list(known))}
    near = difflib.get_close_matches(word.lower(), by_fold, n=1, cutoff=0.6)
    return by_fold[near[0]] if near else None


def meant(word: str, known: Iterable[str], otherwise: str) -> str:
    """Advice that proposes the nearest known word, or else ``otherwise``."""
    near = nearest(word, known)
    return f'Did you mean "{near}"?' if near else otherwise


def one_of(words: Iterable[str]) -> str:
    """``a, b or c``."""
    *most, last = words
    return f"{', '.join(most)} or {last}" if most else last


def all_of(words: Iterable[str]) -> str:
    """``a, b and c``."""
    *most, last = words
    return f"{', '.join(most)} and {last}" if most else last
