"""The ``circuit:`` of a problem becomes a network and its tree."""

from __future__ import annotations

from dataclasses import dataclass

from builder.circuit.between import MINUS, PLUS, lay_between
from builder.circuit.law import Law
from builder.circuit.naming import name_groups
from builder.circuit.network import Element, Network, Source
from builder.circuit.tree import Leaf, Tree
from builder.problem.branches import Branches, Ends, oriented, take_rows, tree_of
from builder.problem.faults.gathering import Faults, all_of, one_of, quoted
from builder.problem.nest import read_group
from builder.problem.parts import SOURCE_KINDS, Parts, looks_misspelled
from builder.problem.shape import CircuitShape, ItemShape, keys_of
from builder.problem.table import Table, read_ends
from builder.problem.together import check_together
from builder.problem.typed import as_map, describe, unknown_key
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Unusable

_KEYS = keys_of(CircuitShape)
_LAYOUTS = (*keys_of(ItemShape), "branches")
_SOURCE = "a source such as 12 V, or with a name, such as {V0: 12 V}"


@dataclass(frozen=True)
class Circuit:
    """A circuit as far as it could be read.

    Attributes:
        names: of all elements.
        names_known: whether ``names`` is all of them, so that other names can be refused.
        source_name: of the source; None without one, empty if it is not known.
        law: of the elements, or None if it is not known.
        network: None if there is a fault.
        tree: with named groups; None if there is a fault.
    """

    names: tuple[str, ...]
    names_known: bool
    source_name: str | None
    law: Law | None
    network: Network | None = None
    tree: Tree | None = None


UNKNOWN = Circuit((), names_known=False, source_name="", law=None)


def read_circuit(entry: Entry, faults: Faults, table: Table | None = None) -> Circuit:
    """Read what stands under ``circuit:``.

    Args:
        entry: the key with its value.
        faults: takes whatever is wrong.
        table: the branches, if there are any.
    """
    node = as_map(entry.value, "a source and elements", faults)
    if node is None:
        return UNKNOWN
    before = len(faults)
    parts = Parts(faults)
    source = node.get("source")
    if source is not None:
        _read_source(source.value, parts)
    layout = _layout(node, parts)
    tree: Tree | None = None
    branches: Branches | None = None
    if layout is not None and layout.key.value == "branches":
        assert table is not None
        if source is not None and table.sources:
            row = table.sources[0].name
            faults.add(source.key.at, f"source beside the source {row.value} in branches",
                       "every source in the branches, with its ends",
                       "Move it there, such as V2: {emf: 3 V, between: [top, bottom]}, or delete "
                       "it.")  # fmt: skip
        branches = take_rows(table, parts)
        _read_terminals(node, source, branches, parts)
        if branches.sound and branches.terminals is not None:
            tree = tree_of(branches, faults)
    elif layout is not None:
        _refuse_across(node, parts)
        tree = _read_nest(layout, parts)
    check_together(parts)
    known = Circuit(parts.names, parts.complete, _source_name(parts), parts.law)
    unread = any(given.measure is None for given in parts.elements.values())
    if len(faults) > before or unread or tree is None or known.law is None:
        return known
    return _finished(known, parts, tree, branches)


def _source_name(parts: Parts) -> str | None:
    if not parts.source_told:
        return None
    return parts.source.name.value if parts.source else ""


def _read_source(node: Node, parts: Parts) -> None:
    if isinstance(node, Map) and len(node.entries) == 1:
        only = node.entries[0]
        parts.set_source(only.key, only.value, SOURCE_KINDS)
    elif isinstance(node, Map) and node.entries:
        parts.source_told = True
        keys = all_of([quoted(entry.key.value) for entry in node.entries[:5]])
        parts.faults.add(node.entries[1].key.at, f"more than one source, {keys}", "one source",
                         "Keep one of them, or write the circuit as branches, which may hold "
                         "several.")  # fmt: skip
    elif isinstance(node, Map | Items | Unusable):
        parts.source_told = True
        if not isinstance(node, Unusable):
            parts.faults.add(node.at, describe(node), _SOURCE, "Write the source's value "
                             "after the colon.")  # fmt: skip
    else:
        parts.set_source(None, node, SOURCE_KINDS)


def _layout(node: Map, parts: Parts) -> Entry | None:
    """The one entry that holds the elements; the others are noted as faults."""
    layouts = [entry for entry in node.entries if entry.key.value in _LAYOUTS]
    singles: list[Entry] = []
    for entry in node.entries:
        if entry.key.value in _KEYS:
            continue
        if looks_misspelled(entry, _KEYS):
            unknown_key(entry, _KEYS, parts.faults)
            parts.lose()
        else:
            singles.append(entry)
    if not layouts and not singles:
        if parts.complete:
            parts.faults.add(node.at, "a circuit without elements",
                             "series, parallel, branches or a single element such as C1: 10 uF",
                             "Add the elements.")  # fmt: skip
            parts.lose()
        return None
    every = [*layouts, *singles]
    every.sort(key=lambda entry: entry.key.at)
    if len(every) > 1:
        _refuse_several(every, parts)
    return every[0]


def _refuse_several(every: list[Entry], parts: Parts) -> None:
    parts.lose()
    first, second = every[0].key, every[1].key
    single = [entry for entry in every if entry.key.value not in _LAYOUTS]
    advice = "Put one of the two as an item into the list of the other."
    if len(single) == len(every):
        advice = "Put the elements into a list under series: or parallel:, each after a dash."
    elif "branches" in (first.value, second.value):
        advice = "Put all elements under branches:."
    elif len(single) == 1:
        name = single[0].key.value
        advice = f'Move {quoted(name)} into the list, as "- {name}: …".'
    parts.faults.add(second.at, f"{quoted(second.value)} beside {quoted(first.value)}",
                     f"only one of {one_of([*_LAYOUTS, 'a single element'])}", advice)  # fmt: skip


def _read_nest(layout: Entry, parts: Parts) -> Tree | None:
    if layout.key.value in _LAYOUTS:
        return read_group(layout, parts)
    name = parts.add_element(layout)
    return None if name is None else Leaf(name)


def _refuse_across(node: Map, parts: Parts) -> None:
    across = node.get("across")
    if across is not None:
        parts.faults.add(across.key.at, "across without branches",
                         "across only beside branches",
                         "Delete it: the terminals are the two ends of the group.")  # fmt: skip
    for key in ("method", "load", "reference", "place"):
        entry = node.get(key)
        if entry is not None:
            parts.faults.add(entry.key.at, f"{key} without branches",
                             f"{key} only beside branches",
                             "Delete it, or write the circuit as branches: between named "
                             "junctions.")  # fmt: skip


def _read_terminals(node: Map, source: Entry | None, branches: Branches, parts: Parts) -> None:
    across = node.get("across")
    if branches.terminals is not None or (parts.source_told and source is None):
        if across is not None:
            parts.faults.add(across.key.at, "across beside a source with its own ends",
                             "only one of the two", "Delete across.")  # fmt: skip
    elif across is not None:
        branches.terminals = read_ends(across, "both terminals", parts.faults)
    elif branches.sound:
        at = branches.at.at if source is None else source.key.at
        parts.faults.add(at, "branches without terminals",
                         "a source among the branches, such as "
                         "V0: {emf: 9 V, between: [top, bottom]}, or across: [top, bottom]",
                         "Add the source to the branches, or say with across: between which "
                         "junctions the circuit is looked at.")  # fmt: skip


def _finished(known: Circuit, parts: Parts, tree: Tree, branches: Branches | None) -> Circuit:
    law = known.law
    assert law is not None
    terminals = (PLUS, MINUS)
    ends: dict[str, Ends] = lay_between(tree)
    if branches is not None and branches.terminals is not None:
        terminals = (branches.terminals[0].value, branches.terminals[1].value)
        ends = oriented(tree, branches.between, terminals[0])
    elements = []
    for name, given in parts.elements.items():
        assert given.measure is not None
        elements.append(Element(name, given.measure.value, given.measure.shown, ends[name]))
    source = None
    if parts.source is not None and parts.source.measure is not None:
        given = parts.source
        measure = parts.source.measure
        source = Source(given.name.value, measure.kind, measure.value, measure.shown, terminals)
    network = Network(tuple(elements), terminals, (source,) if source else ())
    return Circuit(known.names, known.names_known, known.source_name, law, network,
                   name_groups(tree, law.letter, source.name if source else ""))  # fmt: skip
