"""From what is known of chains to the flow and the drop of every element and source."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from builder.circuit.law import Law
from builder.circuit.network import Network
from builder.quantity.formula import Formula, Negative, Quotient, Ref
from builder.quantity.names import Name
from builder.solution.network.chains import Branches, Chain, Part
from builder.solution.network.junctions import Level, across, potential, resistance_of
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.network.terms import ZERO, Term, total, turned
from builder.solution.program import Line


def signed(name: Name, *, forward: bool) -> Formula:
    """A quantity, or its negative where it is counted the other way."""
    return Ref(name) if forward else Negative(Ref(name))


@dataclass
class Spreading:
    """Lines for flows and drops as they are gathered.

    Attributes:
        branches: of the network.
        lines: so far, in order.
    """

    branches: Branches
    lines: list[Line] = field(default_factory=list)

    @property
    def law(self) -> Law:
        """Of the elements."""
        return self.branches.law

    def flow(self, name: str) -> Name:
        """The name of an element's or source's flow."""
        return Name(self.law.flow, name)

    def drop(self, name: str) -> Name:
        """The name of an element's or source's drop."""
        return Name(self.law.drop, name)

    def flow_of(self, chain: Chain) -> Term:
        """A chain's flow from its start to its end, once its lines are written."""
        name, forward = self.lead(chain)
        source = self.branches.sources.get(name)
        # A source's flow counts out of its first junction, an element's into it.
        return forward if source is None else not forward, Ref(self.flow(name))

    def lead(self, chain: Chain) -> tuple[str, bool]:
        """The part that a chain's flow is named after."""
        driver = self.branches.driver(chain)
        elements = self.branches.elements_of(chain)
        if driver is not None:
            return driver
        return elements[0] if elements else chain.parts[0]

    def by_drop(self, chain: Chain, drop: tuple[Term, ...]) -> None:
        """A chain of one element, whose drop in the chain's direction is known."""
        ((name, forward),) = self.branches.elements_of(chain)
        self.lines.append(Line(self.drop(name), total(drop if forward else turned(drop))))
        value = Ref(Name(self.law.value, name))
        self.lines.append(Line(self.flow(name), self.law.flow_from(value, Ref(self.drop(name)))))
        self._follow(chain)

    def by_total_drop(self, chain: Chain, drop: tuple[Term, ...]) -> None:
        """A chain of several elements, whose drop together is known."""
        _, forward = self.lead(chain)
        value = resistance_of(self.branches, chain)
        self.by_flow(chain, Quotient(total(drop if forward else turned(drop)), value))

    def by_flow(self, chain: Chain, flow: Formula) -> None:
        """A chain whose flow in the direction of its lead is given by a formula."""
        name, _ = self.lead(chain)
        if name not in self.branches.sources or self.branches.driver(chain) is None:
            self.lines.append(Line(self.flow(name), flow))
        self._follow(chain)
        for element, _ in self.branches.elements_of(chain):
            value = Ref(Name(self.law.value, element))
            flow_of = Ref(self.flow(element))
            self.lines.append(Line(self.drop(element), self.law.drop_from(value, flow_of)))

    def _follow(self, chain: Chain) -> None:
        """The flows of all parts of a chain but its lead."""
        lead, _ = self.lead(chain)
        along, flow = self.flow_of(chain)
        for name, forward in chain.parts:
            if name != lead:
                own = forward if name not in self.branches.sources else not forward
                formula = flow if own == along else Negative(flow)
                self.lines.append(Line(self.flow(name), formula))

    def sources_in_chains(self) -> None:
        """The flows of sources that lie in one chain with elements, whose flows are known."""
        for chain in self.branches.chains:
            if self.branches.elements_of(chain):
                along, flow = self.flow_of(chain)
                for name, forward in chain.parts:
                    if name in self.branches.sources and name != self.lead(chain)[0]:
                        formula = flow if (not forward) == along else Negative(flow)
                        self.lines.append(Line(self.flow(name), formula))

    def by_balance(self) -> None:
        """The flows of chains of voltage sources alone, from what else meets at their ends."""
        ties = list(self.branches.ties)
        while ties:
            tie, junction = next(
                (tie, end)
                for tie in ties
                for end in (tie.start, tie.end)
                if sum(end in (other.start, other.end) for other in ties) == 1
            )
            away: list[Term] = []
            for chain in self.branches.chains:
                if chain is not tie:
                    added, flow = self.flow_of(chain)
                    away += [(added, flow)] if chain.start == junction else []
                    away += [(not added, flow)] if chain.end == junction else []
            ties.remove(tie)
            along, _ = self.flow_of(tie)
            into = away if tie.end == junction else turned(away)
            self.by_flow(tie, total(into if along else turned(into)))

    def of_current_sources(self, levels: Mapping[str, Level] | None = None) -> None:
        """The voltages of current sources, from their first to their second junction.

        Args:
            levels: of the junctions, if their potentials are known; else a way round is taken.
        """
        for chain in self.branches.chains:
            driver = self.branches.driver(chain)
            if driver is None:
                continue
            whole = (
                _difference(chain.start, chain.end, levels)
                if levels is not None
                else way_round(self.branches.network, self.law, chain.start, chain.end)
            )
            others = tuple(
                (forward, Ref(self.drop(name)))
                for name, forward in chain.parts
                if name != driver[0]
            )
            terms = (*whole, *turned(others))
            formula = total(terms if driver[1] else turned(terms))
            self.lines.append(Line(self.drop(driver[0]), formula))


def _difference(start: str, end: str, levels: Mapping[str, Level]) -> tuple[Term, ...]:
    ends = [((True, Ref(potential(j))),) if levels[j].terms else () for j in (start, end)]
    return (*ends[0], *turned(ends[1]))


def way_round(
    network: Network, law: Law, start: str, end: str, without: Iterable[str] = ()
) -> tuple[Term, ...]:
    """The drop from one junction to another along elements and voltage sources, the fewest.

    Args:
        network: connected without its current sources.
        law: of its elements.
        start: where to start.
        end: where to end.
        without: parts that are not passed.
    """
    lifts = tuple(source for source in network.sources if source.quantity == law.drop)
    every: tuple[Part, ...] = (*lifts, *network.elements)
    parts = [part for part in every if part.name not in without]
    came: dict[str, tuple[str, bool, str]] = {}
    waiting, seen = [start], {start}
    while waiting and end not in seen:
        here = waiting.pop(0)
        for part in parts:
            for first, second, forward in ((*part.between, True), (*part.between[::-1], False)):
                if first == here and second not in seen:
                    seen.add(second)
                    came[second] = (part.name, forward, here)
                    waiting.append(second)
    terms: list[Term] = []
    while end != start:
        name, forward, end = came[end]
        terms.insert(0, (forward, Ref(Name(law.drop, name))))
    return tuple(terms)


def by_potentials(branches: Branches, levels: Mapping[str, Level]) -> NetworkStep:
    """The step from potentials to every flow and drop."""
    spread = Spreading(branches)
    for chain in branches.chains:
        if branches.driver(chain) is None and branches.elements_of(chain):
            drop = across(branches, chain, levels, named=True)
            one = len(branches.elements_of(chain)) == 1
            (spread.by_drop if one else spread.by_total_drop)(chain, drop)
    return _finished(spread, levels)


def by_flows(branches: Branches, flow_of: Callable[[Chain], tuple[Term, ...]]) -> NetworkStep:
    """The step from the flows of all chains to every flow and drop.

    Args:
        branches: of the network.
        flow_of: the flow of a chain from its start to its end.
    """
    spread = Spreading(branches)
    for chain in branches.chains:
        if branches.driver(chain) is None:
            along, _ = spread.flow_of(chain)
            terms = flow_of(chain)
            spread.by_flow(chain, total(terms if along else turned(terms)))
    return _finished(spread, None, ties=False)


def _finished(
    spread: Spreading, levels: Mapping[str, Level] | None, *, ties: bool = True
) -> NetworkStep:
    for chain in spread.branches.chains:
        if spread.branches.driver(chain) is not None:
            spread.by_flow(chain, ZERO)
    if ties:
        spread.by_balance()
    spread.of_current_sources(levels)
    network = spread.branches.network
    marked = tuple(element.name for element in network.elements)
    return NetworkStep(
        "branches", NetworkMove.BRANCHES, tuple(spread.lines), network, marked=marked
    )
