"""Statements that must hold of a network's results."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache

from builder.circuit.law import Law
from builder.circuit.network import Network
from builder.quantity.formula import Formula, Num, Product, Ref
from builder.quantity.names import Name
from builder.solution.check import Check
from builder.solution.network.chains import Part, branches_of
from builder.solution.network.terms import Term, total
from builder.solution.network.windows import independent_loops


class NetworkCheck(StrEnum):
    """What a check is about."""

    JUNCTION = "junction"
    """Flows into a junction against flows out of it."""
    LOOP = "loop"
    """The drops round a loop against what its sources lift."""
    WORK = "work"
    """What the sources deliver against what the elements take; of capacitors, half of it."""


@lru_cache(maxsize=64)
def checks_of(network: Network, law: Law) -> tuple[Check, ...]:
    """All checks of a network with at least one source.

    ``about`` of a junction is its name and what meets there; of a loop what it passes; of work
    the elements.
    """
    return (*_junctions(network, law), *_loops(network, law), _work(network, law))


def _junctions(network: Network, law: Law) -> Iterator[Check]:
    parts: list[tuple[Part, bool]] = [(element, True) for element in network.elements]
    parts += [(source, False) for source in network.sources]
    for junction in network.junctions:
        into: list[Name] = []
        out: list[Name] = []
        for part, enters_first in parts:
            if junction in part.between:
                leaves = (part.between[0] == junction) == enters_first
                (out if leaves else into).append(Name(law.flow, part.name))
        about = (junction, *(name.of for name in (*into, *out)))
        yield Check(NetworkCheck.JUNCTION, about, _added(into), "=", _added(out))


def _added(names: list[Name]) -> Formula:
    return total((True, Ref(name)) for name in names)


def _loops(network: Network, law: Law) -> Iterator[Check]:
    branches = branches_of(network, law, network.terminals[1:])
    elements = {element.name for element in network.elements}
    for way in independent_loops(branches):
        drops: list[Term] = []
        lifts: list[Term] = []
        for chain, along in way:
            for name, forward in chain.parts:
                drop = Ref(Name(law.drop, name))
                if name in elements:
                    drops.append((forward == along, drop))
                else:
                    lifts.append((forward != along, drop))
        about = tuple(
            name for chain, along in way for name, _ in (chain if along else chain.turned).parts
        )
        yield Check(NetworkCheck.LOOP, about, total(drops), "=", total(lifts))


def _work(network: Network, law: Law) -> Check:
    delivered: list[Term] = [(True, Ref(Name(law.work, s.name))) for s in network.sources]
    taken: list[Term] = [(True, Ref(Name(law.work, e.name))) for e in network.elements]
    left, right = total(delivered), total(taken)
    if law.work == "energy":
        left = Product((Num(Fraction(1, 2)), left))
    about = tuple(element.name for element in network.elements)
    return Check(NetworkCheck.WORK, about, left, "=", right)
