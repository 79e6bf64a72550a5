"""How the quantities of one solution are written: their symbols and their shown numbers."""

from __future__ import annotations

from dataclasses import dataclass

from builder.circuit.naming import value_symbol
from builder.circuit.tree import leaves
from builder.lesson.prose import NumberOf, Prose, SymbolOf, listed, say
from builder.quantity.names import TOTAL, Name, Symbol, element_index, kind_letter
from builder.quantity.show import Shown, show
from builder.solution import Solution
from builder.solution.stepwise import Naming, naming_of

LONGEST_LIST = 4


@dataclass(frozen=True)
class Display:
    """The writing of one solution's quantities.

    Attributes:
        solution: whose quantities they are.
    """

    solution: Solution

    @property
    def naming(self) -> Naming:
        """How the solution names its quantities."""
        return naming_of(self.solution.problem)

    @property
    def digits(self) -> int:
        """Significant digits of results."""
        return self.solution.problem.digits

    def shown(self, name: Name) -> Shown:
        """The number of a quantity: as typed if the author gave it, else rounded."""
        name = self.naming.resolve(name)
        network = self.solution.problem.network
        if network.source is not None and name == (network.source.quantity, network.source.name):
            return network.source.shown
        if name.quantity == self.solution.problem.law.value:
            for element in network.elements:
                if element.name == name.of:
                    return element.shown
        return show(self.solution.values[name], name.quantity, self.digits)

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
            return Symbol(letter, element_index(source.name, letter))
        return Symbol(letter, element_index(name.of, law.letter))

    def element(self, id: str) -> SymbolOf:
        """An element's or equivalent's name, written as the symbol of its value."""
        return SymbolOf(self.naming.value(id))

    def elements(self, ids: tuple[str, ...], word: str = "and") -> Prose:
        """Several elements' names in a row; many that are numbered in order as C₁ to C₆."""
        if len(ids) > LONGEST_LIST and self._in_order(ids):
            return say("{first} to {last}",
                       first=self.element(ids[0]), last=self.element(ids[-1]))  # fmt: skip
        return listed([self.element(id) for id in ids], word)

    def _in_order(self, ids: tuple[str, ...]) -> bool:
        indexes = [element_index(id, self.solution.problem.law.letter) for id in ids]
        if not all(index.isdigit() for index in indexes):
            return False
        numbers = [int(index) for index in indexes]
        return numbers == list(range(numbers[0], numbers[0] + len(numbers)))

    def number(self, name: Name) -> NumberOf:
        """The number of a quantity."""
        return NumberOf(self.naming.resolve(name))
