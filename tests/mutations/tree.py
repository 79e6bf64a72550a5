"""A problem file as a tree that can be changed at will and written down again.

What YAML forbids can be held and written as well: a key twice, a key that is a list, a value with
an anchor.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from random import Random
from typing import Any

import yaml

_PLAIN = re.compile(r"[A-Za-z0-9][^:#\n\"'\[\]{},&*!|>%@`]*(?<! )")


@dataclass
class Keys:
    """Keys with their values; a key may stand in it twice."""

    pairs: list[list[Any]] = field(default_factory=list)


@dataclass
class Raw:
    """Text that is written as it stands, whatever YAML makes of it."""

    text: str


Tree = Any
"""A ``Keys``, a list, a text or a ``Raw``."""


def tree_of(text: str) -> Tree:
    """The tree of a YAML text that is sound."""
    return _tree(yaml.compose(text, Loader=yaml.SafeLoader))


def _tree(node: yaml.Node | None) -> Tree:
    if isinstance(node, yaml.MappingNode):
        return Keys([[_tree(key), _tree(value)] for key, value in node.value])
    if isinstance(node, yaml.SequenceNode):
        return [_tree(item) for item in node.value]
    return str(node.value) if isinstance(node, yaml.ScalarNode) else ""


@dataclass(frozen=True)
class Spot:
    """One place in a tree.

    Attributes:
        holder: the pair or the list that it lies in.
        at: its place in the holder.
        path: the keys from the top, ``-`` for an item of a list.
    """

    holder: list[Any]
    at: int
    path: tuple[str, ...]

    @property
    def value(self) -> Tree:
        """What stands here."""
        return self.holder[self.at]

    def put(self, value: Tree) -> None:
        """Put something else here."""
        self.holder[self.at] = value


def spots(tree: Tree) -> list[Spot]:
    """Every place of a value below the top, in the order of the file."""
    return list(_spots(tree, ()))


def _spots(tree: Tree, path: tuple[str, ...]) -> Iterator[Spot]:
    if isinstance(tree, Keys):
        for pair in tree.pairs:
            here = (*path, pair[0] if isinstance(pair[0], str) else "?")
            yield Spot(pair, 1, here)
            yield from _spots(pair[1], here)
    elif isinstance(tree, list):
        for at, item in enumerate(tree):
            yield Spot(tree, at, (*path, "-"))
            yield from _spots(item, (*path, "-"))


def maps(tree: Tree) -> list[Keys]:
    """Every ``Keys`` of a tree."""
    found = [tree] if isinstance(tree, Keys) else []
    return found + [spot.value for spot in spots(tree) if isinstance(spot.value, Keys)]


def lists(tree: Tree) -> list[list[Any]]:
    """Every list of a tree."""
    return [spot.value for spot in spots(tree) if isinstance(spot.value, list)]


def written(tree: Tree, random: Random, *, odd: bool = False) -> str:
    """A tree as YAML.

    Args:
        tree: what to write.
        random: chooses between block and flow style, and how texts are quoted.
        odd: whether to write more in flow style and between quotes than people do.
    """
    return _Writer(random, 0.4 if odd else 0.08).block(tree, "") + "\n"


@dataclass(frozen=True)
class _Writer:
    random: Random
    odd: float

    def block(self, tree: Tree, indent: str) -> str:
        """A tree over several lines, the first without its indentation."""
        if isinstance(tree, Keys) and tree.pairs:
            lines = [f"{self._key(key)}:{self._below(value, indent)}" for key, value in tree.pairs]
            return f"\n{indent}".join(lines)
        if isinstance(tree, list) and tree:
            return f"\n{indent}".join(f"- {self.block(item, indent + '  ')}" for item in tree)
        return self.flow(tree, indent)

    def _below(self, value: Tree, indent: str) -> str:
        deep = isinstance(value, Keys | list) and self._size(value) > 3
        if deep and self.random.random() > self.odd:
            return f"\n{indent}  {self.block(value, indent + '  ')}"
        if isinstance(value, str) and "\n" in value.strip() and self.random.random() > self.odd:
            lines = "\n".join(f"{indent}  {line}" for line in value.strip().split("\n"))
            return f" |\n{lines}"
        return f" {self.flow(value, indent)}"

    def _size(self, tree: Tree) -> int:
        return 1 + len(spots(tree))

    def _key(self, key: Tree) -> str:
        return self.flow(key, "") if not isinstance(key, Keys | list) else f"? {self.flow(key, '')}"

    def flow(self, tree: Tree, indent: str) -> str:
        """A tree on one line."""
        if isinstance(tree, Keys):
            inside = (f"{self._key(key)}: {self.flow(value, indent)}" for key, value in tree.pairs)
            return f"{{{', '.join(inside)}}}"
        if isinstance(tree, list):
            return f"[{', '.join(self.flow(item, indent) for item in tree)}]"
        if isinstance(tree, Raw):
            return tree.text
        text = str(tree)
        if _PLAIN.fullmatch(text) and self.random.random() > self.odd / 2:
            return text
        if "'" not in text and "\n" not in text and text.isprintable():
            return f"'{text}'"
        return json.dumps(text, ensure_ascii=self.random.random() < 0.5)
