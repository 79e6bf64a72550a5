"""Nests in which an element is unknown and a measured fact tells it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from builder.circuit.law import LAWS, Law
from builder.circuit.network import Network
from builder.circuit.tree import Tree
from builder.problem.asked import Asking
from builder.problem.body import Body
from builder.problem.circuit import Circuit, read_circuit
from builder.problem.faults.gathering import Faults, Mark
from builder.problem.limits import MOST_UNKNOWN
from builder.problem.model import Problem
from builder.problem.nest_body import NestBody
from builder.problem.relations.measured import Fact, Measured
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text
from builder.quantity.measure import MeasureError, read_measure
from builder.quantity.names import Name
from builder.quantity.symbolic import is_symbolic

UNKNOWN_WORD = "unknown"
_STAND_INS = {"capacitance": "1 uF", "resistance": "1 ohm"}


@dataclass(frozen=True, kw_only=True)
class UnknownProblem(Problem):
    """A nest with elements that are to be found from measured facts.

    Attributes:
        law: of the elements.
        network: its unknown elements have a stand-in for a value, which nothing may use.
        tree: the nest of groups, each named.
        unknown: the elements that are to be found, each with its place in the file.
        facts: what was measured.
    """

    law: Law
    network: Network
    tree: Tree
    unknown: Mapping[str, Mark]
    facts: tuple[Fact, ...]


def holds_unknowns(node: Map | None) -> bool:
    """Whether an element under ``circuit:`` is unknown."""
    return node is not None and next(_unknown_in(node), None) is not None


def _unknown_in(node: Node) -> Iterator[Entry]:
    """The entries of unknown elements, at any depth."""
    if isinstance(node, Items):
        for item in node.items:
            yield from _unknown_in(item)
    elif isinstance(node, Map):
        for entry in node.entries:
            if _is_unknown(entry.value):
                yield entry
            else:
                yield from _unknown_in(entry.value)


def _is_unknown(node: Node) -> bool:
    if isinstance(node, Map) and len(node.entries) == 1 and node.entries[0].key.value in LAWS:
        return _is_unknown(node.entries[0].value)
    return isinstance(node, Text) and node.value.strip().lower() == UNKNOWN_WORD


def read_unknowns(circuit: Entry, measured: Entry | None, faults: Faults) -> Body:
    """Read a nest with unknown elements and what was measured.

    Args:
        circuit: the entry ``circuit:``.
        measured: the entry ``measured:``, or None without one.
        faults: takes whatever is wrong.
    """
    unknown = {entry.key.value: entry.key.at for entry in _unknown_in(circuit.value)}
    if len(unknown) > MOST_UNKNOWN:
        faults.add(list(unknown.values())[MOST_UNKNOWN], f"{len(unknown)} unknown elements",
                   f"at most {MOST_UNKNOWN}", "Give some of them their values.")  # fmt: skip
    kind = _kind_of(circuit.value)
    stood_in = _stand_in(circuit.value, kind)
    read = read_circuit(replace(circuit, value=stood_in), faults)
    if measured is None:
        at = next(iter(unknown.values()))
        faults.add(at, f"{next(iter(unknown))} unknown, and nothing measured",
                   "measured: with a fact to find it by, such as {equivalent: 8 uF}",
                   "Add measured:, or give the element a value.")  # fmt: skip
    if measured is not None and not unknown:
        faults.add(measured.key.at, "measured without an unknown element",
                   "an element such as C2: unknown",
                   "Delete it, or write unknown for the element it is about.")  # fmt: skip
    _refuse_symbols(read, circuit, faults)
    facts = Measured(read, tuple(unknown), faults).read(measured) if measured else ()
    return UnknownBody(NestBody(read, faults), unknown, facts, faults)


def _refuse_symbols(read: Circuit, circuit: Entry, faults: Faults) -> None:
    """A letter beside an unknown would be a second unknown."""
    network = read.network
    if network is None:
        return
    values = {part.name: part.value for part in network.elements}
    values |= {part.name: part.value for part in network.sources}
    for name, value in values.items():
        if is_symbolic(value):
            faults.add(circuit.key.at, f"a symbol for the value of {name} beside an unknown "
                       "element", "numbers with units",
                       "Write a number in its place.")  # fmt: skip


def _kind_of(node: Node) -> str:
    """The kind of the elements: told by the long form, by the others, or by the names."""
    for entry in _unknown_in(node):
        if isinstance(entry.value, Map):
            return entry.value.entries[0].key.value
    for text in _texts_in(node):
        try:
            kind = read_measure(text.value).kind
        except MeasureError:
            continue
        if kind in LAWS:
            return kind
    names = [entry.key.value for entry in _unknown_in(node)]
    return "resistance" if names and names[0].upper().startswith("R") else "capacitance"


def _texts_in(node: Node) -> Iterator[Text]:
    if isinstance(node, Text):
        yield node
    elif isinstance(node, Items):
        for item in node.items:
            yield from _texts_in(item)
    elif isinstance(node, Map):
        for entry in node.entries:
            yield from _texts_in(entry.value)


def _stand_in(node: Node, kind: str) -> Node:
    """The same with a value in the place of each unknown, so that the circuit can be laid out."""
    if isinstance(node, Items):
        return replace(node, items=tuple(_stand_in(item, kind) for item in node.items))
    if not isinstance(node, Map):
        return node
    entries = tuple(
        replace(entry, value=Text(_STAND_INS[kind], entry.value.at))
        if _is_unknown(entry.value)
        else replace(entry, value=_stand_in(entry.value, kind))
        for entry in node.entries
    )
    return replace(node, entries=entries)


@dataclass(frozen=True)
class UnknownBody(Body):
    """A nest with unknown elements, as far as it could be read.

    Attributes:
        nest: the nest with stand-ins.
        unknown: the elements that are to be found, with their places.
        facts: what was measured.
        faults: of the file.
    """

    nest: NestBody
    unknown: Mapping[str, Mark]
    facts: tuple[Fact, ...]
    faults: Faults

    @property
    def mentions(self) -> tuple[str, ...] | None:
        """The elements and the source."""
        return self.nest.mentions

    @property
    def step_ids(self) -> tuple[str, ...]:
        """Steps depend on what was measured; they are known once the problem is solved."""
        return ()

    def find(self, entry: Entry) -> tuple[Name, ...]:
        """The names under ``find:``; an unknown element's value is asked for by its name."""
        node = entry.value
        items = node.items if isinstance(node, Items) else (node,)
        own = [(item, self._value_of(item)) for item in items]
        found = [name for _, name in own if name is not None]
        rest = tuple(item for item, name in own if name is None)
        if rest or not items:
            asking = Asking(self.nest.circuit, self.faults)
            found += asking.find(replace(entry, value=Items(rest, node.at)))
        return tuple(dict.fromkeys(found))

    def answer(self, node: Node) -> Name | None:
        """The quantity that answers a question."""
        return self._value_of(node) or Asking(self.nest.circuit, self.faults).answer(node)

    def _value_of(self, item: Node) -> Name | None:
        """The value of an unknown element, if that is what is asked: ``C2``."""
        law = self.nest.circuit.law
        of = item
        if isinstance(item, Map) and len(item.entries) == 1 and law is not None:
            only = item.entries[0]
            of = only.value if only.key.value == law.value else item
        if law is not None and isinstance(of, Text) and of.value in self.unknown:
            return Name(law.value, of.value)
        return None

    def problem(self, common: Mapping[str, Any]) -> UnknownProblem | None:
        """The problem, if everything could be read."""
        circuit = self.nest.circuit
        law, network, tree = circuit.law, circuit.network, circuit.tree
        if law is None or network is None or tree is None:
            return None
        return UnknownProblem(
            law=law, network=network, tree=tree, unknown=self.unknown, facts=self.facts, **common
        )
