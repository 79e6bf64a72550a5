"""Nests of series and parallel lists become a tree."""

from __future__ import annotations

import re

from builder.circuit.law import PARALLEL, SERIES
from builder.circuit.tree import Leaf, Tree, in_parallel, in_series
from builder.problem.faults.gathering import Correction, all_of, quoted
from builder.problem.limits import DEEPEST_NEST
from builder.problem.parts import ELEMENT, Parts, looks_misspelled
from builder.problem.shape import ItemShape, keys_of
from builder.problem.typed import as_items, describe, unknown_key
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text, Unusable
from builder.problem.yaml_text.missing_space import missing_space

_GROUPS = keys_of(ItemShape)


def read_group(entry: Entry, parts: Parts, level: int = 1) -> Tree | None:
    """The tree of a ``series:`` or ``parallel:`` list, its groups unnamed.

    Args:
        entry: the key and its list.
        parts: takes the elements, and the faults.
        level: how many lists this one is nested in, itself included.

    Returns:
        None if a fault keeps it from being built.
    """
    connection = entry.key.value
    if level > DEEPEST_NEST:
        parts.faults.add(entry.key.at, f"more than {DEEPEST_NEST} groups inside each other",
                         f"at most {DEEPEST_NEST}", "Make the circuit simpler.")  # fmt: skip
        parts.lose()
        return None
    listed = as_items(entry.value, f"a list of elements in {connection}", parts.faults)
    if listed is None:
        parts.lose()
        return None
    _refuse_small(listed, entry, parts)
    members = [read_item(item, parts, level) for item in listed.items]
    trees = [member for member in members if member is not None]
    if not trees or len(trees) < len(members):
        return None
    return {SERIES: in_series, PARALLEL: in_parallel}[connection]("", *trees)


def _refuse_small(listed: Items, entry: Entry, parts: Parts) -> None:
    if sum(len(item.entries) if isinstance(item, Map) else 1 for item in listed.items) >= 2:
        return
    connection = entry.key.value
    found = f"only one element in {connection}" if listed.items else "an empty list"
    parts.faults.add(entry.key.at, found, "at least two",
                     "Add the others, each after a dash, or write the element alone, without "
                     f'"{connection}".')  # fmt: skip
    if not listed.items:
        parts.lose()


def read_item(item: Node, parts: Parts, level: int) -> Tree | None:
    """The tree of one item of a list."""
    if not isinstance(item, Map) or not item.entries:
        parts.lose()
        if not isinstance(item, Unusable):
            parts.faults.add(item.at, describe(item), ELEMENT, _item_advice(item))
        return None
    if len(item.entries) > 1:
        keys = all_of([quoted(entry.key.value) for entry in item.entries[:5]])
        second = item.entries[1].key
        parts.faults.add(second.at, f"{keys} in one item of a list", "one element for each dash",
                         f'Put a dash before {quoted(second.value)}, below the dash above.',
                         line=_after_dash(item, second, parts))  # fmt: skip
    trees = [read_part(entry, parts, level) for entry in item.entries]
    return trees[0] if len(trees) == 1 else None


def _after_dash(item: Map, second: Text, parts: Parts) -> str:
    """The line of a second element of an item, with a dash of its own."""
    first = item.entries[0].key.at
    line = parts.faults.line(second.at)
    alone = first.line != second.at.line and line[: second.at.column - 1].strip() == ""
    dash = parts.faults.line(first)[: first.column - 1].rstrip()
    return f"{dash} {line.strip()}" if alone and dash.strip() == "-" else ""


def _item_advice(item: Node) -> str:
    if isinstance(item, Text) and item.value.strip():
        return missing_space(item) or _missing_colon(item.value.strip()) or _NAME_AND_VALUE
    if isinstance(item, Items):
        return "Name the group: series: or parallel:, with its list below."
    return "Write it here, or delete the line."


_NAME_AND_VALUE = "Write a name, a colon, a space and the value."
_NO_COLON = re.compile(r"(?P<name>[A-Za-z]\w*)\s*(?:=\s*|\s)(?P<value>[\d.].*)")


def _missing_colon(text: str) -> str | None:
    """Advice for a text such as ``C1 10 uF`` or ``C1 = 10 uF``."""
    found = _NO_COLON.fullmatch(text)
    if found is None:
        return None
    return Correction(_NAME_AND_VALUE, text, f"{found['name']}: {found['value']}")


def read_part(entry: Entry, parts: Parts, level: int) -> Tree | None:
    """The tree of a group or of an element."""
    if entry.key.value in _GROUPS:
        return read_group(entry, parts, level + 1)
    if looks_misspelled(entry, _GROUPS):
        unknown_key(entry, _GROUPS, parts.faults)
        parts.lose()
        return None
    name = parts.add_element(entry)
    return None if name is None else Leaf(name)
