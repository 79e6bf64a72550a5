"""Which junction counts as 0 V."""

from __future__ import annotations

from collections import Counter

from builder.circuit.network import Network


def ground_of(network: Network, reference: str | None) -> str:
    """The junction that counts as 0 V.

    The author's; else where the first source has its − side, if three branches meet there; else
    where most of them meet.

    Args:
        network: whose potentials are wanted.
        reference: what the author says, or None.
    """
    if reference is not None:
        return reference
    pairs = [element.between for element in network.elements]
    pairs += [source.between for source in network.sources]
    ends = Counter(end for pair in pairs for end in pair)
    low = network.sources[0].between[1] if network.sources else network.terminals[1]
    most = max(ends.values())
    if ends[low] >= 3 or most < 3:
        return low
    return next(junction for junction in network.junctions if ends[junction] == most)
