"""HTML as tags and the texts between them, and as a tree of its elements."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from html import unescape
from typing import NamedTuple

VOID = frozenset("area base br col embed hr img input link meta source track wbr".split())
"""Elements of HTML that have no end tag."""

_TAG = re.compile(r"(<[^>]*>)")
_NAME = re.compile(r"</?([^\s/>]+)")
_ATTRIBUTE = re.compile(r"""\s([^\s=/>"']+)(?:=(?:"([^"]*)"|'([^']*)'))?""")
_FIXED = frozenset(
    "id for name href type data-problem data-question data-figure data-m data-style".split()
)
"""What tells one piece of a page from another, so that no other numbers may change it."""

Tokens = Sequence[str]
"""Texts and tags in turn, a text first and last; there may be empty ones among the texts."""


def tokens_of(html: str) -> list[str]:
    """HTML cut at its tags. Whoever writes it must write ``&gt;`` in attributes."""
    return _TAG.split(html)


@lru_cache(maxsize=1 << 15)
def tag_name(tag: str) -> str:
    """The name of the element that a tag starts or ends."""
    match = _NAME.match(tag)
    return match.group(1) if match else ""


def attributes(tag: str) -> dict[str, str]:
    """The attributes of a start tag as they were meant; those without a value are empty."""
    return {
        name: unescape(double or single)
        for name, double, single in _ATTRIBUTE.findall(tag)
    }  # fmt: skip


@lru_cache(maxsize=1 << 15)
def key_of(tag: str) -> tuple[str, ...]:
    """What an element must share with another to be the same one with other numbers."""
    found = {name: unescape(double or single)
             for name, double, single in _ATTRIBUTE.findall(tag) if name in _FIXED}  # fmt: skip
    return (tag_name(tag), *(f"{name}={found[name]}" for name in sorted(found)))


class Node(NamedTuple):
    """An element in a list of tokens; a tuple, as a page with its sets has tens of thousands.

    Attributes:
        start: the place of its start tag.
        end: the place of its end tag; that of its start tag if it has none.
        key: what an element must share with it to be the same one.
        skeleton: equal where an element has the same elements inside, of the same keys.
        children: the elements right inside it.
    """

    start: int
    end: int
    key: tuple[str, ...]
    skeleton: int
    children: tuple[Node, ...]


def roots_of(tokens: Tokens) -> tuple[Node, ...]:
    """The elements that lie in no other."""
    open_tags: list[tuple[int, list[Node]]] = [(-1, [])]
    for at in range(1, len(tokens), 2):
        token = tokens[at]
        if token.startswith("</"):
            start, children = open_tags.pop()
            open_tags[-1][1].append(_node(tokens[start], start, at, tuple(children)))
        elif stands_alone(token):
            open_tags[-1][1].append(_node(token, at, at, ()))
        else:
            open_tags.append((at, []))
    return tuple(open_tags[0][1])


@lru_cache(maxsize=1 << 15)
def stands_alone(tag: str) -> bool:
    """Whether a start tag has no end tag."""
    return tag.endswith("/>") or tag_name(tag) in VOID


def _node(tag: str, start: int, end: int, children: tuple[Node, ...]) -> Node:
    key = key_of(tag)
    skeleton = hash((key, *[one.skeleton for one in children]))
    return Node(start, end, key, skeleton, children)


def elements_in(nodes: Sequence[Node]) -> Iterator[Node]:
    """Elements and all that lies in them, in the order of their start tags."""
    for node in nodes:
        yield node
        yield from elements_in(node.children)


def marked(tag: str, attribute: str) -> str:
    """A start tag with one more attribute."""
    end = 2 if tag.endswith("/>") else 1
    return f"{tag[:-end]} {attribute}{tag[-end:]}"


def without(tag: str, name: str) -> str:
    """A start tag without an attribute."""
    return re.sub(rf'\s{re.escape(name)}(?:="[^"]*")?(?=[\s/>])', "", tag)
