"""How the quantities of a problem in stages are written: Q₁ before, Q₁′ after."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import takewhile

from builder.circuit.law import CAPACITORS
from builder.circuit.switching import LOST, Stage, moment, split_moment
from builder.lesson.display import Display, Mention
from builder.lesson.prose import Prose, SymbolOf, listed, say
from builder.lesson.vocabulary import PREPOSITIONS, vocabulary
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name, Symbol, element_index, kind_letter
from builder.solution.stages.history import ALL_STAGES, History
from builder.solution.stages.moves import CHAIN, ISLAND, ROUND
from builder.solution.stages.solve import StagesSolution
from builder.solution.stages.step import StagesStep

SWITCH = "switch"
_PRIMES = ("", "′", "″", "‴")
_DELIVERED = "W"
"""The letter of the energy that a battery delivers, so that U always is stored energy."""
_GOES_ROUND = "q"
_EMF = "E"
"""The letter of a battery's voltage where V already stands for that of a capacitor."""
_ORDINALS = ("second", "third", "fourth", "fifth", "sixth")


@dataclass(frozen=True)
class StagesDisplay(Display):
    """The writing of one solution's quantities.

    Attributes:
        solution: whose quantities they are.
    """

    solution: StagesSolution

    @property
    def history(self) -> History:
        """What changed when."""
        return self.solution.history

    @property
    def members(self) -> tuple[str, ...]:
        """The capacitors, in the author's order."""
        return tuple(element.name for element in self.solution.problem.network.elements)

    @property
    def batteries(self) -> tuple[str, ...]:
        """In the author's order."""
        return tuple(battery.name for battery in self.solution.problem.network.sources)

    @property
    def one(self) -> str:
        """What one of the members is called."""
        return vocabulary(CAPACITORS).one

    @cached_property
    def _switches(self) -> tuple[str, ...]:
        return tuple(switch.name for switch in self.solution.problem.switches)

    @cached_property
    def _indexes(self) -> frozenset[str]:
        return frozenset(element_index(name, "C") for name in self.members)

    def symbol(self, name: Name) -> Symbol:
        """The symbol of a quantity: C₁, Q₁, V₁′, U″, W₀, S₂."""
        base, when = split_moment(name.of)
        letter = "S" if name.quantity == SWITCH else kind_letter(name.quantity)
        if name.quantity == SWITCH:
            return Symbol(letter, element_index(base, letter))
        if base in self.batteries:
            return self._of_battery(name, base, when)
        if base in self.members:
            return Symbol(letter, element_index(base, "C"), self.mark(when))
        mark = self.mark(when) if self._told_apart(base) else ""
        if base == LOST:
            return Symbol(letter, "lost", mark)
        if base == TOTAL:
            return Symbol(letter, "", self.mark(when))
        return self._of_set(name, base, when, mark)

    def _of_set(self, name: Name, base: str, when: str, mark: str) -> Symbol:
        """What belongs to a set of capacitors that settle together."""
        letter = kind_letter(name.quantity)
        for word, before in ((CHAIN, CHAIN), (ROUND, ""), (ISLAND, "")):
            if base.startswith(word):
                index = before + base.removeprefix(word)
                shared = word == ISLAND and name.quantity == "voltage"
                return Symbol(_GOES_ROUND if word == ROUND else letter, index,
                              self.mark(when) if shared else mark)  # fmt: skip
        raise KeyError(name.of)

    def _of_battery(self, name: Name, base: str, when: str) -> Symbol:
        index = element_index(base, "V")
        alike = index in self._indexes
        if name.quantity == "voltage":
            return Symbol(_EMF if alike else kind_letter("voltage"), index)
        mark = self.mark(when) if self._told_apart(base) else ""
        if name.quantity == "energy":
            return Symbol(_DELIVERED, index, mark)
        return Symbol(kind_letter(name.quantity), base if alike else index, mark)

    def _told_apart(self, base: str) -> bool:
        """Whether something belongs to several stages, so that each needs a mark of its own."""
        whens = {split_moment(name.of)[1] for name in self.solution.values
                 if split_moment(name.of)[0] == base}  # fmt: skip
        return len(whens & {str(stage) for stage in self.history.active}) > 1

    def mark(self, when: str) -> str:
        """As many primes as stages have changed something by then."""
        if not when or when == ALL_STAGES:
            return ""
        number = sum(active <= int(when) for active in self.history.active)
        return _PRIMES[number] if number < len(_PRIMES) else f"({number})"

    def element(self, id: str) -> SymbolOf:
        """A capacitor's, a battery's or a switch's name."""
        if id in self._switches:
            return SymbolOf(Name(SWITCH, id))
        return SymbolOf(Name("voltage" if id in self.batteries else "capacitance", id))

    def told_before(self, step: StagesStep) -> bool:
        """Whether a move of the same kind has been explained in an earlier step."""
        earlier = takewhile(lambda other: other.id != step.id, self.solution.steps)
        return any(other.kind is step.kind for other in earlier)

    def done(self, stage: int) -> Prose:
        """What is done in a stage, as a clause: ``S₁ is opened and S₂ is closed``."""
        what = self.solution.problem.stages[stage - 1]
        clauses = [
            say("{named} {be} {how}", named=self.elements(names), how=how,
                be="is" if len(names) == 1 else "are")
            for names, how in (
                (what.open, "opened"), (what.close, "closed"), (what.turn, "turned round")
            )
            if names
        ]  # fmt: skip
        return say("{clauses}{again}", clauses=listed(clauses), again=self._again(stage, what))

    def _again(self, stage: int, what: Stage) -> str:
        stages = self.solution.problem.stages
        same = [number for number, other in enumerate(stages, start=1) if other == what]
        at = same.index(stage)
        if at == 0:
            return ""
        return f" for the {_ORDINALS[at - 1]} time" if at <= len(_ORDINALS) else " once more"

    def after(self, stage: int) -> Prose:
        """A moment: ``after S₁ is closed``, ``at the start``."""
        return say("at the start") if stage == 0 else say("after {done}", done=self.done(stage))

    def at(self, when: str) -> Prose:
        """The moment of a name; empty means the end."""
        if when:
            return self.after(int(when))
        return self.after(1) if self.history.last == 1 else say("in the end")

    def asks_for(self, name: Name) -> Prose:
        """``the charge on C₂ after S₁ is closed``, ``the energy that is lost``."""
        base, when = split_moment(name.of)
        noun = KINDS[name.quantity].noun
        if base == LOST:
            return say("the energy that is lost{when}", when=self._while(when))
        if base in self.batteries and name.quantity != "voltage":
            does = "moves" if name.quantity == "charge" else "delivers"
            return say("the {noun} that {battery} {does}{when}", noun=noun,
                       battery=self.element(base), does=does, when=self._while(when))  # fmt: skip
        if name.quantity == "capacitance":
            return say("the {noun} of {one}", noun=noun, one=self.element(base))
        if base == TOTAL:
            return say("the energy stored in all capacitors {when}", when=self.at(when))
        if base not in self.members:
            return self._of_island(name, base, when)
        word = PREPOSITIONS[name.quantity]
        return say("the {noun} {word} {one} {when}", noun=noun, word=word, one=self.element(base),
                   when=self.at(when))  # fmt: skip

    def _of_island(self, name: Name, base: str, when: str) -> Prose:
        if base.startswith(ROUND):
            done = self.done(int(when)) if int(when) else say("before anything is switched")
            return say("the charge that goes round once {done}", done=done)
        if base.startswith(CHAIN):
            return say("the capacitance of the chain")
        if name.quantity == "charge":
            return say("the charge of the joined plates")
        return say("the voltage that they share {when}", when=self.at(when))

    def _while(self, when: str) -> Prose:
        """The moment of what happens: nothing where there is one stage."""
        several = len(self.history.active) > 1
        if not several:
            return ()
        if not when or when == ALL_STAGES:
            return say(" in all")
        return say(" when {done}", done=self.done(int(when)))

    def mention(self, of: str) -> Mention | None:
        """A capacitor is told by its name and value, a battery by its value, a switch by name."""
        if of in self._switches:
            return Mention(Name(SWITCH, of), None)
        if of in self.batteries:
            return Mention(Name("voltage", of), Name("voltage", of), both=False)
        if of not in self.members:
            return None
        stated = self.solution.problem.charged.get(of)
        charged = Name(stated.quantity, moment(of, 0)) if stated else None
        return Mention(Name("capacitance", of), Name("capacitance", of), charged=charged)
