"""The table that a page carries: what its texts become in each set, each thing said once.

A long text is cut into what all sets share and the words that vary. A column holds what one such
word, or a whole text, is in each set; equal columns are shipped once. What is shared is not
shipped at all: the page has it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache

Texts = Sequence[str | None]
"""One text for each set, that of the page itself first; None where an attribute is missing."""

_SEPARATORS = "|¦‖␞\u2028"
_ABSENT = "␀"
# A number keeps the word before it that says whether it is rounded, so that as many words stand
# in the text with every set.
_WORDS = re.compile(r"(?:about |≈\s?)?[−+-]?\d(?:[\d.,\u2009\u202f]*\d)?|\w+|.", re.DOTALL)
_CLAUSES = re.compile(r"[^,.;:]+(?:[,.;:](?=\d)[^,.;:]*)*|.", re.DOTALL)


class Columns:
    """The columns of one page, in the order in which they are first needed."""

    def __init__(self) -> None:
        self._numbers: dict[tuple[str | None, ...], int] = {}

    def recipe(self, texts: Texts) -> str:
        """How a text is made: pairs of how many units of UTF-16 stay, and which column comes then.

        Pairs are joined by commas, the two numbers of a pair by a plus; nothing stays where there
        is no plus. What follows the last column stays as well.
        """
        steps: list[str] = []
        kept = 0
        for piece in _cut(tuple(texts)):
            if isinstance(piece, str):
                kept += _units(piece)
            else:
                column = self._number(piece)
                steps.append(f"{kept}+{column}" if kept else str(column))
                kept = 0
        return ",".join(steps)

    def _number(self, column: tuple[str | None, ...]) -> int:
        return self._numbers.setdefault(column, len(self._numbers))

    def written(self) -> dict[str, object]:
        """The columns as the browser reads them: joined by a sign that no text holds.

        Raises:
            ValueError: if the texts hold every sign that could separate them.
        """
        every = "".join(text or "" for column in self._numbers for text in column)
        signs = [sign for sign in _SEPARATORS if sign not in every]
        if not signs or _ABSENT in every:
            raise ValueError("no sign is left to separate the texts of a page's columns")
        joint = signs[0]
        rows = [
            joint.join(_ABSENT if text is None else text for text in column)
            for column in self._numbers
        ]
        return {"joint": joint, "absent": _ABSENT, "columns": rows}


def _units(text: str) -> int:
    """The length of a text as JavaScript counts it."""
    return len(text.encode("utf-16-le")) // 2


# The same texts stand in many places of a page, and are cut for its weight and for its table.
@lru_cache(maxsize=1 << 12)
def _cut(texts: tuple[str | None, ...]) -> list[str | tuple[str | None, ...]]:
    """A text as shared pieces and columns, first cut at its clauses, then at its words."""
    if None in texts:
        return [texts]
    whole = [text for text in texts if text is not None]
    clauses = _aligned([_CLAUSES.findall(text) for text in whole])
    if clauses is None:
        return _within(whole)
    return _merged(
        piece
        for clause in clauses
        for piece in ([clause[0]] if len(set(clause)) == 1 else _within(clause))
    )


def _within(texts: Sequence[str]) -> list[str | tuple[str | None, ...]]:
    """A clause cut at its words.

    Where the sets have different numbers of words, there is one column from the first word that
    varies to the last.
    """
    cut = [_WORDS.findall(text) for text in texts]
    words = _aligned(cut)
    if words is not None:
        return _merged(word[0] if len(set(word)) == 1 else tuple(word) for word in words)
    least = min(map(len, cut))
    start = next((at for at in range(least) if len({text[at] for text in cut}) > 1), least)
    least -= start
    end = next((at for at in range(least) if len({text[-1 - at] for text in cut}) > 1), least)
    middle = tuple("".join(text[start : len(text) - end]) for text in cut)
    last = cut[0][len(cut[0]) - end :]
    return _merged(["".join(cut[0][:start]), middle, "".join(last)])


def _aligned(cut: Sequence[Sequence[str]]) -> list[tuple[str, ...]] | None:
    """The pieces side by side, or None where the sets have different numbers of them."""
    if len(set(map(len, cut))) > 1:
        return None
    return list(zip(*cut, strict=True))


def _merged(
    pieces: Iterable[str | tuple[str | None, ...]],
) -> list[str | tuple[str | None, ...]]:
    """Shared pieces that follow each other, as one."""
    found: list[str | tuple[str | None, ...]] = []
    for piece in pieces:
        if isinstance(piece, str) and found and isinstance(found[-1], str):
            found[-1] += piece
        elif piece != "":
            found.append(piece)
    return found
