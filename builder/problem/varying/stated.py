"""Which values a problem's file states, and where each stands in its text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from builder.circuit.law import LAWS
from builder.circuit.switching import moment
from builder.problem.faults.gathering import Faults, Mark
from builder.problem.model import Problem
from builder.problem.network.read_so_far import INNER_PREFIX
from builder.problem.parts import DEFAULT_NAMES, EQUIVALENT
from builder.problem.relations.quantities import read_stated
from builder.problem.relations.unknowns import UnknownProblem
from builder.problem.shape import CircuitShape, ItemShape, keys_of
from builder.problem.stages.reading import STAGES
from builder.problem.table import SOURCES
from builder.problem.transient.moments import START, at
from builder.problem.yaml_text.composing import compose
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text
from builder.quantity.measure import Measure
from builder.quantity.names import TOTAL, Name

CHARGED = "charged"
_GROUPS = keys_of(ItemShape)
_BESIDE = tuple(key for key in keys_of(CircuitShape) if key not in _GROUPS)
_OF_PLATES = {"area": "A", "gap": "d", "capacitance": "C0", "voltage": "V", "charge": "Q"}
_OF_FILLING = {"kappa": "kappa", "metal": "t", "strength": "E_max"}
_OF_PARTS = {"thickness": "d", "area": "A", "kappa": "kappa", "strength": "E_max"}


@dataclass(frozen=True)
class StatedValue:
    """A value in a problem's file that could be another.

    Attributes:
        name: the name under which ``Solution.givens`` has it.
        measure: the value as typed.
        start, end: where its text stands in the text of the file, without quotation marks.
        called: how its author speaks of it: ``C1``; ``C1.charged`` of a charge or a voltage at
            the start; ``C1.current`` of what was measured.
        at: line and column of the value.
        of_material: whether it belongs to a material that the author names, such as glass.
    """

    name: Name
    measure: Measure
    start: int
    end: int
    called: str
    at: Mark
    of_material: bool = False


def stated_values(problem: Problem) -> tuple[StatedValue, ...]:
    """The values that a problem's file states as numbers, in the order of the file.

    Letters are none, nor is a value that is written as a block of lines. What is asked about (times
    and voltages under ``find:``) and constants of nature are none either.

    Returns:
        Nothing for a problem without a file.
    """
    if not problem.text:
        return ()
    whole = problem.tree.id if isinstance(problem, UnknownProblem) else TOTAL
    return _stated_in(problem.text, whole)


@lru_cache(maxsize=256)
def _stated_in(text: str, whole: str) -> tuple[StatedValue, ...]:
    """What a sound file states.

    Args:
        text: of the file.
        whole: the name of the equivalent of the whole circuit.
    """
    return stated_in(compose(text, Faults("")), whole)


def stated_in(root: Map, whole: str = TOTAL) -> tuple[StatedValue, ...]:
    """What a file states, as far as it can be read, in its order.

    Args:
        root: all of the file.
        whole: the name of the equivalent of the whole circuit.
    """
    found = [*_of_circuit(root), *_measured(root, whole), *_quantities(root), *_plates(root)]
    return tuple(sorted(found, key=lambda stated: stated.start))


def _stated(
    node: Node, of: str, *, called: str = "", material: bool = False
) -> Iterator[StatedValue]:
    """The value that a node states, unless it is a letter, a word or a block of lines.

    Args:
        node: what stands there.
        of: what the quantity belongs to; empty for a source without a name.
        called: how its author speaks of it; as ``of`` if left out.
        material: whether it belongs to a named material.
    """
    measure = _measure(node)
    if measure is not None and isinstance(node, Text) and node.span is not None:
        name = Name(measure.kind, of or DEFAULT_NAMES.get(measure.kind, ""))
        yield StatedValue(name, measure, *node.span, called or name.of, node.at, material)


def _measure(node: Node) -> Measure | None:
    faults = Faults("")
    return read_stated(node, faults) if isinstance(node, Text) and node.value.strip() else None


def _of_circuit(root: Map) -> Iterator[StatedValue]:
    circuit = root.get("circuit")
    if circuit is None or not isinstance(circuit.value, Map):
        return
    in_stages = root.get(STAGES) is not None
    for entry in circuit.value.entries:
        if entry.key.value == "source":
            yield from _source(entry.value)
        elif entry.key.value == "branches" and isinstance(entry.value, Map):
            for row in entry.value.entries:
                yield from _row(row, in_stages=in_stages)
        elif entry.key.value not in _BESIDE:
            yield from _nest(entry)


def _source(node: Node) -> Iterator[StatedValue]:
    if isinstance(node, Map):
        for entry in node.entries:
            yield from _stated(entry.value, entry.key.value)
    else:
        yield from _stated(node, "")


def _nest(entry: Entry) -> Iterator[StatedValue]:
    """An element, or the elements of a group."""
    if entry.key.value in _GROUPS:
        items = entry.value.items if isinstance(entry.value, Items) else ()
        for item in items:
            for inner in item.entries if isinstance(item, Map) else ():
                yield from _nest(inner)
        return
    value = entry.value
    if isinstance(value, Map) and len(value.entries) == 1 and value.entries[0].key.value in LAWS:
        value = value.entries[0].value
    yield from _stated(value, entry.key.value)


def _row(row: Entry, *, in_stages: bool) -> Iterator[StatedValue]:
    name = row.key.value
    for entry in row.value.entries if isinstance(row.value, Map) else ():
        key = entry.key.value
        if key in (*LAWS, *SOURCES):
            yield from _stated(entry.value, name)
        elif key == "inner":
            yield from _stated(entry.value, INNER_PREFIX + name)
        elif key == CHARGED:
            first = moment(name, 0) if in_stages else at("", name, START).of
            yield from _stated(entry.value, first, called=f"{name}.{CHARGED}")


def _measured(root: Map, whole: str) -> Iterator[StatedValue]:
    measured = root.get("measured")
    for entry in measured.value.entries if measured and isinstance(measured.value, Map) else ():
        quantity = entry.key.value
        if quantity == EQUIVALENT:
            yield from _stated(entry.value, whole, called=EQUIVALENT)
        for one in entry.value.entries if isinstance(entry.value, Map) else ():
            of = one.key.value
            called = f"{of}.{quantity}"
            yield from _stated(one.value, whole if of == TOTAL else of, called=called)


def _quantities(root: Map) -> Iterator[StatedValue]:
    quantities = root.get("quantities")
    listed = quantities.value.entries if quantities and isinstance(quantities.value, Map) else ()
    for entry in listed:
        node: Node | None = entry.value
        if isinstance(node, Map):
            value = node.get("value")
            node = value.value if value else None
        if node is not None:
            yield from _stated(node, entry.key.value)


def _plates(root: Map) -> Iterator[StatedValue]:
    plates = root.get("plates")
    if plates is None or not isinstance(plates.value, Map):
        return
    before = "0" if plates.value.get("battery") else ""
    for entry in plates.value.entries:
        key = entry.key.value
        if key in _OF_PLATES:
            driving = key in ("voltage", "charge")
            yield from _stated(entry.value, _OF_PLATES[key] + (before if driving else ""))
        elif key == "filling" and isinstance(entry.value, Map):
            yield from _filling(entry.value)


def _filling(filling: Map) -> Iterator[StatedValue]:
    yield from _of_part(filling, _OF_FILLING, "")
    for way in ("layers", "slabs"):
        entry = filling.get(way)
        items = entry.value.items if entry and isinstance(entry.value, Items) else ()
        for number, item in enumerate(items, 1):
            if isinstance(item, Map):
                yield from _of_part(item, _OF_PARTS, str(number))


def _of_part(part: Map, letters: dict[str, str], number: str) -> Iterator[StatedValue]:
    named = part.get("called") is not None
    for entry in part.entries:
        key = entry.key.value
        if key in letters:
            material = key == "strength" or (key == "kappa" and named)
            yield from _stated(entry.value, letters[key] + number, material=material)
