"""How the quantities of a circuit that charges are written: V at a moment is V(0), V(t₁), V(∞)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from builder.circuit.law import CAPACITORS, RESISTORS
from builder.circuit.naming import value_symbol
from builder.lesson.display import Display, Mention
from builder.lesson.prose import NumberOf, Prose, SymbolOf, say
from builder.lesson.vocabulary import PREPOSITIONS
from builder.problem.transient.moments import BEFORE, END, SEEN, START, STORE, at, moment_of
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name, Symbol, element_index, kind_letter
from builder.solution.transient.solve import TransientSolution

SWITCH = "switch"
_MARKS = {BEFORE: "(0⁻)", START: "(0)", END: "(∞)"}


@dataclass(frozen=True)
class TransientDisplay(Display):
    """The writing of one solution's quantities.

    Attributes:
        solution: whose quantities they are.
    """

    solution: TransientSolution

    @cached_property
    def capacitors(self) -> tuple[str, ...]:
        """In the author's order."""
        return tuple(c.name for c in self.solution.problem.circuit.capacitors)

    @cached_property
    def resistors(self) -> tuple[str, ...]:
        """In the author's order."""
        return tuple(r.name for r in self.solution.problem.circuit.resistors)

    @cached_property
    def sources(self) -> dict[str, str]:
        """The kind of quantity that each source gives."""
        return {s.name: s.quantity for s in self.solution.problem.circuit.sources}

    @cached_property
    def switches(self) -> tuple[str, ...]:
        """In the author's order."""
        return tuple(s.name for s in self.solution.problem.circuit.switches)

    @property
    def members(self) -> tuple[str, ...]:
        """Resistors, then capacitors."""
        return (*self.resistors, *self.capacitors)

    @property
    def one(self) -> str:
        """What one of the members is called."""
        return "element"

    def symbol(self, name: Name) -> Symbol:
        """The symbol of a quantity: R₁, V_C1(∞), I₂(0), τ, t₁."""
        quantity, letter = name.quantity, "S" if name.quantity == SWITCH else ""
        letter = letter or kind_letter(quantity)
        of, when = moment_of(name)
        of, _, part = of.partition("|")
        if quantity == SWITCH:
            return Symbol(letter, element_index(of, letter))
        if quantity == "time-constant":
            return Symbol(letter)
        if quantity == "time":
            return self._of_time(of)
        if ">" in of:
            return Symbol(letter, of.partition(">")[0].replace("_", ""), "(t)")
        if quantity in (RESISTORS.value, CAPACITORS.value):
            known = {SEEN: "seen", STORE: "eq"}
            if of in known:
                return Symbol(letter, known[of])
            own = value_symbol(of, letter)
            apart = "′" * (int(part) - 1) if part else ""
            return Symbol(own.letter, own.index, apart + self._mark("" if when == SEEN else when))
        return Symbol(letter, self._index(quantity, of), self._mark(when))

    def _of_time(self, of: str) -> Symbol:
        if ">" not in of:
            return Symbol("t", of.removeprefix("t"))
        problem = self.solution.problem
        name = Name("time", of)
        if name in problem.shares:
            share = problem.shares[name] * 100
            return Symbol("t", f"{float(share):g} %")
        return Symbol("t", problem.levels[Name("voltage", of)].shown.text)

    def _index(self, quantity: str, of: str) -> str:
        if of in self.sources:
            return element_index(of, kind_letter(self.sources[of]))
        if of == TOTAL:
            return ""
        if of == STORE:
            return "C" if quantity == "voltage" else ""
        if quantity == "voltage":
            return of.replace("_", "")
        return element_index(of, "C" if of in self.capacitors else "R")

    def _mark(self, when: str) -> str:
        if not when:
            return ""
        if when in _MARKS:
            return _MARKS[when]
        number = when.removeprefix("t").translate(str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉"))
        return f"(t{number})"

    def element(self, id: str) -> SymbolOf:
        """The name of a resistor, a capacitor, a source or a switch."""
        id = id.partition("@")[0].partition("|")[0]
        if id in self.switches:
            return SymbolOf(Name(SWITCH, id))
        if id in self.sources:
            return SymbolOf(Name(self.sources[id], id))
        capacitor = id in self.capacitors or id == STORE
        return SymbolOf(Name(CAPACITORS.value if capacitor else RESISTORS.value, id))

    @property
    def store(self) -> Prose:
        """What is charged, in words: ``C₁``, ``C_eq``, or ``C₁ and C₂``."""
        return self.elements(tuple(store.id for store in self.solution.stores))

    def at(self, when: str) -> Prose:
        """A moment: ``at the first instant``, ``long after``, ``after 20 ms``."""
        if when == BEFORE:
            return say("just before the change")
        if when == START:
            return say("at the first instant")
        if when == END:
            return say("long after")
        return say("after {time}", time=NumberOf(Name("time", when)))

    def asks_for(self, name: Name) -> Prose:
        """``the voltage across C₁ after 20 ms``, ``the time constant``."""
        of, when = moment_of(name)
        if name.quantity == "time-constant":
            return say("the time constant")
        if name.quantity == "time" and ">" in of:
            return self._when_reached(name, of)
        if name.quantity == RESISTORS.value and of == SEEN:
            return say("the resistance that {store} sees", store=self.store)
        noun = KINDS[name.quantity].noun
        if of == TOTAL:
            return say("the current that the source delivers {when}", when=self.at(when))
        word = PREPOSITIONS.get(name.quantity, "of")
        told = say("the {noun} {word} {one}", noun=noun, word=word, one=self.element(of))
        return say("{told} {when}", told=told, when=self.at(when)) if when else told

    def _when_reached(self, name: Name, of: str) -> Prose:
        one = self.element(of.partition(">")[0])
        share = self.solution.problem.shares.get(name)
        if share is not None:
            return say("the time at which the voltage across {one} has gone {share} of its way",
                       one=one, share=f"{float(share * 100):g}\u00a0%")  # fmt: skip
        return say("the time at which the voltage across {one} is {level}", one=one,
                   level=NumberOf(Name("voltage", of)))  # fmt: skip

    def mention(self, of: str) -> Mention | None:
        """An element is told by its name and value, a source by its value, a switch by name."""
        if of in self.switches:
            return Mention(Name(SWITCH, of), None)
        if of in self.sources:
            name = Name(self.sources[of], of)
            return Mention(name, name, both=False)
        if of not in self.members:
            return None
        name = self.element(of).name
        stated = self.solution.problem.charged.get(of)
        charged = at(stated.quantity, of, START) if stated else None
        return Mention(name, name, charged=charged)
