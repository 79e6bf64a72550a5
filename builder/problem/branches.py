"""A table of branches between named junctions becomes a network and its tree."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, field

from builder.circuit.between import NotSeriesParallel, find_tree
from builder.circuit.law import SERIES
from builder.circuit.tree import Leaf, Tree
from builder.problem.gathering import Faults, all_of, nearest, one_of, quoted, shortened
from builder.problem.located import Entry, Items, Map, Node, Text, Unusable
from builder.problem.parts import Parts
from builder.problem.shape import BranchShape, ElementShape, keys_of
from builder.problem.typed import as_map, describe, refuse_unknown_keys

_BRANCH = "an element with its ends, such as {resistance: 100 ohm, between: [top, bottom]}"
_ENDS = "two junctions, such as [top, bottom]"
_JUNCTION = re.compile(r"[A-Za-z0-9][A-Za-z0-9_ -]{0,19}")
Ends = tuple[str, str]


@dataclass
class Branches:
    """A table of branches as far as it could be read.

    Attributes:
        at: the key, for faults of the whole table.
        between: the two junctions of each element, in the author's order.
        places: where each element's junctions stand.
        terminals: the + and the − point, or None if nothing tells them.
        sound: whether every branch could be read.
    """

    at: Text
    between: dict[str, Ends] = field(default_factory=dict)
    places: dict[str, tuple[Text, Text]] = field(default_factory=dict)
    terminals: tuple[Text, Text] | None = None
    sound: bool = True


def read_branches(entry: Entry, parts: Parts) -> Branches:
    """Read the table under ``branches:``; elements and source go to ``parts``."""
    branches = Branches(entry.key)
    table = as_map(entry.value, "a name for each element, with its value and its ends",
                   parts.faults, "Write each element on a line of its own: "
                   "R1: {resistance: 100 ohm, between: [top, bottom]}.")  # fmt: skip
    if table is None:
        parts.lose()
        branches.sound = False
        return branches
    for branch in table.entries:
        _read_branch(branch, branches, parts)
    return branches


def _read_branch(branch: Entry, branches: Branches, parts: Parts) -> None:
    faults = parts.faults
    name = branch.key.value
    before = len(faults)
    shape = as_map(branch.value, _BRANCH, faults, f"Write {name}: {{resistance: 100 ohm, "
                   "between: [top, bottom]}.")  # fmt: skip
    ends = None
    if shape is not None:
        _refuse_unknown_keys(shape, faults)
        between = shape.get("between")
        if between is None:
            faults.add(branch.key.at, f"{quoted(name)} without its ends", f"between: {_ENDS}",
                       "Add between: with the two junctions.")  # fmt: skip
        else:
            ends = read_ends(between, f"both ends of {name}", faults)
    if shape is not None and shape.get("emf") is not None:
        _take_source(branch.key, shape, ends, branches, parts)
    elif shape is not None and any(shape.get(key) for key in keys_of(ElementShape)):
        _take_element(branch.key, shape, ends, branches, parts)
    elif shape is not None and len(faults) == before:
        faults.add(branch.key.at, f"{quoted(name)} without a value",
                   one_of(keys_of(ElementShape)) + ", or emf for the source",
                   "Add its value.")  # fmt: skip
    if len(faults) > before:
        branches.sound = False
        if name not in parts.elements:
            parts.lose()


def _refuse_unknown_keys(shape: Map, faults: Faults) -> None:
    voltage = shape.get("voltage")
    known = keys_of(BranchShape)
    if voltage is not None and shape.get("emf") is None:
        faults.add(voltage.key.at, 'the key "voltage"', one_of(known),
                   "Of a source, write emf.")  # fmt: skip
        known = (*known, "voltage")
    refuse_unknown_keys(shape, known, faults)


def _take_source(
    name: Text, shape: Map, ends: tuple[Text, Text] | None, branches: Branches, parts: Parts
) -> None:
    emf = shape.get("emf")
    assert emf is not None
    for key in keys_of(ElementShape):
        both = shape.get(key)
        if both is not None:
            parts.faults.add(both.key.at, f"{key} beside emf", "one value for each branch",
                             "Give the element a branch of its own.")  # fmt: skip
    if parts.source_told:
        parts.faults.add(name.at, "a second source", "one source",
                         "Circuits of several sources cannot be solved so far. Delete one of "
                         "the two.")  # fmt: skip
    else:
        parts.set_source(name, emf.value, ("voltage",))
    branches.terminals = ends


def _take_element(
    name: Text, shape: Map, ends: tuple[Text, Text] | None, branches: Branches, parts: Parts
) -> None:
    values = tuple(entry for entry in shape.entries if entry.key.value in keys_of(ElementShape))
    taken = parts.add_element(Entry(name, Map(values, shape.at)))
    if taken is not None and ends is not None:
        branches.between[taken] = (ends[0].value, ends[1].value)
        branches.places[taken] = ends


def read_ends(entry: Entry, whose: str, faults: Faults) -> tuple[Text, Text] | None:
    """The two different junctions under ``between:`` or ``across:``."""
    node = entry.value
    if isinstance(node, Unusable):
        return None
    if not isinstance(node, Items) or len(node.items) != 2:
        faults.add(node.at, describe(node), _ENDS,
                   "Write two names in square brackets, with a comma between them.")  # fmt: skip
        return None
    first, second = (_junction(item, faults) for item in node.items)
    if first is None or second is None:
        return None
    if first.value == second.value:
        faults.add(second.at, f"{whose} at the junction {quoted(first.value)}",
                   "two different junctions", "Change one of the two.")  # fmt: skip
        return None
    return first, second


def _junction(node: Node, faults: Faults) -> Text | None:
    if isinstance(node, Text) and _JUNCTION.fullmatch(node.value):
        return node
    if not isinstance(node, Unusable):
        faults.add(node.at, f"{describe(node)} as a junction",
                   "letters, digits, spaces, _ or -, at most 20 in all",
                   "Choose a name such as top or a.")  # fmt: skip
    return None


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
                       f'Did you mean "{near}"?' if near
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
                       f'Did you mean "{shortened(near)}"?' if near
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
