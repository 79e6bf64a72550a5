"""Which junctions of a network a step speaks of, and what each way of tracing them stands for."""

from __future__ import annotations

from builder.circuit.law import PARALLEL
from builder.circuit.network import Network
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import Prose, listed, say
from builder.site.figures.tracing import LOOKS
from builder.solution.network.step import Merged, NetworkMove, NetworkStep


def network_traces(
    step: NetworkStep, before: Network, display: NetworkDisplay
) -> tuple[dict[str, str], tuple[tuple[str, Prose], ...]]:
    """The look of each junction that the step speaks of, and what each look stands for."""
    if step.kind is NetworkMove.JOIN:
        sets = list(step.joined.values())[: len(LOOKS)]
        looks = {one: look for look, names in zip(LOOKS, sets, strict=False) for one in names}
        told = [say("junctions {names}: one potential", names=listed(list(names)))
                for names in sets]  # fmt: skip
        return looks, tuple(zip(LOOKS, told, strict=False))
    if step.kind is not NetworkMove.MERGE or len(step.merged) != 1:
        return {}, ()
    group = step.merged[0]
    if group.connection == PARALLEL:
        ends = before.element(group.members[0]).between
        legend = (
            ("a", say("one junction that {named} share", named=display.elements(group.members))),
            ("b", say("the other")),
        )
        return dict(zip(ends, LOOKS, strict=True)), legend
    return _of_chain(group, before, display)


def _of_chain(
    group: Merged, before: Network, display: NetworkDisplay
) -> tuple[dict[str, str], tuple[tuple[str, Prose], ...]]:
    """The wires between the members of a chain."""
    pairs = list(zip(group.members, group.members[1:], strict=False))
    if len(pairs) > len(LOOKS):
        return {}, ()
    looks: dict[str, str] = {}
    legend: list[tuple[str, Prose]] = []
    for look, (one, other) in zip(LOOKS, pairs, strict=False):
        shared = set(before.element(one).between) & set(before.element(other).between)
        looks[min(shared)] = look
        told = say("the wire between {one} and {other}: nothing else joins it",
                   one=display.element(one), other=display.element(other))  # fmt: skip
        legend.append((look, told))
    return looks, tuple(legend)
