"""What an author says of a circuit beside the table of its branches."""

from __future__ import annotations

from collections.abc import Iterable

from builder.problem.faults.gathering import Faults, meant, one_of, quoted
from builder.problem.model import METHODS
from builder.problem.network.read_so_far import NetworkReading
from builder.problem.parts import SOURCE_KINDS, Parts
from builder.problem.placing import read_place
from builder.problem.table import SOURCES, Row, read_ends
from builder.problem.typed import as_text, choice_of
from builder.problem.yaml_text.located import Entry, Map, Text

_FEW = 8


def read_beside(circuit: Map, reading: NetworkReading) -> None:
    """Read the source, the method, the points and the places beside ``branches:``.

    Args:
        circuit: keys and values.
        reading: the network as far as it has been read; takes them.
    """
    _take_outer_source(circuit, reading)
    _read_method(circuit, reading)
    _read_points(circuit, reading)
    reading.place = read_place(circuit, reading.junctions, reading.faults)
    _refuse_other_keys(circuit, reading.faults)


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


_TAKEN = ("branches", "source", "across", "method", "load", "reference", "place")


def _refuse_other_keys(circuit: Map, faults: Faults) -> None:
    for entry in circuit.entries:
        if entry.key.value not in _TAKEN:
            faults.add(entry.key.at, f"{quoted(entry.key.value)} beside branches",
                       one_of(_TAKEN), meant(entry.key.value, _TAKEN,
                                             "Put all elements under branches:."))  # fmt: skip
