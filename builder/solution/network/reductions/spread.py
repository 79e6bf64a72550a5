"""Two even flows added: the way through the most regular networks.

Where all elements are equal and the junctions at any distance from + are alike in how many
elements lead nearer and farther, a flow that enters at + and leaves evenly at all N junctions
takes a way that counting alone tells: of it the part n/N has to reach the n junctions beyond any
distance, evenly over the elements that lead there. So does a flow that enters evenly at all
junctions and leaves at −. Both together enter at + and leave at −, since what they bring and take
elsewhere cancels; and flows add up, as the equations are linear. Source: the method is standard;
it gives the values of IBM Research, Ponder This, October 2007, for an edge of any such network.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from sympy import Integer, Rational

from builder.circuit.law import SERIES, Law
from builder.circuit.network import Element, Network
from builder.quantity.exact import Exact
from builder.quantity.formula import Amount, Formula, Num, Product, Quotient, Ref, Sum
from builder.quantity.names import TOTAL
from builder.solution.nest.stepwise import Naming
from builder.solution.network.reductions.story import shown_value
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.program import Line

COST = 8
"""What a reader feels: two flows to imagine, and to add."""


@dataclass(frozen=True)
class Spread:
    """The flow through each element for a flow of 1 from + to −.

    Attributes:
        shares: by the element's name, from its first junction to its second.
        path: elements from + to −, as few as possible.
        entering: for each element of ``path`` the share of the flow that leaves evenly.
        leaving: for each the share of the flow that enters evenly.
        junctions: how many the network has.
    """

    shares: Mapping[str, Fraction]
    path: tuple[str, ...]
    entering: tuple[Fraction, ...]
    leaving: tuple[Fraction, ...]
    junctions: int


def spread_over(network: Network) -> Spread | None:
    """The even flows of a network, or None if it is not as regular as that."""
    if len({element.value for element in network.elements}) != 1:
        return None
    plus, minus = network.terminals
    from_plus, from_minus = (_even_flow(network, start) for start in (plus, minus))
    if from_plus is None or from_minus is None or minus not in from_plus.distance:
        return None
    shares = {
        element.name: from_plus.through(element) - from_minus.through(element)
        for element in network.elements
    }
    way = _way(network, from_minus.distance)
    return Spread(
        shares,
        tuple(element.name for element in way),
        tuple(from_plus.per_element[step] for step in range(1, len(way) + 1)),
        tuple(from_minus.per_element[step] for step in range(len(way), 0, -1)),
        len(from_plus.distance),
    )


@dataclass(frozen=True)
class _Even:
    """A flow of 1 that enters at one junction and leaves evenly at all.

    Attributes:
        distance: of each junction from the one where it enters.
        per_element: what goes through each element that leads to a distance from the one before.
    """

    distance: Mapping[str, int]
    per_element: Mapping[int, Fraction]

    def through(self, element: Element) -> Fraction:
        """What goes through an element from its first junction to its second."""
        near, far = (self.distance[junction] for junction in element.between)
        if near == far:
            return Fraction(0)
        return self.per_element[far] if near < far else -self.per_element[near]


def _even_flow(network: Network, start: str) -> _Even | None:
    distance = _distances(network, start)
    nearer, farther = Counter[str](), Counter[str]()
    for element in network.elements:
        if not set(element.between) <= distance.keys():
            return None
        first, second = sorted(element.between, key=distance.__getitem__)
        if distance[first] < distance[second]:
            farther[first] += 1
            nearer[second] += 1
    alike = {(distance[one], nearer[one], farther[one]) for one in distance}
    last = max(distance.values())
    if len(alike) != last + 1:
        return None
    per_element = {
        step: Fraction(
            sum(far >= step for far in distance.values()),
            len(distance) * sum(nearer[one] for one, far in distance.items() if far == step),
        )
        for step in range(1, last + 1)
    }
    return _Even(distance, per_element)


def _distances(network: Network, start: str) -> dict[str, int]:
    distance = {start: 0}
    waiting = [start]
    for here in waiting:
        for element in network.elements:
            if here in element.between:
                there = element.between[element.between[0] == here]
                if there not in distance:
                    distance[there] = distance[here] + 1
                    waiting.append(there)
    return distance


def _way(network: Network, to_minus: Mapping[str, int]) -> list[Element]:
    here, way = network.terminals[0], []
    while to_minus[here] > 0:
        element, here = next(
            (element, there)
            for element in network.elements
            for near, there in (element.between, element.between[::-1])
            if near == here and to_minus[there] < to_minus[here]
        )
        way.append(element)
    return way


def spread_steps(network: Network, law: Law, spread: Spread) -> tuple[NetworkStep, ...]:
    """The equivalent by two even flows; with a source also every element's flow and drop.

    Args:
        network: of the problem.
        law: of its elements.
        spread: its even flows.
    """
    naming = Naming(law, TOTAL, network.source)
    per_flow = [
        entering + leaving
        for entering, leaving in zip(spread.entering, spread.leaving, strict=True)
    ]
    step = NetworkStep(
        "spread",
        NetworkMove.SPREAD,
        (Line(naming.value(TOTAL), _equivalent(naming, spread.path, per_flow)),),
        network=network,
        marked=spread.path,
        members=spread.path,
        telling={
            "distance": str(len(spread.path)),
            "junctions": str(spread.junctions),
            "entering": ", ".join(map(str, spread.entering)),
            "leaving": ", ".join(map(str, spread.leaving)),
        },
    )
    if network.source is None:
        return (step,)
    weight = law.weight(network.elements[0].value) / Rational(str(sum(per_flow)))
    return step, _drive(network, naming, law.weight(weight)), _walk_back(network, naming, spread)


def _equivalent(naming: Naming, path: tuple[str, ...], per_flow: list[Fraction]) -> Formula:
    """The drops along the path for a flow of 1, added up."""
    values = [Ref(naming.value(name)) for name in path]
    if naming.law.adds_in == SERIES:
        terms = [
            Product((Num(share), value)) for share, value in zip(per_flow, values, strict=True)
        ]
        return terms[0] if len(terms) == 1 else Sum(tuple(terms))
    over = [Quotient(Num(share), value) for share, value in zip(per_flow, values, strict=True)]
    return Quotient(Num(Fraction(1)), over[0] if len(over) == 1 else Sum(tuple(over)))


def _drive(network: Network, naming: Naming, whole: Exact) -> NetworkStep:
    law, source = naming.law, network.source
    assert source is not None
    value, flow, drop = (Ref(name(TOTAL)) for name in (naming.value, naming.flow, naming.drop))
    line = (
        Line(flow.name, law.flow_from(value, drop))
        if source.quantity == law.drop
        else Line(drop.name, law.drop_from(value, flow))
    )
    element = Element(TOTAL, whole, shown_value(whole, law), network.terminals)
    left = replace(network, elements=(element,))
    return NetworkStep(law.flow, NetworkMove.DRIVE, (line,), left, marked=(TOTAL,))


def _walk_back(network: Network, naming: Naming, spread: Spread) -> NetworkStep:
    law, total = naming.law, Ref(naming.flow(TOTAL))
    lines: list[Line] = []
    for name, share in spread.shares.items():
        part = Product((Num(share), total)) if share else Amount(Integer(0), law.flow)
        lines.append(Line(naming.flow(name), part))
    for name in spread.shares:
        flow = Ref(naming.flow(name))
        lines.append(Line(naming.drop(name), law.drop_from(Ref(naming.value(name)), flow)))
    return NetworkStep(
        "open-spread",
        NetworkMove.OPEN,
        tuple(lines),
        network=network,
        marked=tuple(spread.shares),
        members=tuple(spread.shares),
        undone=NetworkMove.SPREAD,
        telling={"junctions": str(spread.junctions)},
    )
