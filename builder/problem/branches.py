"""A table of branches with one source at most becomes a nest and its tree."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from builder.circuit.between import NotSeriesParallel, find_tree
from builder.circuit.law import SERIES
from builder.circuit.tree import Leaf, Tree
from builder.problem.faults.gathering import Faults, all_of, did_you_mean, nearest, quoted
from builder.problem.parts import Given, Parts
from builder.problem.table import SOURCES, Table
from builder.problem.yaml_text.located import Text

Ends = tuple[str, str]


@dataclass
class Branches:
    """A table of branches on its way to a nest.

    Attributes:
        at: the key, for faults of the whole table.
        between: the two junctions of each element, in the author's order.
        places: where each element's junctions stand.
        terminals: the + and the − point, or None if nothing tells them.
        sound: whether every branch could be read.
        stuck: whether the elements turned out to be no nest, though none hangs loose.
    """

    at: Text
    between: dict[str, Ends] = field(default_factory=dict)
    places: dict[str, tuple[Text, Text]] = field(default_factory=dict)
    terminals: tuple[Text, Text] | None = None
    sound: bool = True
    stuck: bool = False


def take_rows(table: Table, parts: Parts) -> Branches:
    """Take the rows of a table with one source at most; elements and source go to ``parts``."""
    branches = Branches(table.at, sound=table.sound)
    if not table.names_known or "" in table.named.values():
        parts.lose()
    rows = {row.name.value: row for row in table.rows}
    for name, kind in table.named.items():
        row = rows.get(name)
        if kind in SOURCES:
            parts.source_told = True
            if row is not None:
                parts.source = Given(row.name, row.at, row.value)
                branches.terminals = row.ends
        elif kind:
            at = row.name if row is not None else table.at
            parts.elements[name] = Given(at, row.at if row else at, row.value if row else None)
            if row is not None:
                branches.between[name] = row.between
                branches.places[name] = row.ends
    return branches


def tree_of(branches: Branches, faults: Faults) -> Tree | None:
    """The tree of a sound table whose terminals are known, its groups unnamed."""
    assert branches.terminals is not None
    plus, minus = branches.terminals
    before = len(faults)
    _refuse_loose_ends(branches, faults)
    if len(faults) > before:
        return None
    try:
        return find_tree(branches.between, (plus.value, minus.value))
    except NotSeriesParallel as error:
        branches.stuck = True
        stuck = {name for name, _ in error.stuck}
        names = [name for name in branches.between if name in stuck]
        listed = all_of(names) if len(names) <= 8 else f"{', '.join(names[:7])} and others"
        faults.add(branches.at.at, f"elements that never come to lie in series or in parallel: "
                   f"{listed}", "a nest of series and parallel groups between the terminals",
                   "Only such nests can be solved so far. Check the junctions of these "
                   "elements.")  # fmt: skip
        return None


def _refuse_loose_ends(branches: Branches, faults: Faults) -> None:
    assert branches.terminals is not None
    ends = Counter(junction for pair in branches.between.values() for junction in pair)
    poles = [pole.value for pole in branches.terminals]
    for pole in branches.terminals:
        if ends[pole.value] == 0:
            others = [name for name in ends if name not in poles]
            near = nearest(pole.value, others)
            faults.add(pole.at, f"the terminal {quoted(pole.value)}, which no element reaches",
                       "a junction at which an element ends",
                       did_you_mean(pole.value, near) if near
                       else "Check the junctions of the elements.")  # fmt: skip
    for name, places in branches.places.items():
        for place in places:
            near = nearest(place.value, [other for other in (*ends, *poles)
                                         if other != place.value])  # fmt: skip
            terminal_misspelled = near in poles and near not in ends
            if place.value in poles or ends[place.value] > 1 or terminal_misspelled:
                continue
            faults.add(place.at, f"the junction {quoted(place.value)}, where nothing but {name} "
                       "ends", "at least two elements at each junction between the terminals",
                       did_you_mean(place.value, near) if near
                       else f"Connect another element there, or leave {name} out.")  # fmt: skip


def oriented(tree: Tree, between: dict[str, Ends], plus: str) -> dict[str, Ends]:
    """The ends of each element in the author's order, the one nearer to ``plus`` first."""
    ends: dict[str, Ends] = {}

    def walk(part: Tree, start: str) -> str:
        if isinstance(part, Leaf):
            first, second = between[part.id]
            end = second if first == start else first
            ends[part.id] = (start, end)
            return end
        end = start
        for inner in part.parts:
            end = walk(inner, end if part.connection == SERIES else start)
        return end

    walk(tree, plus)
    return {name: ends[name] for name in between}
