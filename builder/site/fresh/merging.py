"""What all sets together change in a part of a page, as columns: one text for each set.

The elements that only some sets have are put between those of the page as it is written, so that
each place in the page, and in these pieces, has one column for all sets.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from html import unescape

from builder.site.fresh.aligning import Change, Child, More
from builder.site.fresh.columns import Texts
from builder.site.fresh.tokens import Node, Tokens, attributes, elements_in, roots_of

THERE = "-"
"""What a column is about that says whether an element is there."""
_YES = "1"

Where = str | int
"""The name of an attribute, ``THERE``, or which gap between the children of an element a text
stands in, counted from 0."""
Targets = Mapping[int, Mapping[Where, Texts]]
"""By the place of an element's start tag: the columns of what varies in it."""


@dataclass(eq=False)
class Piece:
    """An element that some sets have and the page as it is written does not.

    Attributes:
        first: its tokens in the first set that has it.
        skeleton: as that of a ``Node``.
        there: its tokens in each set that has it.
        after: the text that follows it there.
    """

    first: tuple[str, ...]
    skeleton: int
    there: dict[int, tuple[str, ...]] = field(default_factory=dict)
    after: dict[int, str] = field(default_factory=dict)

    def targets(self, sets: int) -> Targets:
        """What varies in it; places are those of its own tokens."""
        texts: dict[int, dict[int, str]] = {}
        for number, tokens in self.there.items():
            for at, token in enumerate(tokens):
                if token != self.first[at]:
                    texts.setdefault(at, {})[number] = token
        found = _targets(self.first, roots_of(self.first), texts, {}, sets)
        found.setdefault(1, {})[THERE] = [
            _YES if number in self.there else None for number in range(sets + 1)
        ]
        return found


class Merged:
    """The changes of all sets in one part.

    Attributes:
        order: for each element that takes pieces, by its start tag: all that it has in any set.
    """

    def __init__(self, tokens: Tokens, roots: tuple[Node, ...], changes: Sequence[Change]) -> None:
        self._tokens, self._roots, self._sets = tokens, roots, len(changes)
        self._texts: dict[int, dict[int, str]] = {}
        self._absent: dict[int, set[int]] = {}
        self.order: dict[int, list[int | Piece]] = {}
        self.nodes: Mapping[int, Node] = {}
        if any(change.children for change in changes):
            self.nodes = {node.start: node for node in elements_in(roots)}
        for number, change in enumerate(changes, 1):
            for at, token in change.texts.items():
                self._texts.setdefault(at, {})[number] = token
            for at in change.absent:
                self._absent.setdefault(at, set()).add(number)
            for parent, children in change.children.items():
                self._take(parent, children, number)

    def _take(self, parent: int, children: Sequence[Child], number: int) -> None:
        """Put the children that a set has between those that are known so far."""
        own: list[int | Piece] = [child.start for child in self.nodes[parent].children]
        order = self.order.setdefault(parent, own)
        at = -1
        for place, child in enumerate(children):
            if child.own is not None:
                at = order.index(child.own)
            elif child.more is not None:
                following = (one.own for one in children[place:] if one.own is not None)
                end = next((order.index(one) for one in following), len(order))
                at = _place_for(child.more, order, at + 1, end)
                piece = order[at]
                assert isinstance(piece, Piece)
                piece.there[number] = child.more.tokens
                piece.after[number] = child.after

    @cached_property
    def targets(self) -> Targets:
        """What varies in the part; places are those of its tokens."""
        found = _targets(self._tokens, self._roots, self._texts, self.order, self._sets)
        for at, absent in self._absent.items():
            there = [None if number in absent else _YES for number in range(self._sets + 1)]
            found.setdefault(at, {})[THERE] = there
        for parent, order in self.order.items():
            for place, piece in enumerate(order):
                if isinstance(piece, Piece) and any(piece.after.values()):
                    after = [unescape(piece.after.get(n, "")) for n in range(self._sets + 1)]
                    found.setdefault(parent, {})[place + 1] = after
        return found


def _place_for(more: More, order: list[int | Piece], start: int, end: int) -> int:
    """Where an element stands among all children: where one like it does, else right at first."""
    for at in range(start, end):
        piece = order[at]
        if isinstance(piece, Piece) and piece.skeleton == more.skeleton:
            return at
    order.insert(start, Piece(more.tokens, more.skeleton))
    return start


def _targets(
    tokens: Tokens,
    roots: tuple[Node, ...],
    texts: Mapping[int, Mapping[int, str]],
    order: Mapping[int, Sequence[int | Piece]],
    sets: int,
) -> dict[int, dict[Where, Texts]]:
    """Columns of the texts and attributes that vary, by the element that they belong to."""
    gaps = dict(_gaps(roots, order)) if texts else {}
    found: dict[int, dict[Where, Texts]] = {}
    for at in sorted(texts):
        written = [texts[at].get(number, tokens[at]) for number in range(sets + 1)]
        if at % 2 == 0:
            owner, gap = gaps[at]
            found.setdefault(owner, {})[gap] = [unescape(text) for text in written]
            continue
        # Most sets share a writing, so each is taken apart once.
        apart = {tag: attributes(tag) for tag in dict.fromkeys(written)}
        for name in dict.fromkeys(name for own in apart.values() for name in own):
            values = [apart[tag].get(name) for tag in written]
            if len(set(values)) > 1:
                found.setdefault(at, {})[name] = values
    return found


def _gaps(
    roots: Sequence[Node], order: Mapping[int, Sequence[int | Piece]]
) -> Iterator[tuple[int, tuple[int, int]]]:
    """The element and the gap between its children that each text belongs to."""
    for node in elements_in(roots):
        yield node.start + 1, (node.start, 0)
        places: Sequence[int | Piece] = order.get(node.start, ())
        for at, child in enumerate(node.children):
            gap = places.index(child.start) if places else at
            yield child.end + 1, (node.start, gap + 1)
