"""The independent second method: the whole circuit at once, junction by junction.

Each junction has a potential; each battery and each closed switch moves a charge. What arrives
at a junction stays on the plates there, and a battery or a closed switch fixes a difference of
potentials. That is one linear system for each stage. It knows nothing of islands, loops or
steps.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sympy import QQ, Integer, Rational
from sympy.polys.matrices import DomainMatrix

from builder.circuit.network import Source
from builder.circuit.switching import LOST, Switch, junctions_of, moment
from builder.problem.model import StagesProblem
from builder.quantity.exact import Exact, as_fraction
from builder.quantity.names import TOTAL, Name


def by_potentials(problem: StagesProblem) -> dict[Name, Exact]:
    """Every quantity after each stage, in SI units.

    Returns:
        Of each capacitor charge, voltage and energy at the start and after each stage; of each
        battery what it moved and delivered in each stage; the total and the lost energy.

    Raises:
        ZeroDivisionError: if a stage has no solution.
    """
    charges = _at_first(problem)
    closed = {switch.name for switch in problem.switches if switch.closed}
    charges, _ = _settle(problem, closed, charges)
    found = _told(problem, charges, 0)
    for number, stage in enumerate(problem.stages, start=1):
        closed = (closed | set(stage.close)) - set(stage.open)
        turned = {name: -q if name in stage.turn else q for name, q in charges.items()}
        stored = _energy(problem, charges)
        charges, moved = _settle(problem, closed, turned)
        found |= _told(problem, charges, number)
        delivered: Exact = Integer(0)
        for battery in problem.network.sources:
            charge = moved[battery.name]
            of = moment(battery.name, number)
            found[Name("charge", of)] = charge
            found[Name("energy", of)] = charge * battery.value
            delivered += charge * battery.value
        found[Name("energy", moment(LOST, number))] = stored + delivered - _energy(problem, charges)
    return found


def _at_first(problem: StagesProblem) -> dict[str, Exact]:
    charges: dict[str, Exact] = {}
    for element in problem.network.elements:
        stated = problem.charged.get(element.name)
        size = element.value if stated and stated.quantity == "voltage" else Integer(1)
        charges[element.name] = stated.value * size if stated else Integer(0)
    return charges


def _energy(problem: StagesProblem, charges: Mapping[str, Exact]) -> Exact:
    return sum((charges[e.name] ** 2 / (2 * e.value) for e in problem.network.elements),
               Integer(0))  # fmt: skip


def _told(problem: StagesProblem, charges: Mapping[str, Exact], stage: int) -> dict[Name, Exact]:
    found: dict[Name, Exact] = {}
    for element in problem.network.elements:
        of, charge = moment(element.name, stage), charges[element.name]
        found[Name("charge", of)] = charge
        found[Name("voltage", of)] = charge / element.value
        found[Name("energy", of)] = charge**2 / (2 * element.value)
    found[Name("energy", moment(TOTAL, stage))] = _energy(problem, charges)
    return found


def _settle(
    problem: StagesProblem, closed: set[str], charges: Mapping[str, Exact]
) -> tuple[dict[str, Exact], dict[str, Exact]]:
    """The charges after all is at rest, and what each battery moved out of its + terminal."""
    network = problem.network
    joints = [switch for switch in problem.switches if switch.name in closed]
    junctions = junctions_of(network, problem.switches)
    links: list[Source | Switch] = [*network.sources, *joints]
    # Moved charges come first: where closed switches stand side by side, only their sum is told.
    column_of = {link.name: number for number, link in enumerate(links)}
    at = {junction: len(links) + number for number, junction in enumerate(junctions)}
    size = len(links) + len(junctions)
    rows = [[QQ(0)] * (size + 1) for _ in range(size)]
    for element in network.elements:
        value, charge = _rational(element.value), _rational(charges[element.name])
        first, second = element.between
        for here, there, sign in ((first, second, 1), (second, first, -1)):
            row = rows[at[here]]
            row[at[here]] += value
            row[at[there]] -= value
            row[size] += sign * charge
    for link in links:
        plus, minus = link.between
        column = column_of[link.name]
        rows[at[plus]][column] -= 1
        rows[at[minus]][column] += 1
        rows[column][at[plus]] += 1
        rows[column][at[minus]] -= 1
        rows[column][size] = QQ(0) if isinstance(link, Switch) else _rational(link.value)
    solved = _any_solution(rows, size)
    after = {
        e.name: _exact(_rational(e.value) * (solved[at[e.between[0]]] - solved[at[e.between[1]]]))
        for e in network.elements
    }
    return after, {b.name: _exact(solved[column_of[b.name]]) for b in network.sources}


def _any_solution(rows: Sequence[Sequence[Any]], size: int) -> list[Any]:
    """One solution of a system; what it leaves open, such as a zero of potential, is 0."""
    reduced, pivots = DomainMatrix([list(row) for row in rows], (size, size + 1), QQ).rref()
    if size in pivots:
        raise ZeroDivisionError("the equations contradict each other")
    entries = reduced.to_list()
    solution: list[Any] = [QQ(0)] * size
    for row, pivot in enumerate(pivots):
        solution[pivot] = entries[row][size]
    return solution


def _rational(value: Exact) -> Any:
    fraction = as_fraction(value)
    return QQ(fraction.numerator, fraction.denominator)


def _exact(value: Any) -> Exact:
    return Rational(int(value.numerator), int(value.denominator))
