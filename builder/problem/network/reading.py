"""A table of branches, and what the author says beside it, become a network."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction

from builder.circuit.law import LAWS, Law
from builder.circuit.network import Element, Network, Source
from builder.problem.faults.gathering import Faults, meant, one_of, quoted
from builder.problem.model import METHODS
from builder.problem.network.soundness import refuse_unsound
from builder.problem.parts import EXAMPLES, SOURCE_KINDS, Given, Parts, read_value
from builder.problem.placing import read_place
from builder.problem.table import ELEMENTS, SOURCES, Row, Table, read_ends
from builder.problem.together import check_together
from builder.problem.typed import as_text, choice_of
from builder.problem.yaml_text.located import Entry, Map, Text
from builder.quantity.kinds import KINDS
from builder.quantity.names import element_index

INNER_PREFIX = "r_"
"""Before a source's name it is the name of that source's internal resistance."""
INSIDE = "+"
"""After a source's name it is the name of the point between it and its internal resistance."""
_FEW = 8


@dataclass
class NetworkReading:
    """A network as far as it could be read.

    Attributes:
        table: the branches.
        faults: of the file.
        rows: elements and sources, internal resistances among them.
        inner: the element that is a source's internal resistance, by the source's name.
        network: None if there is a fault.
        method, method_at, reference, points, load, place: as ``NetworkProblem`` has them.
    """

    table: Table
    faults: Faults
    rows: list[Row] = field(default_factory=list)
    inner: dict[str, str] = field(default_factory=dict)
    network: Network | None = None
    method: str | None = None
    method_at: tuple[int, int] = (0, 0)
    reference: str | None = None
    points: tuple[str, str] | None = None
    load: str | None = None
    place: dict[str, tuple[Fraction, Fraction]] = field(default_factory=dict)

    @property
    def law(self) -> Law | None:
        """Of the elements, as far as one can be read."""
        return next((LAWS[kind] for kind in self.table.named.values() if kind in LAWS), None)

    @property
    def sources(self) -> dict[str, str]:
        """The kind of quantity that each source gives, by its name."""
        return {row.name.value: SOURCES[row.kind] for row in self.rows if row.is_source}

    @property
    def junctions(self) -> tuple[str, ...]:
        """All junctions that the author named, in the order of the table."""
        return tuple(dict.fromkeys(end for row in self.table.rows for end in row.between))


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
    _take_outer_source(circuit, reading)
    _read_method(circuit, reading)
    _read_points(circuit, reading)
    _read_place(circuit, reading)
    _refuse_other_keys(circuit, faults)
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


def _take_outer_source(circuit: Map, reading: NetworkReading) -> None:
    """A source that stands beside the branches drives between the points of ``across``."""
    entry, across, faults = circuit.get("source"), circuit.get("across"), reading.faults
    if entry is None:
        return
    if reading.sources:
        first = next(iter(reading.sources))
        faults.add(entry.key.at, f"source beside the source {first} in branches",
                   "every source in the branches, with its ends",
                   "Move it there, such as V2: {emf: 3 V, between: [top, bottom]}, or delete "
                   "it.")  # fmt: skip
        return
    ends = read_ends(across, "both terminals", faults) if across is not None else None
    node = entry.value
    parts = Parts(faults)
    if isinstance(node, Map) and len(node.entries) == 1:
        parts.set_source(node.entries[0].key, node.entries[0].value, SOURCE_KINDS[:2])
    else:
        parts.set_source(None, node, SOURCE_KINDS[:2])
    given = parts.source
    if given is None or given.measure is None:
        return
    if ends is None:
        if across is None:
            faults.add(entry.key.at, "a source without its ends",
                       "across: beside it, such as across: [top, bottom]",
                       "Say between which junctions it stands.")  # fmt: skip
        return
    kind = next(kind for kind, measured in SOURCES.items() if measured == given.measure.kind)
    reading.rows.insert(0, Row(given.name, kind, given.measure, ends, {}, given.at))


def _read_method(circuit: Map, reading: NetworkReading) -> None:
    entry, faults = circuit.get("method"), reading.faults
    if entry is not None:
        reading.method = choice_of(entry.value, METHODS, faults)
        reading.method_at = (entry.value.at.line, entry.value.at.column)
    reference = circuit.get("reference")
    if reference is not None:
        reading.reference = _known(reference, reading.junctions, "no junction of the circuit",
                                   faults)  # fmt: skip
    if reading.method is None or entry is None:
        return
    several = len(reading.sources)
    if reading.method not in ("junctions", "loops", "superposition", "equivalent-source"):
        if several > 1:
            faults.add(entry.value.at, f"method: {reading.method} in a circuit of several sources",
                       one_of(METHODS[4:]), "Circuits get smaller step by step only where a single "
                       "source drives them.")  # fmt: skip
    elif reading.method == "superposition" and several < 2:
        faults.add(entry.value.at, "method: superposition with fewer than two sources",
                   "at least two sources", "Delete the method, or choose another one.")  # fmt: skip
    elif several == 0:
        faults.add(entry.value.at, f"method: {reading.method} in a circuit without a source",
                   one_of(METHODS[:4]), "Add a source, or choose another method.")  # fmt: skip


def _read_points(circuit: Map, reading: NetworkReading) -> None:
    across, load, faults = circuit.get("across"), circuit.get("load"), reading.faults
    wanted = reading.method == "equivalent-source"
    if across is not None:
        ends = read_ends(across, "both terminals", faults)
        if ends is not None and all(
            _known_junction(end, reading.junctions, faults) for end in ends
        ):
            reading.points = (ends[0].value, ends[1].value)
    for entry in (across, load):
        own = entry is across and (not reading.sources or circuit.get("source") is not None)
        if entry is not None and not wanted and not own:
            faults.add(entry.key.at, f"{entry.key.value} beside a source with its own ends"
                       if entry is across else "load without an equivalent source",
                       "only one of the two" if entry is across
                       else "load only with method: equivalent-source",
                       f"Delete {entry.key.value}, or add method: equivalent-source.")  # fmt: skip
    if load is not None:
        names = [row.name.value for row in reading.rows if row.is_element]
        reading.load = _known(load, names, "no element of the circuit", faults)
        if across is not None:
            faults.add(load.key.at, "load beside across", "only one of the two",
                       "Delete across: the load's ends are the two points.")  # fmt: skip
        elif reading.load is not None:
            row = next(row for row in reading.rows if row.name.value == reading.load)
            reading.points = row.between
    elif wanted and across is None and reading.method_at != (0, 0):
        entry = circuit.get("method")
        assert entry is not None
        faults.add(entry.value.at, "method: equivalent-source without two points",
                   "load: with an element, or across: with two junctions",
                   "Say what the equivalent source is to drive.")  # fmt: skip


def _known(entry: Entry, known: Iterable[str], found: str, faults: Faults) -> str | None:
    """A text that must be one of a few names."""
    names = tuple(known)
    text = as_text(entry.value, "a name", faults)
    if text is None or text.value in names:
        return None if text is None else text.value
    few = names if len(names) <= _FEW else (*names[:7], "another")
    if names:
        faults.add(text.at, f"{quoted(text.value)}, which is {found}", one_of(few),
                   meant(text.value, names, "Check its spelling."))  # fmt: skip
    return None


def _known_junction(end: Text, known: tuple[str, ...], faults: Faults) -> bool:
    if end.value in known or not known:
        return bool(known)
    near = meant(end.value, known, "Check the junctions of the elements.")
    faults.add(end.at, f"the terminal {quoted(end.value)}, which no element reaches",
               "a junction at which an element ends", near)  # fmt: skip
    return False


def _read_place(circuit: Map, reading: NetworkReading) -> None:
    reading.place = read_place(circuit, reading.junctions, reading.faults)


_TAKEN = ("branches", "source", "across", "method", "load", "reference", "place")


def _refuse_other_keys(circuit: Map, faults: Faults) -> None:
    for entry in circuit.entries:
        if entry.key.value not in _TAKEN:
            faults.add(entry.key.at, f"{quoted(entry.key.value)} beside branches",
                       one_of(_TAKEN), meant(entry.key.value, _TAKEN,
                                             "Put all elements under branches:."))  # fmt: skip


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
