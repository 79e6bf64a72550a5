"""The independent second method: exact modified nodal analysis on the raw network.

Unknowns are the potentials of all junctions but one, and the flows of all voltage sources. It
knows nothing of chains, loops or steps. Source of the method: C.-W. Ho, A. Ruehli and P. Brennan,
"The modified nodal approach to network analysis", IEEE Transactions on Circuits and Systems 22
(1975), 504-509 (recalled, not read again).
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Any

from sympy import Integer, Rational
from sympy.polys.constructor import construct_domain
from sympy.polys.domains import QQ
from sympy.polys.matrices import DomainMatrix
from sympy.polys.matrices.exceptions import DMNonInvertibleMatrixError

from builder.circuit.law import Law
from builder.circuit.network import Element, Network, Source
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name

Row = dict[int, Any]
"""The coefficients of one equation that are not zero, by column; the right side is ``RIGHT``."""
RIGHT = -1


def solve_rows(rows: list[Row], size: int) -> list[Exact]:
    """The unknowns of a square system, exactly.

    Rationals go to FLINT's fraction-free elimination, which solves 400 junctions in well under a
    second; elimination that keeps rows nearly empty took four times as long in Python.

    Args:
        rows: the entries that are not zero: rationals, or expressions of symbols.
        size: the number of unknowns and of rows.

    Raises:
        ZeroDivisionError: if there is no single solution.
    """
    entries = [value for row in rows for value in row.values()]
    if all(isinstance(value, Rational) for value in entries):
        domain: Any = QQ
        elements = [QQ(int(value.p), int(value.q)) for value in entries]
    else:
        domain, elements = construct_domain(entries, field=True)
    given = iter(elements)
    known = [{column: next(given) for column in row} for row in rows]
    matrix = [[row.get(column, domain.zero) for column in range(size)] for row in known]
    right = [[row.get(RIGHT, domain.zero)] for row in known]
    try:
        solved = DomainMatrix(matrix, (size, size), domain).lu_solve(
            DomainMatrix(right, (size, 1), domain)
        )
    except DMNonInvertibleMatrixError:
        raise ZeroDivisionError("the network has no single solution") from None
    return [domain.to_sympy(value) for value in solved.to_list_flat()]


@lru_cache(maxsize=64)
def analyse(network: Network, law: Law) -> tuple[Mapping[str, Exact], Mapping[str, Exact]]:
    """The potentials of all junctions and the flows of all sources out of their + terminals.

    Kept for a while, since a network is asked for its elements and for its junctions.

    Args:
        network: connected, with at least one source.
        law: of its elements.

    Returns:
        Potentials against the last terminal, by junction, and flows, by source.

    Raises:
        ZeroDivisionError: if the network has no single solution.
    """
    ground = network.terminals[1]
    free = [junction for junction in network.junctions if junction != ground]
    column = {junction: at for at, junction in enumerate(free)}
    volts = [source for source in network.sources if source.quantity == law.drop]
    rows: list[Row] = [{} for _ in range(len(free) + len(volts))]
    for element in network.elements:
        _stamp_element(rows, element, law.weight(element.value), column)
    for source in network.sources:
        if source.quantity != law.drop:
            _add(rows, column.get(source.between[0]), RIGHT, source.value)
            _add(rows, column.get(source.between[1]), RIGHT, -source.value)
    for at, source in enumerate(volts, start=len(free)):
        _stamp_voltage(rows, source, at, column)
    solved = solve_rows(rows, len(rows))
    potentials = {junction: solved[at] for junction, at in column.items()}
    potentials[ground] = Integer(0)
    flows = {source.name: source.value for source in network.sources}
    flows |= {source.name: solved[at] for at, source in enumerate(volts, start=len(free))}
    return MappingProxyType(potentials), MappingProxyType(flows)


def _add(rows: list[Row], at: int | None, column: int | None, value: Exact) -> None:
    if at is not None and column is not None:
        rows[at][column] = rows[at].get(column, Integer(0)) + value


def _stamp_element(
    rows: list[Row], element: Element, weight: Exact, column: dict[str, int]
) -> None:
    here, there = (column.get(end) for end in element.between)
    for one, other in ((here, there), (there, here)):
        _add(rows, one, one, weight)
        _add(rows, one, other, -weight)


def _stamp_voltage(rows: list[Row], source: Source, at: int, column: dict[str, int]) -> None:
    plus, minus = (column.get(end) for end in source.between)
    _add(rows, plus, at, Integer(-1))
    _add(rows, minus, at, Integer(1))
    _add(rows, at, plus, Integer(1))
    _add(rows, at, minus, Integer(-1))
    _add(rows, at, RIGHT, source.value)


def by_analysis(network: Network, law: Law) -> dict[Name, Exact]:
    """Every flow, drop and work, in SI units.

    Args:
        network: connected, with at least one source.
        law: of its elements.

    Returns:
        Of each element and source by name; the work of ``total`` is that of all elements. Drops
        and flows of elements count from the first junction to the second; those of sources are
        their + less their − potential, and what leaves at +. The work of a source is delivered.
    """
    potentials, flows = analyse(network, law)
    half = Rational(1, 2) if law.work == "energy" else Integer(1)
    found: dict[Name, Exact] = {}
    whole: Exact = Integer(0)
    for element in network.elements:
        drop = potentials[element.between[0]] - potentials[element.between[1]]
        flow = law.weight(element.value) * drop
        found[Name(law.drop, element.name)] = drop
        found[Name(law.flow, element.name)] = flow
        found[Name(law.work, element.name)] = half * drop * flow
        whole = whole + half * drop * flow
    for source in network.sources:
        drop = potentials[source.between[0]] - potentials[source.between[1]]
        found[Name(law.drop, source.name)] = drop
        found[Name(law.flow, source.name)] = flows[source.name]
        found[Name(law.work, source.name)] = drop * flows[source.name]
    found[Name(law.work, TOTAL)] = whole
    return found
