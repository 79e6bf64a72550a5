"""The list ``find:``, whatever its items may ask for."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator
from typing import ClassVar

from builder.problem.faults.gathering import Faults, all_of, quoted
from builder.problem.parts import ALL
from builder.problem.typed import after_dash, describe
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text, Unusable
from builder.problem.yaml_text.missing_space import missing_space
from builder.quantity.names import Name


class ListedAsking(ABC):
    """Reads ``find:`` item by item; each kind of problem says what an item may be.

    Attributes:
        EXAMPLE: what a fault expects of an item.
        FIRST: an item, for those who have none.
        ONE: an item of one element, for those who name several.
    """

    EXAMPLE: ClassVar[str]
    FIRST: ClassVar[str]
    ONE: ClassVar[str]

    @property
    @abstractmethod
    def _faults(self) -> Faults:
        """Takes whatever is wrong."""

    @abstractmethod
    def _of(self, quantity: Text, of: Node) -> Iterator[Name]:
        """The names of a quantity of what stands behind it; ``all`` where nothing does."""

    def find(self, entry: Entry) -> tuple[Name, ...]:
        """The names under ``find:``, each once, in the author's order."""
        node = entry.value
        if isinstance(node, Items) and not node.items:
            self._faults.add(node.at, "an empty list", "at least one quantity",
                            f"Say what is asked for, such as {self.FIRST}.")  # fmt: skip
        if isinstance(node, Map) and node.entries:
            first = node.entries[0].key
            self._faults.add(first.at, describe(node), "a list of quantities",
                            f'Put a dash before each: "- {first.value}: …".',
                            line=after_dash(first, self._faults))  # fmt: skip
            return ()
        items = node.items if isinstance(node, Items) else (node,)
        return tuple(dict.fromkeys(name for item in items for name in self._item(item)))

    def answer(self, node: Node) -> Name | None:
        """The one quantity that answers a question."""
        before = len(self._faults)
        names = list(self._item(node))
        if len(names) > 1:
            self._faults.add(node.at, f"{len(names)} quantities as the answer", "one quantity",
                            f"Name one element, such as {self.ONE}.")  # fmt: skip
            return None
        return names[0] if names and len(self._faults) == before else None

    def _item(self, item: Node) -> Iterator[Name]:
        if isinstance(item, Unusable):
            return
        if isinstance(item, Text) and ": " in item.value:
            quantity, _, of = item.value.partition(": ")
            yield from self._of(Text(quantity.strip(), item.at), Text(of.strip(), item.at))
        elif isinstance(item, Text) and item.value.strip():
            hint = missing_space(item)
            if hint:
                self._faults.add(item.at, quoted(item.value), self.EXAMPLE, hint)
            else:
                yield from self._of(item, Text(ALL, item.at))
        elif isinstance(item, Map) and len(item.entries) == 1:
            yield from self._of(item.entries[0].key, item.entries[0].value)
        elif isinstance(item, Map) and item.entries:
            keys = all_of([quoted(entry.key.value) for entry in item.entries[:5]])
            self._faults.add(item.entries[1].key.at, f"{keys} in one item",
                            "one quantity in each item",
                            "Start a new line with a dash for each quantity.")  # fmt: skip
        else:
            self._faults.add(
                item.at, describe(item), self.EXAMPLE, "Write it here, or delete the line."
            )
