"""What is charged: a capacitor, or several that are one equivalent."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from builder.circuit.between import NotSeriesParallel, find_tree
from builder.circuit.law import CAPACITORS, SERIES
from builder.circuit.mixed import MixedCircuit, joined, moved
from builder.circuit.naming import name_groups
from builder.circuit.network import Element, Network, Source
from builder.circuit.tree import Group, Leaf, Tree, groups
from builder.problem.branches import oriented
from builder.problem.transient.moments import STORE, at
from builder.quantity.formula import Formula, Product, Quotient, Ref
from builder.quantity.names import TOTAL, Name
from builder.solution.program import Line


@dataclass(frozen=True)
class Store:
    """What holds the charge.

    Attributes:
        id: the capacitor, or ``store`` for several together.
        ends: its two junctions, + plate first.
        tree: of its capacitors.
    """

    id: str
    ends: tuple[str, str]
    tree: Tree

    @property
    def value(self) -> Name:
        """Its capacitance."""
        return Name(CAPACITORS.value, self.id)

    def merges(self) -> tuple[Line, ...]:
        """How its capacitance follows from its capacitors; nothing for a single one."""
        if isinstance(self.tree, Leaf):
            return ()

        def value(part: Tree) -> Ref:
            return Ref(Name(CAPACITORS.value, STORE if part.id == TOTAL else part.id))

        return tuple(
            Line(
                value(group).name,
                CAPACITORS.merged(group.connection, tuple(map(value, group.parts))),
            )
            for group in groups(self.tree)
        )

    def voltages(self, when: str) -> tuple[Line, ...]:
        """The voltage of each of its capacitors at a moment, all without charge at first."""
        return tuple(self._shared(self.tree, Ref(at("voltage", self.id, when)), when))

    def _shared(self, part: Tree, volts: Formula, when: str) -> list[Line]:
        if isinstance(part, Leaf):
            name = at("voltage", part.id, when)
            return [] if volts == Ref(name) else [Line(name, volts)]
        lines = []
        for inner in part.parts:
            across = volts
            if part.connection == SERIES:
                whole = Name(CAPACITORS.value, STORE if part.id == TOTAL else part.id)
                own = Name(CAPACITORS.value, inner.id)
                across = Product((Quotient(Ref(whole), Ref(own)), volts))
            if isinstance(inner, Group):
                name = at("voltage", inner.id, when)
                lines.append(Line(name, across))
                across = Ref(name)
            lines += self._shared(inner, across, when)
        return lines


def stores_of(circuit: MixedCircuit, *, after: bool = True) -> tuple[Store, ...]:
    """What is charged in a circuit: one store, or every capacitor where they do not merge.

    Args:
        circuit: what is looked at.
        after: whether the switches stand as after the change.
    """
    merged = _merged(circuit, after=after)
    if merged is not None:
        return (merged,)
    return tuple(Store(c.name, c.between, Leaf(c.name)) for c in circuit.capacitors)


def _merged(circuit: MixedCircuit, *, after: bool) -> Store | None:
    """All capacitors as one, if they merge."""
    capacitors = circuit.capacitors
    if len(capacitors) == 1:
        return Store(capacitors[0].name, capacitors[0].between, Leaf(capacitors[0].name))
    node = joined(circuit.junctions, [switch.between for switch in circuit.closed(after=after)])
    placed = [moved(capacitor, node) for capacitor in capacitors]
    own = dict.fromkeys(point for capacitor in placed for point in capacitor.between)
    others = {node[end] for resistor in circuit.resistors for end in resistor.between}
    others |= {node[end] for source in circuit.sources for end in source.between}
    ends = tuple(point for point in own if point in others)
    if len(ends) != 2:
        return None
    between = {capacitor.name: capacitor.between for capacitor in placed}
    try:
        tree = find_tree(between, (ends[0], ends[1]))
    except NotSeriesParallel:
        return None
    # Before the change these points may be several: the ends are those of the plates themselves.
    plates = {node[end]: end for c in reversed(capacitors) for end in c.between}
    return Store(STORE, (plates[ends[0]], plates[ends[1]]), name_groups(tree, CAPACITORS.letter))


def laid(store: Store, circuit: MixedCircuit) -> Mapping[str, Element]:
    """The capacitors of a store, each with its + end first."""
    between = {c.name: c.between for c in circuit.capacitors}
    if isinstance(store.tree, Leaf):
        return {c.name: c for c in circuit.capacitors}
    node = joined(circuit.junctions, [switch.between for switch in circuit.closed(after=True)])
    placed = {name: (node[a], node[b]) for name, (a, b) in between.items()}
    ends = oriented(store.tree, placed, node[store.ends[0]])
    return {
        c.name: c if ends[c.name] == placed[c.name] else replace(c, between=c.between[::-1])
        for c in circuit.capacitors
    }


def network_of(store: Store, circuit: MixedCircuit, sources: tuple[Source, ...] = ()) -> Network:
    """The capacitors of a store as a network of their own, as they are joined after the change.

    Args:
        store: what is charged.
        circuit: what it is part of.
        sources: between the ends of the store.
    """
    node = joined(circuit.junctions, [switch.between for switch in circuit.closed(after=True)])
    ends = (node[store.ends[0]], node[store.ends[1]])
    driving = tuple(replace(source, between=ends) for source in sources)
    return Network(tuple(moved(c, node) for c in laid(store, circuit).values()), ends, driving)
