"""Nests of series and parallel groups."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from builder.circuit.law import PARALLEL, SERIES


@dataclass(frozen=True)
class Leaf:
    """A single element, or the equivalent that stands for a merged group.

    Attributes:
        id: the element's or the equivalent's name.
    """

    id: str


@dataclass(frozen=True)
class Group:
    """Elements or groups in series or in parallel.

    Attributes:
        id: the name of the equivalent that stands for the whole group, unique in the tree.
        connection: ``series`` or ``parallel``.
        parts: at least two; for series from the + to the − end. No part is a group of the
            same connection.
    """

    id: str
    connection: str
    parts: tuple[Tree, ...]


Tree = Leaf | Group


def leaves(tree: Tree) -> tuple[str, ...]:
    """The ids of all single elements, from the + end to the − end."""
    if isinstance(tree, Leaf):
        return (tree.id,)
    return tuple(leaf for part in tree.parts for leaf in leaves(part))


def groups(tree: Tree) -> Iterator[Group]:
    """All groups, innermost first, in reading order."""
    if isinstance(tree, Group):
        for part in tree.parts:
            yield from groups(part)
        yield tree


def depth(tree: Tree) -> int:
    """How many groups are nested in each other: 0 for a single element."""
    return 0 if isinstance(tree, Leaf) else 1 + max(depth(part) for part in tree.parts)


def collapse(tree: Tree, merged: frozenset[str]) -> Tree:
    """``tree`` with each group whose id is in ``merged`` replaced by its equivalent."""
    if isinstance(tree, Leaf):
        return tree
    if tree.id in merged:
        return Leaf(tree.id)
    return replace(tree, parts=tuple(collapse(part, merged) for part in tree.parts))


def in_series(id: str, *parts: Tree) -> Tree:
    """A series group, flattened: series inside series is one group."""
    return _group(id, SERIES, parts)


def in_parallel(id: str, *parts: Tree) -> Tree:
    """A parallel group, flattened: parallel inside parallel is one group."""
    return _group(id, PARALLEL, parts)


def _group(id: str, connection: str, parts: tuple[Tree, ...]) -> Tree:
    flat: list[Tree] = []
    for part in parts:
        same = isinstance(part, Group) and part.connection == connection
        flat.extend(part.parts if same and isinstance(part, Group) else (part,))
    return flat[0] if len(flat) == 1 else Group(id, connection, tuple(flat))
