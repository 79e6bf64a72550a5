"""What is asked for twice over, or is given already."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.circuit.law import LAWS
from builder.errors import Oddity
from builder.lesson.odd.looking import Look
from builder.problem.parts import EQUIVALENT
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text
from builder.quantity.names import Name

ASKED_TWICE = "asked-twice"
ASKED_THOUGH_GIVEN = "asked-though-given"


@dataclass(frozen=True)
class _Ask:
    """An item under ``find:``, or one of several things in it.

    Attributes:
        node: its place.
        written: as the author wrote it: ``charge: C2``.
        names: what it asks for.
    """

    node: Node
    written: str
    names: frozenset[Name]


def asked_twice(look: Look) -> Iterator[Oddity]:
    """Whatever another item of the list, or an earlier part of the same one, asks for already."""
    items = list(look.items("find"))
    parts = [_parts(item) for item in items]
    if _plainly_once(items, parts):
        return
    whole = [_ask(look, item, item) for item in items]
    for at, ask in enumerate(whole):
        cover = _covering(at, whole)
        if cover is not None:
            yield _oddity(look, ask, cover)
            continue
        # What asks for no more than this item is told itself.
        others = [other for other in whole if not other.names <= ask.names]
        asks = [_ask(look, part, _place(part)) for part in parts[at]]
        for number, one in enumerate(asks if len(asks) > 1 else ()):
            cover = _covering(number, asks) or _covering(0, [one, *others])
            if cover is not None:
                yield _oddity(look, one, cover)


def asked_though_given(look: Look) -> Iterator[Oddity]:
    """Whatever the problem states itself, as a fact that was measured."""
    givens = look.solution.givens
    if not any(look.solution.resolve(name) in givens for name in look.problem.find):
        return
    for item in look.items("find"):
        for part in _parts(item):
            ask = _ask(look, part, _place(part))
            if all(look.solution.resolve(name) in givens for name in ask.names):
                yield look.oddity(
                    ask.node.at, ASKED_THOUGH_GIVEN, f"{ask.written} is given in the problem.",
                    "Delete it, or ask for something that has to be found.",
                )  # fmt: skip


def _parts(item: Node) -> list[Node]:
    """An item as one item for each thing that it lists: ``charge: [C1, C2]`` as two."""
    if not isinstance(item, Map):
        return [item]
    return [
        Map((Entry(entry.key, one),), item.at)
        for entry in item.entries
        for one in (entry.value.items if isinstance(entry.value, Items) else (entry.value,))
    ]


def _place(part: Node) -> Node:
    """Where one thing of several stands."""
    return part.entries[0].value if isinstance(part, Map) else part


def _plainly_once(items: Sequence[Node], parts: Sequence[list[Node]]) -> bool:
    """Whether one sees without knowing the circuit that nothing is asked for twice."""
    keys = Counter(_key(item) for item in items)
    written = Counter(_written(part) for several in parts for part in several)
    return max(keys.values(), default=0) < 2 and max(written.values(), default=0) < 2 and all(
        len(several) < 2 or all(_is_name(_place(part)) for part in several) for several in parts
    )  # fmt: skip


def _key(item: Node) -> str:
    word = item.value.partition(": ")[0] if isinstance(item, Text) else ""
    if isinstance(item, Map):
        word = item.entries[0].key.value
    return EQUIVALENT if word in LAWS else word


def _is_name(node: Node) -> bool:
    return isinstance(node, Text) and node.value not in ("all", "total")


def _ask(look: Look, item: Node, place: Node) -> _Ask:
    return _Ask(place, _written(item), frozenset(look.asks(item)))


def _covering(at: int, asks: Sequence[_Ask]) -> _Ask | None:
    """The first of the others that asks for all that one does; the first of equals stays."""
    one = asks[at]
    covers = [*(other for other in asks[:at] if one.names <= other.names),
              *(other for other in asks[at + 1 :] if one.names < other.names)]  # fmt: skip
    return covers[0] if covers and one.names else None


def _oddity(look: Look, ask: _Ask, cover: _Ask) -> Oddity:
    line = cover.node.at.line
    where = f" on line {line}" if line != ask.node.at.line else ""
    if ask.written == cover.written:
        seen = f"{ask.written} is asked for a second time."
    else:
        seen = f"{ask.written} is asked for already by {cover.written}{where}."
    return look.oddity(ask.node.at, ASKED_TWICE, seen, "Delete one of the two.")


def _written(node: Node, *, inside: bool = False) -> str:
    """An item as it is typed on one line."""
    match node:
        case Text(value):
            return value
        case Items(items):
            return f"[{', '.join(_written(item, inside=True) for item in items)}]"
        case Map(entries):
            pairs = ", ".join(f"{one.key.value}: {_written(one.value, inside=True)}"
                              for one in entries)  # fmt: skip
            return f"{{{pairs}}}" if inside else pairs
    return ""
