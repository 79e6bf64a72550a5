"""What lies in one chain with a source, so that it carries the source's own flow."""

from __future__ import annotations

from dataclasses import dataclass

from builder.circuit.network import Network, Source


@dataclass(frozen=True)
class Chain:
    """A source with the elements that follow it at either side.

    Attributes:
        elements: their names; empty if the source meets a fork at both sides.
        ends: where the chain meets the rest, at the source's + side first.
    """

    elements: tuple[str, ...]
    ends: tuple[str, str]


def chain_of(source: Source, network: Network) -> Chain:
    """The chain that a source lies in."""
    plus, after = _walk(source.between[0], source, network)
    minus, before = _walk(source.between[1], source, network)
    # A network that is a single loop is walked round once only.
    return Chain(tuple(dict.fromkeys((*after, *before))), (plus, minus))


def _walk(start: str, source: Source, network: Network) -> tuple[str, tuple[str, ...]]:
    """From one end of a source along the chain: where it ends, and the elements passed."""
    here, passed = start, list[str]()
    while True:
        elements = [one for one in network.elements if here in one.between]
        sources = [one for one in network.sources if here in one.between]
        onward = [one for one in elements if one.name not in passed]
        strangers = [one for one in sources if one is not source]
        if len(elements) + len(sources) != 2 or len(onward) != 1 or strangers:
            return here, tuple(passed)
        (element,) = onward
        passed.append(element.name)
        here = element.between[1] if element.between[0] == here else element.between[0]
