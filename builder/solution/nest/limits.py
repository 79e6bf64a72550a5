"""What becomes of answers with symbols when one element grows very large or very small.

An element that resists everything is a gap, one that resists nothing is a wire. So each limit is
found twice: from the formula, by the degrees of its polynomials, and by nodes, from the circuit
that has a wire or a gap in that place.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from sympy import Integer, Symbol, oo

from builder.circuit.law import PARALLEL, Law
from builder.circuit.network import Element, Network
from builder.errors import CheckFailed
from builder.problem.model import NestProblem
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.quantity.symbolic import is_symbolic, limit, same
from builder.solution.nest.stepwise import naming_of
from builder.solution.nodal import by_nodes, potentials


@dataclass(frozen=True)
class Limit:
    """What a quantity comes close to.

    Attributes:
        element: the one that grows or shrinks.
        large: whether it grows.
        wire: whether it then is a wire; else it is a gap.
        name: the quantity.
        becomes: its limit in SI units; zero or infinity among others.
    """

    element: str
    large: bool
    wire: bool
    name: Name
    becomes: Exact


def limits_of(problem: NestProblem, values: Mapping[Name, Exact]) -> tuple[Limit, ...]:
    """The limits of what is asked, and of the equivalent, each confirmed by the altered circuit.

    Args:
        problem: a nest; without symbols of their own for single elements there is no limit.
        values: its results.

    Raises:
        CheckFailed: if a formula and the altered circuit do not tell the same limit.
    """
    naming = naming_of(problem)
    asked = dict.fromkeys((Name(problem.law.value, TOTAL), *problem.find))
    found: list[Limit] = []
    for element, symbol in free_elements(problem):
        for large in (True, False):
            wire = large == (problem.law.adds_in == PARALLEL)
            altered = _altered(problem.network, element, wire=wire)
            seen = _seen(altered, problem.law) | _of_itself(element, altered, problem.law, wire)
            for name in asked:
                value = values[naming.resolve(name)]
                if name not in seen or not is_symbolic(value) or symbol not in value.free_symbols:
                    continue
                becomes = limit(value, symbol, large=large)
                if becomes != seen[name] and not same(becomes, seen[name]):
                    raise CheckFailed(
                        problem.slug,
                        f"{name.quantity} of {name.of} with {element.name} as a "
                        f"{'wire' if wire else 'gap'}",
                        str(becomes),
                        str(seen[name]),
                    )
                found.append(Limit(element.name, large, wire, naming.resolve(name), becomes))
    return tuple(dict.fromkeys(found))


def free_elements(problem: NestProblem) -> Iterator[tuple[Element, Symbol]]:
    """The elements whose value is a letter of their own, so that it can change alone."""
    elements, source = problem.network.elements, problem.network.source
    given = [element.value for element in elements] + ([source.value] if source else [])
    if len(elements) < 2:
        return
    for element in elements:
        uses = sum(element.value in value.free_symbols for value in given)
        if isinstance(element.value, Symbol) and uses == 1:
            yield element, element.value


def _altered(network: Network, element: Element, *, wire: bool) -> Network:
    """The network with a wire or a gap in place of an element."""
    rest = tuple(other for other in network.elements if other is not element)
    if not wire:
        return replace(network, elements=rest)
    kept, lost = element.between
    if lost in network.terminals:
        kept, lost = lost, kept

    def joined(ends: tuple[str, str]) -> tuple[str, str]:
        start, end = (kept if junction == lost else junction for junction in ends)
        return start, end

    return replace(
        network,
        elements=tuple(replace(other, between=joined(other.between)) for other in rest),
        terminals=joined(network.terminals),
        sources=tuple(replace(each, between=joined(each.between)) for each in network.sources),
    )


def _seen(network: Network, law: Law) -> dict[Name, Exact]:
    """What the altered circuit shows; of one that is cut or shorted, only what is plain."""
    plus, minus = network.terminals
    if plus == minus:
        return _extreme(network, law, flows=True)
    if minus not in _reached(network, plus):
        return _extreme(network, law, flows=False)
    live = _reached(network, plus)
    shorted = tuple(e for e in network.elements if e.between[0] == e.between[1])
    elements = tuple(e for e in network.elements if e not in shorted and e.between[0] in live)
    seen = by_nodes(replace(network, elements=elements), law)
    if network.source is not None:
        for element in shorted:
            for quantity in (law.flow, law.drop, law.work):
                seen[Name(quantity, element.name)] = Integer(0)
    return seen


def _of_itself(element: Element, altered: Network, law: Law, wire: bool) -> dict[Name, Exact]:
    """What the wire or the gap itself shows: no drop, or no flow and what drops across it."""
    source = altered.source
    plus, minus = altered.terminals
    if source is None or plus == minus:
        return {}
    cut = minus not in _reached(altered, plus)
    if cut and source.quantity == law.flow:
        return {}
    none = law.drop if wire else law.flow
    seen: dict[Name, Exact] = {
        Name(none, element.name): Integer(0), Name(law.work, element.name): Integer(0)
    }  # fmt: skip
    if wire or source.quantity != law.drop:
        return seen
    live = _reached(altered, plus) | _reached(altered, minus)
    if set(element.between) <= live:
        kept = tuple(other for other in altered.elements if other.between[0] in live)
        volts = potentials(replace(altered, elements=kept), law)
        here, there = (volts[junction] for junction in element.between)
        seen[Name(law.drop, element.name)] = (here - there) * source.value
    return seen


def _reached(network: Network, start: str) -> set[str]:
    """The junctions that hang together with one."""
    reached, waiting = {start}, [start]
    while waiting:
        here = waiting.pop()
        for element in network.elements:
            if here in element.between:
                for other in element.between:
                    if other not in reached:
                        reached.add(other)
                        waiting.append(other)
    return reached


def _extreme(network: Network, law: Law, *, flows: bool) -> dict[Name, Exact]:
    """The equivalent and the flow between terminals that are joined, or cut from each other."""
    most: Exact = oo if flows else Integer(0)
    large_value = flows == (law.adds_in == PARALLEL)
    seen: dict[Name, Exact] = {Name(law.value, TOTAL): oo if large_value else Integer(0)}
    source = network.source
    if source is not None and source.quantity == law.drop:
        seen[Name(law.flow, TOTAL)] = most
    return seen
