"""What somebody typed, fit to be told: on one line, and nothing in it that cannot be seen."""

from __future__ import annotations


def visible(text: str) -> str:
    """``text`` on one line; a sign that cannot be seen becomes its number, such as ‹U+200B›."""
    return "".join(map(_seen, " ".join(text.split())))


def _seen(sign: str) -> str:
    return sign if sign.isprintable() else f"‹U+{ord(sign):04X}›"
