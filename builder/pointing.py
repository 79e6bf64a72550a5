"""A line of somebody's file as a person may see it, with a mark below a place in it.

What a file holds must not be able to do anything to the terminal that shows it: characters that
move the cursor, change colours or turn the direction of writing are shown by their names.
"""

from __future__ import annotations

import unicodedata

LONGEST = 92
"""How many columns of a line are shown; of a longer one, those around the place."""

_AHEAD = 24
_MORE = "…"
_TAB = "→   "
_SPACE = "␣"
_PICTURES = 0x2400
_DELETE, _PICTURE_OF_DELETE = "\x7f", "␡"


def harmless(text: str) -> str:
    """``text`` without anything that a terminal would obey: such characters are named instead."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(map(_named, text))


def obeyed(sign: str) -> bool:
    """Whether a character may do something else than be seen."""
    return unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")


def _named(sign: str) -> str:
    if sign < " ":
        return chr(_PICTURES + ord(sign))
    if sign == _DELETE:
        return _PICTURE_OF_DELETE
    return f"‹U+{ord(sign):04X}›" if obeyed(sign) else sign


def visible(text: str) -> str:
    """The same, with tabs and unusual spaces made visible as well."""
    return "".join(map(_seen, text))


def _seen(sign: str) -> str:
    if sign == "\t":
        return _TAB
    return _SPACE if sign != " " and unicodedata.category(sign) == "Zs" else _named(sign)


def columns(text: str) -> int:
    """How many columns of a terminal a visible text takes: wide signs two, combining ones none."""
    return sum(_columns_of(sign) for sign in text)


def _columns_of(sign: str) -> int:
    if unicodedata.category(sign) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in ("W", "F") else 1


def pointed(source: str, line: int, column: int, width: int) -> list[str]:
    """A line of a file, and below it a mark under some of its characters.

    Args:
        source: the line as it was typed; nothing is shown of an empty one.
        line: its number.
        column: of the first marked character, from 1; may be one past the end.
        width: how many characters are marked; those past the end of the line are not.
    """
    if not source.strip() or not line:
        return []
    ahead, word, rest = around(source, column, width)
    number, gutter = str(line), " " * len(str(line))
    mark = " " * columns(ahead) + "^" * max(columns(word), 1)
    return [f"  {number} | {ahead}{word}{rest}", f"  {gutter} | {mark}"]


def around(source: str, column: int, width: int) -> tuple[str, str, str]:
    """What of a line stands before, at and after a place, made visible and cut to what is shown.

    Args:
        source: the line as it was typed.
        column: of the first character of the place, from 1; may be one past the end.
        width: how many characters are the place; those past the end of the line are not.
    """
    first = min(max(column - 1, 0), len(source))
    last = first + max(width, 1)
    before, marked, after = (
        [visible(sign) for sign in part]
        for part in (source[:first], source[first:last], source[last:])
    )
    return _window(before, marked, after)


def corrected(source: str, right: str, line: int) -> list[str]:
    """The line, or the lines, that should stand in place of one.

    Args:
        source: the line as it was typed, by which a long one is cut round what changes.
        right: what should stand there.
        line: its number.
    """
    numbers = [str(line), *(" " * len(str(line)) for _ in right.split("\n")[1:])]
    shown = []
    for number, text in zip(numbers, right.split("\n"), strict=True):
        first = next((at for at, pair in enumerate(zip(source, text, strict=False))
                      if pair[0] != pair[1]), min(len(source), len(text)))  # fmt: skip
        before, after = ([visible(sign) for sign in part] for part in (text[:first], text[first:]))
        shown.append(f"  {number} | {''.join(_window(before, [], after))}")
    return shown


def _window(before: list[str], marked: list[str], after: list[str]) -> tuple[str, str, str]:
    """The parts of a line before, at and after a place, cut to what is shown of it."""
    if columns("".join((*before, *marked, *after))) <= LONGEST:
        return "".join(before), "".join(marked), "".join(after)
    behind = min(columns("".join((*marked, *after))), LONGEST - _AHEAD)
    near = columns("".join(before)) <= LONGEST // 2
    ahead = before if near else _cut(before[::-1], LONGEST - behind)[::-1]
    left = LONGEST - columns("".join(ahead))
    word = _cut(marked, left)
    rest = _cut(after, left - columns("".join(word))) if word == marked else []
    return "".join(ahead), "".join(word), "".join(rest)


def _cut(signs: list[str], room: int) -> list[str]:
    """As many of ``signs`` as have room, with dots in place of the rest."""
    if columns("".join(signs)) <= room:
        return signs
    taken: list[str] = []
    left = room - 1
    for sign in signs:
        left -= columns(sign)
        if left < 0:
            break
        taken.append(sign)
    return [*taken, _MORE]
