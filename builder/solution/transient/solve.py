"""Solve a circuit that charges or discharges twice, compare, check."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace

from sympy import Integer, Rational, exp, expand_mul, log

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.circuit.mixed import MixedCircuit
from builder.circuit.network import Element, Source
from builder.circuit.tree import leaves
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
from builder.quantity.formula import Solved
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown, show
from builder.solution.check import hold_all
from builder.solution.nodal import by_nodes
from builder.solution.program import Line, Statement, needed_for, run
from builder.solution.solution import Solution, refuse_difference
from builder.solution.transient.checks import checks_of
from builder.solution.transient.second import currents_while, response
from builder.solution.transient.step import TransientStep
from builder.solution.transient.store import Store, network_of, stores_of
from builder.solution.transient.trouble import (
    refuse_charged,
    refuse_far,
    refuse_several,
    refuse_shorted,
    refuse_still,
    refuse_stuck,
    refuse_unreached,
    resting_after,
    resting_before,
    undecided,
)
from builder.solution.transient.writing import write_steps
from builder.solution.transient.written import givens_of


@dataclass(frozen=True)
class TransientSolution(Solution):
    """A solved circuit that charges or discharges.

    Attributes:
        problem: what was solved; each resistor lies so that its first current is positive.
        steps, every_step: moves.
        stores: what is charged, each in its own time.
    """

    problem: TransientProblem
    steps: tuple[TransientStep, ...]
    every_step: tuple[TransientStep, ...]
    stores: tuple[Store, ...]

    @property
    def store(self) -> Store:
        """What is charged, if it is one."""
        return self.stores[0]


def solve_transient(problem: TransientProblem) -> TransientSolution:
    """Solve a circuit by steps, again with the capacitor as a source, and check the results.

    Raises:
        FaultyFile: if it charges at once or not at all, if nothing changes, if a voltage that is
            asked about is never reached, or if times of several stores are asked for.
        Disagreement: if the two methods differ in any quantity.
        CheckFailed: if a check does not hold.
    """
    refuse_shorted(problem)
    stores = stores_of(problem.circuit)
    refuse_several(problem, stores)
    for store in stores:
        refuse_stuck(problem, store)
    refuse_charged(problem, stores)
    problem, stores = laid_out(problem, stores)
    volts = {store.id: (start_voltage(problem, store), resting_after(problem, store.ends))
             for store in stores}  # fmt: skip
    refuse_still(problem, volts)
    refuse_unreached(problem, _of_each(problem, stores, volts))
    steps = write_steps(problem, stores)
    given = givens_of(problem)
    second = dict(_second(problem, stores, volts))
    if CONSTANT in second:
        refuse_far(problem, second[CONSTANT])
    compared = {*second, *problem.find}
    values = {name: expanded(value) if name in compared else value
              for name, value in run(steps, given).items()}  # fmt: skip
    for name, value in second.items():
        if values.get(name) != value:
            raise refuse_difference(problem.slug, name.of, name.quantity, values.get(name), value)
    checks = tuple(checks_of(problem, stores, values))
    hold_all(checks, values, problem.slug)
    needed = needed_for(problem.find, steps)
    asked = tuple(
        replace(step, lines=kept, statements=_behind(kept, step))
        for step in steps
        if (kept := tuple(line for line in step.lines if line.name in needed))
    )
    written = _written(problem)
    return TransientSolution(problem, asked, steps, written, values, second, checks, stores)


def _behind(lines: tuple[Line, ...], step: TransientStep) -> tuple[Statement, ...]:
    """The equations of a step, if any of the lines kept solves them."""
    solved = any(isinstance(line.formula, Solved) for line in lines)
    return step.statements if solved else ()


def laid_out(
    problem: TransientProblem, stores: tuple[Store, ...]
) -> tuple[TransientProblem, tuple[Store, ...]]:
    """The problem with its parts turned so that as little as possible comes out negative.

    A store holds no negative voltage at first (or, if it is empty, none at the end), and each
    resistor counts in the direction of its first current, else of its last.
    """
    for store in stores:
        start = start_voltage(problem, store)
        if start < 0 or (start == 0 and resting_after(problem, store.ends) < 0):
            names = set(leaves(store.tree))
            circuit = problem.circuit
            turned = tuple(_turned(c, names) for c in circuit.capacitors)
            problem = replace(problem, circuit=replace(circuit, capacitors=turned))
            other = replace(store, ends=store.ends[::-1])
            stores = tuple(other if one is store else one for one in stores)
    first = {store.ends: start_voltage(problem, store) for store in stores}
    last = {store.ends: resting_after(problem, store.ends) for store in stores}
    currents = [_currents(problem, stores, held) for held in (first, last)]
    against = {
        name
        for name, current in currents[0].items()
        if current < 0 or (current == 0 and currents[1][name] < 0)
    }
    resistors = tuple(_turned(resistor, against) for resistor in problem.circuit.resistors)
    return replace(problem, circuit=replace(problem.circuit, resistors=resistors)), stores


def _currents(
    problem: TransientProblem, stores: tuple[Store, ...], held: dict[tuple[str, str], Exact]
) -> dict[str, Exact]:
    """The current through each resistor while the stores hold given voltages."""
    try:
        return currents_while(problem.circuit, held)
    except ZeroDivisionError:
        raise undecided(problem, stores) from None


def _turned(element: Element, which: Collection[str]) -> Element:
    return replace(element, between=element.between[::-1]) if element.name in which else element


def start_voltage(problem: TransientProblem, store: Store) -> Exact:
    """What a store holds at first, by the second method, in volts."""
    circuit = problem.circuit
    told = problem.charged.get(store.id)
    if told is not None:
        return told.value if told.quantity == "voltage" else told.value / _capacity(circuit, store)
    return resting_before(problem, store.ends) if circuit.flipped else Integer(0)


def _capacity(circuit: MixedCircuit, store: Store) -> Exact:
    """The capacitance of a store: by the nodal method if it is several capacitors."""
    if store.id != STORE:
        return circuit.element(store.id).value
    return by_nodes(network_of(store, circuit), CAPACITORS)[Name(CAPACITORS.value, TOTAL)]


def _of_each(
    problem: TransientProblem,
    stores: tuple[Store, ...],
    volts: Mapping[str, tuple[Exact, Exact]],
) -> dict[str, tuple[Exact, Exact]]:
    """What each capacitor holds at first and at last: its share, by the nodal method."""
    found: dict[str, tuple[Exact, Exact]] = {}
    for store in stores:
        start, end = volts[store.id]
        for name in leaves(store.tree):
            share = _share(problem.circuit, store, name)
            found[name] = (start * share, end * share)
    return found


def _share(circuit: MixedCircuit, store: Store, name: str) -> Exact:
    """The part of a store's voltage that lies across one of its capacitors."""
    if store.id != STORE:
        return Integer(1)
    one = Source("whole", "voltage", Integer(1), show(Integer(1), "voltage"), store.ends)
    return by_nodes(network_of(store, circuit, (one,)), CAPACITORS)[Name(CAPACITORS.drop, name)]


def _second(
    problem: TransientProblem,
    stores: tuple[Store, ...],
    volts: Mapping[str, tuple[Exact, Exact]],
) -> Iterator[tuple[Name, Exact]]:
    """Every quantity that the second method gives."""
    for moment, when in enumerate((START, END)):
        held = {store.ends: volts[store.id][moment] for store in stores}
        for store in stores:
            yield at("voltage", store.id, when), volts[store.id][moment]
        for name, current in _currents(problem, stores, held).items():
            yield at("current", name, when), current
    if len(stores) == 1:
        yield from _second_on_the_way(problem, stores[0], volts)


def _second_on_the_way(
    problem: TransientProblem, store: Store, volts: Mapping[str, tuple[Exact, Exact]]
) -> Iterator[tuple[Name, Exact]]:
    answer = response(problem.circuit, store.ends)
    start, constant = volts[store.id][0], answer.seen * _capacity(problem.circuit, store)
    yield SEEN_RESISTANCE, answer.seen
    yield CONSTANT, constant
    yield at("voltage", store.id, END), answer.final
    for when, measure in problem.times.items():
        left = exp(-measure.value / constant)
        now = expanded(answer.final * (1 - left) + start * left)
        yield at("voltage", store.id, when), now
        for name, current in answer.currents.items():
            yield at("current", name, when), expanded(current.at(now))
    each = _of_each(problem, (store,), volts)
    for level, measure in problem.levels.items():
        element, _, number = level.of.partition(">")
        first, last = each[element]
        ratio = (last - first) / (last - measure.value)
        yield reaching(element, int(number)), expanded(constant * log(ratio))
    for reached, share in problem.shares.items():
        rest = Rational(share.denominator - share.numerator, share.denominator)
        yield reached, expanded(constant * log(1 / rest))


def expanded(value: Exact) -> Exact:
    """A value multiplied out, so that equal values look alike."""
    return value if isinstance(value, Rational) else expand_mul(value)


def _written(problem: TransientProblem) -> dict[Name, Shown]:
    """The givens as their author wrote them."""
    circuit = problem.circuit
    written = {Name(RESISTORS.value, e.name): e.shown for e in circuit.resistors}
    written |= {Name(CAPACITORS.value, e.name): e.shown for e in circuit.capacitors}
    written |= {Name(source.quantity, source.name): source.shown for source in circuit.sources}
    written |= {at(c.quantity, name, START): c.shown for name, c in problem.charged.items()}
    written |= {Name("time", when): measure.shown for when, measure in problem.times.items()}
    return written | {name: measure.shown for name, measure in problem.levels.items()}
