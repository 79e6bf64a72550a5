"""A circuit told in sentences, as the text alternative of its figure."""

from __future__ import annotations

from collections.abc import Mapping

from builder.circuit.law import SERIES
from builder.circuit.tree import Group, Leaf, Tree, depth, leaves
from builder.figure.request import Label, ValueText
from builder.quantity.names import Symbol
from builder.quantity.numerals import article

_INLINE = 6


def describe(
    tree: Tree,
    element: str,
    labels: Mapping[str, Label],
    source: Label | None,
    source_quantity: str | None,
) -> str:
    """The circuit in spoken English.

    A group that holds other groups, or that would make a sentence too long, gets a name (group A)
    and a sentence of its own.

    Args:
        tree: the circuit, possibly with groups already merged.
        element: ``capacitor`` or ``resistor``.
        labels: name and values of each leaf; the first value without a symbol is its own.
        source: the source's name and values.
        source_quantity: ``voltage``, ``current``, ``charge`` or None.

    Returns:
        One sentence or more: ``C1, 10 µF, in series with C2, 22 µF, across a 12 V battery.``
    """
    told = _Telling(element, labels)
    sentences = [_capital(told.whole(tree)) + _fed(source, source_quantity) + "."]
    for name, group in told.waiting:
        # More groups join the queue while their parents are told.
        sentences.append(f"Group {name} is {told.inside(group).removesuffix(',')}.")
    found = _found(tree, labels, source, source_quantity)
    if found:
        sentences.append(f"Found so far: {_list(found)}.")
    return " ".join(sentences)


class _Telling:
    """Tells groups, and keeps those that are to be told later.

    Attributes:
        waiting: groups that have been named but not told yet, in order.
    """

    def __init__(self, element: str, labels: Mapping[str, Label]) -> None:
        self._element = element
        self._labels = labels
        self.waiting: list[tuple[str, Group]] = []

    def whole(self, tree: Tree) -> str:
        """The whole circuit, ending with a comma where the source follows."""
        if isinstance(tree, Leaf):
            return f"the {self._element} {self._leaf(tree)}"
        if _flat(tree) and len(tree.parts) > 2:
            return f"the {self._element}s {self._flat_list(tree)} in {tree.connection}"
        told = self._joined(tree)
        return told.removesuffix(",") + "," if len(tree.parts) == 2 else told

    def inside(self, group: Group) -> str:
        """A group that has a sentence of its own."""
        if _flat(group) and len(group.parts) > 2:
            return f"{self._flat_list(group)} in {group.connection}"
        return self._joined(group)

    def _joined(self, group: Group) -> str:
        in_series = group.connection == SERIES
        fits = _fits(group) and (in_series or len(group.parts) == 2)
        parts = [self._part(part, fits) for part in group.parts]
        if len(parts) == 2:
            return f"{parts[0]} in {group.connection} with {parts[1]}"
        if in_series:
            return " then ".join(map(_with_comma, parts)) + " in series"
        return f"{_list(parts)} in parallel"

    def _part(self, part: Tree, fits: bool) -> str:
        if isinstance(part, Leaf):
            return self._leaf(part)
        if fits and _flat(part):
            kind = "pair" if len(part.parts) == 2 else "group"
            if part.connection == SERIES and kind == "group":
                kind = "chain"
            return f"the {part.connection} {kind} {self._flat_list(part)}"
        name = _letter(len(self.waiting))
        self.waiting.append((name, part))
        return f"group {name}"

    def _flat_list(self, group: Group) -> str:
        return _list([self._leaf(part) for part in group.parts if isinstance(part, Leaf)])

    def _leaf(self, leaf: Leaf) -> str:
        label = self._labels.get(leaf.id)
        if label is None:
            return leaf.id.replace("_", " ")
        own = _own(label)
        name = spoken(label.symbol)
        if own is not None and own.expression is not None:
            return f"{name}, equal to {own.text},"
        return f"{name}, {_approximate(own)}," if own else name


def spoken(symbol: Symbol) -> str:
    """A symbol as it is said: ``C2``, ``C eq``."""
    joint = "" if symbol.index.isdigit() or not symbol.index else " "
    return f"{symbol.letter}{joint}{symbol.index.replace('_', ' ')}{symbol.mark}"


def _flat(group: Group) -> bool:
    return depth(group) == 1


def _fits(group: Group) -> bool:
    """Whether its inner groups can be told within one sentence."""
    inner = [part for part in group.parts if isinstance(part, Group)]
    return len(leaves(group)) <= _INLINE and len(inner) <= 2


def _own(label: Label) -> ValueText | None:
    first = label.values[0] if label.values else None
    return first if first is not None and first.symbol is None else None


def _approximate(value: ValueText) -> str:
    return f"about {value.text}" if value.sign == "≈" else value.text


def _fed(source: Label | None, quantity: str | None) -> str:
    """The end of the first sentence, with the space or comma before it."""
    value = source.values[0] if source is not None and source.values else None
    if quantity in ("voltage", "current"):
        noun = "battery" if quantity == "voltage" else "current source"
        verb = "across" if quantity == "voltage" else "fed by"
        if source is not None and value is None:
            return f" {verb} a {noun} of {spoken(source.symbol)}"
        return f" {verb} {_source_phrase(noun, value)}"
    if quantity == "charge" and source is not None and value is not None:
        charge = f"the total charge {spoken(source.symbol)}"
        return f" between two terminals, where {charge} is {_approximate(value)}"
    return " between two open terminals"


def _source_phrase(noun: str, value: ValueText | None) -> str:
    if value is None:
        return f"a {noun}"
    if value.sign == "≈" or not value.text[:1].isdigit():
        return f"a {noun} of {_approximate(value)}"
    return f"{article(value.text)} {value.text} {noun}"


def _found(
    tree: Tree, labels: Mapping[str, Label], source: Label | None, quantity: str | None
) -> list[str]:
    values = list(source.values[1:]) if source is not None else []
    for leaf in leaves(tree):
        label = labels.get(leaf)
        values += label.values[1 if _own(label) else 0 :] if label is not None else ()
    return [
        f"{spoken(value.symbol)} is {_approximate(value)}"
        for value in values
        if value.symbol is not None
    ]


def _list(items: list[str]) -> str:
    """``a and b``; ``a, b and c``. Items that end with a comma keep it between them."""
    if len(items) == 1:
        return items[0]
    head = " ".join(_with_comma(item) for item in items[:-2])
    return f"{head} {items[-2]} and {items[-1]}".lstrip()


def _with_comma(item: str) -> str:
    return item if item.endswith(",") else item + ","


def _letter(position: int) -> str:
    return chr(ord("A") + position % 26) + ("" if position < 26 else str(position // 26))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
