"""What must hold of a circuit that charges or discharges."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import StrEnum

from sympy import Integer

from builder.circuit.mixed import joined
from builder.problem.model import TransientProblem
from builder.problem.transient.moments import END, SEEN_RESISTANCE, START, at
from builder.quantity.exact import Exact
from builder.quantity.formula import Amount, Formula, Negative, Quotient, Ref, Sum
from builder.quantity.names import Name
from builder.solution.check import Check
from builder.solution.transient.store import Store


class TransientCheck(StrEnum):
    """What a check is about."""

    FIRST = "first current"
    """The first current into the store, by its resistors and by the resistance that it sees."""
    LAST = "last current"
    """Long after nothing flows into the store."""
    BETWEEN = "between"
    """On its way a voltage lies between its first and its last value."""


def checks_of(
    problem: TransientProblem, stores: tuple[Store, ...], values: Mapping[Name, Exact]
) -> Iterator[Check]:
    """All checks of a solved circuit.

    Args:
        problem: what is solved.
        stores: what is charged.
        values: the results.
    """
    if len(stores) == 1:
        yield from _checks_of_one(problem, stores[0], values)
        return
    for store in stores:
        at_plate = _currents_into(problem, store)
        if at_plate is not None:
            nothing = Amount(Integer(0), "current")
            yield Check(TransientCheck.LAST, (store.id,), _sum(at_plate, END), "=", nothing)


def _checks_of_one(
    problem: TransientProblem, store: Store, values: Mapping[Name, Exact]
) -> Iterator[Check]:
    first, last = (at("voltage", store.id, when) for when in (START, END))
    at_plate = _currents_into(problem, store)
    if at_plate is not None:
        rise = Sum((Ref(last), Negative(Ref(first))))
        by_seen = Quotient(rise, Ref(SEEN_RESISTANCE))
        yield Check(TransientCheck.FIRST, (store.id,), _sum(at_plate, START), "=", by_seen)
        nothing = Amount(Integer(0), "current")
        yield Check(TransientCheck.LAST, (store.id,), _sum(at_plate, END), "=", nothing)
    relation = "<" if values[first] < values[last] else ">"
    if values[first] != values[last]:
        for when in problem.times:
            now = Ref(at("voltage", store.id, when))
            yield Check(TransientCheck.BETWEEN, (store.id, when), Ref(first), relation, now)
            yield Check(TransientCheck.BETWEEN, (store.id, when), now, relation, Ref(last))


def _currents_into(problem: TransientProblem, store: Store) -> list[tuple[str, bool]] | None:
    """The resistors at the store's + plate, or at its − plate, and whether they lead into it.

    None where a source is joined to both plates by wire alone, so that its current is not known.
    """
    circuit = problem.circuit
    node = joined(circuit.junctions, [s.between for s in circuit.closed(after=True)])
    at_sources = {node[end] for source in circuit.sources for end in source.between}
    for end, positive in zip(store.ends, (True, False), strict=True):
        if node[end] in at_sources:
            continue
        found = []
        for resistor in circuit.resistors:
            start, stop = (node[junction] for junction in resistor.between)
            if start != stop and node[end] in (start, stop):
                found.append((resistor.name, (stop == node[end]) == positive))
        if found:
            return found
    return None


def _sum(parts: list[tuple[str, bool]], when: str) -> Formula:
    terms = [(Ref(at("current", name, when)), into) for name, into in parts]
    ordered = sorted(terms, key=lambda term: not term[1])
    signed = tuple(ref if into else Negative(ref) for ref, into in ordered)
    return signed[0] if len(signed) == 1 else Sum(signed)
