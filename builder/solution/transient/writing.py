"""The steps of a circuit that charges or discharges, as a teacher takes them.

What the capacitor starts from, where it is going, what resistance it sees, the time constant,
and then everything on the way: what starts at x₀ and ends at x₁ is x₁ + (x₀ − x₁)·e^(−t/τ).
Source: University Physics Volume 2 (OpenStax), section 10.5; for any starting value and for the
resistance that the capacitor sees: Lessons In Electric Circuits (Kuphaldt), volume I, chapter
"RC and L/R time constants".
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from sympy import Integer

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.circuit.mixed import MixedCircuit, at_instant, seen_from
from builder.circuit.network import Element, Network, Source
from builder.problem.model import TransientProblem
from builder.problem.transient.moments import (
    BEFORE,
    CONSTANT,
    END,
    SEEN,
    SEEN_RESISTANCE,
    START,
    at,
    reaching,
)
from builder.quantity.exact import Exact
from builder.quantity.formula import (
    Amount,
    Exp,
    Formula,
    Ln,
    Negative,
    Num,
    Product,
    Quotient,
    Ref,
    Sum,
)
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import show
from builder.solution.program import Line, run
from builder.solution.transient.flows import Flows, flows_of
from builder.solution.transient.gap import across_gap
from builder.solution.transient.part import merge_lines, nest_of, network_merge_lines, with_names
from builder.solution.transient.step import TransientMove, TransientStep
from builder.solution.transient.store import Store

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
        _on_the_way(writing)
    _work(writing)
    return tuple(writing.steps)


def _on_the_way(writing: Writing) -> None:
    """How fast the only store goes, and what is asked about between its first and last value."""
    problem = writing.problem
    _seen(writing)
    _constant(writing)
    for when in problem.times:
        _at(writing, when)
    for level in problem.levels:
        _reach(writing, level)
    for name, share in problem.shares.items():
        _go_a_share(writing, name, share)


def givens_of(problem: TransientProblem) -> dict[Name, Exact]:
    """The quantities that a problem states, in SI units."""
    circuit = problem.circuit
    given: dict[Name, Exact] = {Name(RESISTORS.value, e.name): e.value for e in circuit.resistors}
    given |= {Name(CAPACITORS.value, e.name): e.value for e in circuit.capacitors}
    given |= {Name(source.quantity, source.name): source.value for source in circuit.sources}
    given |= {at(c.quantity, name, START): c.value for name, c in problem.charged.items()}
    given |= {Name("time", when): measure.value for when, measure in problem.times.items()}
    given |= {name: measure.value for name, measure in problem.levels.items()}
    return given


@dataclass
class Writing:
    """The steps as far as they are written, with the values of all that is known.

    Attributes:
        problem: what is solved.
        stores: what is charged, each on its own.
        values: every quantity found so far.
        steps: what is written.
    """

    problem: TransientProblem
    stores: tuple[Store, ...]
    values: dict[Name, Exact]
    steps: list[TransientStep] = field(default_factory=list)

    @property
    def circuit(self) -> MixedCircuit:
        """What is connected."""
        return self.problem.circuit

    @property
    def store(self) -> Store:
        """What is charged, if it is one."""
        return self.stores[0]

    def volts(self, when: str) -> Name:
        """The voltage of the only store at a moment."""
        return at("voltage", self.store.id, when)

    def id(self, kind: str, store: Store) -> str:
        """The id of a step about a store."""
        return kind if len(self.stores) == 1 else f"{kind}-{store.id}"

    def add(self, step: TransientStep) -> None:
        """Take a step without the lines that are known already."""
        fresh: dict[Name, Line] = {}
        for line in step.lines:
            if line.name not in self.values:
                fresh.setdefault(line.name, line)
        if fresh:
            step = replace(step, lines=tuple(fresh.values()))
            self.values = run((step,), self.values)
            self.steps.append(step)


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


def _seen(writing: Writing) -> None:
    """The resistance that the store sees, with every source replaced."""
    ends, elements = seen_from(writing.circuit, writing.store.ends)
    network = Network(elements, ends)
    nest = nest_of(network)
    lines = merge_lines(nest, SEEN) if nest else network_merge_lines(network, SEEN)
    whole = at(RESISTORS.value, TOTAL, SEEN)
    lines = [with_names(line, lambda n: SEEN_RESISTANCE if n == whole else n) for line in lines]
    writing.add(TransientStep("seen", TransientMove.SEEN, tuple(lines),
                              about=tuple(element.name for element in elements),
                              tree=nest.tree if nest else None))  # fmt: skip


def _constant(writing: Writing) -> None:
    formula = Product((Ref(SEEN_RESISTANCE), Ref(writing.store.value)))
    writing.add(TransientStep("constant", TransientMove.CONSTANT, (Line(CONSTANT, formula),)))


def on_the_way(start: Formula, end: Formula, left: Formula, values: tuple[Exact, Exact]) -> Formula:
    """What a quantity is when the fraction ``left`` of its change is still to come.

    Args:
        start: its first value.
        end: its last value.
        left: e^(−t/τ).
        values: both, to tell which of them is zero.
    """
    first, last = values
    if first == last:
        return end
    if last == 0:
        return Product((start, left))
    if first == 0:
        return Product((end, Sum((Num(Fraction(1)), Negative(left)))))
    return Sum((end, Product((Sum((start, Negative(end))), left))))


def _at(writing: Writing, when: str) -> None:
    """The store's voltage at a time, and what every resistor carries then."""
    left = Exp(Negative(Quotient(Ref(Name("time", when)), Ref(CONSTANT))))

    def line(quantity: str, of: str) -> Line:
        names = (at(quantity, of, START), at(quantity, of, END))
        values = (writing.values[names[0]], writing.values[names[1]])
        formula = on_the_way(Ref(names[0]), Ref(names[1]), left, values)
        return Line(at(quantity, of, when), formula)

    own = (line("voltage", writing.store.id), *writing.store.voltages(when))
    writing.add(TransientStep(when, TransientMove.AT, own, about=(writing.store.id,), when=when))
    rest = tuple(line(quantity, resistor.name) for resistor in writing.circuit.resistors
                 for quantity in ("current", "voltage"))  # fmt: skip
    writing.add(TransientStep(f"{when}-currents", TransientMove.AT, rest, when=when))


def _reach(writing: Writing, level: Name) -> None:
    """The time at which a capacitor's voltage has a certain value: τ·ln((x₁ − x₀)/(x₁ − x))."""
    element, _, number = level.of.partition(">")
    first, last = (at("voltage", element, when) for when in (START, END))
    start, end, target = Ref(first), Ref(last), Ref(level)
    if writing.values[last] == 0:
        ratio = Quotient(start, target)
    else:
        over: Formula = Sum((end, Negative(start))) if writing.values[first] != 0 else end
        ratio = Quotient(over, Sum((end, Negative(target))))
    line = Line(reaching(element, int(number)), Product((Ref(CONSTANT), Ln(ratio))))
    writing.add(TransientStep(f"reach-{number}", TransientMove.REACH, (line,), about=(element,)))


def _go_a_share(writing: Writing, name: Name, share: Fraction) -> None:
    """The time at which a share of the way is done, whatever the way: τ·ln(1/(1 − share))."""
    left = Sum((Num(Fraction(1)), Negative(Num(share))))
    line = Line(name, Product((Ref(CONSTANT), Ln(Quotient(Num(Fraction(1)), left)))))
    element, _, number = name.of.partition(">")
    writing.add(TransientStep(f"reach-{number}", TransientMove.REACH, (line,), about=(element,)))


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
