"""Two even flows added: the way through the most regular networks.

Where all elements are equal and, seen from any junction, those at the same distance are alike in
how many elements lead nearer and farther, a flow that enters at + and leaves evenly at all N
junctions takes a way that counting alone tells: of it the part n/N has to reach the n junctions
beyond any distance, evenly over the elements that lead there. So does a flow that enters evenly at
all junctions and leaves at −. Both together enter at + and leave at −, since what they bring and
take elsewhere cancels; and flows add up, as the equations are linear. Source: the method is
standard; it gives the values of IBM Research, Ponder This, October 2007, for an edge of any such
network.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TypeAlias

from sympy import Integer, Rational

from builder.circuit.law import SERIES, Law
from builder.circuit.network import Element, Network
from builder.quantity.exact import Exact
from builder.quantity.formula import Amount, Formula, Negative, Num, Product, Quotient, Ref, Sum
from builder.quantity.names import TOTAL
from builder.solution.nest.stepwise import Naming
from builder.solution.network.reductions.story import shown_value
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.program import Line

COST = 8
"""What a reader feels: two flows to imagine, and to add."""


Shares: TypeAlias = tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Spread:
    """The flow through each element for a flow of 1 from + to −.

    Attributes:
        shares: by the element's name, from its first junction to its second: of the flow that
            leaves evenly, and of the one that enters evenly.
        path: elements from + to −, as few as possible.
        along: the same two shares for each element of ``path``, in its direction.
        junctions: how many the network has.
    """

    shares: Mapping[str, Shares]
    path: tuple[str, ...]
    along: tuple[Shares, ...]
    junctions: int


def spread_over(network: Network) -> Spread | None:
    """The even flows of a network, or None if it is not as regular as that."""
    if len({element.value for element in network.elements}) != 1:
        return None
    plus, minus = network.terminals
    near: dict[str, list[str]] = {junction: [] for junction in network.junctions}
    for element in network.elements:
        first, second = element.between
        near[first].append(second)
        near[second].append(first)
    from_plus = _even_flow(near, plus)
    if from_plus is None:
        return None
    for junction in near:
        other = _even_flow(near, junction)
        if other is None or other.per_element != from_plus.per_element:
            return None
    from_minus = _even_flow(near, minus)
    assert from_minus is not None
    shares = {
        element.name: (from_plus.through(element), -from_minus.through(element))
        for element in network.elements
    }
    path = _path(network, from_minus.distance)
    steps = range(1, len(path) + 1)
    along = tuple(
        (from_plus.per_element[step], from_minus.per_element[len(path) + 1 - step])
        for step in steps
    )
    return Spread(shares, path, along, len(near))


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


def _even_flow(near: Mapping[str, list[str]], start: str) -> _Even | None:
    """None if junctions at one distance are not alike, or if some cannot be reached."""
    distance = {start: 0}
    waiting = [start]
    for here in waiting:
        for there in near[here]:
            if there not in distance:
                distance[there] = distance[here] + 1
                waiting.append(there)
    at: dict[int, set[tuple[int, int]]] = {}
    for here, far in distance.items():
        steps = [distance[there] - far for there in near[here]]
        at.setdefault(far, set()).add((steps.count(-1), steps.count(1)))
    if len(distance) != len(near) or any(len(kinds) > 1 for kinds in at.values()):
        return None
    far_junctions = list(distance.values())
    per_element: dict[int, Fraction] = {}
    for step in range(1, max(at) + 1):
        ((nearer, _),) = at[step]
        beyond = sum(far >= step for far in far_junctions)
        per_element[step] = Fraction(beyond, len(distance) * nearer * far_junctions.count(step))
    return _Even(distance, per_element)


def _path(network: Network, to_minus: Mapping[str, int]) -> tuple[str, ...]:
    here, path = network.terminals[0], []
    while to_minus[here] > 0:
        name, here = next(
            (element.name, there)
            for element in network.elements
            for near, there in (element.between, element.between[::-1])
            if near == here and to_minus[there] < to_minus[here]
        )
        path.append(name)
    return tuple(path)


def spread_steps(network: Network, law: Law, spread: Spread) -> tuple[NetworkStep, ...]:
    """The equivalent by two even flows; with a source also every element's flow and drop.

    Args:
        network: of the problem.
        law: of its elements.
        spread: its even flows.
    """
    naming = Naming(law, TOTAL, network.source)
    step = NetworkStep(
        "spread",
        NetworkMove.SPREAD,
        (Line(naming.value(TOTAL), _equivalent(naming, spread)),),
        network=network,
        marked=spread.path,
        members=spread.path,
        telling={
            "distance": str(len(spread.path)),
            "junctions": str(spread.junctions),
            "entering": ", ".join(str(entering) for entering, _ in spread.along),
            "leaving": ", ".join(str(leaving) for _, leaving in spread.along),
        },
    )
    if network.source is None:
        return (step,)
    weight = law.weight(network.elements[0].value) / Rational(str(sum(map(sum, spread.along))))
    return step, _drive(network, naming, law.weight(weight)), _walk_back(network, naming, spread)


def _equivalent(naming: Naming, spread: Spread) -> Formula:
    """The drops along the path for a flow of 1, added up."""
    values = [Ref(naming.value(name)) for name in spread.path]
    parts = [_added(shares) for shares in spread.along]
    if naming.law.adds_in == SERIES:
        drops = [Product((part, value)) for part, value in zip(parts, values, strict=True)]
        return drops[0] if len(drops) == 1 else Sum(tuple(drops))
    over = [Quotient(part, value) for part, value in zip(parts, values, strict=True)]
    return Quotient(Num(Fraction(1)), over[0] if len(over) == 1 else Sum(tuple(over)))


def _added(shares: Shares) -> Formula:
    """Two shares, of which not both are zero, as a sum or a difference."""
    terms = [
        Num(share) if share > 0 else Negative(Num(-share))
        for share in sorted(shares, reverse=True)
        if share
    ]
    return terms[0] if len(terms) == 1 else Sum(tuple(terms))


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
    for name, shares in spread.shares.items():
        part = Product((_added(shares), total)) if sum(shares) else Amount(Integer(0), law.flow)
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
