"""How the quantities of a nest are written."""

from __future__ import annotations

from dataclasses import dataclass

from builder.circuit.naming import value_symbol
from builder.circuit.tree import leaves
from builder.lesson.display import Display, Mention, Merge
from builder.lesson.prose import Prose, SymbolOf, say
from builder.lesson.vocabulary import PREPOSITIONS, vocabulary
from builder.quantity.kinds import KINDS
from builder.quantity.letters import letter_symbol
from builder.quantity.names import TOTAL, Name, Symbol, element_index, kind_letter
from builder.solution import Step
from builder.solution.nest.solve import NestSolution
from builder.solution.nest.step import NestStep, StepKind
from builder.solution.nest.stepwise import Naming


@dataclass(frozen=True)
class NestDisplay(Display):
    """The writing of one nest's quantities.

    Attributes:
        solution: whose quantities they are.
    """

    solution: NestSolution

    @property
    def naming(self) -> Naming:
        """How the solution names its quantities."""
        return self.solution.naming

    @property
    def directed(self) -> bool:
        """A nest has one source, and everything runs its way."""
        return False

    @property
    def members(self) -> tuple[str, ...]:
        """The single elements, in the author's order."""
        return tuple(element.name for element in self.solution.problem.network.elements)

    @property
    def one(self) -> str:
        """What one of them is called."""
        return vocabulary(self.solution.problem.law).one

    def symbol(self, name: Name) -> Symbol:
        """The symbol of a quantity: C₂₃, Q₁, V₀; C_eq and Q for the whole circuit."""
        law = self.solution.problem.law
        letter = kind_letter(name.quantity)
        if name.quantity == law.value:
            return value_symbol(name.of, letter)
        if name.of == TOTAL:
            bare = any(
                element_index(leaf, law.letter) == "" for leaf in leaves(self.solution.problem.tree)
            )
            return Symbol(letter, "tot" if bare else "")
        source = self.solution.problem.network.source
        if source is not None and name == (source.quantity, source.name):
            if source.shown.text == letter_symbol(source.name).text:
                return letter_symbol(source.name)
            return Symbol(letter, element_index(source.name, letter))
        return Symbol(letter, element_index(name.of, law.letter))

    def element(self, id: str) -> SymbolOf:
        """An element's or equivalent's name, written as the symbol of its value."""
        return SymbolOf(self.naming.value(id))

    def asks_for(self, name: Name) -> Prose:
        """``the charge on C₂``, ``the equivalent capacitance``, ``the total energy``."""
        name = self.resolve(name)
        noun, law = KINDS[name.quantity].noun, self.naming.law
        source = self.solution.problem.network.source
        if source is not None and name.of == source.name:
            return say("the {noun} of the source", noun=noun)
        if name.of == TOTAL:
            if name.quantity == law.value:
                return say("the equivalent {noun}", noun=noun)
            if name.quantity == law.flow:
                return say("the {noun} that the source delivers", noun=noun)
            if name.quantity == law.drop:
                return say("the voltage across the whole circuit")
            return say("the total {noun}", noun=noun)
        word = PREPOSITIONS.get(name.quantity, "of")
        return say("the {noun} {word} {one}", noun=noun, word=word, one=self.element(name.of))

    def merges(self, step: Step) -> tuple[Merge, ...]:
        """The group that a step merges, if it does."""
        if not isinstance(step, NestStep) or step.kind is not StepKind.MERGE or not step.group:
            return ()
        members = tuple(self.naming.value(part.id) for part in step.group.parts)
        return (Merge(self.naming.value(step.group.id), step.group.connection, members),)

    def mention(self, of: str) -> Mention | None:
        """An element is told by its name and value, the source by its value."""
        source = self.solution.problem.network.source
        if source is not None and of == source.name:
            name = Name(source.quantity, source.name)
            return Mention(name, name, both=False)
        if of not in self.members:
            return None
        return Mention(self.naming.value(of), self.naming.value(of))
