"""The independent second method: exact nodal analysis on the raw network.

At each junction the flows add up to what the source brings; with flow = weight × drop that
is one linear system for the junctions' potentials (the network's Laplacian matrix). It knows
nothing of trees, groups or steps.
"""

from __future__ import annotations

from collections.abc import Mapping

from sympy import Integer, Rational
from sympy.polys.matrices import DomainMatrix

from builder.circuit.law import Law
from builder.circuit.network import Network
from builder.quantity.exact import Exact
from builder.quantity.linear import Field
from builder.quantity.names import TOTAL, Name
from builder.quantity.symbolic import tidied


def potentials(network: Network, law: Law) -> dict[str, Exact]:
    """The potential of each junction against the − terminal with 1 V across the terminals.

    Args:
        network: connected, its values positive rationals or expressions of symbols.
        law: of its elements.

    Returns:
        Volts, by junction.

    Raises:
        sympy DMNonInvertibleMatrixError: if a junction is not connected to a terminal.
    """
    plus, minus = network.terminals
    inner = [junction for junction in network.junctions if junction not in (plus, minus)]
    known: dict[str, Exact] = {plus: Integer(1), minus: Integer(0)}
    if not inner:
        return known
    row_of = {junction: row for row, junction in enumerate(inner)}
    size = len(inner)
    field = Field.of(element.value for element in network.elements)
    zero = field.domain.zero
    matrix = [[zero] * size for _ in range(size)]
    right = [[zero] for _ in range(size)]
    for element in network.elements:
        weight = field.element(law.weight(element.value))
        for here, there in (element.between, element.between[::-1]):
            if here not in row_of:
                continue
            row = row_of[here]
            matrix[row][row] += weight
            if there in row_of:
                matrix[row][row_of[there]] -= weight
            elif there == plus:
                right[row][0] += weight
    system = DomainMatrix(matrix, (size, size), field.domain)
    solved = system.lu_solve(DomainMatrix(right, (size, 1), field.domain)).to_list()
    for junction, row in row_of.items():
        known[junction] = field.exact(solved[row][0])
    return known


def by_nodes(
    network: Network, law: Law, parts: Mapping[str, tuple[str, ...]] | None = None
) -> dict[Name, Exact]:
    """Every quantity that the nodal method yields, in SI units.

    Args:
        network: connected, its values positive rationals or expressions of symbols.
        law: of its elements.
        parts: elements that together join two junctions, from the + end to the − end, by a
            name of their own.

    Returns:
        The equivalent of the whole and of each part; with a source also each element's flow,
        drop and work, each part's flow and drop, and those of the whole circuit (``of`` is
        ``total``). Drops count from an element's first junction to its second.
    """
    unit = potentials(network, law)
    per_volt = _flow_per_volt(network, law, unit)
    found: dict[Name, Exact] = {Name(law.value, TOTAL): law.weight(per_volt)}
    shares = {name: _share(part, network, law, unit) for name, part in (parts or {}).items()}
    for name, (flow, drop) in shares.items():
        found[Name(law.value, name)] = law.weight(flow / drop)
    if network.source is None:
        return {name: tidied(value) for name, value in found.items()}
    given = network.source
    volts = given.value if given.quantity == law.drop else given.value / per_volt
    found |= _of_one(TOTAL, volts * per_volt, volts, law)
    for name, (flow, drop) in shares.items():
        found[Name(law.flow, name)] = flow * volts
        found[Name(law.drop, name)] = drop * volts
    for element in network.elements:
        drop = (unit[element.between[0]] - unit[element.between[1]]) * volts
        found |= _of_one(element.name, law.weight(element.value) * drop, drop, law)
    return {name: tidied(value) for name, value in found.items()}


def _flow_per_volt(network: Network, law: Law, unit: Mapping[str, Exact]) -> Exact:
    """What the source delivers with 1 V across the terminals."""
    plus = network.terminals[0]
    total: Exact = Integer(0)
    for element in network.elements:
        if plus in element.between:
            drop = unit[element.between[0]] - unit[element.between[1]]
            total += law.weight(element.value) * (drop if element.between[0] == plus else -drop)
    return total


def _of_one(of: str, flow: Exact, drop: Exact, law: Law) -> dict[Name, Exact]:
    half = Rational(1, 2) if law.work == "energy" else Integer(1)
    return {
        Name(law.drop, of): drop,
        Name(law.flow, of): flow,
        Name(law.work, of): half * flow * drop,
    }


def _share(
    part: tuple[str, ...], network: Network, law: Law, unit: Mapping[str, Exact]
) -> tuple[Exact, Exact]:
    """The flow through a part and the drop across it with 1 V across the terminals."""
    elements = [network.element(name) for name in part]
    start, end = elements[0].between[0], elements[-1].between[1]
    flow: Exact = Integer(0)
    for element in elements:
        if element.between[0] == start:
            flow += law.weight(element.value) * (unit[start] - unit[element.between[1]])
    return flow, unit[start] - unit[end]
