"""Which kind of problem a file is: each kind says what it recognises, and reads it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from builder.problem.body import Body
from builder.problem.circuit import UNKNOWN, read_circuit
from builder.problem.faults.gathering import Faults, nearest
from builder.problem.limits import MOST_SWITCHED
from builder.problem.nest_body import NestBody
from builder.problem.network.kind import is_network, read_network_body
from builder.problem.relations.body import read_relations
from builder.problem.relations.unknowns import holds_unknowns, read_unknowns
from builder.problem.shape import ProblemShape, keys_of
from builder.problem.stages.kind import is_in_stages, read_stages_body
from builder.problem.stages.reading import STAGES
from builder.problem.table import SWITCH, Table, read_table
from builder.problem.transient.kind import CHANGE, is_transient, read_transient_body
from builder.problem.typed import as_map, needed
from builder.problem.yaml_text.located import Entry, Map
from builder.quantity.symbolic import is_symbolic


@dataclass(frozen=True)
class File:
    """A problem's file as far as it is needed to tell its kind.

    Attributes:
        root: all of the file.
        faults: takes whatever is wrong with it.
        circuit: the entry ``circuit:``, or None without one.
        table: the branches of the circuit, read already, or None without them.
    """

    root: Map
    faults: Faults
    circuit: Entry | None
    table: Table | None

    def has(self, *keys: str) -> bool:
        """Whether one of these keys stands at the top of the file."""
        return any(self.root.get(key) is not None for key in keys)

    @property
    def inside(self) -> Map | None:
        """What stands under ``circuit:`` if that is keys with values."""
        value = self.circuit.value if self.circuit else None
        return value if isinstance(value, Map) else None


@dataclass(frozen=True)
class Kind:
    """One kind of problem.

    Attributes:
        fits: whether a file is of this kind.
        read: reads what differs from kind to kind; faults go to those of the file.
    """

    fits: Callable[[File], bool]
    read: Callable[[File], Body]


def _read_nest(file: File) -> Body:
    if file.circuit is None:
        return NestBody(UNKNOWN, file.faults)
    if file.table is not None and _refuse_what_no_nest_has(file.table, file.faults):
        return NestBody(UNKNOWN, file.faults)
    return NestBody(read_circuit(file.circuit, file.faults, file.table), file.faults)


def _refuse_what_no_nest_has(table: Table, faults: Faults) -> bool:
    before = len(faults)
    for row in table.rows:
        if row.kind == SWITCH:
            faults.add(row.name.at, f"a switch, {row.name.value}, in a circuit where nothing is "
                       "switched", "elements and sources",
                       "Leave an open switch out, and give the ends of a closed one the same "
                       "name.")  # fmt: skip
        for key in [entry.key for name, entry in row.more.items() if name != SWITCH]:
            faults.add(key.at, f"{key.value}, in {row.name.value}", "elements and sources",
                       f"Delete {key.value}: it means nothing in this circuit.")  # fmt: skip
    return len(faults) > before


def _is_network(file: File) -> bool:
    return is_network(file.inside, file.table)


def _read_network(file: File) -> Body:
    assert file.inside is not None
    assert file.table is not None
    return read_network_body(file.inside, file.table, file.faults)


def _is_in_stages(file: File) -> bool:
    return is_in_stages(file.root.get(STAGES), file.table)


def _read_stages(file: File) -> Body:
    return read_stages_body(file.inside, file.table, file.root.get(STAGES), file.faults)


def _is_relations(file: File) -> bool:
    return file.has("quantities", "relations", "plates")


def _read_relations(file: File) -> Body:
    return read_relations(file.root, file.faults)


def _is_transient(file: File) -> bool:
    return not file.has(STAGES) and is_transient(file.root.get(CHANGE), file.table)


def _read_transient(file: File) -> Body:
    return read_transient_body(file.inside, file.table, file.root.get(CHANGE), file.faults)


def _has_unknowns(file: File) -> bool:
    return file.table is None and (file.has("measured") or holds_unknowns(file.inside))


def _read_unknowns(file: File) -> Body:
    if file.circuit is None:
        return NestBody(UNKNOWN, file.faults)
    return read_unknowns(file.circuit, file.root.get("measured"), file.faults)


KINDS: tuple[Kind, ...] = (
    Kind(_has_unknowns, _read_unknowns),
    Kind(_is_relations, _read_relations),
    Kind(_is_transient, _read_transient),
    Kind(_is_in_stages, _read_stages),
    Kind(_is_network, _read_network),
)
"""Asked in this order; a file of none of them is a nest of series and parallel groups."""

_OF_BRANCHES = KINDS[2:]
"""Those that read a table of branches and nothing else."""
_SWITCHED = KINDS[2:4]
"""Those in which something changes."""
_BRANCHES = "branches: with the ends of each element, source and switch"
_NEST = Kind(lambda _: True, _read_nest)
_WITHOUT_CIRCUIT = ("quantities", "relations", "plates")
_TELLING = ("circuit", "measured", STAGES, CHANGE, *_WITHOUT_CIRCUIT)
"""The keys that tell what kind of problem a file is."""
_ALL_KEYS = keys_of(ProblemShape)


def read_body(root: Map, faults: Faults) -> Body | None:
    """What a problem is about, read as its kind wants it.

    Returns:
        None if a key that would tell its kind is misspelled, as is told already: all else that
        could be said would follow from it.
    """
    if _is_kind_misspelled(root):
        return None
    without = any(root.get(key) is not None for key in _WITHOUT_CIRCUIT)
    expected = "circuit: with a source and elements below it"
    circuit = root.get("circuit") or (
        None if without else needed(root, "circuit", expected, _ALL_KEYS, faults)
    )
    branches = circuit.value.get("branches") if circuit and isinstance(circuit.value, Map) else None
    table = read_table(branches, faults) if branches is not None else None
    file = File(root, faults, circuit, table)
    kind = next((kind for kind in KINDS if kind.fits(file)), _NEST)
    if kind is not _NEST and table is not None:
        _refuse_symbols(table, faults)
    if kind in _SWITCHED and table is not None:
        _refuse_large(table, faults)
    if kind in _OF_BRANCHES and circuit is not None and file.inside is None:
        as_map(circuit.value, _BRANCHES, faults)
    return kind.read(file)


def _refuse_large(table: Table, faults: Faults) -> None:
    if len(table.rows) > MOST_SWITCHED:
        faults.add(table.rows[MOST_SWITCHED].name.at, f"more than {MOST_SWITCHED} branches in a "
                   "circuit in which something is switched", f"at most {MOST_SWITCHED}",
                   "Make the circuit smaller.")  # fmt: skip


def _is_kind_misspelled(root: Map) -> bool:
    unknown = [each.key.value for each in root.entries if each.key.value not in _ALL_KEYS]
    meant = (nearest(word, _ALL_KEYS) for word in unknown)
    return any(near in _TELLING and root.get(near) is None for near in meant if near)


def _refuse_symbols(table: Table, faults: Faults) -> None:
    for row in table.rows:
        if row.value is not None and is_symbolic(row.value.value):
            faults.add(row.at.at, f"the symbol {row.value.shown.text} in a circuit that is more "
                       "than series and parallel groups with one source",
                       "a number with a unit", "Such circuits cannot be solved with symbols so "
                       "far. Write numbers.")  # fmt: skip
