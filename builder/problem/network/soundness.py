"""Networks that nobody could solve: what hangs loose, and sources that contradict each other."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any

from sympy import Integer

from builder.problem.faults.gathering import Faults, Mark, all_of, did_you_mean, nearest, quoted
from builder.problem.table import Row
from builder.quantity.exact import Exact
from builder.quantity.show import show_whole

_FEW = 8


def refuse_unsound(
    rows: Sequence[Row], points: tuple[str, str] | None, at: Mark, faults: Faults
) -> None:
    """Note what keeps a network from having one solution.

    Args:
        rows: elements and sources, each sound in itself.
        points: two points looked into, where elements may end freely.
        at: the place of faults of the whole network.
        faults: takes them.
    """
    if not any(row.is_element for row in rows):
        faults.add(at, "a circuit without elements", "elements and sources", "Add the elements.")
        return
    checks = (_refuse_loose, _refuse_unreachable, _refuse_hanging)
    before = len(faults)
    for check in checks:
        if len(faults) == before:
            check(rows, points or (), faults)
    if len(faults) == before:
        _refuse_source_loops(rows, faults)
        _refuse_cuts(rows, faults)


def _names(rows: Iterable[Row]) -> str:
    names = list(dict.fromkeys(map(_owner, rows)))
    return all_of(names) if len(names) <= _FEW else f"{', '.join(names[:7])} and others"


def _owner(row: Row) -> str:
    """What the author calls a row: an internal resistance belongs to its source."""
    return row.name.value.removeprefix("r_") if row.between[0].endswith("+") else row.name.value


def _refuse_loose(rows: Sequence[Row], points: Sequence[str], faults: Faults) -> None:
    ends = Counter(end for row in rows for end in row.between)
    ends.update(points)
    poles = {end for row in rows if row.is_source for end in row.between}
    for row in rows:
        for place in row.ends:
            if ends[place.value] > 1:
                continue
            others = [name for name in ends if name != place.value]
            near = nearest(place.value, others)
            hint = did_you_mean(place.value, near) if near else None
            if row.is_source:
                faults.add(place.at, f"the terminal {quoted(place.value)}, which no element "
                           "reaches", "a junction at which an element ends",
                           hint or "Check the junctions of the elements.")  # fmt: skip
            elif not (near in poles and ends[near] == 1):
                name = _owner(row)
                faults.add(place.at, f"the junction {quoted(place.value)}, where nothing but "
                           f"{name} ends",
                           "at least two elements at each junction between the terminals",
                           hint or f"Connect another element there, or leave {name} "
                           "out.")  # fmt: skip


def _graph(rows: Iterable[Row]) -> Any:
    import networkx as nx

    graph = nx.Graph()
    for row in rows:
        graph.add_edge(*row.between)
    return graph


def _refuse_unreachable(rows: Sequence[Row], points: Sequence[str], faults: Faults) -> None:
    import networkx as nx

    main = nx.node_connected_component(_graph(rows), points[0] if points else rows[0].between[0])
    apart = [row for row in rows if row.between[0] not in main]
    if apart:
        island = all(row.kind == "capacitance" for row in apart)
        faults.add(apart[0].name.at, f"{_names(apart)}, which nothing joins to the rest of the "
                   "circuit", "one circuit that hangs together",
                   ("Nothing fixes the voltage of such an island of capacitors. " if island else "")
                   + "Check the names of the junctions, or make two problems of it.")  # fmt: skip


def _refuse_hanging(rows: Sequence[Row], points: Sequence[str], faults: Faults) -> None:
    """Parts that meet the rest in one junction alone and hold no source carry nothing."""
    import networkx as nx

    graph = _graph(rows)
    if points:
        graph.add_edge(*points)
    driven = [frozenset(row.between) for row in rows if row.is_source]
    driven += [frozenset(points)] if points else []
    joints = set(nx.articulation_points(graph))
    for block in nx.biconnected_components(graph):
        meeting = block & joints
        if len(meeting) > 1 or not meeting or any(pair <= block for pair in driven):
            continue
        inside = [row for row in rows if set(row.between) <= block]
        at = next(end.at for end in inside[0].ends)
        faults.add(at, f"{_names(inside)}, which meet the rest of the circuit at the junction "
                   f"{quoted(next(iter(meeting)))} alone", "elements that something drives",
                   "They would carry nothing. Connect them at a second junction, or leave them "
                   "out.")  # fmt: skip


def _refuse_source_loops(rows: Sequence[Row], faults: Faults) -> None:
    """Loops of ideal voltage sources alone, told at the source that closes each."""
    import networkx as nx

    graph = nx.Graph()
    by_pair: dict[frozenset[str], Row] = {}
    for row in rows:
        if row.kind != "emf" or row.value is None:
            continue
        plus, minus = row.between
        if graph.has_node(plus) and graph.has_node(minus) and nx.has_path(graph, plus, minus):
            path = nx.shortest_path(graph, minus, plus)
            others = [by_pair[frozenset(pair)] for pair in pairwise(path)]
            _tell_loop(row, others, _rise(path, others), rows, faults)
            continue
        graph.add_edge(plus, minus)
        by_pair[frozenset(row.between)] = row


def _rise(path: Sequence[str], sources: Sequence[Row]) -> Exact:
    """By how much the sources raise the potential from the start of a path to its end."""
    total: Exact = Integer(0)
    for here, source in zip(path, sources, strict=False):
        assert source.value is not None
        total += source.value.value if source.between[1] == here else -source.value.value
    return total


def _tell_loop(
    row: Row, others: Sequence[Row], rise: Exact, rows: Sequence[Row], faults: Faults
) -> None:
    assert row.value is not None
    loop = _names((*others, row))
    resistors = any(other.kind == "resistance" for other in rows)
    remedy = ("Give one of them an internal resistance, such as inner: 0.5 ohm" if resistors
              else "Leave one of them out")  # fmt: skip
    if rise == row.value.value:
        faults.add(row.name.at, f"{row.name.value}, which closes a loop of sources alone: {loop}",
                   "an element in each loop", "They agree, but nothing tells how much flows round "
                   f"the loop. {remedy}.")  # fmt: skip
        return
    told = show_whole(abs(rise), "voltage").text
    way = "the same way round" if rise >= 0 else "the other way round"
    between = f"{told} {way}" if rise != 0 else "0 V"
    faults.add(row.name.at, f"{row.name.value} of {row.value.shown.text} between two points where "
               f"{_names(others)} already {'makes' if len(others) == 1 else 'make'} {between}",
               "sources that agree wherever they share both ends",
               f"Two points have one voltage only. {remedy}, or change a value.")  # fmt: skip


def _refuse_cuts(rows: Sequence[Row], faults: Faults) -> None:
    """Parts that current sources alone join to the rest."""
    import networkx as nx

    rest = _graph(row for row in rows if row.kind != "current")
    currents = [row for row in rows if row.kind == "current"]
    rest.add_nodes_from(end for row in currents for end in row.between)
    parts = list(nx.connected_components(rest))
    if len(parts) < 2:
        return
    for part in parts[1:] if len(parts) == 2 else parts:
        across = [row for row in currents if (row.between[0] in part) != (row.between[1] in part)]
        net: Exact = Integer(0)
        for row in across:
            assert row.value is not None
            net += row.value.value if row.between[0] in part else -row.value.value
        where = all_of([quoted(name) for name in sorted(part)[:_FEW]])
        one = len(across) == 1
        found = (f"{_names(across)}, the only {'way' if one else 'ways'} into the junction"
                 f"{'' if len(part) == 1 else 's'} {where}")  # fmt: skip
        if net == 0:
            advice = "They agree, but nothing tells the voltage across them."
        else:
            way = "in" if net > 0 else "out"
            advice = (f"{show_whole(abs(net), 'current').text} would flow {way} and never "
                      f"{'out' if net > 0 else 'in'} again.")  # fmt: skip
        faults.add(across[-1].name.at, found, "a way through elements or voltage sources as well",
                   f"{advice} Connect an element there, or leave a source out.")  # fmt: skip
