"""The key ``keep:``: what must be so with other values as well."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from builder.problem.faults.gathering import Faults, meant, one_of, quoted
from builder.problem.parts import EQUIVALENT
from builder.problem.shape import FEWEST_DIGITS, ID_PATTERN, MOST_DIGITS, KeepShape, keys_of
from builder.problem.typed import as_map, as_text, choice_of, whole_number
from builder.problem.varying.model import Keep
from builder.problem.varying.ranges import range_in
from builder.problem.yaml_text.located import Entry, Items, Node, Text
from builder.quantity.exact import as_fraction
from builder.quantity.kinds import KINDS
from builder.quantity.measure import Measure, MeasureError, read_measure
from builder.quantity.names import TOTAL, Name

SAME = "same"
_KEYS = keys_of(KeepShape)
_RANGE = "a range such as 1 uC to 1 mC"


@dataclass(frozen=True)
class KeepReader:
    """Reads ``keep:``.

    Attributes:
        find: what the problem asks for.
        faults: of the file.
    """

    find: tuple[Name, ...]
    faults: Faults

    def read(self, entry: Entry) -> Keep:
        """What must be so, as far as there are no faults."""
        node = as_map(entry.value, "what must stay so, such as {digits: 3, order: same}",
                      self.faults)  # fmt: skip
        digits: int | None = None
        same = False
        apart: dict[str, tuple[int, int]] = {}
        ranges: dict[Name, tuple[Fraction, Fraction]] = {}
        for one in node.entries if node else ():
            if one.key.value == "digits":
                digits = whole_number(one.value, FEWEST_DIGITS, MOST_DIGITS, self.faults)
            elif one.key.value == "order":
                same = choice_of(one.value, (SAME,), self.faults) is not None
            elif one.key.value == "apart":
                apart = self._apart(one.value)
            else:
                ranges |= self._range(one)
        return Keep(digits, ranges, apart, same)

    def _apart(self, node: Node) -> dict[str, tuple[int, int]]:
        """The ids of wrong rules; which there are is known only where they are taught."""
        items = node.items if isinstance(node, Items) else (node,)
        if not items:
            self.faults.add(node.at, "an empty list", "ids of wrong rules, such as equal-voltages",
                            "Name them, or delete the line.")  # fmt: skip
        found: dict[str, tuple[int, int]] = {}
        for item in items:
            text = as_text(item, "the id of a wrong rule", self.faults)
            if text is None:
                continue
            if not re.match(ID_PATTERN, text.value):
                self.faults.add(text.at, f"{quoted(text.value)} for a wrong rule",
                                "its id, of letters, digits and hyphens",
                                "Write one id, or several in square brackets.")  # fmt: skip
            if text.value in found:
                self.faults.add(text.at, f"{quoted(text.value)} a second time", "each rule once",
                                "Delete one of the two.")  # fmt: skip
            found[text.value] = (text.at.line, text.at.column)
        return found

    @property
    def _asked(self) -> Mapping[str, tuple[Name, ...]]:
        """What is asked for, by the words that an author may use for it; nothing if unknown."""
        asked: dict[str, tuple[Name, ...]] = {}
        for name in self.find:
            asked[name.quantity] = (*asked.get(name.quantity, ()), name)
            if name.of == TOTAL and name.quantity in ("capacitance", "resistance"):
                asked[EQUIVALENT] = (name,)
        return asked

    def _range(self, entry: Entry) -> dict[Name, tuple[Fraction, Fraction]]:
        word = entry.key.value
        asked = self._asked.get(word)
        if asked is None:
            known = (*_KEYS, *self._asked)
            found = f"the key {quoted(word)}"
            if word in KINDS:
                found = f"{word}, which the problem does not ask for"
            if self.find:
                self.faults.add(entry.key.at, found, one_of(known),
                                meant(word, known, "Delete the line, or ask for it under "
                                      "find."))  # fmt: skip
            return {}
        ends = self._ends(entry.value, asked[0].quantity)
        return dict.fromkeys(asked, ends) if ends else {}

    def _ends(self, node: Node, kind: str) -> tuple[Fraction, Fraction] | None:
        """The two ends of a range of sizes, in SI units."""
        text = as_text(node, _RANGE, self.faults)
        if text is None:
            return None
        parts = range_in(text.value.strip())
        if parts is None or parts["step"] is not None:
            self.faults.add(text.at, quoted(text.value), _RANGE,
                            "Write the least and the largest value with to between "
                            "them.")  # fmt: skip
            return None
        least, most = (self._end(text, parts[end], kind) for end in ("least", "most"))
        if least is None or most is None:
            return None
        if not 0 < least.value < most.value:
            self.faults.add(text.at, f"a range from {least.shown.text} to {most.shown.text}",
                            "two values above zero, the smaller one first",
                            "Change one of the two.")  # fmt: skip
            return None
        return as_fraction(least.value), as_fraction(most.value)

    def _end(self, text: Text, typed: str, kind: str) -> Measure | None:
        try:
            measure = read_measure(typed, expected=_RANGE)
        except MeasureError as error:
            self.faults.add(text.at, error.found, error.expected, error.advice)
            return None
        if KINDS[measure.kind].unit == KINDS[kind].unit:
            return measure
        self.faults.add(text.at, f"{quoted(typed)}, of the kind {KINDS[measure.kind].noun}",
                        f"{KINDS[kind].noun} in {KINDS[kind].unit}",
                        "Change the unit.")  # fmt: skip
        return None
