"""Junction equations: what flows into each junction flows out of it.

Potentials are the unknowns. Junctions that voltage sources join have potentials that differ by
known amounts, so that they share one unknown and one equation. Source of the method: University
Physics Volume 2 (OpenStax), section 10.3 (junction rule); potentials as unknowns are common
practice.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.circuit.network import Network
from builder.quantity.formula import Formula, Product, Quotient, Ref, Solved, Sum, System
from builder.quantity.names import Name
from builder.solution.network.chains import Branches, Chain
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.network.terms import ONE, ZERO, Term, cancelled, total, turned
from builder.solution.program import Line, Statement

POTENTIAL = "potential"


def potential(junction: str) -> Name:
    """The name of a junction's potential."""
    return Name(POTENTIAL, junction)


@dataclass(frozen=True)
class Level:
    """A junction's potential: that of ``base`` plus known voltages.

    Attributes:
        base: the junction whose potential is unknown; None for the reference.
        offset: the voltages of sources.
    """

    base: str | None
    offset: tuple[Term, ...] = ()

    @property
    def terms(self) -> tuple[Term, ...]:
        """The potential as a sum."""
        own = () if self.base is None else ((True, Ref(potential(self.base))),)
        return (*own, *self.offset)


def levels_of(branches: Branches, reference: str) -> dict[str, Level]:
    """The potentials of all junctions at which chains end, by as few unknowns as possible."""
    levels: dict[str, Level] = {reference: Level(None)}
    ties = branches.ties
    for junction in (reference, *branches.kept):
        if junction not in levels:
            levels[junction] = Level(junction)
        waiting = [junction]
        while waiting:
            here = waiting.pop()
            for chain in [c for tie in ties for c in (tie, tie.turned) if c.start == here]:
                if chain.end not in levels:
                    offset = cancelled((*levels[here].offset, *turned(_drop(branches, chain))))
                    levels[chain.end] = Level(levels[here].base, offset)
                    waiting.append(chain.end)
    return levels


def _drop(branches: Branches, chain: Chain) -> tuple[Term, ...]:
    """By how much a chain's sources lower the potential from its start to its end."""
    return tuple((forward, Ref(Name(branches.law.drop, name)))
                 for name, forward in branches.lifts(chain))  # fmt: skip


def across(
    branches: Branches, chain: Chain, levels: Mapping[str, Level], *, named: bool
) -> tuple[Term, ...]:
    """The drop across the elements of a chain, from its start to its end.

    Args:
        branches: of the network.
        chain: with elements.
        levels: of the junctions.
        named: whether each end's own potential is used, which is then known, and not that of
            the unknown behind it.
    """
    ends: list[tuple[Term, ...]] = []
    for junction in (chain.start, chain.end):
        level = levels[junction]
        own = level.terms == () if named else False
        ends.append(((True, Ref(potential(junction))),) if named and not own else level.terms)
    return cancelled((*ends[0], *turned(ends[1]), *turned(_drop(branches, chain))))


def resistance_of(branches: Branches, chain: Chain) -> Formula:
    """The value of a chain: that of its element, or the sum of its resistances."""
    values = tuple(Ref(Name(branches.law.value, name)) for name, _ in branches.elements_of(chain))
    return values[0] if len(values) == 1 else Sum(values)


def weight_of(branches: Branches, chain: Chain) -> Formula:
    """Flow per drop of a chain: C, or 1/R."""
    value = resistance_of(branches, chain)
    return value if branches.law.work == "energy" else Quotient(ONE, value)


def junction_equations(
    branches: Branches, levels: Mapping[str, Level], reference: str, *, show_reference: bool
) -> NetworkStep:
    """The step that writes the junction equations and solves them.

    Args:
        branches: of the network.
        levels: of its junctions.
        reference: the junction taken as 0 V.
        show_reference: whether the reference's own potential is asked for.
    """
    unknowns = tuple(dict.fromkeys(level.base for level in levels.values() if level.base))
    equations = [_Equation(branches, levels, base) for base in unknowns]
    system = System(
        tuple(equation.row(unknowns) for equation in equations),
        tuple(equation.right for equation in equations),
    )
    lines = [Line(potential(base), Solved(system, at)) for at, base in enumerate(unknowns)]
    if show_reference:
        lines.insert(0, Line(potential(reference), ZERO))
    lines += [
        Line(potential(junction), total(level.terms))
        for junction, level in levels.items()
        if junction not in (level.base, reference)
    ]
    statements = tuple(
        Statement(equation.balance, equation.brought, about=equation.base) for equation in equations
    )
    network: Network = branches.network
    return NetworkStep(
        "junctions", NetworkMove.JUNCTIONS, tuple(lines), network,
        statements=statements, reference=reference,
        joined=_joined(levels),
    )  # fmt: skip


def _joined(levels: Mapping[str, Level]) -> dict[str, tuple[str, ...]]:
    """The junctions that share one equation, by the one that it is told of."""
    members: dict[str, list[str]] = {}
    for junction, level in levels.items():
        if level.base is not None:
            members.setdefault(level.base, []).append(junction)
    return {base: tuple(together) for base, together in members.items() if len(together) > 1}


@dataclass(frozen=True)
class _Equation:
    """The balance of a junction, or of several that voltage sources join.

    Attributes:
        branches: of the network.
        levels: of its junctions.
        base: the junction whose potential is unknown.
    """

    branches: Branches
    levels: Mapping[str, Level]
    base: str

    @property
    def leaving(self) -> tuple[Chain, ...]:
        """The chains to other junctions, each starting here."""
        chains = [way for chain in self.branches.chains for way in (chain, chain.turned)]
        return tuple(
            way
            for way in chains
            if self.levels[way.start].base == self.base and self.levels[way.end].base != self.base
        )

    @property
    def passive(self) -> tuple[Chain, ...]:
        """Those of them whose flow follows from potentials."""
        return tuple(c for c in self.leaving if self.branches.driver(c) is None)

    @property
    def balance(self) -> Formula:
        """What flows away, by potentials."""
        return total((True, self._flow(chain)) for chain in self.passive)

    def _flow(self, chain: Chain) -> Formula:
        value = resistance_of(self.branches, chain)
        drop = total(across(self.branches, chain, self.levels, named=False))
        return Product((value, drop)) if self.branches.law.work == "energy" else (
            Quotient(drop, value))  # fmt: skip

    @property
    def _brought(self) -> tuple[Term, ...]:
        drivers = [self.branches.driver(chain) for chain in self.leaving]
        flow = self.branches.law.flow
        # A current source that is passed from its second to its first junction drives away.
        return tuple((d[1], Ref(Name(flow, d[0]))) for d in drivers if d is not None)

    @property
    def brought(self) -> Formula:
        """What current sources bring."""
        return total(self._brought)

    def row(self, unknowns: tuple[str | None, ...]) -> tuple[Formula, ...]:
        """The coefficients of all unknowns."""
        found: list[Formula] = []
        for unknown in unknowns:
            own = unknown == self.base
            weights = tuple(
                (own, weight_of(self.branches, chain))
                for chain in self.passive
                if own or self.levels[chain.end].base == unknown
            )
            found.append(total(weights))
        return tuple(found)

    @property
    def right(self) -> Formula:
        """What the sources amount to."""
        terms: list[Term] = list(self._brought)
        for chain in self.passive:
            drop = across(self.branches, chain, self.levels, named=False)
            known = tuple(term for term in drop if not _is_unknown(term))
            if not known:
                continue
            value = resistance_of(self.branches, chain)
            for added, formula in known:
                flow = (Product((value, formula)) if self.branches.law.work == "energy"
                        else Quotient(formula, value))  # fmt: skip
                terms.append((not added, flow))
        return total(terms)


def _is_unknown(term: Term) -> bool:
    formula = term[1]
    return isinstance(formula, Ref) and formula.name.quantity == POTENTIAL
