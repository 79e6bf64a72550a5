"""What if something were changed in a circuit that charges, or that changes stage by stage?

Every answer is found by solving the changed problem exactly; a change whose reason does not fit
what comes out is not asked about.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from sympy import Integer

from builder.circuit.law import CAPACITORS
from builder.circuit.mixed import seen_from
from builder.circuit.network import Element
from builder.circuit.switching import moment
from builder.lesson.by_name import turn
from builder.lesson.generated.switched.picking import in_the_end
from builder.lesson.generated.switched.rest import at_rest
from builder.lesson.prose import Prose, Relation, SymbolOf, say, sentences
from builder.lesson.questions.forms import ChoiceQuestion, Option
from builder.lesson.stages.display import StagesDisplay
from builder.lesson.transient.display import TransientDisplay
from builder.lesson.vocabulary import vocabulary
from builder.problem.model import StagesProblem, TransientProblem
from builder.problem.transient.moments import CONSTANT
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.quantity.symbolic import sign_of
from builder.solution.stages.by_potentials import by_potentials
from builder.solution.stages.step import StagesMove, StagesStep
from builder.solution.transient.second import currents_while, response
from builder.solution.transient.solve import start_voltage


@dataclass(frozen=True)
class Supposed:
    """A change, what is looked at, and what comes of it.

    Attributes:
        change: the change as a sentence.
        seen: what is looked at.
        grows: 1, 0 or −1.
        why: the reason.
        before, after: the size of what is looked at, computed exactly.
    """

    change: Prose
    seen: Prose
    grows: int
    why: Prose
    before: Exact
    after: Exact

    @property
    def holds(self) -> bool:
        """Whether the changed problem does what the reason says."""
        return sign_of(self.before) == 1 and sign_of(self.after - self.before) == self.grows

    @property
    def question(self) -> ChoiceQuestion:
        """The change as a question."""
        words = (("It becomes larger", 1), ("It becomes smaller", -1), ("It stays the same", 0))
        options = tuple(
            Option(say(text), grows == self.grows,
                   sentences(say("Yes." if grows == self.grows else "No."), self.why))
            for text, grows in words
        )  # fmt: skip
        ask = say("{change} What would become of {seen}?", change=self.change, seen=self.seen)
        return ChoiceQuestion(ask, options, None)


def asked(supposed: Iterator[Supposed], slug: str) -> ChoiceQuestion | None:
    """One of the changes whose reason holds; best one that changes nothing, against all guesses."""
    found = [one for one in supposed if one.holds]
    best = [one for one in found if one.grows == 0] or found
    return turn(slug, "what if", best).question if best else None


def what_if_of_charging(display: TransientDisplay) -> ChoiceQuestion | None:
    """What a change would do to a circuit that charges one capacitor."""
    circuit = display.solution.problem.circuit
    if len(display.solution.stores) != 1 or len(circuit.capacitors) != 1:
        return None
    if CONSTANT not in display.solution.values:
        return None
    return asked(_of_charging(display), display.solution.problem.slug)


def _of_charging(display: TransientDisplay) -> Iterator[Supposed]:
    problem = display.solution.problem
    (store,) = problem.circuit.capacitors
    one = display.element(store.name)
    larger = with_value(problem, store, store.value * 2)
    constant, last = say("the time constant"), _last(one, in_the_end(display))
    yield Supposed(
        _twice(one), last, 0,
        say("By then {one} lets nothing through, whatever its size: the rest of the circuit "
            "decides its voltage.", one=one),
        final(problem), final(larger),
    )  # fmt: skip
    yield from _at_first(display, store, larger)
    _, seen = seen_from(problem.circuit, store.between)
    idle = at_rest(display).idle
    for resistor in problem.circuit.resistors:
        r, other = display.element(resistor.name), with_value(problem, resistor, resistor.value * 2)
        if resistor.name in idle:
            yield Supposed(
                _twice(r), last, 0,
                say("By then no current flows through {r}, so no voltage lies across it, however "
                    "large it is.", r=r),
                final(problem), final(other),
            )  # fmt: skip
        if any(resistor.name == each.name for each in seen):
            yield Supposed(
                _twice(r), constant, 1,
                say("Then {one} sees more resistance, so the same charge takes longer to move.",
                    one=one),
                tau(problem), tau(other),
            )  # fmt: skip
    yield from _driven_twice(display, one, constant)
    if not problem.circuit.sources and problem.charged:
        yield _charged_twice(display, one, constant)


def _driven_twice(display: TransientDisplay, one: SymbolOf, constant: Prose) -> Iterator[Supposed]:
    problem = display.solution.problem
    for source in problem.circuit.sources:
        stronger = replace(source, value=source.value * 2)
        sources = tuple(stronger if s is source else s for s in problem.circuit.sources)
        driven = replace(problem, circuit=replace(problem.circuit, sources=sources))
        yield Supposed(
            say("Suppose the {quantity} of {s} were twice as large.", quantity=source.quantity,
                s=display.element(source.name)), constant, 0,
            _no_voltage(one),
            tau(problem), tau(driven),
        )  # fmt: skip


def _charged_twice(display: TransientDisplay, one: SymbolOf, constant: Prose) -> Supposed:
    problem = display.solution.problem
    told = {name: replace(its, value=its.value * 2) for name, its in problem.charged.items()}
    fuller = replace(problem, charged=told)
    return Supposed(
        say("Suppose {one} had been charged to twice the voltage.", one=one), constant, 0,
_no_voltage(one),
        tau(problem), tau(fuller),
    )  # fmt: skip


def _at_first(
    display: TransientDisplay, store: Element, larger: TransientProblem
) -> Iterator[Supposed]:
    """An empty capacitor is like a wire at first, of whatever size."""
    problem = display.solution.problem
    if start_voltage(problem, display.solution.store) != 0:
        return
    for resistor in problem.circuit.resistors:
        name = resistor.name
        yield Supposed(
            _twice(display.element(store.name)),
            say("the current through {r} at the first instant", r=display.element(name)), 0,
            say("While {one} is still empty no voltage lies across it, so it is like a wire, "
                "whatever its size.", one=display.element(store.name)),
            first_current(problem, name),
            first_current(larger, name),
        )  # fmt: skip


def _no_voltage(one: SymbolOf) -> Prose:
    return say("How long it takes depends on the resistance that {one} sees and on its "
               "capacitance, by {law}. No voltage comes into it.", one=one,
               law=Relation("τ = RC"))  # fmt: skip


def _twice(one: SymbolOf) -> Prose:
    return say("Suppose {one} were twice as large.", one=one)


def _last(one: SymbolOf, then: str) -> Prose:
    return say("the voltage across {one} {then}", one=one, then=then)


def with_value(problem: TransientProblem, part: Element, value: Exact) -> TransientProblem:
    """A circuit that charges, with another value of one part."""
    other = replace(part, value=value)
    circuit = problem.circuit
    resistors = tuple(other if one is part else one for one in circuit.resistors)
    capacitors = tuple(other if one is part else one for one in circuit.capacitors)
    return replace(problem, circuit=replace(circuit, resistors=resistors, capacitors=capacitors))


def tau(problem: TransientProblem) -> Exact:
    """The time constant of the only capacitor, in seconds."""
    (store,) = problem.circuit.capacitors
    return response(problem.circuit, store.between).seen * store.value


def final(problem: TransientProblem) -> Exact:
    """Its voltage once nothing changes any more, in volts."""
    (store,) = problem.circuit.capacitors
    return abs(response(problem.circuit, store.between).final)


def first_current(problem: TransientProblem, resistor: str) -> Exact:
    """The size of a current at the first instant, the capacitor being empty, in amperes."""
    (store,) = problem.circuit.capacitors
    return abs(currents_while(problem.circuit, {store.between: Integer(0)})[resistor])


def what_if_of_stages(display: StagesDisplay) -> ChoiceQuestion | None:
    """What a larger capacitor would do to a circuit that changes stage by stage."""
    return asked(_of_stages(display), display.solution.problem.slug)


def _of_stages(display: StagesDisplay) -> Iterator[Supposed]:
    for step in display.solution.every_step:
        if step.stage and step.kind is StagesMove.BATTERY:
            yield from _on_battery(step, display)
        elif step.stage and step.kind is StagesMove.SHARE and len(step.members) == 2:
            yield from _shared(step, display)


def _on_battery(step: StagesStep, display: StagesDisplay) -> Iterator[Supposed]:
    problem, voltage = display.solution.problem, "voltage"
    for name in step.members:
        other, one = with_twice(problem, name), display.element(name)
        seen = Name(voltage, moment(name, step.stage))
        yield Supposed(
            _twice(one),
            say("the voltage across {one} {then}", one=one, then=display.after(step.stage)), 0,
            say("{one} then lies straight across {battery}, which holds its voltage. A larger "
                "capacitor takes up more charge, at the same voltage.", one=one,
                battery=display.elements(step.batteries)),
            _size(problem, seen),
            _size(other, seen),
        )  # fmt: skip


def _shared(step: StagesStep, display: StagesDisplay) -> Iterator[Supposed]:
    """One that is still empty shares the charge of another."""
    problem, held = display.solution.problem, display.solution.story.charges[step.stage - 1]
    both = display.elements(step.members)
    for name in step.members:
        if held[name] != 0:
            continue
        other, one = with_twice(problem, name), display.element(name)
        charges = tuple(Name("charge", moment(id, step.stage)) for id in step.members)
        then = display.after(step.stage)
        yield Supposed(
            _twice(one),
            say("the charge on {both} together {then}", both=both, then=then), 0,
            say("{one} is still empty when it is joined, and no charge can leave the joined "
                "plates: it is only divided in another way.", one=one),
            _size(problem, *charges),
            _size(other, *charges),
        )  # fmt: skip
        volts = Name("voltage", moment(name, step.stage))
        yield Supposed(
            _twice(one),
            say("the voltage that {both} share {then}", both=both, then=then), -1,
            say("The same charge spreads over more capacitance then, and by {law} it makes less "
                "voltage there.", law=vocabulary(CAPACITORS).drop_law),
            _size(problem, volts),
            _size(other, volts),
        )  # fmt: skip


def with_twice(problem: StagesProblem, name: str) -> StagesProblem:
    """A problem in stages with one capacitor twice as large."""
    elements = tuple(replace(one, value=one.value * 2) if one.name == name else one
                     for one in problem.network.elements)  # fmt: skip
    return replace(problem, network=replace(problem.network, elements=elements))


def _size(problem: StagesProblem, *names: Name) -> Exact:
    """The sum of the sizes of some quantities, in SI units."""
    values = by_potentials(problem)
    return sum((abs(values[name]) for name in names), Integer(0))
