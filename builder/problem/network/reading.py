"""A table of branches, and what the author says beside it, become a network."""

from __future__ import annotations

from dataclasses import replace

from builder.circuit.network import Element, Network, Source
from builder.problem.faults.gathering import Faults, quoted
from builder.problem.network.beside import read_beside
from builder.problem.network.read_so_far import INNER_PREFIX, INSIDE, NetworkReading
from builder.problem.network.soundness import refuse_unsound
from builder.problem.parts import EXAMPLES, Given, Parts, read_value
from builder.problem.table import ELEMENTS, SOURCES, Row, Table
from builder.problem.together import check_together
from builder.problem.yaml_text.located import Entry, Map, Text
from builder.quantity.kinds import KINDS
from builder.quantity.names import element_index


def read_network(circuit: Map, table: Table, faults: Faults) -> NetworkReading:
    """Read a network from its table and what stands beside it under ``circuit:``.

    Args:
        circuit: keys and values.
        table: its branches, read already.
        faults: takes whatever is wrong.
    """
    before = len(faults)
    reading = NetworkReading(table, faults)
    _take_rows(reading)
    read_beside(circuit, reading)
    _check_names(reading)
    if table.sound and len(faults) == before:
        refuse_unsound(reading.rows, reading.points, table.at.at, faults)
    if table.sound and len(faults) == before:
        reading.network = _network(reading)
    return reading


def _take_rows(reading: NetworkReading) -> None:
    law = reading.law
    for row in reading.table.rows:
        entry = row.more.get("inner")
        inner = _inner(row, entry, reading) if entry is not None else None
        if inner is not None:
            reading.inner[row.name.value] = inner.name.value
            inside = Text(row.name.value + INSIDE, row.ends[0].at)
            reading.rows += [replace(row, ends=(inside, row.ends[1])), inner]
        else:
            reading.rows.append(row)
        if row.kind == "current" and law is not None and law.flow != "current":
            reading.faults.add(row.name.at, f"the current source {row.name.value} in a circuit of "
                               f"{law.element}s", "sources of voltage",
                               "A steady current would charge the capacitors for ever. Write emf: "
                               "with a voltage.")  # fmt: skip


def _inner(row: Row, entry: Entry, reading: NetworkReading) -> Row | None:
    """The internal resistance of a source as an element of its own, at its + terminal."""
    law, faults, name = reading.law, reading.faults, INNER_PREFIX + row.name.value
    if law is not None and law.value != "resistance":
        faults.add(entry.key.at, f"inner, in a circuit of {law.element}s",
                   "sources without internal resistance",
                   "Delete it: it changes nothing once no charge moves any more.")  # fmt: skip
        return None
    if name in reading.table.named:
        faults.add(entry.key.at, f"the internal resistance of {row.name.value}, which is called "
                   f"{name} as an element is", "each name once",
                   "Give the element another name.")  # fmt: skip
        return None
    measure = read_value(entry.value, ("resistance",), EXAMPLES["resistance"], faults)
    if measure is not None and measure.value <= 0:
        faults.add(entry.value.at, f"an internal resistance of {measure.shown.text}",
                   "a resistance above zero",
                   "Leave inner out for a source without one." if measure.value == 0
                   else "Delete the minus sign.")  # fmt: skip
    inside = Text(row.name.value + INSIDE, row.ends[0].at)
    return Row(Text(name, row.name.at), "resistance", measure, (inside, row.ends[0]), {},
               entry.value)  # fmt: skip


def _check_names(reading: NetworkReading) -> None:
    """Names that would be printed alike.

    A source ``V1`` may stand beside ``R1``: the voltage of R1 is then printed with its full name.
    """
    parts = Parts(reading.faults)
    for row in reading.rows:
        if row.is_element:
            parts.elements[row.name.value] = Given(row.name, row.at, row.value)
    check_together(parts)
    seen: dict[tuple[str, str], str] = {}
    for row in reading.rows:
        if not row.is_source:
            continue
        name, kind = row.name, KINDS[SOURCES[row.kind]].symbol
        printed = (kind, element_index(name.value, kind))
        if name.value in parts.elements:
            reading.faults.add(name.at, f"the name {quoted(name.value)} for a source and an "
                               "element", "each name once",
                               "Give one of the two another name.")  # fmt: skip
        elif printed in seen:
            reading.faults.add(name.at, f"the names {quoted(seen[printed])} and "
                               f"{quoted(name.value)}", "names that look different on the page",
                               "Both would be printed alike. Give one of them another "
                               "name.")  # fmt: skip
        seen.setdefault(printed, name.value)


def _network(reading: NetworkReading) -> Network | None:
    elements = [row for row in reading.rows if row.kind in ELEMENTS]
    sources = [row for row in reading.rows if row.is_source]
    terminals = reading.points or (sources[0].between if sources else None)
    if terminals is None:
        reading.faults.add(reading.table.at.at, "branches without terminals",
                           "a source among the branches, such as "
                           "V0: {emf: 9 V, between: [top, bottom]}, or across: [top, bottom]",
                           "Add the source to the branches, or say with across: between which "
                           "junctions the circuit is looked at.")  # fmt: skip
        return None
    return Network(
        tuple(
            Element(row.name.value, row.value.value, row.value.shown, row.between)
            for row in elements
            if row.value is not None
        ),
        terminals,
        tuple(
            Source(row.name.value, row.value.kind, row.value.value, row.value.shown, row.between)
            for row in sources
            if row.value is not None
        ),
    )
