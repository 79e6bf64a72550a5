"""What can be asked of a network: also of sources, of junctions, and of an equivalent source."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from builder.circuit.law import Law
from builder.problem.asked import Asking
from builder.problem.faults.gathering import meant, one_of, quoted
from builder.problem.parts import ALL, EQUIVALENT
from builder.problem.yaml_text.located import Node, Text
from builder.quantity.names import TOTAL, Name

POTENTIAL = "potential"
EQUIVALENT_SOURCE = "equivalent-source"
OPEN, INNER, GREATEST, MATCHED = "open", "inner", "greatest", "matched"
"""What the quantities of an equivalent source belong to."""
BETWEEN = "/"
"""Stands between two junctions in the name of the voltage from one to the other."""
_BETWEEN_WORDS = "between "
_FEW = 8


def special_names(law: Law | None) -> dict[str, Name]:
    """The words for quantities of an equivalent source, with what they stand for."""
    if law is None:
        return {}
    words = {
        f"open-{law.drop}": Name(law.drop, OPEN),
        f"inner-{law.value}": Name(law.value, INNER),
    }
    if law.work == "power":
        words[f"matching-{law.value}"] = Name(law.value, MATCHED)
        words[f"greatest-{law.work}"] = Name(law.work, GREATEST)
    return words


def between_points(name: Name) -> tuple[str, str] | None:
    """The two junctions of a voltage between them, or None if it is that of something else."""
    first, found, second = name.of.partition(BETWEEN)
    return (first, second) if found else None


@dataclass(frozen=True)
class NetworkAsking(Asking):
    """What can be asked of a network.

    Attributes:
        sources: the kind of quantity that each source gives, by its name.
        junctions: of the network; empty if they are not known.
        method: how it is to be solved, or None.
        inner: the elements that are internal resistances of sources: ``all`` leaves them out.
    """

    sources: Mapping[str, str] = field(default_factory=dict)
    junctions: tuple[str, ...] = ()
    method: str | None = None
    inner: tuple[str, ...] = ()

    def _known(self) -> tuple[str, ...]:
        special = special_names(self.circuit.law) if self.method == EQUIVALENT_SOURCE else ()
        return (*super()._known(), POTENTIAL, *special)

    def _names(self, quantity: Text, of: Node, *, alone: bool = False) -> Iterator[Name]:
        word = quantity.value
        special = special_names(self.circuit.law)
        if word in special:
            if self._fits_equivalent_source(quantity):
                yield special[word]
        elif self.circuit.law is None or word not in self._known():
            yield from super()._names(quantity, of, alone=alone)
        elif word == EQUIVALENT:
            if self._has_one_equivalent(quantity):
                yield from super()._names(quantity, of, alone=alone)
        elif word == POTENTIAL:
            yield from self._potentials(quantity, of)
        elif isinstance(of, Text):
            yield from self._of_text(quantity, of, self.circuit.law)
        else:
            yield from super()._names(quantity, of, alone=alone)

    def _of_text(self, quantity: Text, of: Text, law: Law) -> Iterator[Name]:
        """The names of one of the quantities that elements have."""
        word = quantity.value
        if word == law.drop and of.value.startswith(_BETWEEN_WORDS):
            yield from self._between(of)
        elif of.value in self.sources:
            yield from self._of_source(quantity, of)
        elif of.value == ALL and self.circuit.source_name is not None:
            yield from (Name(word, name) for name in self.circuit.names if name not in self.inner)
        elif of.value == TOTAL and word != law.work:
            yield from self._of_only_source(quantity, of)
        else:
            yield from super()._names(quantity, of)

    def _given_already(self, quantity: Text, of: Text) -> bool:
        return False

    def _fits_equivalent_source(self, quantity: Text) -> bool:
        if self.method == EQUIVALENT_SOURCE:
            return True
        self.faults.add(quantity.at, f"{quoted(quantity.value)} without an equivalent source",
                        "method: equivalent-source in the circuit",
                        "Add it there, with load: or with across: for the two points.")  # fmt: skip
        return False

    def _has_one_equivalent(self, quantity: Text) -> bool:
        if len(self.sources) <= 1 and self.method != EQUIVALENT_SOURCE:
            return True
        law = self.circuit.law
        assert law is not None
        found = ("of an equivalent source" if self.method == EQUIVALENT_SOURCE
                 else "in a circuit of several sources")  # fmt: skip
        self.faults.add(quantity.at, f'"{EQUIVALENT}" {found}', f"inner-{law.value}",
                        f"Write inner-{law.value} for what two points see, with method: "
                        "equivalent-source and across: for the two points.")  # fmt: skip
        return False

    def _potentials(self, quantity: Text, of: Node) -> Iterator[Name]:
        if not self._has_quantity(quantity, alone=False):
            return
        if not isinstance(of, Text):
            self.faults.add(of.at, "no junction", "a junction", "Write potential: and its "
                            "name.")  # fmt: skip
        elif of.value == ALL:
            yield from (Name(POTENTIAL, junction) for junction in self.junctions)
        elif self._is_junction(of.value, of):
            yield Name(POTENTIAL, of.value)

    def _between(self, of: Text) -> Iterator[Name]:
        ends = of.value.removeprefix(_BETWEEN_WORDS).split(" and ")
        if len(ends) != 2:
            self.faults.add(of.at, quoted(of.value), "between two junctions, such as between a "
                            "and b", "Name the two junctions, with the word and between "
                            "them.")  # fmt: skip
            return
        first, second = (end.strip() for end in ends)
        known = self._is_junction(first, of) and self._is_junction(second, of)
        if known and first == second:
            self.faults.add(of.at, quoted(of.value), "two different junctions",
                            "Change one of the two.")  # fmt: skip
        elif known and self.circuit.law is not None:
            yield Name(self.circuit.law.drop, f"{first}{BETWEEN}{second}")

    def _is_junction(self, name: str, of: Text) -> bool:
        if name in self.junctions or not self.junctions:
            return bool(self.junctions)
        few = self.junctions if len(self.junctions) <= _FEW else (*self.junctions[:7], "another")
        advice = meant(name, self.junctions, "Name a junction of this circuit.")
        self.faults.add(of.at, f"{quoted(name)}, which is no junction of the circuit",
                        one_of(few), advice)  # fmt: skip
        return False

    def _of_source(self, quantity: Text, of: Text) -> Iterator[Name]:
        if self.sources[of.value] == quantity.value:
            self.faults.add(of.at, f"the {quantity.value} of {of.value}, which is given",
                            "a quantity that is not given",
                            "Delete it, or name elements.")  # fmt: skip
            return
        yield Name(quantity.value, of.value)

    def _of_only_source(self, quantity: Text, of: Text) -> Iterator[Name]:
        if len(self.sources) == 1:
            (name,) = self.sources
            yield from self._of_source(quantity, Text(name, of.at))
        elif self.sources:
            several = one_of([f"{quantity.value}: {name}" for name in self.sources])
            self.faults.add(of.at, f'"{quantity.value}: {TOTAL}" in a circuit of several sources',
                            several, "Say which source is meant.")  # fmt: skip
        else:
            self._has_quantity(quantity, alone=False)
