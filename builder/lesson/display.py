"""How the quantities of one solution are written: their symbols and their shown numbers."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from builder.lesson.prose import NumberOf, Prose, SymbolOf, listed, say
from builder.quantity.names import Name, Symbol
from builder.quantity.show import Shown, ShownExpression, show
from builder.solution import Solution, Step

LONGEST_LIST = 4


@dataclass(frozen=True)
class Mention:
    """What stands for a part of the problem in an author's text.

    Attributes:
        symbol: the quantity whose symbol is its name.
        number: the quantity whose number is its value; None for what has none, as a switch.
        both: whether ``{C1}`` tells name and value; a source is told by its value alone.
        charged: the quantity that tells what it is charged with at first, if that is stated.
    """

    symbol: Name
    number: Name | None
    both: bool = True
    charged: Name | None = None


@dataclass(frozen=True)
class Merge:
    """A group that a step merges.

    Attributes:
        equivalent: the value of the equivalent.
        connection: ``series`` or ``parallel``.
        members: the values of the members.
    """

    equivalent: Name
    connection: str
    members: tuple[Name, ...]


@dataclass(frozen=True)
class Display(ABC):
    """The writing of one solution's quantities.

    Attributes:
        solution: whose quantities they are.
    """

    solution: Solution

    @property
    def digits(self) -> int:
        """Significant digits of results."""
        return self.solution.problem.digits

    @property
    def scene(self) -> str:
        """What the problem shows, to go on after “the”."""
        return "circuit"

    @property
    def directed(self) -> bool:
        """Whether voltages, currents and charges are counted one way, so that minus can occur."""
        return True

    def resolve(self, name: Name) -> Name:
        """The name under which a quantity is kept."""
        found = self._resolved.get(name)
        if found is None:
            found = self._resolved[name] = self.solution.resolve(name)
        return found

    def shown(self, name: Name) -> Shown:
        """The number of a quantity: as typed if the author gave it, else rounded."""
        found = self._shown.get(name)
        if found is None:
            own = self.resolve(name)
            typed = self.solution.givens.get(own)
            found = typed or show(self.solution.values[own], own.quantity, self.digits)
            self._shown[name] = found
        return found

    @cached_property
    def _resolved(self) -> dict[Name, Name]:
        """What was resolved already: a page asks for each quantity dozens of times."""
        return {}

    @cached_property
    def _shown(self) -> dict[Name, Shown]:
        """What was shown already."""
        return {}

    @cached_property
    def found_and_asked(self) -> dict[Name, bool]:
        """What the steps find, in order, and whether it is asked for."""
        asked = set(map(self.resolve, self.solution.problem.find))
        return {name: name in asked for step in self.solution.steps for name in step.found}

    @cached_property
    def found_wrong(self) -> dict[object, Any]:
        """What wrong rules lead to, by what finds it, as far as it was looked for already."""
        return {}

    def names_itself(self, name: Name) -> bool:
        """Whether a quantity's value is its own symbol, so that it has nothing more to tell."""
        shown = self.shown(name)
        return isinstance(shown, ShownExpression) and shown.number == self.symbol(name).text

    def number(self, name: Name) -> NumberOf:
        """The number of a quantity."""
        return NumberOf(self.resolve(name))

    def elements(self, ids: tuple[str, ...], word: str = "and") -> Prose:
        """Several elements' names in a row; many that are numbered in order as C₁ to C₆."""
        if len(ids) > LONGEST_LIST and self.in_order(ids):
            return say("{first} to {last}",
                       first=self.element(ids[0]), last=self.element(ids[-1]))  # fmt: skip
        return listed([self.element(id) for id in ids], word)

    def in_order(self, ids: tuple[str, ...]) -> bool:
        """Whether elements are numbered one after the other, so that “to” can be said."""
        indexes = [self.symbol(self.element(id).name).index for id in ids]
        if not all(index.isdigit() for index in indexes):
            return False
        numbers = [int(index) for index in indexes]
        return numbers == list(range(numbers[0], numbers[0] + len(numbers)))

    def merges(self, step: Step) -> tuple[Merge, ...]:
        """The groups that a step merges; none where the kind of problem merges nothing."""
        return ()

    @abstractmethod
    def symbol(self, name: Name) -> Symbol:
        """The symbol of a quantity: C₂₃, Q₁, V₀."""

    @abstractmethod
    def element(self, id: str) -> SymbolOf:
        """An element's or equivalent's name, written as the symbol of its value."""

    @abstractmethod
    def asks_for(self, name: Name) -> Prose:
        """A quantity in words: ``the charge on C₂``, ``the equivalent capacitance``."""

    @abstractmethod
    def mention(self, of: str) -> Mention | None:
        """What ``{C1}`` stands for in an author's text, or None if nothing is called that."""

    @property
    @abstractmethod
    def members(self) -> tuple[str, ...]:
        """The single elements, in the author's order."""

    @property
    @abstractmethod
    def one(self) -> str:
        """What one of them is called: ``capacitor``."""
