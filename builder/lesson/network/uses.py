"""What the networks of a unit make use of, so that reference pages show that and no more."""

from __future__ import annotations

from collections.abc import Iterator

from builder.lesson.nest.uses import ASKED, SOURCE, TERMINALS
from builder.lesson.network.bridges import Bridge, bridge_of
from builder.problem.model import NetworkProblem
from builder.problem.network.asking import POTENTIAL

NETWORK = "network"
SEVERAL = "several-sources"
BRIDGE = "bridge"
BALANCED = "balanced-bridge"
SYMMETRY = "symmetry"
EXCHANGE = "exchange"
EQUATIONS = "equations"
LOOPS = "loops"
JUNCTIONS = "junctions"
SUPERPOSITION = "superposition"
EQUIVALENT_SOURCE = "equivalent-source"
INNER = "inner"


def uses(problem: NetworkProblem) -> frozenset[str]:
    """Words for all that occurs in a problem.

    As for nests; besides, ``network``; ``several-sources``; ``bridge``, and whether it is a
    ``balanced-bridge``; the method, as far as the file tells it: ``symmetry``, ``exchange`` of
    triangle and star, ``junctions``, ``loops``, ``equations`` (either of the two),
    ``superposition``, ``equivalent-source``, some of them with their element before them, such as
    ``resistor-exchange``; ``potential``; and ``inner`` for internal resistances.
    """
    law, network = problem.law, problem.network
    found = {law.element, NETWORK, "parallel", law.value}
    found |= {f"{ASKED}{name.quantity}" for name in problem.find}
    found |= set(_method(problem))
    if POTENTIAL in {name.quantity for name in problem.find} or JUNCTIONS in found:
        found.add(POTENTIAL)
    if problem.inner:
        found.add(INNER)
    if len(network.sources) > 1:
        found.add(SEVERAL)
    if not network.sources:
        return frozenset({*found, TERMINALS})
    found |= {*law.quantities, SOURCE}
    return frozenset(found | {f"{source.quantity}-{SOURCE}" for source in network.sources})


_NAMED = {
    "balance": BALANCED, "symmetry": SYMMETRY, "delta-star": EXCHANGE, "junctions": JUNCTIONS,
    "loops": LOOPS, "superposition": SUPERPOSITION, "equivalent-source": EQUIVALENT_SOURCE,
}  # fmt: skip
"""What the method that an author names makes use of."""


def _method(problem: NetworkProblem) -> Iterator[str]:
    """What the solution makes use of, as the method or else the shape of the network tells."""
    one = problem.law.element
    bridge = bridge_of(problem.network)
    if bridge is not None:
        yield BRIDGE
    way = _NAMED.get(problem.method or "")
    if way is None and bridge is not None:
        way = BALANCED if _is_balanced(bridge, problem) else EXCHANGE
    if way is None and len(problem.network.sources) > 1:
        way = JUNCTIONS
    if way is not None:
        yield way
        yield f"{one}-{way}"
    if way in (JUNCTIONS, LOOPS):
        yield EQUATIONS
        yield f"{one}-{EQUATIONS}"


def _is_balanced(bridge: Bridge, problem: NetworkProblem) -> bool:
    values = {element.name: element.value for element in problem.network.elements}
    (first, below_first), (second, below_second) = bridge.arms
    return bool(values[first] * values[below_second] == values[second] * values[below_first])
