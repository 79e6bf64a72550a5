"""What can be asked of a problem in stages: at the end, or after a stage."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from builder.circuit.switching import LOST, moment
from builder.problem.faults.gathering import Faults, meant, nearest, one_of, quoted, several
from builder.problem.listed_asking import ListedAsking
from builder.problem.parts import ALL
from builder.problem.typed import describe
from builder.problem.yaml_text.located import Items, Map, Node, Text, Unusable
from builder.quantity.names import TOTAL, Name

_QUANTITIES = ("charge", "voltage", "energy")
_WHEN = re.compile(r"(?:after|in)\s+(?:stage\s+)?(\d{1,2})")
_BEFORE = "before"
_FEW = 8


@dataclass(frozen=True)
class StagesAsking(ListedAsking):
    """What can be asked.

    Attributes:
        capacitors, batteries: their names.
        names_known: whether these are all.
        stages: how many there are; 0 if that is not known.
        faults: of the file.
    """

    EXAMPLE: ClassVar[str] = "a quantity, such as charge: C1 or charge: {C1: after 1}"
    FIRST: ClassVar[str] = "charge: all"
    ONE: ClassVar[str] = "{charge: C2}"

    capacitors: tuple[str, ...]
    batteries: tuple[str, ...]
    names_known: bool
    stages: int
    faults: Faults

    @property
    def _faults(self) -> Faults:
        return self.faults

    def _of(self, quantity: Text, of: Node) -> Iterator[Name]:
        if quantity.value not in _QUANTITIES:
            advice = "Charges settle at one value: ask for charge, voltage or energy."
            self.faults.add(quantity.at, quoted(quantity.value), one_of(_QUANTITIES),
                            meant(quantity.value, _QUANTITIES, advice))  # fmt: skip
        elif isinstance(of, Map) and of.entries:
            for entry in of.entries:
                when = self._when(entry.value)
                if when is not None:
                    yield from self._names(quantity, entry.key, when)
        elif isinstance(of, Items) and not of.items:
            self.faults.add(of.at, "an empty list", "elements, all or total",
                            "Name the elements, or delete the item.")  # fmt: skip
        else:
            for one in of.items if isinstance(of, Items) else (of,):
                yield from self._names(quantity, one, None)

    def _when(self, node: Node) -> int | None:
        """The stage after which something is asked for; 0 before the first."""
        text = node.value.strip() if isinstance(node, Text) else ""
        found = _WHEN.fullmatch(text)
        expected = f"{_BEFORE}, or after and the number of a stage, such as after 1"
        if text == _BEFORE:
            return 0
        if found is None:
            if not isinstance(node, Unusable):
                self.faults.add(node.at, describe(node), expected,
                                "Write the moment that is meant.")  # fmt: skip
            return None
        number = int(found.group(1))
        if self.stages and not 1 <= number <= self.stages:
            count = "1 stage" if self.stages == 1 else f"{self.stages} stages"
            self.faults.add(node.at, f"{quoted(text)} in a problem of {count}",
                            f"a stage from 1 to {self.stages}" if self.stages > 1 else "stage 1",
                            "Stages are counted from 1, in the order of the list.")  # fmt: skip
            return None
        return number

    def _names(self, quantity: Text, of: Node, when: int | None) -> Iterator[Name]:
        if isinstance(of, Unusable):
            return
        if not isinstance(of, Text) or not of.value.strip():
            self.faults.add(of.at, describe(of), "an element, all or total",
                            f"Write {quantity.value}: all, or name the elements.")  # fmt: skip
            return
        word = quantity.value
        if of.value == ALL:
            yield from (self._name(word, name, when) for name in self.capacitors)
        elif of.value in self.capacitors:
            yield self._name(word, of.value, when)
        elif of.value in (TOTAL, LOST, *self.batteries):
            if self._can_be_asked(quantity, of) and not self._too_early(of, when):
                yield self._name(word, of.value, when)
        elif self.names_known:
            self._refuse_name(of)

    @staticmethod
    def _name(quantity: str, of: str, when: int | None) -> Name:
        return Name(quantity, of if when is None else moment(of, when))

    def _can_be_asked(self, quantity: Text, of: Text) -> bool:
        """Energies of all and of what is lost; what batteries move and deliver."""
        if of.value in self.batteries:
            if quantity.value == "voltage":
                self.faults.add(of.at, f"the voltage of {of.value}, which is given",
                                "a quantity that is not given",
                                f"Ask for charge: {of.value} or energy: {of.value}: what it moves "
                                "and delivers.")  # fmt: skip
            return quantity.value != "voltage"
        if quantity.value == "energy":
            return True
        self.faults.add(of.at, f"{quantity.value} of {quoted(of.value)}",
                        f"an element, or energy: {of.value}",
                        f"Only energies are added up: write energy: {of.value}.")  # fmt: skip
        return False

    def _too_early(self, of: Text, when: int | None) -> bool:
        if when != 0 or of.value == TOTAL:
            return False
        self.faults.add(of.at, f"{quoted(of.value)} before the first stage",
                        "a stage, such as in 1",
                        "Nothing is lost or delivered before a switch is thrown.")  # fmt: skip
        return True

    def _refuse_name(self, of: Text) -> None:
        every = (*self.capacitors, *self.batteries, ALL, TOTAL, LOST)
        few = self.capacitors if len(self.capacitors) <= _FEW else (*self.capacitors[:7], "another")
        advice = meant(of.value, every, "Check its spelling.")
        if "," in of.value or " " in of.value.strip():
            advice = several(of.value, every, "elements")
        elif nearest(of.value, every) is None:
            advice = "Name a capacitor or a battery of this circuit."
        self.faults.add(of.at, f"{quoted(of.value)}, which is no capacitor of the circuit",
                        one_of([*few, ALL, TOTAL, LOST]), advice)  # fmt: skip
