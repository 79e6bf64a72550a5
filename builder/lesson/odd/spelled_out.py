"""Given values that an own text spells out, so that it goes stale when one of them changes."""

from __future__ import annotations

import re
from collections.abc import Iterator

from builder.errors import Oddity
from builder.lesson.odd.looking import Look
from builder.problem.varying.spelled import spelled_in
from builder.problem.varying.stated import CHARGED, StatedValue, stated_values
from builder.problem.yaml_text.located import Items, Map, Node, Text

SPELLED_OUT = "spelled-out"
_TEXTS = ("scenario", "plan", "words", "questions")
_NO_TEXTS = ("answer", "instead-of", "right")


def spelled_out(look: Look) -> Iterator[Oddity]:
    """The first place at which each own text spells a given value that it could refer to."""
    stated = [value for value in stated_values(look.problem) if _placeholder(value)]
    for key in _TEXTS if stated else ():
        entry = look.root.get(key)
        for text in _texts(entry.value) if entry else ():
            yield from _spelled(look, text, stated)


def _texts(node: Node) -> Iterator[Text]:
    """The texts for readers below a key."""
    match node:
        case Text():
            yield node
        case Items(items):
            for item in items:
                yield from _texts(item)
        case Map(entries):
            for entry in entries:
                if entry.key.value not in _NO_TEXTS:
                    yield from _texts(entry.value)


def _placeholder(stated: StatedValue) -> str:
    """What stands for a value in a text; empty if nothing does."""
    of, _, quantity = stated.called.partition(".")
    if quantity == CHARGED:
        return f"{{{stated.called}}}"
    return "" if quantity or of == "equivalent" else f"{{{of}.value}}"


def _spelled(look: Look, text: Text, stated: list[StatedValue]) -> Iterator[Oddity]:
    told: set[str] = set()
    for written, measure in spelled_in(text.value):
        value = next((one for one in stated if one.measure.kind == measure.kind
                      and one.measure.value == measure.value), None)  # fmt: skip
        if value is None or value.called in told:
            continue
        told.add(value.called)
        found = _found(look, text, written)
        words = " ".join(written.split())
        of = value.called.partition(".")[0]
        whose = f"what {of} starts with" if "." in value.called else f"the value of {of}"
        at = look.place(found, len(written.splitlines()[0]))
        seen = f"The text spells out {words}, {whose}."
        advice = (f"Write {_placeholder(value)} in its place, so that the text follows when the "
                  "value changes.")  # fmt: skip
        yield look.oddity(at, SPELLED_OUT, seen, advice)


def _found(look: Look, text: Text, written: str) -> int:
    """Where a piece of a text stands in the file, whose lines YAML may have joined."""
    pattern = re.compile(r"\s+".join(map(re.escape, written.split())))
    lines = look.problem.text.splitlines(keepends=True)
    start = sum(map(len, lines[: text.at.line - 1])) + text.at.column - 1
    found = pattern.search(look.problem.text, start)
    return found.start() if found else start
