"""What a network would do if it were another, for wrong rules and for predictions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sympy import Integer

from builder.circuit.law import Law
from builder.circuit.network import Network, Source
from builder.problem.network.asking import POTENTIAL
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown
from builder.solution.network.second import analyse, by_analysis


def solved(network: Network, law: Law) -> Mapping[Name, Exact]:
    """Flows and drops of all elements and the flows of all sources, in SI units.

    Returns:
        Nothing where the network has no single solution, as when it falls apart.
    """
    try:
        return by_analysis(network, law)
    except ZeroDivisionError:
        return {}


def potentials(network: Network, law: Law, reference: str) -> Mapping[Name, Exact]:
    """The potentials of all junctions against one of them, in volts.

    Returns:
        Nothing where the network has no single solution.
    """
    try:
        levels = analyse(network, law)[0]
    except ZeroDivisionError:
        return {}
    return {Name(POTENTIAL, junction): level - levels[reference]
            for junction, level in levels.items()}  # fmt: skip


def without(network: Network, *names: str) -> Network:
    """A network without some of its elements."""
    left = tuple(element for element in network.elements if element.name not in names)
    return replace(network, elements=left)


def only(network: Network, source: str) -> Network:
    """A network with all its sources but one turned off."""
    return with_sources(network, {one.name: one.value if one.name == source else Integer(0)
                                  for one in network.sources})  # fmt: skip


def with_sources(network: Network, values: Mapping[str, Exact]) -> Network:
    """A network whose sources have other values."""
    sources = tuple(
        replace(source, value=values.get(source.name, source.value)) for source in network.sources
    )
    return replace(network, sources=sources)


def with_wire(network: Network, *names: str) -> Network:
    """A network with a wire in the place of some of its elements.

    Elements that the wire bridges carry nothing and are left out.
    """
    at = {junction: junction for junction in network.junctions}
    for name in names:
        kept, gone = (at[end] for end in network.element(name).between)
        at = {junction: kept if now == gone else now for junction, now in at.items()}
    elements = (replace(one, between=_moved(one.between, at)) for one in network.elements
                if one.name not in names)  # fmt: skip
    return Network(
        tuple(one for one in elements if one.between[0] != one.between[1]),
        _moved(network.terminals, at),
        tuple(replace(one, between=_moved(one.between, at)) for one in network.sources),
    )


def _moved(between: tuple[str, str], at: Mapping[str, str]) -> tuple[str, str]:
    return at[between[0]], at[between[1]]


def looked_into(network: Network, law: Law) -> Mapping[Name, Exact]:
    """What a network with one source or none would do, its equivalent included, in SI units.

    Returns:
        Without a source, the equivalent alone; nothing where there is no single solution.
    """
    driven = network
    if not network.sources:
        volt = Shown("1", "V", exact=True)
        test = Source(TOTAL, law.drop, Integer(1), volt, network.terminals)
        driven = replace(network, sources=(test,))
    (source,) = driven.sources
    values = dict(solved(driven, law))
    if not values or not values[Name(law.drop, source.name)]:
        return {}
    flow, drop = (values[Name(kind, source.name)] for kind in (law.flow, law.drop))
    value = {Name(law.value, TOTAL): law.weight(flow / drop)}
    if not network.sources:
        return value
    return values | value | {Name(law.flow, TOTAL): flow, Name(law.drop, TOTAL): drop}
