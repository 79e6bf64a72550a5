"""Two writings of a part of a page, side by side: what the other one changes in the first.

Most sets change texts and attributes alone. Where they change more, such as a sentence that names
one element more, or a formula with one row more, an element of the first is left out, or one more
is put in. What a reader acts on must stay: forms and steps are set up once, when a page is opened.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from difflib import SequenceMatcher

from builder.site.fresh.tokens import Node, Tokens, elements_in

_STAYING = frozenset(
    "form input button select textarea details summary a svg figure table fieldset".split()
)
"""Elements that every set has to have."""


class DoesNotFitError(Exception):
    """Raised where a set would change what has to stay. It is caught by who asked."""


@dataclass(frozen=True)
class More:
    """An element that the first writing does not have.

    Attributes:
        tokens: from its start tag to its end tag, between two empty texts.
        skeleton: as that of a ``Node``.
    """

    tokens: tuple[str, ...]
    skeleton: int


@dataclass(frozen=True)
class Child:
    """One of the elements right inside another, as a set has them, and the text after it.

    Attributes:
        own: the place of its start tag in the first writing; None for one that is not there.
        more: what it is, if it is not there.
        after: the text that follows it.
    """

    own: int | None
    more: More | None
    after: str


@dataclass
class Change:
    """What a set changes in a part.

    Attributes:
        texts: other texts and start tags, by their places in the first writing.
        absent: the start tags of elements that the set does not have.
        children: for each element that has others inside it: all of them, in order.
    """

    texts: dict[int, str] = field(default_factory=dict)
    absent: set[int] = field(default_factory=set)
    children: dict[int, tuple[Child, ...]] = field(default_factory=dict)


@dataclass(frozen=True)
class Aligner:
    """Compares one part of the first writing with those of other sets.

    Attributes:
        tokens: of the first writing.
        roots: its elements.
    """

    tokens: Tokens
    roots: tuple[Node, ...]

    def change(self, other: Tokens, roots: tuple[Node, ...]) -> Change:
        """What another writing changes.

        Raises:
            DoesNotFitError: if it changes what has to stay.
        """
        if [root.key for root in self.roots] != [root.key for root in roots]:
            raise DoesNotFitError
        change = Change()
        for own, its in zip(self.roots, roots, strict=True):
            self._align(own, its, other, change)
        return change

    def _align(self, own: Node, its: Node, other: Tokens, change: Change) -> None:
        if own.skeleton == its.skeleton:
            mine = self.tokens[own.start : own.end + 1]
            theirs = other[its.start : its.end + 1]
            if mine != theirs:
                pairs = enumerate(zip(mine, theirs, strict=True), own.start)
                change.texts.update((at, token) for at, (one, token) in pairs if one != token)
            return
        if own.key[0] == "svg":
            raise DoesNotFitError
        self._put(own.start, other[its.start], change)
        self._put(own.start + 1, other[its.start + 1], change)
        matched = _matched(own.children, its.children)
        there = {mine.start for mine, _ in matched if mine is not None}
        for gone in (child for child in own.children if child.start not in there):
            _must_not_stay(gone)
            change.absent.add(gone.start)
            self._put(gone.end + 1, "", change)
        children = tuple(self._child(mine, theirs, other, change) for mine, theirs in matched)
        if any(child.more for child in children):
            change.children[own.start] = children

    def _child(self, own: Node | None, its: Node, other: Tokens, change: Change) -> Child:
        after = other[its.end + 1]
        if own is None:
            _must_not_stay(its)
            tokens = ("", *other[its.start : its.end + 1], "")
            return Child(None, More(tokens, its.skeleton), after)
        self._align(own, its, other, change)
        self._put(own.end + 1, after, change)
        return Child(own.start, None, after)

    def _put(self, at: int, token: str, change: Change) -> None:
        if self.tokens[at] != token:
            change.texts[at] = token


def _must_not_stay(node: Node) -> None:
    if any(one.key[0] in _STAYING or len(one.key) > 1 for one in elements_in([node])):
        raise DoesNotFitError


def _matched(own: Sequence[Node], its: Sequence[Node]) -> list[tuple[Node | None, Node]]:
    """The other writing's elements, each with the one of the first that it is, if it is any."""
    pairs: dict[int, Node] = {}
    for a1, a2, b1, b2 in _blocks([n.skeleton for n in own], [n.skeleton for n in its], pairs, own):
        mine, theirs = own[a1:a2], its[b1:b2]
        found: dict[int, Node] = {}
        for _ in _blocks([n.key for n in mine], [n.key for n in theirs], found, mine):
            pass
        pairs.update((b1 + at, node) for at, node in found.items())
    return [(pairs.get(at), node) for at, node in enumerate(its)]


def _blocks(
    mine: Sequence[object], theirs: Sequence[object], pairs: dict[int, Node], own: Sequence[Node]
) -> Iterator[tuple[int, int, int, int]]:
    """Pair what is equal, and give what lies between, as places in both."""
    matcher = SequenceMatcher(None, mine, theirs, autojunk=False)
    for tag, a1, a2, b1, b2 in matcher.get_opcodes():
        if tag == "equal":
            pairs.update((b1 + at, own[a1 + at]) for at in range(a2 - a1))
        elif tag == "replace":
            yield a1, a2, b1, b2
