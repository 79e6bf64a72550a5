"""What somebody typed, fit to be told: on one line, and nothing in it that cannot be seen."""

from __future__ import annotations

_NO_BREAK = "\u00a0"


def visible(text: str) -> str:
    """``text`` on one line, spaces drawn together, with what cannot be seen as ``seen`` has it."""
    return seen(" ".join(text.split()))


def seen(text: str) -> str:
    """``text`` with the number of each sign that cannot be seen in its place: ‹U+200B›."""
    if text.isprintable():
        return text
    return "".join(sign if sign.isprintable() or sign == _NO_BREAK else f"‹U+{ord(sign):04X}›"
                   for sign in text)  # fmt: skip
