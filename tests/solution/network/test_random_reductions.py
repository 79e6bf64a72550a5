"""Random connected networks by reductions and by the nodal method, as rationals."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from builder.circuit.law import CAPACITORS, RESISTORS, Law
from builder.circuit.network import Network
from builder.quantity.names import Name
from builder.solution.network.reductions.route import Route, route, route_by
from builder.solution.network.step import NetworkMove
from builder.solution.nodal import by_nodes
from tests.solution.network.examples import network_of
from tests.solution.network.solving import differences, found

MOST_JUNCTIONS = 8
FEW_VALUES = ("1", "2", "3/2")
"""Of so few values many networks have a symmetry or a balance."""
BRIDGE = ((0, 2), (2, 1), (0, 3), (3, 1), (2, 3))


@st.composite
def networks(
    draw: st.DrawFn,
    law: Law,
    values: st.SearchStrategy[str],
    core: tuple[tuple[int, int], ...] = (),
) -> Network:
    """A connected network of 2 to 8 junctions, with one source or none; parts may hang loose.

    Junctions that ``core`` does not join are added one after the other, then more elements.
    """
    first = 1 + max((end for pair in core for end in pair), default=0)
    junctions = draw(st.integers(max(2, first), MOST_JUNCTIONS))
    pairs = [(draw(st.integers(0, later - 1)), later) for later in range(first, junctions)]
    pairs += core
    ends = st.tuples(st.integers(0, junctions - 1), st.integers(0, junctions - 1))
    pairs += draw(st.lists(ends, min_size=1, max_size=8))
    rows = {
        f"{law.letter}{number}": (draw(values), str(first), str(second))
        for number, (first, second) in enumerate(draw(st.permutations(pairs)), start=1)
    }
    plus, minus = draw(st.permutations(range(junctions)))[:2]
    amount = draw(st.integers(1, 40))
    source = draw(st.sampled_from((None, (law.drop, amount), (law.flow, amount))))
    return network_of(rows, str(plus), str(minus), source)


def _values_agree_everywhere(network: Network, law: Law, way: Route) -> None:
    """All quantities, and in each network on the way its own elements' values and flows."""
    assert differences(network, law, way) == {}
    values = found(network, law, way.steps)
    for step in way.steps:
        nodal = by_nodes(step.network, law)
        for element in step.network.elements:
            assert element.value == values[Name(law.value, element.name)]
            flow = way.naming.resolve(Name(law.flow, element.name))
            if flow in values:
                assert values[flow] == nodal[Name(law.flow, element.name)], step.id


@pytest.mark.parametrize("law", [RESISTORS, CAPACITORS], ids=lambda law: str(law.value))
def test_random_networks_agree_with_the_nodal_method(law: Law) -> None:
    """150 networks of any values: wherever there is a route, every value on it is right."""
    counts: Counter[str] = Counter()

    @settings(max_examples=150)
    @given(networks(law, st.integers(1, 99).map(str)))
    def solved_alike(network: Network) -> None:
        way = route(network, law, most=None)
        counts["reduced" if way else "not reduced"] += 1
        if way is not None:
            counts.update(way.methods)
            _values_agree_everywhere(network, law, way)

    solved_alike()
    assert counts["reduced"] > counts["not reduced"]


@pytest.mark.parametrize("law", [RESISTORS, CAPACITORS], ids=lambda law: str(law.value))
def test_random_networks_of_few_values_agree_with_the_nodal_method(law: Law) -> None:
    """150 networks with a bridge in them, of three values, so that many balance."""
    counts: Counter[str] = Counter()

    @settings(max_examples=150)
    @given(networks(law, st.sampled_from(FEW_VALUES), BRIDGE))
    def solved_alike(network: Network) -> None:
        way = route(network, law, most=None)
        if way is not None:
            counts.update(way.methods)
            _values_agree_everywhere(network, law, way)

    solved_alike()
    assert min(counts[method] for method in ("merge", "balance", "delta-star")) > 0


@pytest.mark.parametrize("method", ["balance", "symmetry", "delta-star"])
def test_each_method_agrees_on_equal_elements(method: str) -> None:
    """100 networks of equal resistors, each by a route that has to use the method."""
    uses: Counter[NetworkMove | str] = Counter()

    @settings(max_examples=100)
    @given(networks(RESISTORS, st.just("1"), BRIDGE))
    def solved_alike(network: Network) -> None:
        way = route_by(network, RESISTORS, method)
        if way is not None:
            assert method in way.methods
            uses.update(step.kind.value for step in way.steps)
            _values_agree_everywhere(network, RESISTORS, way)

    solved_alike()
    wanted = {"balance": {"balance"}, "symmetry": {"join", "spread"},
              "delta-star": {"star", "triangle"}}[method]  # fmt: skip
    assert any(uses[kind] > 0 for kind in wanted)
