"""A table of branches between named junctions as rows, whatever kind of problem it belongs to."""

from __future__ import annotations

import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field

from builder.circuit.law import LAWS
from builder.problem.faults.gathering import Faults, nearest, one_of, quoted
from builder.problem.limits import MOST_ELEMENTS
from builder.problem.parts import (
    ELEMENT_VALUE,
    EXAMPLES,
    above_zero,
    check_name,
    read_value,
)
from builder.problem.shape import BranchShape, keys_of
from builder.problem.typed import as_map, choice_of, describe, refuse_unknown_keys
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text, Unusable
from builder.quantity.measure import Measure, MeasureError, read_measure

_BRANCH = "an element with its ends, such as {resistance: 100 ohm, between: [top, bottom]}"
_SHORT = 24
_ENDS = "two junctions, such as [top, bottom]"
_JUNCTION = re.compile(r"[A-Za-z0-9][A-Za-z0-9_ -]{0,19}")

ELEMENTS = tuple(LAWS)
SOURCES = {"emf": "voltage", "current": "current"}
"""What the value of each kind of source measures."""
SWITCH = "switch"
SWITCH_STATES = ("open", "closed")
VALUES = (*ELEMENTS, *SOURCES, SWITCH)
"""The keys of which each branch has one: they say what it is."""
EXTRAS = {"charged": ("capacitance",), "inner": ("emf",)}
"""Further keys of a branch, and beside which values each may stand."""
_NO_VALUE = f"{one_of(ELEMENTS)}, emf or current for a source, or switch"


@dataclass(frozen=True)
class Row:
    """One branch.

    Attributes:
        name: as typed.
        kind: one of ``VALUES``.
        value: positive; None for a switch.
        ends: the two different junctions; of a source the + one first (a current leaves there).
        more: the further keys as typed: ``charged``, ``inner``, and of a switch ``switch``.
        at: where the value stands, for faults.
    """

    name: Text
    kind: str
    value: Measure | None
    ends: tuple[Text, Text]
    more: Mapping[str, Entry]
    at: Node

    @property
    def is_element(self) -> bool:
        """Whether it is a capacitor or a resistor."""
        return self.kind in ELEMENTS

    @property
    def is_source(self) -> bool:
        """Whether it is a source of voltage or of current."""
        return self.kind in SOURCES

    @property
    def between(self) -> tuple[str, str]:
        """The names of its junctions."""
        return self.ends[0].value, self.ends[1].value


@dataclass(frozen=True)
class Table:
    """A table of branches as far as it could be read.

    Attributes:
        at: its key, for faults of the whole table.
        rows: those without a fault, in the author's order.
        named: the kind of each name as far as it could be told (else empty), faulty rows too.
        names_known: whether ``named`` is complete.
        sound: whether there was no fault.
    """

    at: Text
    rows: tuple[Row, ...] = ()
    named: Mapping[str, str] = field(default_factory=dict)
    names_known: bool = True
    sound: bool = True

    @property
    def kinds_known(self) -> bool:
        """Whether it is known of every branch what it is."""
        return self.names_known and "" not in self.named.values()

    def of(self, *kinds: str) -> tuple[Row, ...]:
        """The rows of some kinds."""
        return tuple(row for row in self.rows if row.kind in kinds)

    @property
    def elements(self) -> tuple[Row, ...]:
        """Capacitors and resistors."""
        return self.of(*ELEMENTS)

    @property
    def sources(self) -> tuple[Row, ...]:
        """Sources of voltage and of current."""
        return self.of(*SOURCES)


def read_table(entry: Entry, faults: Faults) -> Table:
    """Read the table under ``branches:``.

    Args:
        entry: the key with its value.
        faults: takes what is wrong with any row.
    """
    before = len(faults)
    table = as_map(entry.value, "a name for each element, with its value and its ends", faults,
                   "Write each element on a line of its own: "
                   "R1: {resistance: 100 ohm, between: [top, bottom]}.")  # fmt: skip
    if table is None:
        return Table(entry.key, names_known=False, sound=False)
    taken = table.entries[:MOST_ELEMENTS]
    if len(table.entries) > MOST_ELEMENTS:
        faults.add(table.entries[MOST_ELEMENTS].key.at, f"more than {MOST_ELEMENTS} elements",
                   f"at most {MOST_ELEMENTS}", "Make the circuit smaller.")  # fmt: skip
    rows = [_read_row(branch, faults) for branch in taken]
    return Table(
        entry.key,
        tuple(row for row in rows if row is not None),
        {branch.key.value: _kind(branch.value) for branch in taken},
        names_known=len(taken) == len(table.entries),
        sound=len(faults) == before,
    )


def _kind(node: Node) -> str:
    """The first of the keys that say what a branch is; empty if there is none."""
    keys = [entry.key.value for entry in node.entries] if isinstance(node, Map) else []
    return next((key for key in keys if key in VALUES), "")


def _read_row(branch: Entry, faults: Faults) -> Row | None:
    name = branch.key
    before = len(faults)
    shape = as_map(branch.value, _BRANCH, faults, f"Write {name.value}: {{{_said(branch.value)}, "
                   "between: [top, bottom]}.")  # fmt: skip
    if shape is None:
        return None
    _refuse_unknown_keys(shape, faults)
    between = shape.get("between")
    ends = None
    if between is None and not _is_misspelled("between", shape):
        faults.add(name.at, f"{quoted(name.value)} without its ends", f"between: {_ENDS}",
                   "Add between: with the two junctions.")  # fmt: skip
    elif between is not None:
        ends = read_ends(between, f"both ends of {name.value}", faults)
    kind = _kind(shape)
    if not kind:
        if len(faults) == before:
            faults.add(name.at, f"{quoted(name.value)} without a value", _NO_VALUE,
                       "Add its value.")  # fmt: skip
        return None
    check_name(name, _whose(kind), faults)
    _refuse_second_value(shape, kind, name, faults)
    _refuse_extras(shape, kind, faults)
    entry = shape.get(kind)
    assert entry is not None
    value = _value(entry, kind, name, faults)
    if len(faults) > before or ends is None:
        return None
    more = {e.key.value: e for e in shape.entries if e.key.value in (*EXTRAS, SWITCH)}
    return Row(name, kind, value, ends, more, entry.value)


def _is_misspelled(key: str, shape: Map) -> bool:
    """Whether one of the unknown keys is told to be this one already."""
    known = keys_of(BranchShape)
    unknown = [entry.key.value for entry in shape.entries if entry.key.value not in known]
    return any(nearest(word, known) == key for word in unknown)


def _whose(kind: str) -> str:
    return "a source" if kind in SOURCES else "a switch" if kind == SWITCH else "an element"


def _said(value: Node) -> str:
    """What a branch in short form would be in the long one; an example where that is not plain."""
    if isinstance(value, Text) and len(value.value) <= _SHORT:
        keys = {kind: key for key, kind in SOURCES.items()} | {kind: kind for kind in ELEMENTS}
        with suppress(MeasureError):
            kind = read_measure(value.value).kind
            if kind in keys:
                return f"{keys[kind]}: {value.value}"
        if value.value in SWITCH_STATES:
            return f"{SWITCH}: {value.value}"
    return "resistance: 100 ohm"


def _refuse_unknown_keys(shape: Map, faults: Faults) -> None:
    voltage = shape.get("voltage")
    known = keys_of(BranchShape)
    if voltage is not None and shape.get("emf") is None:
        faults.add(voltage.key.at, 'the key "voltage"', one_of(known), "For a source, write emf.",
                   instead="emf")  # fmt: skip
        known = (*known, "voltage")
    refuse_unknown_keys(shape, known, faults)


def _refuse_second_value(shape: Map, kind: str, name: Text, faults: Faults) -> None:
    values = [entry.key for entry in shape.entries if entry.key.value in VALUES]
    if len(values) < 2:
        return
    sources = [key for key in values if key.value in SOURCES]
    others = [key for key in values if key.value not in SOURCES]
    if sources and others:
        faults.add(others[0].at, f"{others[0].value} beside {sources[0].value}",
                   "one value for each branch",
                   "Give the element a branch of its own.")  # fmt: skip
    else:
        faults.add(values[1].at, f"two values for {name.value}",
                   f"{one_of(sorted({key.value for key in values}))}, not both",
                   "Delete one of them.")  # fmt: skip


def _refuse_extras(shape: Map, kind: str, faults: Faults) -> None:
    for key, hosts in EXTRAS.items():
        entry = shape.get(key)
        if entry is not None and kind not in hosts:
            advice = ("Give the resistor a branch of its own." if key == "inner"
                      else "Delete it: only a capacitor can start charged.")  # fmt: skip
            faults.add(entry.key.at, f"{key} beside {kind}", f"{key} only beside {one_of(hosts)}",
                       advice)  # fmt: skip


def _value(entry: Entry, kind: str, name: Text, faults: Faults) -> Measure | None:
    if kind == SWITCH:
        choice_of(entry.value, SWITCH_STATES, faults)
        return None
    measured = SOURCES.get(kind, kind)
    expected = EXAMPLES.get(measured, ELEMENT_VALUE)
    measure = read_value(entry.value, (measured,), expected, faults, symbol_for=name.value)
    return above_zero(measure, entry.value, name.value if kind in ELEMENTS else None, faults)


def read_ends(entry: Entry, whose: str, faults: Faults) -> tuple[Text, Text] | None:
    """The two different junctions under ``between:`` or ``across:``."""
    node = entry.value
    if isinstance(node, Unusable):
        return None
    if not isinstance(node, Items) or len(node.items) != 2:
        faults.add(node.at, describe(node), _ENDS,
                   "Write two names in square brackets, with a comma between them.")  # fmt: skip
        return None
    first, second = (read_junction(item, faults) for item in node.items)
    if first is None or second is None:
        return None
    if first.value == second.value:
        faults.add(second.at, f"{whose} at the junction {quoted(first.value)}",
                   "two different junctions", "Change one of the two.")  # fmt: skip
        return None
    return first, second


def read_junction(node: Node, faults: Faults) -> Text | None:
    """The name of a junction."""
    if isinstance(node, Text) and _JUNCTION.fullmatch(node.value):
        return node
    if not isinstance(node, Unusable):
        faults.add(node.at, f"{describe(node)} as a junction",
                   "letters, digits, spaces, _ or -, at most 20 in all",
                   "Choose a name such as top or a.")  # fmt: skip
    return None
