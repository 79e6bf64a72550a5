"""A route run with a network's values, beside what the nodal method finds."""

from __future__ import annotations

from collections.abc import Iterable

from builder.circuit.law import Law
from builder.circuit.network import Network
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.network.reductions.route import Route, route
from builder.solution.nodal import by_nodes
from builder.solution.program import Step, run


def givens(network: Network, law: Law) -> dict[Name, Exact]:
    """The values of all elements and of the source."""
    values = {Name(law.value, element.name): element.value for element in network.elements}
    return values | {Name(one.quantity, one.name): one.value for one in network.sources}


def found(network: Network, law: Law, steps: Iterable[Step]) -> dict[Name, Exact]:
    """Every value that steps find, the givens included."""
    return run(steps, givens(network, law))


def the_route(network: Network, law: Law) -> Route:
    """The route, which there has to be."""
    way = route(network, law)
    assert way is not None
    return way


def differences(network: Network, law: Law, way: Route) -> dict[Name, tuple[Exact, Exact]]:
    """Where a route without works and the nodal method differ: both values, by quantity."""
    by_steps = found(network, law, way.steps)
    pairs = {
        name: (by_steps.get(way.naming.resolve(name)), value)
        for name, value in by_nodes(network, law).items()
        if name.quantity != law.work
    }
    return {name: (one, other) for name, (one, other) in pairs.items() if one != other}
