"""The voltage across a gap: added up along a way round, at one instant."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from sympy import Integer

from builder.circuit.mixed import Instant, MixedCircuit
from builder.quantity.formula import Amount, Formula, Ref, Sum
from builder.quantity.names import Name
from builder.solution.transient.flows import Flows
from builder.solution.transient.part import turned

if TYPE_CHECKING:
    import networkx

NOTHING = Amount(Integer(0), "voltage")
_SOURCE, _LIVE, _IDLE = 0.5, 1.0, 0.01
"""How far each takes a way round: the fewest elements with something to add are looked for."""


@dataclass(frozen=True)
class AcrossGap:
    """A voltage between two points, as a sum along a way from the first to the second.

    Attributes:
        formula: its terms.
        path: the elements and sources on the way.
        drops: the resistors whose drops are needed.
    """

    formula: Formula
    path: tuple[str, ...]
    drops: tuple[str, ...]


def across_gap(
    circuit: MixedCircuit, instant: Instant, ends: tuple[str, str], flows: Flows
) -> AcrossGap | None:
    """The voltage between two junctions, or None if no way leads from one to the other."""
    import networkx

    start, end = instant.node[ends[0]], instant.node[ends[1]]
    if start == end:
        return AcrossGap(NOTHING, (), ())
    graph = _ways(circuit, instant)
    graph.add_nodes_from((start, end))
    if not networkx.has_path(graph, start, end):
        return None
    way = networkx.shortest_path(graph, start, end, weight="weight")
    sources = {source.name: source for source in circuit.sources}
    terms: list[Formula] = []
    path: list[str] = []
    for here, there in pairwise(way):
        between = graph[here][there]
        name = min(between, key=lambda key: between[key]["weight"])
        path.append(name)
        if name in sources:
            against = instant.node[sources[name].between[0]] != here
            terms.append(turned(Ref(Name("voltage", name)), against=against))
        elif flows.carries(name):
            terms.append(turned(Ref(flows.drop(name)), against=flows.starts[name] != here))
    formula = terms[0] if len(terms) == 1 else Sum(tuple(terms)) if terms else NOTHING
    drops = tuple(name for name in path if flows.carries(name))
    return AcrossGap(formula, tuple(path), drops)


def _ways(circuit: MixedCircuit, instant: Instant) -> networkx.MultiGraph:
    import networkx

    graph = networkx.MultiGraph()
    for block in instant.blocks:
        for element in block.elements:
            graph.add_edge(*element.between, key=element.name, weight=_LIVE)
    for element in instant.idle:
        graph.add_edge(*element.between, key=element.name, weight=_IDLE)
    for source in circuit.sources:
        if source.quantity == "voltage":
            first, second = (instant.node[end] for end in source.between)
            graph.add_edge(first, second, key=source.name, weight=_SOURCE)
    return graph
