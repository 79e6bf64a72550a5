"""The ``quantities:`` of a problem: names with a value, or with the kind of what is unknown."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

from sympy import pi

from builder.problem.faults.gathering import Faults, meant, one_of, quoted
from builder.problem.limits import MOST_QUANTITIES
from builder.problem.relations.model import Stated
from builder.problem.shape import NAME_PATTERN, QuantityShape, keys_of
from builder.problem.typed import as_map, as_text, choice_of, describe, unknown_key
from builder.problem.yaml_text.located import Entry, Map, Node, Text
from builder.quantity.exact import Exact, as_fraction, read_number, split_number
from builder.quantity.kinds import KINDS
from builder.quantity.letters import CONSTANTS
from builder.quantity.measure import Measure, MeasureError, read_measure
from builder.quantity.names import Name
from builder.quantity.show import Shown, as_typed
from builder.quantity.units import read_unit

KIND_WORDS: dict[str, str] = {
    **{kind.name: kind.name for kind in KINDS.values() if kind.typed and kind.unit},
    "number": "ratio",
}
"""The words by which an author names the kind of an unknown."""
NEVER_NEGATIVE = frozenset(
    ("capacitance", "resistance", "length", "area", "time", "permittivity", "ratio")
)
"""Kinds of quantity that are above zero wherever they occur in a problem."""
_TAKEN = frozenset((*CONSTANTS, "sqrt", "exp", "ln", "total", "all"))
_EXPECTED = "a value such as 8 cm^2, a number, or the kind of an unknown such as capacitance"

CODATA = "CODATA 2022"
CONSTANT_QUANTITIES: dict[str, Stated] = {
    "eps0": Stated(
        Name("permittivity", "eps0"), CONSTANTS["eps0"], Shown("8.8541878188", "pF/m", exact=True),
        "the electric constant", source=CODATA,
    ),
    "pi": Stated(Name("ratio", "pi"), pi, Shown("π", "", exact=True), "the number pi"),
}  # fmt: skip
"""The constants that relations may use without stating them."""


@dataclass
class Quantities:
    """What is stated so far.

    Attributes:
        faults: of the file.
        by_name: in the author's order.
        complete: whether every name is known, so that others can be refused.
    """

    faults: Faults
    by_name: dict[str, Stated] = field(default_factory=dict)
    complete: bool = True

    def read(self, node: Node) -> None:
        """Read what stands under ``quantities:``."""
        mapping = as_map(node, "names with values", self.faults)
        if mapping is None:
            self.complete = False
            return
        for entry in mapping.entries[:MOST_QUANTITIES]:
            self._add(entry)
        for entry in mapping.entries[MOST_QUANTITIES : MOST_QUANTITIES + 1]:
            self.complete = False
            self.faults.add(entry.key.at, f"more than {MOST_QUANTITIES} quantities",
                            f"at most {MOST_QUANTITIES}", "Make the problem smaller.")  # fmt: skip

    def _add(self, entry: Entry) -> None:
        if not self._good_name(entry.key):
            self.complete = False
            return
        if isinstance(entry.value, Map) and entry.value.entries:
            stated = self._long(entry.key, entry.value)
        else:
            stated = self._short(entry.key, entry.value)
        if stated is None:
            self.complete = False
        else:
            self.by_name[entry.key.value] = stated

    def _good_name(self, name: Text) -> bool:
        text = name.value
        if text in _TAKEN:
            self.faults.add(name.at, f"the name {quoted(text)} for a quantity",
                            "a name that means nothing else here",
                            "Choose a name such as C, V1 or d_air.")  # fmt: skip
        elif not re.match(NAME_PATTERN, text) or text.endswith("\n"):
            self.faults.add(name.at, f"the name {quoted(text)} for a quantity",
                            "a letter, then letters, digits or _, at most 12 in all",
                            "Choose a name such as C, V1 or d_air.")  # fmt: skip
        else:
            return True
        return False

    def _short(self, name: Text, node: Node) -> Stated | None:
        if isinstance(node, Text) and not node.value.strip():
            self.faults.add(node.at, describe(node), _EXPECTED,
                            "Write it after the colon.")  # fmt: skip
            return None
        text = as_text(node, _EXPECTED, self.faults)
        if text is None:
            return None
        kind = _kind_of_word(text.value)
        if kind is not None:
            return Stated(Name(kind, name.value), at=name.at)
        return self._given(name, text)

    def _long(self, name: Text, node: Map) -> Stated | None:
        keys = keys_of(QuantityShape)
        unknown = [entry for entry in node.entries if entry.key.value not in keys]
        for entry in unknown:
            unknown_key(entry, keys, self.faults)
        if unknown:
            return None
        means, choose = node.get("is"), node.get("choose")
        words = as_text(means.value, "what it is, as a text", self.faults) if means else None
        wish = choice_of(choose.value, ("larger", "smaller"), self.faults) if choose else None
        value, kind = node.get("value"), node.get("kind")
        if (value is None) == (kind is None):
            at = kind.key.at if kind else node.at
            self.faults.add(at, "a value and a kind" if kind else f"{name.value} without either",
                            "value: for what is given, kind: for what is to be found",
                            "Delete one of the two." if kind else "Add one of them.")  # fmt: skip
            return None
        stated = self._short(name, (value or kind).value)  # type: ignore[union-attr]
        if stated is None or not self._fits(stated, value, kind):
            return None
        said = " ".join(words.value.split()) if words else ""
        return Stated(stated.name, stated.value, stated.shown, said, wish or "", at=name.at)

    def _fits(self, stated: Stated, value: Entry | None, kind: Entry | None) -> bool:
        """Whether a value stands under ``value`` and a kind under ``kind``."""
        if stated.known == (value is not None):
            return True
        entry = value or kind
        assert entry is not None
        at, found = entry.value.at, describe(entry.value)
        if value is not None:
            self.faults.add(at, f"{found} as a value", "a value such as 8 cm^2",
                            'Write "kind:" before the kind of an unknown.')  # fmt: skip
        else:
            self.faults.add(at, f"{found} as a kind", one_of(KIND_WORDS),
                            'Write "value:" before what is given.')  # fmt: skip
        return False

    def _given(self, name: Text, text: Text) -> Stated | None:
        measure = read_stated(text, self.faults)
        if measure is None:
            return None
        if measure.kind in NEVER_NEGATIVE and measure.value <= 0:
            self.faults.add(text.at, f"{name.value} = {measure.shown.text}",
                            f"{KINDS[measure.kind].a_noun} above zero",
                            "Change the value.")  # fmt: skip
            return None
        return Stated(Name(measure.kind, name.value), measure.value, measure.shown, at=name.at)


def read_stated(text: Text, faults: Faults, expected: str = _EXPECTED) -> Measure | None:
    """A number with a unit, or a pure number."""
    number, rest = split_number(text.value)
    if number and not rest:
        try:
            value = read_number(number)
        except ValueError as error:
            faults.add(text.at, quoted(text.value), expected, f"{str(error).capitalize()}.")
            return None
        return Measure("ratio", value, _pure(number, value))
    try:
        return read_measure(text.value, expected=expected)
    except MeasureError as error:
        advice = error.advice
        if not number and expected == _EXPECTED:
            advice = meant(text.value, KIND_WORDS, "Start with a number, or name a kind.")
        faults.add(text.at, error.found, error.expected, advice, instead=error.instead)
        return None


def _pure(number: str, value: Exact) -> Shown:
    return as_typed(number, as_fraction(value), KINDS["ratio"], Fraction(1))


def _kind_of_word(word: str) -> str | None:
    """The kind that a word or a unit alone stands for."""
    if word in KIND_WORDS:
        return KIND_WORDS[word]
    unit = read_unit(word)
    return unit[0] if unit else None
