"""A circuit told junction by junction, for those who want to know what meets where."""

from __future__ import annotations

from collections.abc import Mapping

from builder.circuit.between import MINUS, PLUS, lay_between
from builder.circuit.tree import Tree, leaves
from builder.figure.request import Label
from builder.figure.words import spoken
from builder.quantity.names import Symbol

Sentence = tuple[str | Symbol, ...]
"""A sentence of words and of the elements' names."""

_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def describe_by_junction(
    tree: Tree,
    labels: Mapping[str, Label],
    source_quantity: str | None,
) -> tuple[Sentence, ...]:
    """What begins and what ends at each junction, from the + terminal to the − terminal.

    Args:
        tree: the circuit, possibly with groups already merged.
        labels: names of the leaves; a leaf without one is told by its id.
        source_quantity: ``voltage``, ``current``, ``charge`` or None.

    Returns:
        An overview, then one sentence for each point, the junctions named as
        ``lay_between`` does: ``At junction a, C1 ends, and C2 and C3 begin.`` No numbers, so
        that the sentences hold whatever the values are.
    """
    ends = lay_between(tree)
    names = {leaf: _name(leaf, labels) for leaf in leaves(tree)}
    points = {point for pair in ends.values() for point in pair}
    inner = sorted(points - {PLUS, MINUS}, key=_order)
    told = [_overview(inner, source_quantity)]
    for point in (PLUS, *inner, MINUS):
        ending = [names[leaf] for leaf, (_, last) in ends.items() if last == point]
        beginning = [names[leaf] for leaf, (first, _) in ends.items() if first == point]
        place = f"At junction {point}, " if point in inner else f"At the {point} terminal, "
        told.append((place, *_meeting(ending, beginning), "."))
    return tuple(told)


def plain(sentence: Sentence) -> str:
    """A sentence in letters and digits that a voice can read."""
    return "".join(spoken(p) if isinstance(p, Symbol) else p for p in sentence)


def _overview(inner: list[str], quantity: str | None) -> Sentence:
    owner = {"voltage": " of the battery", "current": " of the current source"}.get(
        quantity or "", ""
    )
    if not inner:
        lie = "lies no junction"
    elif len(inner) == 1:
        lie = f"lies one junction, {inner[0]}"
    else:
        count = _WORDS[len(inner)] if len(inner) < len(_WORDS) else str(len(inner))
        lie = f"lie {count} junctions, {', '.join(inner[:-1])} and {inner[-1]}"
    return (f"Between the + and the − terminal{owner} {lie}.",)


def _meeting(ending: list[str | Symbol], beginning: list[str | Symbol]) -> Sentence:
    ends = (*_listed(ending), " ends" if len(ending) == 1 else " end")
    begins = (*_listed(beginning), " begins" if len(beginning) == 1 else " begin")
    if not beginning:
        return ends
    return (*ends, ", and ", *begins) if ending else begins


def _listed(items: list[str | Symbol]) -> Sentence:
    listed: list[str | Symbol] = []
    for position, item in enumerate(items):
        if position:
            listed.append(" and " if position == len(items) - 1 else ", ")
        listed.append(item)
    return tuple(listed)


def _name(leaf: str, labels: Mapping[str, Label]) -> str | Symbol:
    return labels[leaf].symbol if leaf in labels else leaf.replace("_", " ")


def _order(junction: str) -> tuple[int, str]:
    """``a`` to ``z``, then ``a1`` to ``z1``, as ``lay_between`` counts."""
    return int(junction[1:] or 0), junction[0]
