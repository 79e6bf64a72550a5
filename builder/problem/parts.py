"""The parts of a circuit as they are gathered: names and values of elements and source."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, field

from builder.circuit.law import LAWS, Law
from builder.problem.faults.gathering import Faults, meant, nearest, one_of, quoted
from builder.problem.limits import MOST_ELEMENTS
from builder.problem.shape import (
    NAME_PATTERN,
    BranchShape,
    CircuitShape,
    ElementShape,
    keys_of,
)
from builder.problem.symbolic_value import KIND_LETTERS, lone_letter, read_symbolic, seems_symbolic
from builder.problem.typed import as_text, describe
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text
from builder.quantity.kinds import KINDS
from builder.quantity.measure import Measure, MeasureError, read_measure
from builder.quantity.names import TOTAL

ALL = "all"
EQUIVALENT = "equivalent"
SOURCE_KINDS = ("voltage", "current", "charge")
DEFAULT_NAMES = {"voltage": "V0", "current": "I0", "charge": "Q0"}
EXAMPLES = {
    "capacitance": "a capacitance such as 10 uF",
    "resistance": "a resistance such as 100 ohm",
    "voltage": "a voltage such as 12 V",
    "current": "a current such as 2 A",
    "charge": "a charge such as 60 uC",
}
LIKELY_UNITS = {
    "capacitance": "uF", "resistance": "ohm", "voltage": "V", "current": "A", "charge": "uC",
    "energy": "mJ", "power": "W", "time": "s", "length": "mm", "area": "cm^2", "field": "kV/m",
}  # fmt: skip
"""What an author who types a number alone most probably measures in."""
_KIND_OF_LETTER = {"C": "capacitance", "R": "resistance", "V": "voltage", "I": "current"}
ELEMENT_VALUE = f"{EXAMPLES['capacitance']} or {EXAMPLES['resistance']}"
ELEMENT = "an element with its value, such as C1: 10 uF"
RESERVED = frozenset(
    word.lower() for word in (*keys_of(CircuitShape), *keys_of(BranchShape), TOTAL, ALL, EQUIVALENT)
)


@dataclass(frozen=True)
class Given:
    """An element or the source with the value that the author typed.

    Attributes:
        name: its name; for a source without one, the default name at the place of the value.
        at: the value, for faults.
        measure: the value, or None if it has a fault.
    """

    name: Text
    at: Node
    measure: Measure | None


@dataclass
class Parts:
    """What is known of a circuit so far.

    Attributes:
        faults: of the file.
        elements: in the author's order, by name; faulty ones included.
        source: what drives the circuit.
        source_told: whether the author wrote a source at all, even a faulty one.
        complete: whether every element's name is known, so that others can be refused.
        overfull: whether there are more elements than can be taken.
    """

    faults: Faults
    elements: dict[str, Given] = field(default_factory=dict)
    source: Given | None = None
    source_told: bool = False
    complete: bool = True
    overfull: bool = False

    @property
    def law(self) -> Law | None:
        """Of most elements, as far as their values can be read."""
        kinds = Counter(given.measure.kind for given in self.elements.values() if given.measure)
        return LAWS[kinds.most_common(1)[0][0]] if kinds else None

    @property
    def names(self) -> tuple[str, ...]:
        """Of all elements, in the author's order."""
        return tuple(self.elements)

    def lose(self) -> None:
        """Note that elements may stand where nothing could be read."""
        self.complete = False

    def add_element(self, entry: Entry) -> str | None:
        """Take an element in short or long form; its name, or None if it is one too many."""
        name = entry.key
        if name.value in self.elements:
            first = self.elements[name.value].name.at
            self.faults.add(name.at, f"a second element with the name {quoted(name.value)}",
                            f"each name once (it stands on line {first.line} already)",
                            "Give one of the two another name.")  # fmt: skip
            self.lose()
            return None
        if len(self.elements) == MOST_ELEMENTS and not self.overfull:
            self.overfull = True
            self.faults.add(name.at, f"more than {MOST_ELEMENTS} elements",
                            f"at most {MOST_ELEMENTS}", "Make the circuit smaller.")  # fmt: skip
        if len(self.elements) >= MOST_ELEMENTS:
            self.lose()
            return None
        before = len(self.faults)
        check_name(name, "an element", self.faults)
        if len(self.faults) > before:
            self.lose()  # other places may well use the name that it should have
        self.elements[name.value] = Given(name, entry.value, self._element_value(entry))
        return name.value

    def _element_value(self, entry: Entry) -> Measure | None:
        value = entry.value
        if isinstance(value, Map) and value.entries:
            return self._long_value(value, entry.key.value)
        name = entry.key.value
        measure = read_value(value, tuple(LAWS), ELEMENT_VALUE, self.faults, symbol_for=name)
        return above_zero(measure, value, entry.key.value, self.faults)

    def _long_value(self, long: Map, name: str) -> Measure | None:
        keys = keys_of(ElementShape)
        first = long.entries[0]
        for entry in long.entries:
            if entry.key.value not in keys:
                self.faults.add(entry.key.at, f"the key {quoted(entry.key.value)}", one_of(keys),
                                meant(entry.key.value, keys, f"Write {name}: 10 uF, or "
                                      f"{name}: {{capacitance: 10 uF}}."))  # fmt: skip
                return None
        if len(long.entries) > 1:
            self.faults.add(long.entries[1].key.at, f"two values for {name}",
                            one_of(keys) + ", not both", "Delete one of them.")  # fmt: skip
            return None
        kind = first.key.value
        measure = read_value(first.value, (kind,), EXAMPLES[kind], self.faults, symbol_for=name)
        return above_zero(measure, first.value, name, self.faults)

    def set_source(self, name: Text | None, value: Node, kinds: tuple[str, ...]) -> None:
        """Take the source, whose value must be one of ``kinds``."""
        self.source_told = True
        expected = one_of([EXAMPLES[kind] for kind in kinds])
        called = "" if name is None else name.value
        measure = read_value(value, kinds, expected, self.faults, symbol_for=called)
        measure = above_zero(measure, value, None, self.faults)
        if name is None:
            name = Text(_source_name(measure), value.at)
        else:
            check_name(name, "a source", self.faults)
        self.source = Given(name, value, measure)


def _source_name(measure: Measure | None) -> str:
    """What a source without a name is called: by its own letter, if its value is one."""
    if measure is None:
        return ""
    letter = lone_letter(measure)
    usable = letter is not None and re.match(NAME_PATTERN, letter)
    return letter if letter is not None and usable else DEFAULT_NAMES[measure.kind]


def above_zero(
    measure: Measure | None, at: Node, name: str | None, faults: Faults
) -> Measure | None:
    """The measure of an element, or of a source if ``name`` is None, if it is above zero."""
    if measure is None or measure.value > 0:
        return measure
    zero = measure.value == 0
    if name is None:
        found = f"a source of {measure.shown.text}"
        advice = "Leave the source out, or change its value." if zero else "Delete the minus sign."
    else:
        found = f"a {LAWS[measure.kind].element} of {measure.shown.text}, {name}"
        advice = f"Leave {name} out, or change its value." if zero else "Delete the minus sign."
    noun = KINDS[measure.kind].noun
    positive = at.value.strip().lstrip("-−").lstrip() if isinstance(at, Text) and not zero else None
    faults.add(at.at, found, f"a {noun} above zero", advice, instead=positive)
    return None


def looks_misspelled(entry: Entry, keys: tuple[str, ...]) -> bool:
    """Whether a key is rather a misspelled one of ``keys`` than an element's name."""
    value = entry.value
    if isinstance(value, Items):
        return True
    if isinstance(value, Map):
        long = any(inner.key.value in keys_of(ElementShape) for inner in value.entries)
        return not long and nearest(entry.key.value, keys) is not None
    if isinstance(value, Text):
        try:
            return read_measure(value.value).kind not in LAWS and (
                nearest(entry.key.value, keys) is not None
            )
        except MeasureError:
            pass
    return nearest(entry.key.value, keys) is not None


def check_name(name: Text, whose: str, faults: Faults) -> None:
    """Note a fault if a name cannot be used."""
    text = name.value
    cleaned = re.sub(r"[^A-Za-z0-9_]", "", text)
    usable = re.match(NAME_PATTERN, cleaned) and cleaned.lower() not in RESERVED
    if text.lower() in RESERVED:
        faults.add(name.at, f"the name {quoted(text)} for {whose}",
                   "a name that means nothing else here",
                   "Choose a name such as C1, R2 or V0.")  # fmt: skip
    elif not re.match(NAME_PATTERN, text) or text.endswith("\n"):
        faults.add(name.at, f"the name {quoted(text)} for {whose}",
                   "a letter, then letters, digits or _, at most 12 in all",
                   "Choose a name such as C1, R2 or V0.",
                   instead=cleaned if usable else None)  # fmt: skip


def read_value(
    node: Node,
    kinds: tuple[str, ...],
    expected: str,
    faults: Faults,
    *,
    symbol_for: str | None = None,
) -> Measure | None:
    """A number with a unit of one of ``kinds``.

    Args:
        node: what stands there.
        kinds: what it may measure.
        expected: how a fault describes that.
        faults: takes whatever is wrong.
        symbol_for: the name of the element or source, perhaps empty, where symbols may stand for
            numbers; None where they may not.
    """
    if isinstance(node, Text) and not node.value.strip():
        faults.add(node.at, describe(node), expected, "Write a number and a unit after the colon.")
        return None
    text = as_text(node, expected, faults)
    if text is None:
        return None
    try:
        measure = read_measure(text.value, expected=expected)
    except MeasureError as error:
        if symbol_for is not None and seems_symbolic(text.value):
            return read_symbolic(text, kinds, symbol_for, faults)
        name = symbol_for or ""
        faults.add(text.at, error.found, error.expected, _with_unit(error, kinds, name),
                   instead=_instead(error, kinds, name))  # fmt: skip
        return None
    if measure.kind in kinds:
        return measure
    faults.add(text.at, f"{quoted(text.value)}, {KINDS[measure.kind].a_noun}", expected,
               _other_unit(measure, kinds, symbols=symbol_for is not None))  # fmt: skip
    return None


def _other_unit(measure: Measure, kinds: tuple[str, ...], *, symbols: bool) -> str:
    """Advice on a value of a kind that cannot stand there."""
    unit = measure.shown.unit
    advice = f"Change the unit: {unit} measures {KINDS[measure.kind].noun}."
    if symbols and KIND_LETTERS.get(unit) in kinds:
        advice += f" For a multiple of a symbol {unit}, write it with *, such as 2*{unit}."
    return advice


def likely_unit(kinds: tuple[str, ...], name: str) -> str | None:
    """The unit that a number alone probably lacks; None if the name does not tell its kind."""
    letter = _KIND_OF_LETTER.get(name[:1].upper())
    kind = kinds[0] if len(kinds) == 1 else letter if letter in kinds else None
    return LIKELY_UNITS.get(kind) if kind else None


def _with_unit(error: MeasureError, kinds: tuple[str, ...], name: str) -> str:
    """The advice, with a likely unit where one lacks."""
    unit = likely_unit(kinds, name)
    if not error.number or unit is None:
        return error.advice
    return f"Add the unit after {error.number}: {error.number} {unit}, if that is what you mean."


def _instead(error: MeasureError, kinds: tuple[str, ...], name: str) -> str | None:
    """What was probably meant, if it can stand there."""
    unit = likely_unit(kinds, name)
    meant_one = f"{error.number} {unit}" if error.number and unit else error.instead
    try:
        fits = meant_one is not None and read_measure(meant_one).kind in kinds
    except MeasureError:
        return None
    return meant_one if fits else None
