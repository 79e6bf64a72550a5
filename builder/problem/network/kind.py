"""Which files are general networks."""

from __future__ import annotations

from builder.problem.body import Body
from builder.problem.branches import take_rows, tree_of
from builder.problem.faults.gathering import Faults
from builder.problem.network.body import NetworkBody
from builder.problem.network.reading import read_network
from builder.problem.parts import Parts
from builder.problem.table import ELEMENTS, SOURCES, SWITCH, Table, read_ends
from builder.problem.yaml_text.located import Map, Text

_OWN_KEYS = ("reference", "place", "load")


def is_network(circuit: Map | None, table: Table | None) -> bool:
    """Whether a table of one kind of element is more than a nest with one source."""
    if circuit is None or table is None:
        return False
    kinds = set(table.named.values())
    if SWITCH in kinds or len(kinds & set(ELEMENTS)) > 1 or _some_charged(table):
        return False
    method = circuit.get("method")
    if method is not None and not (
        isinstance(method.value, Text) and method.value.value == "merge"
    ):
        return True
    several = sum(kind in SOURCES for kind in table.named.values()) > 1
    inner = any("inner" in row.more for row in table.rows)
    if several or inner or any(circuit.get(key) is not None for key in _OWN_KEYS):
        return True
    return _is_no_nest(circuit, table)


def _some_charged(table: Table) -> bool:
    return any("charged" in row.more for row in table.rows)


def _is_no_nest(circuit: Map, table: Table) -> bool:
    """Whether a sound table with known terminals fails to be a nest, and not for loose ends."""
    if not table.sound:
        return False
    unheard = Faults("")
    branches = take_rows(table, Parts(unheard))
    across = circuit.get("across")
    if branches.terminals is None and across is not None:
        branches.terminals = read_ends(across, "both terminals", unheard)
    if branches.terminals is None or len(unheard):
        return False
    return tree_of(branches, unheard) is None and branches.stuck


def read_network_body(circuit: Map, table: Table, faults: Faults) -> Body:
    """Read a general network."""
    return NetworkBody(read_network(circuit, table, faults), faults)
