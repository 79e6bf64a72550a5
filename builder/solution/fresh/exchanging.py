"""A quick look at whether a network with other values is reduced by the same moves.

Of several triangles and stars the solver exchanges the one that leads to the plainest values. To
see which that is takes a twentieth of the time of solving the network.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from builder.circuit.network import Network
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.network.reductions.moves import Exchange
from builder.solution.network.reductions.route import first_exchange
from builder.solution.network.solve import NetworkSolution
from builder.solution.network.step import NetworkMove
from builder.solution.solution import Solution


def same_exchange(first: Solution) -> Callable[[Mapping[Name, Exact]], bool]:
    """Whether other values, by name, leave the plainest exchange what it is.

    Args:
        first: with the problem's own values; if nothing is exchanged there, all values do.
    """
    if not isinstance(first, NetworkSolution):
        return lambda _: True
    law, network = first.problem.law, first.problem.network
    exchanged = {NetworkMove.STAR, NetworkMove.TRIANGLE}
    if exchanged.isdisjoint(step.kind for step in first.every_step):
        return lambda _: True

    def exchange(values: Mapping[Name, Exact]) -> Exchange | None:
        return first_exchange(_with_values(network, law.value, values), law)

    own = exchange({})
    return lambda values: exchange(values) == own


def _with_values(network: Network, kind: str, values: Mapping[Name, Exact]) -> Network:
    elements = tuple(
        replace(element, value=values.get(Name(kind, element.name), element.value))
        for element in network.elements
    )
    return replace(network, elements=elements)
