"""Solve a circuit that charges or discharges twice, compare, check."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from sympy import Integer, Rational, exp, expand, log

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.circuit.mixed import MixedCircuit
from builder.circuit.network import Element, Network
from builder.problem.model import TransientProblem
from builder.problem.transient.moments import (
    CONSTANT,
    END,
    SEEN_RESISTANCE,
    START,
    STORE,
    at,
    reaching,
)
from builder.quantity.exact import Exact
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown
from builder.solution.check import hold_all
from builder.solution.nodal import by_nodes
from builder.solution.program import needed_for, run
from builder.solution.solution import Solution, refuse_difference
from builder.solution.transient.checks import checks_of
from builder.solution.transient.second import response, resting
from builder.solution.transient.step import TransientStep
from builder.solution.transient.store import Store, laid, store_of
from builder.solution.transient.writing import givens_of, write_steps


@dataclass(frozen=True)
class TransientSolution(Solution):
    """A solved circuit that charges or discharges.

    Attributes:
        problem: what was solved; each resistor lies so that its first current is positive.
        steps, every_step: moves.
        store: what is charged.
    """

    problem: TransientProblem
    steps: tuple[TransientStep, ...]
    every_step: tuple[TransientStep, ...]
    store: Store


def solve_transient(problem: TransientProblem) -> TransientSolution:
    """Solve a circuit by steps, again with the capacitor as a source, and check the results.

    Raises:
        Disagreement: if the two methods differ in any quantity.
        CheckFailed: if a check does not hold.
        SeveralStores: if its capacitors do not merge into one.
        ZeroDivisionError: if the capacitor sees no resistance, or nothing at all.
    """
    problem, store = laid_out(problem)
    steps = write_steps(problem, store)
    given = givens_of(problem)
    values = {name: expanded(value) for name, value in run(steps, given).items()}
    second = dict(_second(problem, store))
    for name, value in second.items():
        if values.get(name) != value:
            raise refuse_difference(problem.slug, name.of, name.quantity, values.get(name), value)
    checks = tuple(checks_of(problem, store, values))
    hold_all(checks, values, problem.slug)
    needed = needed_for(problem.find, steps)
    asked = tuple(
        replace(step, lines=kept)
        for step in steps
        if (kept := tuple(line for line in step.lines if line.name in needed))
    )
    written = _written(problem)
    return TransientSolution(problem, asked, steps, written, values, second, checks, store)


def laid_out(problem: TransientProblem) -> tuple[TransientProblem, Store]:
    """The problem with its parts turned so that as little as possible comes out negative.

    The store holds no negative voltage at first (or, if it is empty, none at the end), and each
    resistor counts in the direction of its first current, else of its last.
    """
    circuit = problem.circuit
    store = store_of(circuit)
    start = start_voltage(problem, store)
    answer = response(circuit, store.ends)
    if start < 0 or (start == 0 and answer.final < 0):
        turned = {c.name for c in circuit.capacitors} - set(problem.charged)
        circuit = replace(circuit, capacitors=tuple(_turned(c, turned) for c in circuit.capacitors))
        store = store_of(circuit) if store.id != STORE else replace(store, ends=store.ends[::-1])
        problem = replace(problem, circuit=circuit)
        start, answer = start_voltage(problem, store), response(circuit, store.ends)
    against = {
        name
        for name, current in answer.currents.items()
        if current.at(start) < 0 or (current.at(start) == 0 and current.at(answer.final) < 0)
    }
    resistors = tuple(_turned(resistor, against) for resistor in circuit.resistors)
    return replace(problem, circuit=replace(circuit, resistors=resistors)), store


def _turned(element: Element, which: Collection[str]) -> Element:
    return replace(element, between=element.between[::-1]) if element.name in which else element


def start_voltage(problem: TransientProblem, store: Store) -> Exact:
    """What the store holds at first, by the second method, in volts."""
    circuit = problem.circuit
    told = problem.charged.get(store.id)
    if told is not None:
        return told.value if told.quantity == "voltage" else told.value / _capacity(circuit, store)
    if not circuit.flipped:
        return Integer(0)
    before = resting(circuit, store.ends, after=False)
    return Integer(0) if before is None else before


def _capacity(circuit: MixedCircuit, store: Store) -> Exact:
    """The capacitance of the store: by the nodal method if it is several capacitors."""
    if store.id != STORE:
        return circuit.element(store.id).value
    network = Network(tuple(laid(store, circuit).values()), store.ends)
    return by_nodes(network, CAPACITORS)[Name(CAPACITORS.value, TOTAL)]


def _second(problem: TransientProblem, store: Store) -> Iterator[tuple[Name, Exact]]:
    answer = response(problem.circuit, store.ends)
    start = start_voltage(problem, store)
    constant = answer.seen * _capacity(problem.circuit, store)
    held: dict[str, Exact] = {START: start, END: answer.final}
    for when, measure in problem.times.items():
        left = exp(-measure.value / constant)
        held[when] = expanded(answer.final * (1 - left) + start * left)
    yield SEEN_RESISTANCE, answer.seen
    yield CONSTANT, constant
    for when, volts in held.items():
        yield at("voltage", store.id, when), volts
        for name, current in answer.currents.items():
            yield at("current", name, when), expanded(current.at(volts))
    for level, measure in problem.levels.items():
        element, _, number = level.of.partition(">")
        ratio = (answer.final - start) / (answer.final - measure.value)
        yield reaching(element, int(number)), expanded(constant * log(ratio))
    for reached, share in problem.shares.items():
        left = Rational(share.denominator - share.numerator, share.denominator)
        yield reached, expanded(constant * log(1 / left))


def expanded(value: Exact) -> Exact:
    """A value multiplied out, so that equal values look alike."""
    return value if isinstance(value, Rational) else expand(value)


def _written(problem: TransientProblem) -> dict[Name, Shown]:
    """The givens as their author wrote them."""
    circuit = problem.circuit
    written = {Name(RESISTORS.value, e.name): e.shown for e in circuit.resistors}
    written |= {Name(CAPACITORS.value, e.name): e.shown for e in circuit.capacitors}
    written |= {Name(source.quantity, source.name): source.shown for source in circuit.sources}
    written |= {at(c.quantity, name, START): c.shown for name, c in problem.charged.items()}
    written |= {Name("time", when): measure.shown for when, measure in problem.times.items()}
    return written | {name: measure.shown for name, measure in problem.levels.items()}
