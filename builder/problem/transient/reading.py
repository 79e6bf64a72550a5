"""A table of resistors, capacitors, sources and switches, and what changes, become a circuit."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction

from builder.circuit.mixed import MixedCircuit
from builder.circuit.network import Element, Source
from builder.circuit.switching import Charged, Switch
from builder.problem.faults.gathering import Faults, meant, one_of, quoted
from builder.problem.network.read_so_far import INNER_PREFIX, INSIDE
from builder.problem.parts import EXAMPLES, above_zero, read_value
from builder.problem.placing import read_place
from builder.problem.shape import ChangeShape, keys_of
from builder.problem.stages.stage_list import starts_closed
from builder.problem.table import SOURCES, SWITCH, Row, Table
from builder.problem.typed import as_map, describe, refuse_unknown_keys
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text
from builder.quantity.names import element_index

_TAKEN = ("branches", "place")
_CHARGED = "a voltage such as 12 V, or a charge such as 60 uC"
_FEW = 8


@dataclass
class TransientReading:
    """A circuit that charges or discharges as far as it could be read.

    Attributes:
        table: the branches.
        faults: of the file.
        circuit: None if there is a fault.
        charged, place: as ``TransientProblem`` has them.
        flipped: the switches that change.
        change_at: where the change stands, for faults; the table without one.
    """

    table: Table
    faults: Faults
    circuit: MixedCircuit | None = None
    charged: dict[str, Charged] = field(default_factory=dict)
    flipped: frozenset[str] = frozenset()
    place: dict[str, tuple[Fraction, Fraction]] = field(default_factory=dict)
    change_at: Text | None = None


def read_transient(
    circuit: Map, table: Table, change: Entry | None, faults: Faults
) -> TransientReading:
    """Read a circuit that charges or discharges.

    Args:
        circuit: what stands under ``circuit:``.
        table: its branches, read already.
        change: the entry ``change:``, or None without one.
        faults: takes what is wrong.
    """
    reading = TransientReading(table, faults)
    _refuse_other_keys(circuit, faults)
    rows = _with_inner(table, faults)
    _check_names(rows, faults)
    _need_both_kinds(table, faults)
    _read_charged(reading)
    if change is not None:
        reading.flipped = _read_change(change, reading)
        reading.change_at = change.key
    junctions = tuple(dict.fromkeys(end for row in table.rows for end in row.between))
    reading.place = read_place(circuit, junctions, faults)
    if table.sound and not len(faults):
        reading.circuit = _circuit(rows, reading.flipped)
    return reading


def _refuse_other_keys(circuit: Map, faults: Faults) -> None:
    for entry in circuit.entries:
        key = entry.key
        if key.value == "source":
            faults.add(key.at, "source beside branches of resistors and capacitors",
                       one_of(_TAKEN), "Write the source among the branches: V0: {emf: 12 V, "
                       "between: [top, bottom]}.")  # fmt: skip
        elif key.value not in _TAKEN:
            faults.add(key.at, f"{quoted(key.value)} in a circuit of resistors and capacitors",
                       one_of(_TAKEN), meant(key.value, _TAKEN, "Delete it."))  # fmt: skip


def _with_inner(table: Table, faults: Faults) -> list[Row]:
    """The rows, an internal resistance being a resistor of its own at the + terminal."""
    rows: list[Row] = []
    for row in table.rows:
        entry = row.more.get("inner")
        if entry is None:
            rows.append(row)
            continue
        name = Text(INNER_PREFIX + row.name.value, row.name.at)
        if name.value in table.named:
            faults.add(entry.key.at, f"the internal resistance of {row.name.value}, which is "
                       f"called {name.value} as an element is", "each name once",
                       "Give the element another name.")  # fmt: skip
        measure = read_value(entry.value, ("resistance",), EXAMPLES["resistance"], faults)
        measure = above_zero(measure, entry.value, name.value, faults)
        inside = Text(row.name.value + INSIDE, row.ends[0].at)
        rows.append(replace(row, ends=(inside, row.ends[1])))
        if measure is not None:
            ends = (inside, row.ends[0])
            rows.append(Row(name, "resistance", measure, ends, {}, entry.value))
    return rows


_LETTERS = {"resistance": "R", "capacitance": "C", "emf": "V", "current": "I", SWITCH: "S"}


def _check_names(rows: list[Row], faults: Faults) -> None:
    """Refuse names that would be printed alike."""
    printed: dict[tuple[str, str], str] = {}
    for row in rows:
        letter = _LETTERS[row.kind]
        key = (letter, element_index(row.name.value, letter))
        if key in printed:
            faults.add(row.name.at, f"the names {quoted(printed[key])} and "
                       f"{quoted(row.name.value)}", "names that look different on the page",
                       "Both would be printed alike. Give one of them another "
                       "name.")  # fmt: skip
        printed.setdefault(key, row.name.value)


def _need_both_kinds(table: Table, faults: Faults) -> None:
    kinds = set(table.named.values())
    if not table.kinds_known:
        return
    if "capacitance" not in kinds:
        faults.add(table.at.at, "a change in a circuit without capacitors",
                   "at least one capacitor", "Nothing takes time here: delete change, or add a "
                   "capacitor.")  # fmt: skip
    elif "resistance" not in kinds:
        faults.add(table.at.at, "a change in a circuit without resistors",
                   "at least one resistor", "Without resistance it charges at once. Add the "
                   "resistor, or write stages: instead of change:.")  # fmt: skip


def _read_charged(reading: TransientReading) -> None:
    for row in reading.table.of("capacitance"):
        entry = row.more.get("charged")
        if entry is None:
            continue
        measure = read_value(entry.value, ("voltage", "charge"), _CHARGED, reading.faults)
        if measure is None:
            continue
        if measure.value <= 0:
            advice = ("Delete charged: a capacitor without it starts empty." if measure.value == 0
                      else f"The first junction of {row.name.value} is the + one: write its "
                      "junctions the other way round, without the minus sign.")  # fmt: skip
            reading.faults.add(entry.value.at, f"a capacitor charged to {measure.shown.text}",
                               "a voltage or a charge above zero", advice)  # fmt: skip
        else:
            reading.charged[row.name.value] = Charged(measure.kind, measure.value, measure.shown)


def _read_change(entry: Entry, reading: TransientReading) -> frozenset[str]:
    """The switches that change at t = 0."""
    table, faults = reading.table, reading.faults
    node = as_map(entry.value, "what changes at t = 0, such as {close: S1}", faults,
                  "Write close: or open: with the names of switches.")  # fmt: skip
    if node is None:
        return frozenset()
    keys = keys_of(ChangeShape)
    refuse_unknown_keys(node, keys, faults)
    closed = {row.name.value for row in table.of(SWITCH) if starts_closed(row)}
    flipped: set[str] = set()
    for done in node.entries:
        if done.key.value not in keys:
            continue
        items = done.value.items if isinstance(done.value, Items) else (done.value,)
        for item in items:
            name = _switch(item, table, faults)
            if name is None:
                continue
            closes = done.key.value == "close"
            if (name in closed) == closes:
                faults.add(item.at, f"{name}, which is {'closed' if closes else 'open'} already",
                           f"a switch that is {'open' if closes else 'closed'} at first",
                           f"Delete it, or write switch: {'open' if closes else 'closed'} in the "
                           f"row of {name}.")  # fmt: skip
            elif name in flipped:
                faults.add(item.at, f"{quoted(name)} a second time", "each switch once",
                           "Delete one of the two.")  # fmt: skip
            flipped.add(name)
    return frozenset(flipped)


def _switch(item: Node, table: Table, faults: Faults) -> str | None:
    known = tuple(name for name, kind in table.named.items() if kind == SWITCH)
    if not isinstance(item, Text) or not item.value.strip():
        faults.add(item.at, describe(item), "the name of a switch",
                   "Write close: with a name, or several in square brackets.")  # fmt: skip
        return None
    if item.value in known or not table.kinds_known:
        return item.value
    few = known if len(known) <= _FEW else (*known[:7], "another switch")
    found = f"{quoted(item.value)}, which is no switch of the circuit"
    if not known:
        faults.add(item.at, found, "a switch of the circuit, which has none",
                   "Add a row such as S1: {switch: open, between: [a, b]}.")  # fmt: skip
    else:
        faults.add(item.at, found, one_of(few),
                   meant(item.value, known, "Name a switch of this circuit."))  # fmt: skip
    return None


def _circuit(rows: list[Row], flipped: frozenset[str]) -> MixedCircuit:
    def elements(kind: str) -> tuple[Element, ...]:
        return tuple(
            Element(row.name.value, row.value.value, row.value.shown, row.between)
            for row in rows
            if row.kind == kind and row.value is not None
        )

    sources = tuple(
        Source(row.name.value, SOURCES[row.kind], row.value.value, row.value.shown, row.between)
        for row in rows
        if row.is_source and row.value is not None
    )
    switches = tuple(
        Switch(row.name.value, row.between, starts_closed(row))
        for row in rows
        if row.kind == SWITCH
    )
    return MixedCircuit(elements("resistance"), elements("capacitance"), sources, switches, flipped)
