"""How the quantities of a nest with unknown elements are written."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from builder.circuit.tree import Tree, groups
from builder.lesson.display import Display, Mention
from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import Prose, SymbolOf
from builder.quantity.names import Name, Symbol
from builder.solution.relations.unknown import UnknownSolution


@dataclass(frozen=True)
class UnknownDisplay(Display):
    """The writing of the quantities: as in the nest with the found values put back.

    Attributes:
        solution: whose quantities they are.
    """

    solution: UnknownSolution

    @cached_property
    def nest(self) -> NestDisplay:
        """How the nest is written."""
        return NestDisplay(self.solution.nest)

    @property
    def directed(self) -> bool:
        """A nest has one source, and everything runs its way."""
        return False

    @property
    def members(self) -> tuple[str, ...]:
        """The single elements."""
        return self.nest.members

    @property
    def one(self) -> str:
        """What one of them is called."""
        return self.nest.one

    def symbol(self, name: Name) -> Symbol:
        """The symbol of a quantity."""
        of, _, number = name.of.partition("'")
        symbol = self.nest.symbol(Name(name.quantity, of))
        index = ",".join(part for part in (symbol.index, number) if part)
        return Symbol(symbol.letter, index, symbol.mark)

    def element(self, id: str) -> SymbolOf:
        """An element's or equivalent's name."""
        return self.nest.element(id)

    def asks_for(self, name: Name) -> Prose:
        """A quantity in words; the value of an unknown element by its kind and name."""
        return self.nest.asks_for(name)

    def mention(self, of: str) -> Mention | None:
        """An element that is unknown is told by its name alone."""
        found = self.nest.mention(of)
        if found is None or of not in self.solution.problem.unknown:
            return found
        return Mention(found.symbol, found.number, both=False)


def part_of(of: str, tree: Tree) -> Tree:
    """The group of that name, or the whole."""
    return next((group for group in groups(tree) if group.id == of), tree)
