"""What a network would do if it were another, for wrong rules and for predictions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sympy import Integer

from builder.circuit.law import Law
from builder.circuit.network import Network
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.network.second import by_analysis


def solved(network: Network, law: Law) -> Mapping[Name, Exact]:
    """Flows and drops of all elements and the flows of all sources, in SI units.

    Returns:
        Nothing where the network has no single solution, as when it falls apart.
    """
    try:
        return by_analysis(network, law)
    except ZeroDivisionError:
        return {}


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
