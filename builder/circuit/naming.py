"""Names for equivalents: C2 and C3 merge into C23, and the whole into ``total``."""

from __future__ import annotations

from itertools import count

from builder.circuit.tree import Group, Leaf, Tree, groups, leaves
from builder.quantity.names import TOTAL, Symbol, element_index

MOST_JOINED = 4


def name_groups(tree: Tree, letter: str, source: str = "") -> Tree:
    """``tree`` with a name for each group: C23 where that can be read, else C_a, C_b, …

    The whole circuit's group is called ``total``.

    Args:
        tree: a tree whose group ids are not used.
        letter: C or R.
        source: the name of the source, if there is one; beside V23 no group has the index 23.
    """
    taken_indexes = {element_index(leaf, letter) for leaf in leaves(tree)}
    taken_indexes.add(source[1:].lstrip("_"))
    names: dict[tuple[str, ...], str] = {}
    letters = (chr(ord("a") + n % 26) * (1 + n // 26) for n in count())
    for group in groups(tree):
        members = leaves(group)
        if members == leaves(tree):
            names[members] = TOTAL
            continue
        index = joined_index(members, letter)
        while not index or index in taken_indexes:
            index = next(letters)
        taken_indexes.add(index)
        names[members] = f"{letter}{index}" if index.isdigit() else f"{letter}_{index}"
    return _renamed(tree, names)


def joined_index(members: tuple[str, ...], letter: str) -> str:
    """The index that the equivalent of elements gets: 23 of C2 and C3; empty if hard to read."""
    indexes = [element_index(member, letter) for member in members]
    if len(indexes) > MOST_JOINED or not all(index.isdigit() for index in indexes):
        return ""
    ordered = sorted(indexes, key=int)
    return "".join(ordered) if all(len(i) == 1 for i in ordered) else ",".join(ordered)


def _renamed(tree: Tree, names: dict[tuple[str, ...], str]) -> Tree:
    if isinstance(tree, Leaf):
        return tree
    parts = tuple(_renamed(part, names) for part in tree.parts)
    return Group(names[leaves(tree)], tree.connection, parts)


def value_symbol(id: str, letter: str) -> Symbol:
    """The symbol of an element's or equivalent's value: C₂₃, C_eq for the whole."""
    return Symbol(letter, "eq" if id == TOTAL else element_index(id, letter))
