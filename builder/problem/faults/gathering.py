"""Faults as they are gathered while a file is read, and how they quote what they found."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from builder.errors import Fault, FaultyFile
from builder.quantity.visible import seen, visible

MOST_QUOTED = 40
_LONGEST_WORD = 60
LINE_END = re.compile("\r\n|[\n\r\x85\u2028\u2029]")
"""What ends a line in YAML."""


@dataclass(frozen=True, order=True)
class Mark:
    """A place in a file; line and column count from 1.

    Attributes:
        width: how many characters of the line stand there together.
    """

    line: int
    column: int
    width: int = field(default=1, compare=False)


START = Mark(1, 1)
NOWHERE = Mark(0, 0)
"""The place of what lies in no line."""


class Faults:
    """The faults of one file.

    Attributes:
        path: the file, as faults name it.
        lines: the lines of the file, as far as it has been read as text.
    """

    def __init__(self, path: str) -> None:
        self.path = path
        self.lines: list[str] = []
        self._faults: list[Fault] = []
        self._mended: dict[int, Fault] = {}

    def __len__(self) -> int:
        return len(self._faults)

    def line(self, at: Mark) -> str:
        """The whole line of a place, as it was typed; empty if there is none."""
        return self.lines[at.line - 1] if 0 < at.line <= len(self.lines) else ""

    def add(
        self,
        at: Mark,
        found: str,
        expected: str,
        advice: str,
        *,
        instead: str | None = None,
        line: str = "",
    ) -> None:
        """Note a fault and go on reading.

        Args:
            at: where it lies.
            found: what stands there.
            expected: what should stand there.
            advice: what to do; a ``Correction`` corrects the line as well.
            instead: what to write for the characters at this place, if that is known.
            line: what to write for the whole line, if that is known.
        """
        said = (found, expected, advice)
        self._faults.append(fault_in(self.line(at), self.path, at, said, instead, line))

    def add_mended(
        self, at: Mark, said: tuple[str, str, str], line: str, *, same_columns: bool
    ) -> None:
        """Note a fault of a line that is read on as if it had been typed rightly.

        Args:
            at: where it lies.
            said: what stands there, what should, and what to do.
            line: what should stand in its place, whole.
            same_columns: whether columns in it are read as they were typed. If not, nothing else
                is told of this line.
        """
        self.add(at, *said)
        mended = replace(self._faults[-1], right=line, mends=True)
        if same_columns:
            self._faults[-1] = mended
        else:
            self._mended[at.line] = mended

    def as_error(self) -> FaultyFile:
        """All faults so far, each once, in the order of the file."""
        rest = {fault for fault in self._faults if fault.line not in self._mended}
        return FaultyFile(tuple(sorted((*rest, *self._mended.values()))))

    def stop(self) -> None:
        """Raise what was gathered, if anything.

        Raises:
            FaultyFile: if there is at least one fault.
        """
        if self._faults:
            raise self.as_error()


def fault_in(
    source: str,
    path: str,
    at: Mark,
    said: tuple[str, str, str],
    instead: str | None = None,
    line: str = "",
) -> Fault:
    """A fault in a line.

    Args:
        source: the line; empty if it is not known.
        path: the file, as faults name it.
        at: where it lies.
        said: what stands there, what should stand there, and what to do.
        instead: what to write for the characters at that place; that of a ``Correction`` if None.
        line: what to write for the whole line, if that is known.
    """
    found, expected, advice = said
    if instead is None and isinstance(advice, Correction):
        instead = advice.replacing(source, at)
    elif instead is not None:
        instead = _like(source, at, instead)
    if instead is not None and source:
        start = at.column - 1
        line = f"{source[:start]}{instead}{source[start + at.width :]}"
    mends = bool(line and source)
    return Fault(path, at.line, at.column, seen(found), seen(expected), seen(str(advice)), source,
                 line if mends else "", at.width, mends)  # fmt: skip


def _like(source: str, at: Mark, word: str) -> str:
    """``word`` in the quotation marks of what it takes the place of."""
    start = at.column - 1
    quote = source[start : start + 1]
    ends = source[start : start + at.width][-1:]
    return f"{quote}{word}{quote}" if quote in ("'", '"') and ends == quote else word


class Correction(str):
    """Advice that knows what should have been typed.

    Attributes:
        word: what was typed.
        instead: what should have been.
    """

    word: str
    instead: str

    def __new__(cls, advice: str, word: str, instead: str) -> Correction:
        """The advice with the two words."""
        made = super().__new__(cls, advice)
        made.word, made.instead = word, instead
        return made

    def __getnewargs__(self) -> tuple[str, str, str]:  # type: ignore[override] # as __new__ wants
        """What a copy is made of."""
        return str(self), self.word, self.instead

    def replacing(self, source: str, at: Mark) -> str | None:
        """What should stand at a place for its word to be the right one; None if it is unclear."""
        typed = source[at.column - 1 : at.column - 1 + at.width]
        whole = re.compile(rf"(?<![\w-]){re.escape(self.word)}(?![\w-])")
        once = len(whole.findall(typed)) == 1
        return whole.sub(lambda _: self.instead, typed) if once else None


def shortened(text: str) -> str:
    """``text`` on one line, of at most 40 characters."""
    line = visible(text)
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
    return did_you_mean(word, near) if near else otherwise


def did_you_mean(word: str, near: str) -> Correction:
    """Advice that proposes one word for another."""
    return Correction(f'Did you mean "{shortened(near)}"?', word, near)


def several(typed: str, known: tuple[str, ...], noun: str = "") -> str:
    """Advice for several names that stand there as if they were one."""
    parts = [part for part in re.split(r"[,;\s]+|\band\b", typed) if part]
    advice = f"Write several{f' {noun}' if noun else ''} in square brackets: "
    if parts and all(part in known for part in parts):
        listed = f"[{', '.join(parts)}]"
        return Correction(f"{advice}{shortened(listed)}.", typed, listed)
    return f"{advice}[{', '.join(map(_in_short, known[:2]))}]."


def one_of(words: Iterable[str]) -> str:
    """``a, b or c``, each word in short if it is far too long."""
    *most, last = map(_in_short, words)
    return f"{', '.join(most)} or {last}" if most else last


def all_of(words: Iterable[str]) -> str:
    """``a, b and c``, each word in short if it is far too long."""
    *most, last = map(_in_short, words)
    return f"{', '.join(most)} and {last}" if most else last


def _in_short(word: str) -> str:
    """A word as it is, but for a name that nobody could read to its end."""
    return word if len(word) <= _LONGEST_WORD else shortened(word)
