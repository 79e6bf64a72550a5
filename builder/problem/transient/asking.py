"""What can be asked of a circuit that charges or discharges."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import ClassVar

from builder.problem.faults.gathering import Faults, meant, one_of, quoted
from builder.problem.limits import MOST_MOMENTS
from builder.problem.listed_asking import ListedAsking
from builder.problem.parts import ALL, read_value
from builder.problem.transient.moments import (
    CONSTANT,
    END,
    SEEN_RESISTANCE,
    START,
    at,
    level_of,
    reaching,
)
from builder.problem.typed import describe
from builder.problem.yaml_text.located import Items, Map, Node, Text, Unusable
from builder.quantity.measure import Measure
from builder.quantity.names import Name

TIME_CONSTANT, SEEN = "time-constant", "seen-resistance"
OF_CAPACITORS = ("voltage", "charge", "energy")
OF_RESISTORS = ("current", "voltage", "power")
_QUANTITIES = (*OF_CAPACITORS, "current", "power", "time", TIME_CONSTANT, SEEN)
_SHARE = re.compile(r"([0-9]{1,3}(?:\.[0-9]{1,4})?)\s*%")
_FEW = 8


@dataclass
class TransientAsking(ListedAsking):
    """What can be asked, and the times and levels that were.

    Attributes:
        capacitors, resistors: their names.
        names_known: whether these are all.
        faults: of the file.
        times: the times asked about so far, by ``t1``, ``t2``, …
        levels: the voltages whose time is asked for.
        shares: the parts of the way whose time is asked for, by the name of that time.
        places: where each time, level or share stands in the file, by the name of its time.
    """

    EXAMPLE: ClassVar[str] = "a quantity, such as time-constant or voltage: {C1: 20 ms}"
    FIRST: ClassVar[str] = "time-constant"
    ONE: ClassVar[str] = "{voltage: C1}"

    capacitors: tuple[str, ...]
    resistors: tuple[str, ...]
    names_known: bool
    faults: Faults
    times: dict[str, Measure] = field(default_factory=dict)
    levels: dict[Name, Measure] = field(default_factory=dict)
    shares: dict[Name, Fraction] = field(default_factory=dict)
    places: dict[Name, tuple[int, int]] = field(default_factory=dict)
    _known: dict[tuple[str, object], Name] = field(default_factory=dict)
    _too_much: bool = False

    @property
    def _faults(self) -> Faults:
        return self.faults

    def _of(self, quantity: Text, of: Node) -> Iterator[Name]:
        word = quantity.value
        if word not in _QUANTITIES:
            self.faults.add(quantity.at, quoted(word), one_of(_QUANTITIES),
                            meant(word, _QUANTITIES, "Check its spelling."))  # fmt: skip
        elif word in (TIME_CONSTANT, SEEN):
            yield CONSTANT if word == TIME_CONSTANT else SEEN_RESISTANCE
        elif word == "time":
            yield from self._times_to_reach(quantity, of)
        elif isinstance(of, Map) and of.entries:
            for entry in of.entries:
                moments = entry.value.items if isinstance(entry.value, Items) else (entry.value,)
                for moment in moments:
                    when = self._when(moment)
                    if when is not None:
                        yield from self._names(quantity, entry.key, when)
        elif isinstance(of, Items) and not of.items:
            self.faults.add(of.at, "an empty list", "elements or all",
                            "Name the elements, or delete the item.")  # fmt: skip
        else:
            for one in of.items if isinstance(of, Items) else (of,):
                yield from self._names(quantity, one, END)

    def _when(self, node: Node) -> str | None:
        """The moment that is meant: ``start``, ``end``, or the word of a time."""
        if not isinstance(node, Text):
            if not isinstance(node, Unusable):
                self.faults.add(node.at, describe(node), "start, end or a time such as 20 ms",
                                "Write the moment that is meant.")  # fmt: skip
            return None
        if node.value in (START, END):
            return node.value
        if node.value.strip() and not any(character.isdigit() for character in node.value):
            self.faults.add(node.at, quoted(node.value), "start, end or a time such as 20 ms",
                            meant(node.value, (START, END), "Write start for the first instant, "
                                  "end for long after."))  # fmt: skip
            return None
        measure = read_value(node, ("time",), "start, end or a time such as 20 ms", self.faults)
        if measure is None:
            return None
        if measure.value <= 0:
            self.faults.add(node.at, f"the time {measure.shown.text}", "a time after the change",
                            "Write start for the first instant.")  # fmt: skip
            return None
        for when, known in self.times.items():
            if known.value == measure.value:
                return when
        if self._is_too_much(node):
            return None
        when = f"t{len(self.times) + 1}"
        self.times[when] = measure
        self.places[Name("time", when)] = (node.at.line, node.at.column)
        return when

    def _names(self, quantity: Text, of: Node, when: str) -> Iterator[Name]:
        if isinstance(of, Unusable):
            return
        if not isinstance(of, Text) or not of.value.strip():
            self.faults.add(of.at, describe(of), "an element or all",
                            f"Write {quantity.value}: all, or name the elements.")  # fmt: skip
            return
        word = quantity.value
        fitting = (*(self.capacitors if word in OF_CAPACITORS else ()),
                   *(self.resistors if word in OF_RESISTORS else ()))  # fmt: skip
        if of.value == ALL:
            yield from (at(word, name, when) for name in fitting)
        elif of.value in fitting:
            yield at(word, of.value, when)
        elif of.value in (*self.capacitors, *self.resistors):
            one, those = (("capacitor", OF_CAPACITORS) if of.value in self.capacitors
                          else ("resistor", OF_RESISTORS))  # fmt: skip
            self.faults.add(quantity.at, f"{word} of the {one} {of.value}", one_of(those),
                            "Ask for one of these, or name another element.")  # fmt: skip
        elif self.names_known:
            self._refuse_name(of, (*self.capacitors, *self.resistors))

    def _times_to_reach(self, quantity: Text, of: Node) -> Iterator[Name]:
        """``time: {C1: 12 V}`` or ``time: {C1: 90 %}``."""
        example = "a capacitor with a voltage, such as time: {C1: 9 V}, or a share, such as 90 %"
        if not isinstance(of, Map) or not of.entries:
            self.faults.add(of.at, "a time without what is reached then", example,
                            "Write the voltage that is to be reached.")  # fmt: skip
            return
        for entry in of.entries:
            name = entry.key
            if name.value not in self.capacitors:
                self._refuse_reached(name)
                continue
            values = entry.value.items if isinstance(entry.value, Items) else (entry.value,)
            for value in values:
                found = self._reached(name.value, value)
                if found is not None:
                    yield found

    def _reached(self, capacitor: str, value: Node) -> Name | None:
        """The time at which a capacitor has a voltage, or has gone a part of its way."""
        asked = self._level_or_share(value)
        if asked is None:
            return None
        known = (capacitor, asked.value if isinstance(asked, Measure) else f"{asked} of the way")
        if known in self._known:
            return self._known[known]
        if self._is_too_much(value):
            return None
        number = len(self.levels) + len(self.shares) + 1
        name = reaching(capacitor, number)
        if isinstance(asked, Measure):
            self.levels[level_of(capacitor, number)] = asked
        else:
            self.shares[name] = asked
        self.places[name] = (value.at.line, value.at.column)
        self._known[known] = name
        return name

    def _level_or_share(self, value: Node) -> Measure | Fraction | None:
        share = _SHARE.fullmatch(value.value.strip()) if isinstance(value, Text) else None
        if share is None:
            return read_value(value, ("voltage",), "a voltage such as 9 V, or a share of the "
                              "way from above 0 % to below 100 %", self.faults)  # fmt: skip
        part = Fraction(share.group(1)) / 100
        if 0 < part < 1:
            return part
        self.faults.add(value.at, f"a share of {share.group(1)}\u00a0%",
                        "a share from above 0\u00a0% to below 100\u00a0%",
                        "The whole way is never quite done: write less.")  # fmt: skip
        return None

    def _is_too_much(self, node: Node) -> bool:
        """Whether one more time or voltage would be too many; the first of these is told."""
        asked = len(self.places)
        if asked == MOST_MOMENTS and not self._too_much:
            self.faults.add(node.at, f"more than {MOST_MOMENTS} times and voltages that are asked "
                            "about", f"at most {MOST_MOMENTS}", "Ask about fewer.")  # fmt: skip
            self._too_much = True
        return asked >= MOST_MOMENTS

    def _refuse_reached(self, name: Text) -> None:
        """Refuse a time for what is no capacitor."""
        if name.value in self.resistors and self.capacitors:
            self.faults.add(name.at, f"the time of the resistor {name.value}",
                            f"a capacitor: {one_of(self.capacitors)}",
                            "Ask when a capacitor reaches its voltage.")  # fmt: skip
        elif self.names_known:
            self._refuse_name(name, self.capacitors)

    def _refuse_name(self, of: Text, names: tuple[str, ...]) -> None:
        few = names if len(names) <= _FEW else (*names[:7], "another")
        if not names:
            self.faults.add(of.at, f"{quoted(of.value)}, which is no capacitor of the circuit",
                            "a circuit with a capacitor", "Add the capacitor to the "
                            "branches.")  # fmt: skip
            return
        self.faults.add(of.at, f"{quoted(of.value)}, which is none of the circuit", one_of(few),
                        meant(of.value, names, "Name one of the circuit."))  # fmt: skip
