"""A nest of series and parallel groups as the body of a problem."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from builder.circuit.law import Law
from builder.circuit.tree import Tree, groups
from builder.problem.asked import Asking
from builder.problem.body import Body
from builder.problem.circuit import Circuit
from builder.problem.faults.gathering import Faults
from builder.problem.model import NestProblem
from builder.problem.yaml_text.located import Entry, Node
from builder.quantity.letters import letter_of
from builder.quantity.names import Name
from builder.quantity.symbolic import letters_in


@dataclass(frozen=True)
class NestBody(Body):
    """A circuit that is a nest, or that could not be read.

    Attributes:
        circuit: as far as it could be read.
        faults: of the file.
    """

    circuit: Circuit
    faults: Faults

    @property
    def mentions(self) -> tuple[str, ...] | None:
        """The elements and the source."""
        source = self.circuit.source_name
        if not self.circuit.names_known or source == "":
            return None
        return (*self.circuit.names, *((source,) if source else ()))

    @cached_property
    def step_ids(self) -> tuple[str, ...]:
        """The ids of all steps, once the nest is known."""
        tree, law = self.circuit.tree, self.circuit.law
        return () if tree is None or law is None else step_ids(tree, law)

    def find(self, entry: Entry) -> tuple[Name, ...]:
        """The names under ``find:``."""
        return Asking(self.circuit, self.faults).find(entry)

    def answer(self, node: Node) -> Name | None:
        """The quantity that answers a question, which must be a number."""
        symbols = self._symbols
        if symbols:
            self.faults.add(node.at, f"a typed answer in a circuit with the symbol {symbols[0]}",
                            "choices",
                            "Answers with symbols cannot be typed so far. Write choices: with the "
                            "options in place of answer:.")  # fmt: skip
            return None
        return Asking(self.circuit, self.faults).answer(node)

    @property
    def _symbols(self) -> tuple[str, ...]:
        """The letters among the values of the circuit."""
        network = self.circuit.network
        if network is None:
            return ()
        values = [element.value for element in network.elements]
        values += [source.value for source in network.sources]
        return tuple(letter_of(symbol) for value in values for symbol in letters_in(value))

    def advice_on(self, mention: str) -> str | None:
        """A source is often named that is not there."""
        if mention == "V0" and self.circuit.source_name is None:
            return "The circuit has no source. Add source: to it, or reword the text."
        return None

    def problem(self, common: Mapping[str, Any]) -> NestProblem | None:
        """The problem, if the nest could be read."""
        law, network, tree = self.circuit.law, self.circuit.network, self.circuit.tree
        if law is None or network is None or tree is None:
            return None
        return NestProblem(law=law, network=network, tree=tree, **common)


def step_ids(tree: Tree, law: Law) -> tuple[str, ...]:
    """The ids of all steps that a solution of the nest can have."""
    merged = tuple(group.id for group in groups(tree))
    return (
        *(f"merge-{id}" for id in merged),
        law.flow,
        f"{law.flow}-total",
        *(f"open-{id}" for id in merged),
        law.work,
        f"{law.work}-total",
    )
