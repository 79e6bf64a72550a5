"""Reading nodes as what should stand there: a text, a list, known keys, a number."""

from __future__ import annotations

import re
from collections.abc import Iterable

from builder.problem.faults.gathering import (
    Faults,
    meant,
    nearest,
    one_of,
    quoted,
    shortened,
)
from builder.problem.limits import LONGEST_TEXT, MOST_BRACKETS
from builder.problem.shape import ID_PATTERN
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text, Unusable
from builder.problem.yaml_text.missing_space import missing_space


def describe(node: Node) -> str:
    """What a node is, for the found part of a fault."""
    match node:
        case Text(value, under=under):
            blank = not value.strip()
            return f'nothing after "{shortened(under)}:"' if blank and under else quoted(value)
        case Map(entries) if entries:
            return f"keys with values (first {quoted(entries[0].key.value)})"
        case Map():
            return "empty braces {}"
        case Items(items):
            some = "1 item" if len(items) == 1 else f"{len(items)} items"
            return f"a list with {some}" if items else "an empty list"
        case Unusable():
            return "something unusable"


def as_text(node: Node, expected: str, faults: Faults) -> Text | None:
    """The node as a text that is not empty."""
    if isinstance(node, Unusable):
        return None
    if not isinstance(node, Text):
        faults.add(node.at, describe(node), expected,
                   "Write a text; one that starts with a brace or a bracket goes between "
                   "quotes.")  # fmt: skip
        return None
    if not node.value.strip():
        faults.add(node.at, describe(node), expected, "Write it here, or delete the line.")
        return None
    return None if _is_too_long(node, faults) else node


def _is_too_long(text: Text, faults: Faults) -> bool:
    """Whether a text is longer than any page needs, which is then told."""
    size, brackets = len(text.value), text.value.count("[")
    if size > LONGEST_TEXT:
        faults.add(text.at, f"a text of {size} characters", f"at most {LONGEST_TEXT}",
                   "Make it shorter.")  # fmt: skip
    elif brackets > MOST_BRACKETS:
        faults.add(text.at, f"a text with {brackets} opening square brackets",
                   f"at most {MOST_BRACKETS}", "Take some of them out.")  # fmt: skip
    return size > LONGEST_TEXT or brackets > MOST_BRACKETS


def as_map(node: Node, expected: str, faults: Faults, advice: str | None = None) -> Map | None:
    """The node as keys with values, at least one."""
    if isinstance(node, Unusable):
        return None
    if isinstance(node, Map) and node.entries:
        return node
    faults.add(node.at, describe(node), expected,
               missing_space(node) or advice
               or "Write each key on a line of its own, indented, with a colon and a "
               "space.")  # fmt: skip
    return None


def as_items(node: Node, expected: str, faults: Faults) -> Items | None:
    """The node as a list, which may be empty."""
    if isinstance(node, Unusable):
        return None
    if isinstance(node, Items):
        return node
    advice = "Put each item on a line of its own, starting with a dash and a space."
    if isinstance(node, Map) and node.entries:
        advice = f'Start each line with a dash: "- {node.entries[0].key.value}: …".'
    faults.add(node.at, describe(node), expected, advice)
    return None


def after_dash(key: Text, faults: Faults) -> str:
    """The line of a key with a dash before it; empty if it does not start the line."""
    line = faults.line(key.at)
    ahead = line[: key.at.column - 1]
    return "" if ahead.strip() else f"{ahead}- {line.strip()}"


def refuse_unknown_keys(node: Map, known: Iterable[str], faults: Faults) -> None:
    """Note a fault for every key that is not known."""
    keys = tuple(known)
    for entry in node.entries:
        if entry.key.value not in keys:
            unknown_key(entry, keys, faults)


def unknown_key(entry: Entry, known: tuple[str, ...], faults: Faults) -> None:
    """Note the fault of a key that is not known."""
    faults.add(
        entry.key.at,
        f"the key {quoted(entry.key.value)}",
        one_of(known),
        meant(entry.key.value, known, "Delete the key, or check its spelling."),
    )


def text_of(node: Map, key: str, expected: str, faults: Faults) -> Text | None:
    """The text under a key that may be missing."""
    entry = node.get(key)
    return None if entry is None else as_text(entry.value, expected, faults)


def needed(
    node: Map, key: str, expected: str, known: Iterable[str], faults: Faults
) -> Entry | None:
    """The entry of a key that must be there, or of none if it seems to be there misspelled."""
    entry = node.get(key)
    keys = tuple(known)
    unknown = [other.key.value for other in node.entries if other.key.value not in keys]
    if entry is None and not any(nearest(word, keys) == key for word in unknown):
        faults.add(node.at, f'no "{key}"', expected, f'Add a line with the key "{key}".')
    return entry


def whole_number(node: Node, least: int, most: int, faults: Faults) -> int | None:
    """The node as a whole number between two limits."""
    expected = f"a whole number from {least} to {most}"
    text = as_text(node, expected, faults)
    if text is None:
        return None
    if re.fullmatch(r"[0-9]{1,6}", text.value) and least <= int(text.value) <= most:
        return int(text.value)
    faults.add(text.at, quoted(text.value), expected, "Write another number, in digits.")
    return None


def choice_of(node: Node, known: tuple[str, ...], faults: Faults) -> str | None:
    """The node as one of a few words."""
    text = as_text(node, one_of(known), faults)
    if text is None or text.value in known:
        return None if text is None else text.value
    faults.add(text.at, quoted(text.value), one_of(known),
               meant(text.value, known, "Choose one of these." if len(known) > 1
                     else f"Write {known[0]}, or delete the line."))  # fmt: skip
    return None


def yes_or_no(node: Node, faults: Faults) -> bool:
    """The node as yes or no, also written true or false."""
    text = as_text(node, "yes or no", faults)
    if text is None:
        return False
    word = text.value.lower()
    if word not in ("yes", "true", "no", "false"):
        faults.add(text.at, quoted(text.value), "yes or no",
                   meant(text.value, ("yes", "no"), "Write yes for the right option."))  # fmt: skip
    return word in ("yes", "true")


def check_id(text: Text, whose: str, faults: Faults) -> None:
    """Note a fault if a text cannot be an id, which is also part of web addresses."""
    if not re.match(ID_PATTERN, text.value) or text.value.endswith("\n"):
        hyphened = re.sub(r"[^A-Za-z0-9]+", "-", text.value).strip("-")
        faults.add(text.at, f"{quoted(text.value)} for {whose}", "letters, digits and hyphens",
                   "Choose an id such as merge-parallel.", instead=hyphened or None)  # fmt: skip
