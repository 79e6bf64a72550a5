"""Facts measured in a circuit, by which an unknown element is found."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.problem.circuit import Circuit
from builder.problem.faults.gathering import Faults, Mark, meant, one_of, quoted
from builder.problem.parts import EQUIVALENT, EXAMPLES, read_value
from builder.problem.typed import as_map
from builder.problem.yaml_text.located import Entry, Node, Text
from builder.quantity.measure import Measure
from builder.quantity.names import TOTAL, Name

MORE_EXAMPLES = {**EXAMPLES, "energy": "an energy such as 2 mJ", "power": "a power such as 3 W"}


@dataclass(frozen=True)
class Fact:
    """Something measured in a circuit.

    Attributes:
        name: what was measured; ``of`` is ``total`` for the whole circuit.
        measure: its value.
        at: its place in the file.
    """

    name: Name
    measure: Measure
    at: Mark


@dataclass(frozen=True)
class Measured:
    """Reads what was measured.

    Attributes:
        circuit: as far as it could be read.
        unknown: the elements that are to be found.
        faults: of the file.
    """

    circuit: Circuit
    unknown: tuple[str, ...]
    faults: Faults

    def read(self, entry: Entry) -> tuple[Fact, ...]:
        """The facts under ``measured:``."""
        node = as_map(entry.value, "a fact such as {equivalent: 8 uF} or {charge: {C1: 40 uC}}",
                      self.faults)  # fmt: skip
        return tuple(fact for one in node.entries for fact in self._facts(one)) if node else ()

    def _facts(self, entry: Entry) -> Iterator[Fact]:
        law = self.circuit.law
        if law is None:
            return
        quantity = entry.key.value
        known = (EQUIVALENT, *law.quantities[1:])
        if quantity not in known:
            self.faults.add(entry.key.at, quoted(quantity), one_of(known),
                            meant(quantity, known, "Check its spelling."))  # fmt: skip
        elif quantity == EQUIVALENT:
            yield from self._fact(Name(law.value, TOTAL), entry.key, entry.value)
        elif self._has_source(entry.key):
            of = as_map(entry.value, f"elements with values, such as {{C1: {_example(quantity)}}}",
                        self.faults)  # fmt: skip
            for one in of.entries if of else ():
                yield from self._of_element(quantity, one)

    def _has_source(self, quantity: Text) -> bool:
        if self.circuit.source_name is not None:
            return True
        self.faults.add(quantity.at, f"{quoted(quantity.value)} in a circuit without a source",
                        EQUIVALENT, "Add source: to the circuit, or measure the "
                        "equivalent.")  # fmt: skip
        return False

    def _of_element(self, quantity: str, entry: Entry) -> Iterator[Fact]:
        names = (*self.circuit.names, TOTAL)
        if entry.key.value not in names:
            if self.circuit.names_known:
                self.faults.add(entry.key.at, f"{quoted(entry.key.value)}, which is no element of "
                                "the circuit", one_of(names),
                                meant(entry.key.value, names, "Name an element of this "
                                      "circuit."))  # fmt: skip
            return
        yield from self._fact(Name(quantity, entry.key.value), entry.key, entry.value)

    def _fact(self, name: Name, key: Text, node: Node) -> Iterator[Fact]:
        expected = MORE_EXAMPLES[name.quantity]
        measure = read_value(node, (name.quantity,), expected, self.faults)
        if measure is None:
            return
        if measure.value <= 0:
            self.faults.add(node.at, f"a measured {measure.shown.text}", f"{expected}, above zero",
                            "Change the value.")  # fmt: skip
            return
        yield Fact(name, measure, key.at)


def _example(quantity: str) -> str:
    return MORE_EXAMPLES[quantity].rpartition("such as ")[2]
