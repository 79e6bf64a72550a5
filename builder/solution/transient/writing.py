"""The steps of a circuit that charges or discharges, as a teacher takes them.

What the capacitor starts from, where it is going, what resistance it sees, the time constant,
and then everything on the way, for which ``on_the_way`` has the formulas and their source.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sympy import Integer

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.circuit.mixed import MixedCircuit, at_instant
from builder.circuit.network import Element, Source
from builder.problem.model import TransientProblem
from builder.problem.transient.moments import (
    BEFORE,
    END,
    START,
    at,
)
from builder.quantity.formula import (
    Amount,
    Quotient,
    Ref,
)
from builder.quantity.names import Name
from builder.quantity.show import show
from builder.solution.program import Line
from builder.solution.transient.flows import Flows, flows_of
from builder.solution.transient.gap import across_gap
from builder.solution.transient.on_the_way import write_the_way
from builder.solution.transient.step import TransientMove, TransientStep
from builder.solution.transient.store import Store
from builder.solution.transient.written import Writing, givens_of

EMPTY = Amount(Integer(0), "voltage")


def write_steps(problem: TransientProblem, stores: tuple[Store, ...]) -> tuple[TransientStep, ...]:
    """Every step that a circuit allows, whatever is asked.

    Several stores, which charge each in its own time, are followed at the first instant and long
    after alone.
    """
    writing = Writing(problem, stores, dict(givens_of(problem)))
    for store in stores:
        _merge_store(writing, store)
    for store in stores:
        _start_voltage(writing, store)
    for store in stores:
        _end(writing, store)
    _end_currents(writing)
    _start(writing)
    if len(stores) == 1:
        write_the_way(writing)
    _work(writing)
    return tuple(writing.steps)


def _merge_store(writing: Writing, store: Store) -> None:
    writing.add(TransientStep("store", TransientMove.STORE, store.merges(), tree=store.tree))


def _start_voltage(writing: Writing, store: Store) -> None:
    """What a store holds when the change comes; its voltage cannot jump."""
    circuit, id = writing.circuit, writing.id("before", store)
    name = at("voltage", store.id, START)
    before = at("voltage", store.id, BEFORE)
    charge = at("charge", store.id, START)
    if name in writing.values:
        return
    if charge in writing.values:
        line = Line(name, Quotient(Ref(charge), Ref(store.value)))
        writing.add(TransientStep(id, TransientMove.BEFORE, (line,), about=(store.id,),
                                  when=BEFORE))  # fmt: skip
        return
    instant = at_instant(circuit, after=False)
    flows = flows_of(circuit, instant, BEFORE)
    gap = across_gap(circuit, instant, store.ends, flows) if circuit.flipped else None
    if gap is None or gap.formula == EMPTY:
        line = Line(name, EMPTY)
        writing.add(TransientStep(id, TransientMove.BEFORE, (line,), about=(store.id,),
                                  when=BEFORE))  # fmt: skip
        return
    lines = (
        *flows.lines([("voltage", of) for of in gap.drops]),
        Line(before, gap.formula),
        Line(name, Ref(before)),
    )
    idle = tuple(element.name for element in instant.idle)
    writing.add(TransientStep(id, TransientMove.BEFORE, lines, instant=instant, idle=idle,
                              path=gap.path, about=(store.id,), when=BEFORE,
                              statements=flows.statements_for(gap.drops)))  # fmt: skip


def _end(writing: Writing, store: Store) -> None:
    """Long after: no current into a store, which is a gap."""
    circuit = writing.circuit
    instant = at_instant(circuit, after=True)
    flows = flows_of(circuit, instant, END)
    gap = across_gap(circuit, instant, store.ends, flows)
    assert gap is not None
    lines = [*flows.lines([("voltage", of) for of in gap.drops])]
    lines.append(Line(at("voltage", store.id, END), gap.formula))
    lines += store.voltages(END)
    idle = tuple(element.name for element in instant.idle)
    writing.add(TransientStep(writing.id("end", store), TransientMove.END, tuple(lines),
                              instant=instant, idle=idle, path=gap.path, about=(store.id,),
                              when=END, statements=flows.statements_for(gap.drops)))  # fmt: skip


def _end_currents(writing: Writing) -> None:
    """Long after: what every resistor carries."""
    instant = at_instant(writing.circuit, after=True)
    flows = flows_of(writing.circuit, instant, END)
    idle = tuple(element.name for element in instant.idle)
    rest = _flows_of_all(flows, writing.circuit, END)
    writing.add(TransientStep("end-currents", TransientMove.END, tuple(rest), instant=instant,
                              idle=idle, when=END))  # fmt: skip


def _start(writing: Writing) -> None:
    """The first instant: a store is a wire, or a battery of what it holds."""
    circuit = writing.circuit
    held = {store.id: _held(writing, store) for store in writing.stores}
    capacitors = tuple(
        Element(store.id, Integer(1), show(Integer(1), "capacitance"), store.ends)
        for store in writing.stores
    )
    instant = at_instant(replace(circuit, capacitors=capacitors), after=True, held=held)
    flows = flows_of(circuit, instant, START)
    lines = [line for store in writing.stores for line in store.voltages(START)]
    lines += _flows_of_all(flows, circuit, START)
    idle = tuple(element.name for element in (*instant.idle, *instant.shorted))
    about = tuple(store.id for store in writing.stores)
    all_resistors = tuple(resistor.name for resistor in circuit.resistors)
    writing.add(TransientStep("start", TransientMove.START, tuple(lines), instant=instant,
                              idle=idle, about=about, when=START,
                              statements=flows.statements_for(all_resistors)))  # fmt: skip


def _held(writing: Writing, store: Store) -> Source | None:
    """What stands for a store at the first instant: None for a wire."""
    volts = writing.values[at("voltage", store.id, START)]
    if volts == 0:
        return None
    return Source(store.id, "voltage", volts, show(volts, "voltage"), store.ends)


def _flows_of_all(flows: Flows, circuit: MixedCircuit, when: str) -> list[Line]:
    """The current and the voltage of every resistor at an instant."""
    wanted = [(quantity, resistor.name) for resistor in circuit.resistors
              for quantity in ("current", "voltage")]  # fmt: skip
    lines = [*flows.lines(wanted)]
    known = {line.name for line in lines}
    for quantity, of in wanted:
        name = at(quantity, of, when)
        if not flows.carries(of) and name not in known:
            lines.append(Line(name, Amount(Integer(0), quantity)))
    return lines


def _work(writing: Writing) -> None:
    """Charge and energy of each capacitor, and the power of each resistor, at each moment."""
    moments = [START, END, *writing.problem.times]
    lines = [line for when in moments for line in _work_at(writing, when)]
    writing.add(TransientStep("work", TransientMove.WORK, tuple(lines)))


def _work_at(writing: Writing, when: str) -> Iterator[Line]:
    for capacitor in writing.circuit.capacitors:
        value, volts = Name(CAPACITORS.value, capacitor.name), at("voltage", capacitor.name, when)
        if volts in writing.values:
            yield Line(at("charge", capacitor.name, when),
                       CAPACITORS.flow_from(Ref(value), Ref(volts)))  # fmt: skip
            yield Line(at("energy", capacitor.name, when),
                       CAPACITORS.work_from_drop(Ref(value), Ref(volts)))  # fmt: skip
    for resistor in writing.circuit.resistors:
        flow, drop = (at(quantity, resistor.name, when) for quantity in ("current", "voltage"))
        yield Line(at("power", resistor.name, when),
                   RESISTORS.work_from_flow_and_drop(Ref(flow), Ref(drop)))  # fmt: skip
