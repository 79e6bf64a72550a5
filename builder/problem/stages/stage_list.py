"""The list ``stages:``: which switches close and open, one stage after the other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.circuit.switching import Stage
from builder.problem.faults.gathering import Faults, meant, one_of, quoted, several
from builder.problem.limits import MOST_STAGES
from builder.problem.shape import StageShape, keys_of
from builder.problem.table import SWITCH, Row, Table
from builder.problem.typed import as_items, as_map, describe, refuse_unknown_keys
from builder.problem.yaml_text.located import Entry, Items, Node, Text, Unusable
from builder.problem.yaml_text.missing_space import missing_space

_FEW = 8
_KEYS = keys_of(StageShape)
_EXAMPLE = "what is done, such as close: S1"


@dataclass(frozen=True)
class ReadStage:
    """A stage, with the places of what it names, for faults.

    Attributes:
        stage: what is done.
        named: each switch and capacitor where it is named.
    """

    stage: Stage
    named: tuple[Text, ...]


def read_stages(entry: Entry, table: Table, faults: Faults) -> tuple[ReadStage, ...]:
    """Read the stages.

    Args:
        entry: the key with its list.
        table: the branches, for the names.
        faults: takes what is wrong.
    """
    listed = as_items(entry.value, "a list of stages, such as - close: S1", faults)
    if listed is None:
        return ()
    if not listed.items:
        faults.add(listed.at, "an empty list", "at least one stage",
                   "Say what is done, such as - close: S1.")  # fmt: skip
    if len(listed.items) > MOST_STAGES:
        faults.add(listed.items[MOST_STAGES].at, f"more than {MOST_STAGES} stages",
                   f"at most {MOST_STAGES}", "Make two problems of them.")  # fmt: skip
        return ()
    reading = _Reading(table, faults)
    return tuple(reading.stage(item) for item in listed.items)


class _Reading:
    """Reads stages in order, since what is closed already cannot be closed again."""

    def __init__(self, table: Table, faults: Faults) -> None:
        self.table = table
        self.faults = faults
        self.closed = {row.name.value for row in table.of(SWITCH) if starts_closed(row)}

    def stage(self, item: Node) -> ReadStage:
        node = as_map(item, _EXAMPLE, self.faults, missing_space(item)
                      or "Write close:, open: or turn: with names.")  # fmt: skip
        if node is None:
            return ReadStage(Stage(), ())
        refuse_unknown_keys(node, _KEYS, self.faults)
        done: dict[str, tuple[Text, ...]] = {}
        for entry in node.entries:
            if entry.key.value in _KEYS:
                done[entry.key.value] = tuple(self._names(entry))
        self._refuse_both(done)
        # First is opened, then closed, as a change-over switch does.
        for name in done.get("open", ()):
            self._throw(name, closes=False)
        for name in done.get("close", ()):
            self._throw(name, closes=True)
        names = {key: tuple(text.value for text in texts) for key, texts in done.items()}
        return ReadStage(Stage(**names), tuple(text for texts in done.values() for text in texts))

    def _refuse_both(self, done: dict[str, tuple[Text, ...]]) -> None:
        opened = {text.value for text in done.get("open", ())}
        for text in done.get("close", ()):
            if text.value in opened:
                self.faults.add(text.at, f"{text.value} both opened and closed in one stage",
                                "one of the two", "Make two stages of it.")  # fmt: skip

    def _throw(self, name: Text, *, closes: bool) -> None:
        switch = name.value
        if (switch in self.closed) == closes:
            how, other = ("closed", "opened") if closes else ("open", "closed")
            self.faults.add(name.at, f"{switch}, which is {how} already",
                            f"a switch that is {'open' if closes else 'closed'} by then",
                            f"Delete it, or say before it when {switch} is {other}.")  # fmt: skip
        (self.closed.add if closes else self.closed.discard)(switch)

    def _names(self, entry: Entry) -> Iterator[Text]:
        kind, noun = ("capacitance", "capacitor") if entry.key.value == "turn" else (SWITCH, SWITCH)
        node = entry.value
        items = node.items if isinstance(node, Items) else (node,)
        if not items:
            self.faults.add(node.at, "an empty list", f"at least one {noun}",
                            f"Name a {noun}, or delete the key.")  # fmt: skip
        seen: set[str] = set()
        for item in items:
            if isinstance(item, Unusable):
                continue
            if not isinstance(item, Text) or not item.value.strip():
                self.faults.add(item.at, describe(item), f"the name of a {noun}",
                                f"Write {entry.key.value}: with a name, or several in square "
                                "brackets.")  # fmt: skip
            elif item.value in seen:
                self.faults.add(item.at, f"{quoted(item.value)} a second time",
                                f"each {noun} once in a stage",
                                "Delete one of the two.")  # fmt: skip
            elif self._is_one(item, kind, noun):
                seen.add(item.value)
                yield item

    def _is_one(self, item: Text, kind: str, noun: str) -> bool:
        known = tuple(name for name, found in self.table.named.items() if found == kind)
        if item.value in known:
            return True
        if not self.table.kinds_known:
            return False
        what = self.table.named.get(item.value)
        found = f"{quoted(item.value)}, which is no {noun} of the circuit"
        few = known if len(known) <= _FEW else (*known[:7], f"another {noun}")
        if not known:
            self.faults.add(item.at, found, f"a {noun} of the circuit, which has none",
                            f"Add a {noun} to the branches.")  # fmt: skip
            return False
        advice = meant(item.value, known, f"Name a {noun} of this circuit.")
        if what is not None and kind == SWITCH:
            advice = f"Only switches open and close: put one beside {item.value}."
        elif "," in item.value or " " in item.value.strip():
            advice = several(item.value, known)
        self.faults.add(item.at, found, one_of(few), advice)
        return False


def starts_closed(row: Row) -> bool:
    """Whether a switch is closed at first."""
    entry = row.more.get(SWITCH)
    value = entry.value if entry else None
    return isinstance(value, Text) and value.value == "closed"
