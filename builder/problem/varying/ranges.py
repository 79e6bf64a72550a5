"""What an author types for the values that one quantity may take: lists, ranges, series."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from builder.problem.faults.gathering import Faults, one_of, quoted
from builder.problem.limits import MOST_VALUES
from builder.problem.relations.quantities import read_stated
from builder.problem.typed import describe
from builder.problem.varying.stated import StatedValue
from builder.problem.varying.writing import TypedUnit, typed_in_any, unit_in, unit_of
from builder.problem.yaml_text.located import Items, Node, Text, Unusable
from builder.quantity.exact import as_fraction
from builder.quantity.kinds import KINDS
from builder.quantity.measure import Measure
from builder.quantity.series import SERIES, preferred

_LONGEST = 120
"""No range or series is longer; what is, is not searched for its parts."""
_SERIES = re.compile(r"(?P<series>[Ee]\d+)(?:\s+from\s+(?P<least>.+?)\s+to\s+(?P<most>.+))?")
_RANGE = re.compile(r"(?P<least>.+?)\s+to\s+(?P<most>.+?)(?:\s+step\s+(?P<step>.+))?")
WAYS = (
    "a list such as [4.7 uF, 10 uF], a range such as 6 V to 24 V step 3 V, a series such as E12, "
    "or another value such as 2*R1"
)
"""How a fault describes what may stand there."""


def range_in(text: str) -> re.Match[str] | None:
    """The parts of a range, ``least``, ``most`` and ``step``, or None if a text is none."""
    return _RANGE.fullmatch(text) if len(text) <= _LONGEST else None


@dataclass(frozen=True)
class ValueReader:
    """Reads the values that one quantity may take.

    Attributes:
        stated: its value in the file; None where the file has other faults, so that only the form
            of what is typed is looked at.
        text: of the file.
        faults: of the file.
    """

    stated: StatedValue | None
    text: str
    faults: Faults

    def values(self, node: Node) -> tuple[str, ...]:
        """What may be typed, each once; nothing if there is a fault."""
        before = len(self.faults)
        if isinstance(node, Items):
            found = self._listed(node)
        elif isinstance(node, Text) and node.value.strip():
            found = self._written(node)
        else:
            found = ()
            if not isinstance(node, Unusable):
                self.faults.add(node.at, describe(node), WAYS, "Write one of these.")
        if len(found) == 1 and len(self.faults) == before:
            self.faults.add(node.at, f"only one value, {found[0]}", "at least two",
                            "Add others, or delete the line: what is not named stays as it "
                            "is.")  # fmt: skip
        return found

    def _listed(self, node: Items) -> tuple[str, ...]:
        if not node.items:
            self.faults.add(node.at, "an empty list", WAYS,
                            "List the values, or delete the line.")  # fmt: skip
            return ()
        if len(node.items) > MOST_VALUES:
            self._too_many(node, f"a list with {len(node.items)} values")
            return ()
        before = len(self.faults)
        found: dict[Fraction, str] = {}
        for item in node.items:
            measure = self._measure(item, item.value if isinstance(item, Text) else "")
            if measure is None or not isinstance(item, Text):
                continue
            if as_fraction(measure.value) in found:
                self.faults.add(item.at, f"{quoted(item.value)} a second time", "each value once",
                                "Delete one of the two.")  # fmt: skip
            found[as_fraction(measure.value)] = item.value.strip()
        return tuple(found.values()) if len(self.faults) == before else ()

    def _written(self, node: Text) -> tuple[str, ...]:
        typed = node.value.strip()
        series = _SERIES.fullmatch(typed) if len(typed) <= _LONGEST else None
        span = range_in(typed)
        if series:
            return self._series(node, series)
        if re.match(r"[Ee]\d+\b", typed):
            name = typed.split()[0]
            self.faults.add(node.at, quoted(node.value), f"{name}, or {name} with a range",
                            f"Write {name} from … to …, both ends with their units.")  # fmt: skip
            return ()
        if span:
            return self._range(node, span)
        return (typed,) if self._measure(node, typed) else ()

    def _series(self, node: Text, parts: re.Match[str]) -> tuple[str, ...]:
        name = parts["series"].upper()
        if name not in SERIES:
            self.faults.add(node.at, f"the series {quoted(parts['series'])}", one_of(SERIES),
                            "Choose one of these; finer series are no values to calculate "
                            "with.")  # fmt: skip
            return ()
        if self.stated is not None and self.stated.measure.value <= 0:
            self.faults.add(node.at, f"the series {name} for {self.stated.measure.shown.text}",
                            "a list or a range", "Series hold values above zero only.")  # fmt: skip
            return ()
        if parts["least"] is None:
            return self._decade(name)
        ends = self._ends(node, parts)
        if ends is None:
            return ()
        least, most, units = ends
        return self._taken(node, lambda: preferred(name, least, most), units)

    def _decade(self, series: str) -> tuple[str, ...]:
        """A decade round the value: up to √10 times smaller or larger."""
        if self.stated is None:
            return ()
        middle = as_fraction(self.stated.measure.value)
        near = (
            value
            for value in preferred(series, middle / 4, middle * 4)
            if middle**2 <= 10 * value**2 and value**2 <= 10 * middle**2
        )
        units = (unit_of(self.stated, self.text),)
        return tuple(typed_in_any(value, units, self.stated.measure.kind) for value in near)

    def _range(self, node: Text, parts: re.Match[str]) -> tuple[str, ...]:
        ends = self._ends(node, parts)
        if parts["step"] is None:
            self.faults.add(node.at, f"{quoted(node.value)}, a range without a step",
                            "a step as well, such as 6 V to 24 V step 3 V",
                            "Add step and the distance between two values.")  # fmt: skip
            return ()
        step = self._measure(node, parts["step"], signed=False)
        if ends is None or step is None:
            return ()
        least, most, units = ends
        size = as_fraction(step.value)
        if size <= 0:
            self.faults.add(node.at, f"a step of {step.shown.text}, with which the range never "
                            "ends", "a step above zero", "Change the step.")  # fmt: skip
            return ()
        count = (most - least) // size + 1
        if count > MOST_VALUES:
            self._too_many(node, f"a range of {count} values")
            return ()
        return self._taken(node, lambda: (least + size * n for n in range(count)), units)

    def _ends(
        self, node: Text, parts: re.Match[str]
    ) -> tuple[Fraction, Fraction, tuple[TypedUnit, ...]] | None:
        """Both ends of a range in SI units, and the units that they were typed in."""
        least, most = (self._measure(node, parts[end]) for end in ("least", "most"))
        if least is None or most is None:
            return None
        low, high = as_fraction(least.value), as_fraction(most.value)
        if low >= high:
            turned = self._turned(node.value, parts) if low > high else None
            self.faults.add(node.at, f"a range from {least.shown.text} to {most.shown.text}",
                            "the smaller value first", "Swap the two, or change one.",
                            instead=turned)  # fmt: skip
            return None
        kind = least.kind
        return low, high, (unit_in(parts["least"], kind), unit_in(parts["most"], kind))

    @staticmethod
    def _turned(typed: str, parts: re.Match[str]) -> str:
        """A range with its two ends exchanged."""
        text = typed.strip()
        (a, b), (c, d) = parts.span("least"), parts.span("most")
        return f"{text[:a]}{parts['most']}{text[b:c]}{parts['least']}{text[d:]}"

    def _taken(
        self,
        node: Text,
        amounts: Callable[[], Iterator[Fraction]],
        units: tuple[TypedUnit, ...],
    ) -> tuple[str, ...]:
        if self.stated is None:
            return ()
        kind = self.stated.measure.kind
        found: list[str] = []
        for amount in amounts():
            found.append(typed_in_any(amount, units, kind))
            if len(found) > MOST_VALUES:
                self._too_many(node, f"a range of more than {MOST_VALUES} values")
                return ()
        if not found:
            self.faults.add(node.at, f"{quoted(node.value)}, where the series has no value",
                            "a range with a value in it", "Make the range wider.")  # fmt: skip
        return tuple(found)

    def _too_many(self, node: Node, found: str) -> None:
        self.faults.add(node.at, found, f"at most {MOST_VALUES}",
                        "Take a larger step, or fewer values.")  # fmt: skip

    def _measure(self, node: Node, typed: str, *, signed: bool = True) -> Measure | None:
        """A value of the kind that is stated, and of its sign."""
        if not isinstance(node, Text):
            if not isinstance(node, Unusable):
                self.faults.add(node.at, describe(node), "a value such as 4.7 uF",
                                "Write a number with its unit.")  # fmt: skip
            return None
        expected = "a number and a unit, such as 4.7 uF, 12 V or 1 kohm"
        if self.stated is not None:
            expected = f"{KINDS[self.stated.measure.kind].a_noun} such as {self._own}"
        measure = read_stated(Text(typed, node.at), self.faults, expected)
        if measure is None or self.stated is None:
            return measure
        kind = self.stated.measure.kind
        if measure.kind != kind:
            self.faults.add(node.at, f"{quoted(typed)}, {KINDS[measure.kind].a_noun}, for "
                            f"{self.stated.called}", expected, "Change the unit.")  # fmt: skip
            return None
        if signed and measure.value * self.stated.measure.value <= 0:
            side = "above" if self.stated.measure.value > 0 else "below"
            self.faults.add(node.at, f"{measure.shown.text} for {self.stated.called}",
                            f"values {side} zero, as {self._own} is",
                            "Change the value.")  # fmt: skip
            return None
        return measure

    @property
    def _own(self) -> str:
        """What stands in the file, in quotation marks if it would run into the sentence."""
        assert self.stated is not None
        return self.text[self.stated.start : self.stated.end]
