"""How the charges of capacitors settle once switches stand: which change, and to what.

Charge conservation on each island and the batteries' voltages inside it settle everything; what
the wires resist only decides how long it takes. (University Physics Volume 2, OpenStax, 8.2.)
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sympy import Integer

from builder.circuit.network import Element, Network
from builder.circuit.switching import Heights, Wiring, blocks
from builder.quantity.exact import Exact
from builder.quantity.linear import solve_exactly


def settled(network: Network, wiring: Wiring, charges: Mapping[str, Exact]) -> dict[str, Exact]:
    """The charge of every capacitor after all has come to rest.

    Args:
        network: capacitors and batteries.
        wiring: what is joined.
        charges: on the plates at the capacitors' first junctions before, in coulombs.

    Returns:
        The same after, in coulombs.
    """
    after = dict(charges)
    for block in blocks(wiring, network.elements):
        volts = _volts_of(block, network, wiring, charges)
        after.update({element.name: element.value * volts[element.name] for element in block})
    return after


def volts(rise: Heights, network: Network) -> Exact:
    """What a sum of batteries comes to, in volts."""
    emf = {battery.name: battery.value for battery in network.sources}
    return sum((sign * emf[name] for name, sign in rise.items()), Integer(0))


def _volts_of(
    block: tuple[Element, ...], network: Network, wiring: Wiring, charges: Mapping[str, Exact]
) -> dict[str, Exact]:
    """The voltages of capacitors that share a loop, by the potentials of their islands."""
    lift = {e.name: _lift(e, network, wiring) for e in block}
    islands = tuple(dict.fromkeys(i for e in block for i in wiring.islands_of(e)))
    unknown = {island: column for column, island in enumerate(islands[1:])}
    size = len(unknown)
    rows = [[Integer(0)] * size for _ in range(size)]
    right = [Integer(0)] * size
    for element in block:
        first, second = wiring.islands_of(element)
        excess = charges[element.name] - element.value * lift[element.name]
        for here, there, sign in ((first, second, 1), (second, first, -1)):
            if here not in unknown:
                continue
            row = unknown[here]
            right[row] += sign * excess
            rows[row][row] += element.value
            if there in unknown:
                rows[row][unknown[there]] -= element.value
    found = solve_exactly(tuple(map(tuple, rows)), tuple(right)) if size else ()
    level = {islands[0]: Integer(0), **dict(zip(islands[1:], found, strict=True))}
    return {e.name: level[i] - level[j] + lift[e.name]
            for e in block for i, j in [wiring.islands_of(e)]}  # fmt: skip


def _lift(element: Element, network: Network, wiring: Wiring) -> Exact:
    """What the batteries inside the islands add to a capacitor's voltage."""
    first, second = wiring.ends(element)
    return volts(wiring.height[first], network) - volts(wiring.height[second], network)


def unsettled(
    block: Iterable[Element], before: Mapping[str, Exact], after: Mapping[str, Exact]
) -> bool:
    """Whether any capacitor of a set changes."""
    return any(before[element.name] != after[element.name] for element in block)
