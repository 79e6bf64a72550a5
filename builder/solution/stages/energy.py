"""The account of the energy: what is stored, what batteries deliver, and what is lost.

A capacitor stores ½QV; a battery delivers its voltage times the charge that it moves. What is
delivered and not stored has turned into heat, whatever the wires resist (University Physics
Volume 2, OpenStax, 8.3; College Physics 2e, OpenStax, 19.7).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sympy import Integer

from builder.circuit.law import CAPACITORS
from builder.circuit.network import Source
from builder.circuit.switching import LOST, Wiring, moment
from builder.problem.model import StagesProblem
from builder.quantity.formula import Amount, Formula, Negative, Product, Ref
from builder.quantity.names import TOTAL, Name
from builder.solution.program import Line
from builder.solution.stages.history import ALL_STAGES, History
from builder.solution.stages.moves import added, signed
from builder.solution.stages.step import StagesMove, StagesStep

ALL = "all-stages"
"""The id of the step that adds up all stages."""


@dataclass(frozen=True)
class Account:
    """What the account of the energy is made from.

    Attributes:
        problem: whose energy it is.
        history: what changed when.
        wirings: what is joined at the start and in each stage.
        charged: of the start and each stage, the capacitors that hold charge then.
    """

    problem: StagesProblem
    history: History
    wirings: tuple[Wiring, ...]
    charged: tuple[frozenset[str], ...]

    def steps(self) -> Iterator[StagesStep]:
        """All steps of the account, stage by stage."""
        yield from self._stored(0)
        for stage in range(1, self.history.last + 1):
            if stage in self.history.active:
                yield from self._stored(stage)
            yield from self._delivered(stage)
            yield self._lost(stage)
        yield from self._in_all()

    def _kept(self, stage: int, name: str) -> str:
        return moment(name, self.history.changed[stage][name])

    def _stored(self, stage: int) -> Iterator[StagesStep]:
        """The energies of the capacitors that changed in a stage, and the energy of all."""
        names = [e.name for e in self.problem.network.elements]
        fresh = [name for name in names if self.history.changed[stage][name] == stage]
        lines = [Line(Name("energy", moment(name, stage)), self._energy(moment(name, stage)))
                 for name in fresh]  # fmt: skip
        held = [name for name in names if name in self.charged[stage]]
        parts: list[Formula] = [Ref(Name("energy", self._kept(stage, name))) for name in held]
        lines.append(Line(Name("energy", moment(TOTAL, stage)), added(parts, "energy")))
        yield StagesStep(f"stage-{stage}-energy", StagesMove.STORED, tuple(lines), stage,
                         members=tuple(fresh))  # fmt: skip

    @staticmethod
    def _energy(of: str) -> Formula:
        return CAPACITORS.work_from_flow_and_drop(Ref(Name("charge", of)), Ref(Name("voltage", of)))

    def _delivered(self, stage: int) -> Iterator[StagesStep]:
        """What each battery moves out of its + terminal, and the energy that it delivers."""
        lines: list[Line] = []
        active: list[str] = []
        for battery in self.problem.network.sources:
            of = moment(battery.name, stage)
            charge, energy = Name("charge", of), Name("energy", of)
            moves = stage in self.history.delivering[battery.name]
            lines.append(Line(charge, self._moved(battery, stage)))
            work = Product((Ref(charge), Ref(Name("voltage", battery.name))))
            lines.append(Line(energy, work if moves else Amount(Integer(0), "energy")))
            active += [battery.name] if moves else []
        if lines:
            yield StagesStep(f"stage-{stage}-delivered", StagesMove.DELIVERED, tuple(lines), stage,
                             batteries=tuple(active))  # fmt: skip

    def _moved(self, battery: Source, stage: int) -> Formula:
        """The charge that arrives on all plates beyond the battery's + terminal."""
        beyond = beyond_plus(battery, self.problem, self.wirings[stage])
        changed = self.history.changed
        stage_turned = self.problem.stages[stage - 1].turn
        terms: list[Formula] = []
        for element in self.problem.network.elements:
            if changed[stage][element.name] != stage:
                continue
            first, second = self.wirings[stage].ends(element)
            sign = (first in beyond) - (second in beyond)
            if sign == 0:
                continue
            terms.append(signed(Ref(Name("charge", moment(element.name, stage))), sign))
            if element.name in self.charged[stage - 1]:
                old = Ref(Name("charge", self._kept(stage - 1, element.name)))
                terms.append(signed(old, sign if element.name in stage_turned else -sign))
        return added(terms, "charge")

    def _lost(self, stage: int) -> StagesStep:
        """Stored before, and delivered, and not stored after."""
        name, terms = Name("energy", moment(LOST, stage)), list[Formula]()
        if stage in self.history.active:
            if self.charged[stage - 1]:
                before = self.history.before(stage)
                terms.append(Ref(Name("energy", moment(TOTAL, before))))
            terms += [Ref(Name("energy", moment(battery, stage)))
                      for battery, stages in self.history.delivering.items()
                      if stage in stages]  # fmt: skip
            if self.charged[stage]:
                terms.append(Negative(Ref(Name("energy", moment(TOTAL, stage)))))
        batteries = tuple(b for b, stages in self.history.delivering.items() if stage in stages)
        return StagesStep(f"stage-{stage}-lost", StagesMove.LOST,
                          (Line(name, added(terms, "energy")),), stage,
                          batteries=batteries)  # fmt: skip

    def _in_all(self) -> Iterator[StagesStep]:
        """What is moved, delivered and lost in all stages, where that is more or less than one."""
        owners = [*self.history.delivering.items(), (LOST, self.history.active)]
        lines: list[Line] = []
        for owner, stages in owners:
            if len(stages) == 1:
                continue
            for quantity in ("charge", "energy")[owner == LOST :]:
                parts: list[Formula] = [Ref(Name(quantity, moment(owner, s))) for s in stages]
                lines.append(Line(Name(quantity, f"{owner}@{ALL_STAGES}"), added(parts, quantity)))
        if lines:
            yield StagesStep(ALL, StagesMove.LOST, tuple(lines), self.history.last)


def beyond_plus(battery: Source, problem: StagesProblem, wiring: Wiring) -> frozenset[str]:
    """The nodes of a battery's island that are joined to its + terminal without itself."""
    plus = wiring.node[battery.between[0]]
    reached = [plus]
    for here in reached:
        for other in problem.network.sources:
            ends = tuple(wiring.node[end] for end in other.between)
            if other.name == battery.name or here not in ends:
                continue
            there = ends[1] if ends[0] == here else ends[0]
            if there not in reached:
                reached.append(there)
    return frozenset(reached)
