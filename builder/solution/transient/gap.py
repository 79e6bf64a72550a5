"""The voltage across a gap: added up along a way round, at one instant."""

from __future__ import annotations

from dataclasses import dataclass

import networkx
from sympy import Integer

from builder.circuit.mixed import Instant, MixedCircuit
from builder.quantity.formula import Amount, Formula, Ref, Sum
from builder.quantity.names import Name
from builder.solution.transient.flows import Flows
from builder.solution.transient.part import turned

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
    start, end = instant.node[ends[0]], instant.node[ends[1]]
    if start == end:
        return AcrossGap(NOTHING, (), ())
    graph = networkx.MultiGraph()
    graph.add_nodes_from((start, end))
    for block in instant.blocks:
        for element in block.elements:
            graph.add_edge(*element.between, key=element.name, weight=_LIVE)
    for element in instant.idle:
        graph.add_edge(*element.between, key=element.name, weight=_IDLE)
    for source in circuit.sources:
        if source.quantity == "voltage":
            pair = tuple(instant.node[end] for end in source.between)
            graph.add_edge(*pair, key=source.name, weight=_SOURCE)
    if not networkx.has_path(graph, start, end):
        return None
    way = networkx.shortest_path(graph, start, end, weight="weight")
    terms: list[Formula] = []
    path: list[str] = []
    drops: list[str] = []
    for here, there in zip(way, way[1:], strict=False):
        between = graph[here][there]
        name = min(between, key=lambda key: between[key]["weight"])
        path.append(name)
        sources = [s for s in circuit.sources if s.name == name]
        if sources:
            against = instant.node[sources[0].between[0]] != here
            terms.append(turned(Ref(Name("voltage", name)), against=against))
        elif any(element.name == name for block in instant.blocks for element in block.elements):
            drops.append(name)
            against = flows.starts[name] != here
            terms.append(turned(Ref(flows.drop(name)), against=against))
    formula = terms[0] if len(terms) == 1 else Sum(tuple(terms)) if terms else NOTHING
    return AcrossGap(formula, tuple(path), tuple(drops))
