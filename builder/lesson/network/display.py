"""How the quantities of a network are written."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import takewhile

from builder.circuit.law import Law
from builder.circuit.naming import value_symbol
from builder.circuit.network import Network, Source
from builder.lesson.display import Display, Mention, Merge
from builder.lesson.prose import Prose, SymbolOf, listed, say
from builder.lesson.vocabulary import PREPOSITIONS, vocabulary
from builder.problem.network.asking import BETWEEN, GREATEST, INNER, MATCHED, OPEN, POTENTIAL
from builder.problem.network.read_so_far import INNER_PREFIX
from builder.quantity.kinds import KINDS
from builder.quantity.names import TOTAL, Name, Symbol, element_index, kind_letter
from builder.solution import Step
from builder.solution.network.renaming import part_of, share
from builder.solution.network.solve import NetworkSolution
from builder.solution.network.step import NetworkMove, NetworkStep

__all__ = ["POTENTIAL", "NetworkDisplay"]

_OWN_LETTERS = {"voltage": "E", "current": "J", "charge": "Q"}
"""The letter of what a source gives where the usual one already stands for that of an element."""
_OF_EQUIVALENT_SOURCE = {OPEN: "open", INNER: "inner", GREATEST: "max", MATCHED: "match"}
_PRIMES = ("′", "″", "‴", "⁗")
_ASKED_OF_EQUIVALENT_SOURCE = {
    OPEN: "the open {noun}",
    INNER: "the inner {noun}",
    GREATEST: "the greatest {noun} that a load can take",
    MATCHED: "the {noun} of the load that takes the most power",
}


@dataclass(frozen=True)
class NetworkDisplay(Display):
    """The writing of one network's quantities.

    Attributes:
        solution: whose quantities they are.
        part: the part of the solution that is spoken of, such as one source alone; mostly empty.
    """

    solution: NetworkSolution
    part: str = ""

    @property
    def law(self) -> Law:
        """Of the elements."""
        return self.solution.problem.law

    @property
    def network(self) -> Network:
        """As the author gave it."""
        return self.solution.problem.network

    @property
    def members(self) -> tuple[str, ...]:
        """The single elements, in the author's order."""
        return tuple(element.name for element in self.network.elements)

    @property
    def one(self) -> str:
        """What one of them is called."""
        return vocabulary(self.law).one

    @property
    def signed(self) -> bool:
        """Whether directions have to be told: several sources, or a flow that is negative."""
        values, flow = self.solution.values, self.law.flow
        flows = (values.get(Name(flow, member)) for member in self.members)
        return len(self.network.sources) > 1 or any(
            value is not None and value < 0 for value in flows
        )

    def merges(self, step: Step) -> tuple[Merge, ...]:
        """The groups that a step merges."""
        if not isinstance(step, NetworkStep) or step.kind is not NetworkMove.MERGE:
            return ()
        within = self.within(step)
        return tuple(
            Merge(
                within.element(group.equivalent).name,
                group.connection,
                tuple(within.element(member).name for member in group.members),
            )
            for group in step.merged
        )

    def before(self, step: NetworkStep) -> tuple[NetworkStep, ...]:
        """The steps that are taught before another."""
        return tuple(takewhile(lambda other: other.id != step.id, self.solution.steps))

    def within(self, step: NetworkStep) -> NetworkDisplay:
        """The same, speaking of the part of the solution that a step belongs to."""
        return replace(self, part=self.part_of(step))

    def part_of(self, step: NetworkStep) -> str:
        """The part of the solution that a step belongs to: a source that acts alone, say."""
        if "acting" in step.telling:
            return step.telling["acting"]
        return next((part for part in (part_of(name)[1] for name in step.found) if part), "")

    def source(self, name: str) -> Source | None:
        """The source of that name, or None."""
        return next((one for one in self.network.sources if one.name == name), None)

    def between(self, id: str) -> tuple[str, str]:
        """The junctions of an element or source, the first being where its flow enters.

        Raises:
            KeyError: if nothing in the author's network is called that.
        """
        source = self.source(id)
        return source.between if source else self.network.element(id).between

    def delivered(self, source: str, quantity: str) -> Name | None:
        """The name of a source's own quantity, or of the whole network's where it is the only one.

        Returns:
            None where neither is known.
        """
        names = [Name(quantity, source)]
        if len(self.network.sources) == 1:
            names.append(self.resolve(Name(quantity, TOTAL)))
        return next((name for name in names if name in self.solution.values), None)

    def symbol(self, name: Name) -> Symbol:
        """The symbol of a quantity: R₂₃, I₁, φ_a, E₁; R_eq and I for the whole network."""
        own, part = part_of(name)
        if part:
            symbol = self.symbol(own)
            return replace(symbol, mark=symbol.mark + self._mark(part, own))
        source = self.source(name.of)
        if source is not None:
            return self._of_source(name, source)
        inside = self._source_around(name.of)
        if inside is not None:
            return self._of_inner_resistance(name, inside)
        letter = kind_letter(name.quantity)
        if name.quantity == self.law.value and name.of not in _OF_EQUIVALENT_SOURCE:
            return value_symbol(name.of, letter)
        return Symbol(letter, self._index(name))

    def _index(self, name: Name) -> str:
        """The index of what is no source and no value of an element."""
        if name.quantity == POTENTIAL:
            return name.of
        if name.of == TOTAL:
            return self._whole_index
        if BETWEEN in name.of:
            return name.of.replace(BETWEEN, "")
        own = element_index(name.of, self.law.letter)
        return _OF_EQUIVALENT_SOURCE.get(name.of, own)

    def _of_inner_resistance(self, name: Name, source: Source) -> Symbol:
        index = self.symbol(Name(source.quantity, source.name)).index
        if name.quantity == self.law.value:
            return Symbol("r", index)
        return Symbol(kind_letter(name.quantity), f"r{index}")

    def _mark(self, part: str, name: Name) -> str:
        """What tells a quantity of a part of the solution apart: a prime, or several."""
        if part == INNER or (name.quantity == self.law.value and name.of != TOTAL):
            return ""
        names = [source.name for source in self.network.sources]
        return _PRIMES[names.index(part) % len(_PRIMES)] if part in names else _PRIMES[0]

    def _source_around(self, element: str) -> Source | None:
        """The source whose internal resistance an element is, or None."""
        if not element.startswith(INNER_PREFIX):
            return None
        return self.source(element.removeprefix(INNER_PREFIX))

    @property
    def _whole_index(self) -> str:
        bare = any(element_index(member, self.law.letter) == "" for member in self.members)
        return "tot" if bare else ""

    def _of_source(self, name: Name, source: Source) -> Symbol:
        letter = kind_letter(name.quantity)
        if name.quantity != source.quantity:
            alone = len(self.network.sources) == 1
            return Symbol(letter, self._whole_index if alone else source.name)
        index = element_index(source.name, letter)
        own = _OWN_LETTERS[source.quantity]
        if source.name.startswith(own) and source.name[1:].lstrip("_").isalnum():
            return Symbol(own, element_index(source.name, own))
        return Symbol(own if self._taken(index) else letter, index)

    def _taken(self, index: str) -> bool:
        """Whether an element has that index, so that its quantities would look the same."""
        return index in {element_index(member, self.law.letter) for member in self.members}

    def in_turn(self, ids: tuple[str, ...]) -> tuple[str, ...]:
        """Elements in the author's order, equivalents after them as they come."""
        order = {member: position for position, member in enumerate(self.members)}
        return tuple(sorted(ids, key=lambda id: order.get(id, len(order))))

    def element(self, id: str) -> SymbolOf:
        """A name written as the symbol of its value; a source by its own quantity."""
        source = self.source(id)
        name = Name(source.quantity if source else self.law.value, id)
        own = share(name, self.part)
        return SymbolOf(own if self.part and own in self.solution.values else name)

    def potential(self, junction: str) -> SymbolOf:
        """The symbol of a junction's potential."""
        return SymbolOf(Name(POTENTIAL, junction))

    def flow(self, id: str) -> SymbolOf:
        """The symbol of an element's or source's current or charge."""
        return SymbolOf(Name(self.law.flow, id))

    def junctions(self, names: tuple[str, ...], word: str = "and") -> Prose:
        """``junction a``, ``junctions a and b``."""
        noun = "junction" if len(names) == 1 else "junctions"
        return say("{noun} {names}", noun=noun, names=listed(names, word))

    def way(self, id: str) -> Prose:
        """The direction in which an element's flow is counted: ``from a to b``."""
        inside = self._source_around(id)
        if inside is not None:
            return say("out of {source}", source=self.element(inside.name))
        first, second = self.between(id)
        return say("from {first} to {second}", first=first, second=second)

    def way_back(self, id: str) -> Prose:
        """The direction against that in which an element's flow is counted: ``from b to a``."""
        inside = self._source_around(id)
        if inside is not None:
            return say("into {source}", source=self.element(inside.name))
        first, second = self.between(id)
        return say("from {second} to {first}", first=first, second=second)

    def asks_for(self, name: Name) -> Prose:
        """``the current through R₁ from a to b``, ``the power that E₁ delivers``."""
        name = self.resolve(name)
        noun = KINDS[name.quantity].noun
        if part_of(name)[1]:
            return say("the {noun} {symbol}", noun=noun, symbol=SymbolOf(name))
        if name.quantity == POTENTIAL:
            return say("the potential of junction {junction}", junction=name.of)
        if BETWEEN in name.of:
            first, _, second = name.of.partition(BETWEEN)
            return say("the voltage of junction {first} against junction {second}", first=first,
                       second=second)  # fmt: skip
        if name.of in _OF_EQUIVALENT_SOURCE:
            return say(_ASKED_OF_EQUIVALENT_SOURCE[name.of], noun=noun)
        if name.of == TOTAL:
            return self._asks_for_whole(name)
        source = self.source(name.of)
        return self._asks_for_source(name, source) if source else self._asks_for_element(name)

    def _asks_for_source(self, name: Name, source: Source) -> Prose:
        noun = KINDS[name.quantity].noun
        if name.quantity in (self.law.drop, source.quantity):
            return say("the {noun} of {source}", noun=noun, source=self.element(name.of))
        alone = len(self.network.sources) == 1
        return say("the {noun} that {source} delivers", noun=noun,
                   source="the source" if alone else self.element(name.of))  # fmt: skip

    def _asks_for_element(self, name: Name) -> Prose:
        noun, word = KINDS[name.quantity].noun, PREPOSITIONS.get(name.quantity, "of")
        if name.of not in self.members:
            return say("the {noun} {symbol}", noun=noun, symbol=SymbolOf(name))
        asked = say("the {noun} {word} {one}", noun=noun, word=word, one=self.element(name.of))
        directed = self.signed and name.quantity in (self.law.flow, self.law.drop)
        return say("{asked} {way}", asked=asked, way=self.way(name.of)) if directed else asked

    def _asks_for_whole(self, name: Name) -> Prose:
        noun = KINDS[name.quantity].noun
        if name.quantity == self.law.value:
            return say("the equivalent {noun}", noun=noun)
        if name.quantity == self.law.flow:
            return say("the {noun} that the source delivers", noun=noun)
        if name.quantity == self.law.drop:
            return say("the voltage across the whole circuit")
        return say("the total {noun}", noun=noun)

    def mention(self, of: str) -> Mention | None:
        """An element is told by its name and value, a source by its value."""
        source = self.source(of)
        if source is not None:
            name = Name(source.quantity, source.name)
            return Mention(name, name, both=False)
        if of not in self.members:
            return None
        return Mention(Name(self.law.value, of), Name(self.law.value, of))
