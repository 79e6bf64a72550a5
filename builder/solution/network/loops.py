"""Loop equations: the drops round each loop add up to what its sources lift.

Each loop has a flow of its own, which runs all the way round; a branch that two loops pass
carries both. Source of the rule: University Physics Volume 2 (OpenStax), section 10.3 (loop
rule); a flow for each loop is common practice.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count

from builder.quantity.formula import Formula, Product, Quotient, Ref, Solved, System
from builder.quantity.names import Name, element_index
from builder.solution.network.chains import Branches, Chain, Part
from builder.solution.network.spreading import by_flows
from builder.solution.network.step import Loop, NetworkMove, NetworkStep
from builder.solution.network.terms import ONE, Term, total, turned
from builder.solution.network.windows import Way, independent_loops, way_back
from builder.solution.program import Line, Statement


@dataclass(frozen=True)
class Round:
    """A loop with its flow.

    Attributes:
        way: the chains that it passes.
        flow: of the loop: an unknown, or that of the current source that fixes it.
        loop: the same for figures and words; None for one that a current source fixes.
    """

    way: Way
    flow: Formula
    loop: Loop | None = None

    def passes(self, chain: Chain) -> bool | None:
        """Whether a chain is passed along its direction; None if it is not passed."""
        return next((along for other, along in self.way if other is chain), None)


@dataclass(frozen=True)
class Loops:
    """The loops of a network.

    Attributes:
        branches: of the network.
        free: those whose flow is unknown.
        fixed: those whose flow a current source fixes.
    """

    branches: Branches
    free: tuple[Round, ...]
    fixed: tuple[Round, ...]

    def flow_of(self, chain: Chain) -> tuple[Term, ...]:
        """A chain's flow from its start to its end, by the flows of the loops."""
        every = ((one.passes(chain), one.flow) for one in (*self.free, *self.fixed))
        return tuple((along, flow) for along, flow in every if along is not None)


def loops_of(branches: Branches) -> Loops:
    """The loops of a network, named A, B, C …"""
    names = _loop_names(branches)
    free = []
    for way in independent_loops(branches):
        name = next(names)
        flow = Ref(Name(branches.law.flow, name))
        free.append(Round(way, flow, Loop(name, _path(way))))
    fixed = []
    for chain in branches.chains:
        driver = branches.driver(chain)
        if driver is None:
            continue
        # Along the current source's own direction, which leads out of its first junction.
        own = chain.turned if driver[1] else chain
        way = ((chain, not driver[1]), *way_back(branches, own))
        fixed.append(Round(way, Ref(Name(branches.law.flow, driver[0]))))
    return Loops(branches, tuple(free), tuple(fixed))


def _loop_names(branches: Branches) -> Iterator[str]:
    """Letters that no element or source has as its index."""
    law = branches.law
    parts: tuple[Part, ...] = (*branches.network.elements, *branches.network.sources)
    taken = {element_index(part.name, law.letter) for part in parts}
    taken |= {part.name for part in parts}
    for number in count():
        name = chr(ord("A") + number % 26) * (1 + number // 26)
        if name not in taken:
            yield name


def _path(way: Way) -> tuple[tuple[str, bool], ...]:
    return tuple(part for chain, along in way for part in (chain if along else chain.turned).parts)


def loop_equations(loops: Loops) -> NetworkStep:
    """The step that writes the loop equations and solves them."""
    system = System(
        tuple(tuple(_shared(loops, one, other) for other in loops.free) for one in loops.free),
        tuple(_right(loops, one) for one in loops.free),
    )
    lines = tuple(
        Line(one.flow.name, Solved(system, at))
        for at, one in enumerate(loops.free)
        if isinstance(one.flow, Ref)
    )
    statements = tuple(
        Statement(_drops(loops, one), _lifts(loops, one), about=one.loop.name if one.loop else "")
        for one in loops.free
    )
    fixed = {
        one.flow.name.of: ",".join(name for name, _ in _path(one.way) if name != one.flow.name.of)
        for one in loops.fixed
        if isinstance(one.flow, Ref)
    }
    telling = {"fixed": ",".join(fixed)} | {f"fixed-{name}": way for name, way in fixed.items()}
    return NetworkStep(
        "loops", NetworkMove.LOOPS, lines, loops.branches.network, statements=statements,
        loops=tuple(one.loop for one in loops.free if one.loop is not None),
        telling=telling if fixed else {},
    )  # fmt: skip


def loop_branches(loops: Loops) -> NetworkStep:
    """The step from loop flows to every element."""
    return by_flows(loops.branches, loops.flow_of)


def _per_flow(branches: Branches, name: str) -> Formula:
    """Drop per flow of an element: R, or 1/C."""
    value = Ref(Name(branches.law.value, name))
    return Quotient(ONE, value) if branches.law.work == "energy" else value


def _drops(loops: Loops, one: Round) -> Formula:
    """The drops round a loop, element by element."""
    terms: list[Term] = []
    for chain, along in one.way:
        flows = loops.flow_of(chain)
        own = total(flows if along else turned(flows))
        for name, _ in loops.branches.elements_of(chain):
            value = Ref(Name(loops.branches.law.value, name))
            energy = loops.branches.law.work == "energy"
            terms.append((True, Quotient(own, value) if energy else Product((value, own))))
    return total(terms)


def _lift_terms(loops: Loops, one: Round) -> tuple[Term, ...]:
    drop = loops.branches.law.drop
    return tuple(
        (forward != along, Ref(Name(drop, name)))
        for chain, along in one.way
        for name, forward in loops.branches.lifts(chain)
    )


def _lifts(loops: Loops, one: Round) -> Formula:
    """What the sources of a loop lift, gone round its way."""
    return total(_lift_terms(loops, one))


def _shared_terms(loops: Loops, one: Round, other: Round) -> tuple[Term, ...]:
    return tuple(
        (along == other.passes(chain), _per_flow(loops.branches, name))
        for chain, along in one.way
        if other.passes(chain) is not None
        for name, _ in loops.branches.elements_of(chain)
    )


def _shared(loops: Loops, one: Round, other: Round) -> Formula:
    """The coefficient of a loop's flow in the equation of another, or in its own."""
    return total(_shared_terms(loops, one, other))


def _right(loops: Loops, one: Round) -> Formula:
    terms = list(_lift_terms(loops, one))
    for fixed in loops.fixed:
        terms += [
            (not added, Product((value, fixed.flow)))
            for added, value in _shared_terms(loops, one, fixed)
        ]
    return total(terms)
