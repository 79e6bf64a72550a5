"""The key ``vary:``: which other values a problem may have."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from builder.problem.faults.gathering import Faults, meant, one_of, quoted
from builder.problem.model import Problem, TransientProblem
from builder.problem.typed import as_map
from builder.problem.varying.model import Follower, Vary
from builder.problem.varying.ranges import WAYS, ValueReader
from builder.problem.varying.spelled import is_spelled, spelled_values
from builder.problem.varying.stated import CHARGED, StatedValue
from builder.problem.yaml_text.located import Entry, Map, Text
from builder.quantity.exact import as_fraction, read_number
from builder.quantity.measure import Measure
from builder.quantity.names import Name

NONE = "none"
_FEW = 8
_EXPECTED = f"the values that may vary, such as {{C1: E12, V0: [9 V, 12 V]}}, or {NONE}"
_ANOTHER = re.compile(
    r"(?:(?P<times>\d+(?:\.\d+)?(?:/\d+)?)\s*[*·×]\s*)?(?P<name>[A-Za-z]\w*(?:\.[a-z]+)?)"
    r"(?:\s*/\s*(?P<under>\d+))?"
)


@dataclass
class VaryReader:
    """Reads ``vary:``.

    Attributes:
        stated: the values of the file, by what its author calls them.
        problem: the problem; None where the file has other faults, so that only the form of what
            is typed is looked at.
        text: of the file.
        faults: of the file.
        values: what may be typed, as far as it was read.
        follows: what follows another value, with the place where that is said.
    """

    stated: Mapping[str, StatedValue]
    problem: Problem | None
    text: str
    faults: Faults
    values: dict[Name, tuple[str, ...]] = field(default_factory=dict)
    follows: dict[Name, tuple[Follower, Text]] = field(default_factory=dict)

    def read(self, entry: Entry) -> Vary:
        """What varies, as far as there are no faults."""
        node = entry.value
        if isinstance(node, Text) and node.value.strip() == NONE:
            return Vary()
        mapping = as_map(node, _EXPECTED, self.faults, f"Write a value's name and what it may be "
                         f"on a line of its own, indented; or vary: {NONE}.")  # fmt: skip
        for one in mapping.entries if mapping else ():
            self._read_one(one)
        self._refuse_chains()
        if mapping is not None and self.problem is not None:
            self._refuse_spelled(mapping, self.problem)
        return Vary(self.values, {name: follower for name, (follower, _) in self.follows.items()})

    def _read_one(self, entry: Entry) -> None:
        stated = self.stated.get(entry.key.value)
        if stated is None and self.problem is not None:
            self._refuse_name(entry.key)
            return
        another = _ANOTHER.fullmatch(entry.value.value) if isinstance(entry.value, Text) else None
        is_series = another is not None and re.fullmatch(r"[Ee]\d+", another["name"])
        if (
            another
            and isinstance(entry.value, Text)
            and (another["name"] in self.stated or not is_series)
        ):
            self._read_follower(stated, entry.value, another)
            return
        whole = stated if self.problem is not None else None
        typed = ValueReader(whole, self.text, self.faults).values(entry.value)
        if stated is not None and typed:
            self.values[stated.name] = typed

    def _read_follower(self, stated: StatedValue | None, said: Text, parts: re.Match[str]) -> None:
        if stated is None or self.problem is None:
            return
        leader = self.stated.get(parts["name"])
        if leader is None:
            known = tuple(self.stated)
            self.faults.add(said.at, f"{quoted(said.value)} for {stated.called}", WAYS,
                            meant(parts["name"], known, "Write one of these."))  # fmt: skip
        elif leader.measure.kind != stated.measure.kind or leader is stated:
            same = "itself" if leader is stated else "a value of another kind"
            self.faults.add(said.at, f"{stated.called} as {quoted(said.value)}, {same}",
                            "another value of the same kind", "Name another one, or list "
                            "values.")  # fmt: skip
        else:
            times = self._times(said, parts)
            if times is not None:
                self._follow(stated, leader, Follower(leader.name, times), said)

    def _times(self, said: Text, parts: re.Match[str]) -> Fraction | None:
        """How often the other value is taken."""
        try:
            times = as_fraction(read_number(parts["times"] or "1"))
            return times / as_fraction(read_number(parts["under"] or "1"))
        except (ValueError, ZeroDivisionError):
            self.faults.add(said.at, quoted(said.value), "a number of ordinary length, and no "
                            "division by zero", "Change the number.")  # fmt: skip
            return None

    def _follow(
        self, stated: StatedValue, leader: StatedValue, follower: Follower, said: Text
    ) -> None:
        """Take what follows another value, if it does so in the file already."""
        if as_fraction(stated.measure.value) != follower.times * as_fraction(leader.measure.value):
            self.faults.add(said.at, f"{stated.called} as {quoted(said.value)}, though it is "
                            f"{stated.measure.shown.text} and {leader.called} is "
                            f"{leader.measure.shown.text}", "what holds of the values in the file",
                            "Change the number, or one of the values.")  # fmt: skip
            return
        self.follows[stated.name] = (follower, said)

    def _refuse_name(self, name: Text) -> None:
        known = tuple(self.stated)
        few = known if len(known) <= _FEW else (*known[: _FEW - 1], "another value of the file")
        self.faults.add(name.at, f"{quoted(name.value)}, for which the file states no number",
                        one_of(few) if few else "a value that is a number, of which there is none",
                        meant(name.value, known, "Check its spelling, or delete the "
                              "line."))  # fmt: skip

    def _refuse_chains(self) -> None:
        """A value that follows one that follows another would be hard to read, and to check."""
        called = {value.name: value.called for value in self.stated.values()}
        for follower, said in self.follows.values():
            if follower.leader in self.follows:
                further = called[self.follows[follower.leader][0].leader]
                self.faults.add(said.at, f"{quoted(said.value)}, which follows another value "
                                "itself", "a value that follows none",
                                f"Say it with {further}.")  # fmt: skip

    def _refuse_spelled(self, mapping: Map, problem: Problem) -> None:
        spelled = spelled_values(problem)
        varying = {name for name, typed in self.values.items() if len(typed) > 1}
        varying |= {name for name, (led, _) in self.follows.items() if led.leader in varying}
        fixed = [one.measure for one in self.stated.values() if one.name not in varying]
        fixed += _asked_about(problem)
        for entry in mapping.entries:
            stated = self.stated.get(entry.key.value)
            if stated is None or stated.name not in varying:
                continue
            kind, value = stated.measure.kind, as_fraction(stated.measure.value)
            if is_spelled(kind, value, spelled) and not is_spelled(kind, value, tuple(fixed)):
                self._refuse_one_spelled(entry.key, stated)

    def _refuse_one_spelled(self, key: Text, stated: StatedValue) -> None:
        called = stated.called
        advice = f"Write {{{called}.value}} in the text instead of the number."
        if called.endswith(f".{CHARGED}"):
            advice = f"Write {{{called}}} in the text instead of the number."
        elif "." in called:
            advice = f"Reword the text without the number: {called} has no placeholder."
        self.faults.add(key.at, f"{called}, whose {stated.measure.shown.text} an own text spells "
                        "out", "texts without the numbers that vary", advice)  # fmt: skip


def _asked_about(problem: Problem) -> list[Measure]:
    """Times and voltages that are asked about: they do not vary."""
    if not isinstance(problem, TransientProblem):
        return []
    return [*problem.times.values(), *problem.levels.values()]
