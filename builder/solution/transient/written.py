"""The steps of a circuit that charges or discharges, as far as they are written."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.circuit.mixed import MixedCircuit
from builder.problem.model import TransientProblem
from builder.problem.transient.moments import START, at
from builder.quantity.exact import Exact
from builder.quantity.names import Name
from builder.solution.program import Line, run
from builder.solution.transient.step import TransientStep
from builder.solution.transient.store import Store


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
