"""Circuits solved in floating point by numpy, sharing no code with what is tested.

Modified nodal analysis: C.-W. Ho, A. Ruehli and P. Brennan (1975), recalled from memory.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from builder.circuit.law import Law
from builder.circuit.network import Network


@dataclass(frozen=True)
class Branch:
    """An element by its weight, or a source of voltage or of flow.

    Attributes:
        ends: its junctions.
        weight: flow for each volt, or None for a source.
        volts: of a source of voltage, or None.
        flow: out of the first junction's side of a source of flow.
    """

    ends: tuple[str, str]
    weight: float | None = None
    volts: float | None = None
    flow: float = 0.0


def branches_of(network: Network, law: Law) -> dict[str, Branch]:
    """A network as branches."""
    found = {}
    for element in network.elements:
        value = float(element.value)
        found[element.name] = Branch(element.between, value if law.letter == "C" else 1 / value)
    for source in network.sources:
        size = float(source.value)
        driven = source.quantity == "voltage"
        found[source.name] = Branch(source.between, None, size if driven else None, size)
    return found


def solved(branches: dict[str, Branch]) -> dict[str, tuple[float, float]] | None:
    """Flow and drop of every branch, from its first junction to its second; None if singular.

    Of a source the flow is what leaves at its first junction.
    """
    junctions = list(dict.fromkeys(end for branch in branches.values() for end in branch.ends))
    at = {junction: row for row, junction in enumerate(junctions)}
    volts = [name for name, branch in branches.items() if branch.volts is not None]
    weights = [b.weight for b in branches.values() if b.weight is not None]
    if not weights:
        return None
    unit = float(np.median(weights))
    size = len(at) + len(volts)
    matrix, right = _equations(branches, at, volts, unit)
    kept = np.arange(1, size)
    inner = matrix[np.ix_(kept, kept)]
    if inner.size and np.linalg.cond(inner) > 1e13:
        return None
    height = np.zeros(size)
    height[kept] = np.linalg.solve(inner, right[kept])
    found = {}
    for name, branch in branches.items():
        drop = float(height[at[branch.ends[0]]] - height[at[branch.ends[1]]])
        flow = branch.flow if branch.weight is None else branch.weight * drop
        if branch.volts is not None:
            flow = float(height[len(at) + volts.index(name)]) * unit
        found[name] = (flow, drop)
    return found


def _equations(
    branches: dict[str, Branch], at: dict[str, int], volts: list[str], unit: float
) -> tuple[np.ndarray, np.ndarray]:
    """A row for each junction, and one for each source of voltage."""
    size = len(at) + len(volts)
    matrix, right = np.zeros((size, size)), np.zeros(size)
    for name, branch in branches.items():
        one, other = (at[end] for end in branch.ends)
        if branch.weight is not None:
            scaled = branch.weight / unit
            for here, there in ((one, other), (other, one)):
                matrix[here, here] += scaled
                matrix[here, there] -= scaled
        elif branch.volts is None:
            right[one] += branch.flow / unit
            right[other] -= branch.flow / unit
        else:
            row = len(at) + volts.index(name)
            for end, side in ((one, 1), (other, -1)):
                matrix[end, row] -= side
                matrix[row, end] += side
            right[row] = branch.volts
    return matrix, right


def sign(after: float, before: float) -> int:
    """1, 0 or −1 as a size grows, stays or falls, but for the noise of floating point."""
    if abs(abs(after) - abs(before)) <= 1e-9 * max(abs(after), abs(before)):
        return 0
    return 1 if abs(after) > abs(before) else -1
