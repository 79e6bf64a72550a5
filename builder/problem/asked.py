"""What a problem asks for: ``find:`` and the answers of an author's own questions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.circuit.law import LAWS, Law
from builder.problem.circuit import Circuit
from builder.problem.faults.gathering import (
    Correction,
    Faults,
    all_of,
    meant,
    nearest,
    one_of,
    quoted,
    several,
)
from builder.problem.parts import ALL, EQUIVALENT
from builder.problem.typed import after_dash, describe
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text, Unusable
from builder.problem.yaml_text.missing_space import missing_space
from builder.quantity.names import TOTAL, Name

_ASKED = tuple(dict.fromkeys(quantity for law in LAWS.values() for quantity in law.quantities))
_EXAMPLE = "a quantity, such as equivalent or charge: C1"


@dataclass(frozen=True)
class Asking:
    """What can be asked of a circuit.

    Attributes:
        circuit: as far as it could be read.
        faults: of the file.
    """

    circuit: Circuit
    faults: Faults

    def find(self, entry: Entry) -> tuple[Name, ...]:
        """The names under ``find:``, each once, in the author's order."""
        node = entry.value
        if isinstance(node, Items) and not node.items:
            self.faults.add(node.at, "an empty list", "at least one quantity",
                            "Say what is asked for, such as equivalent.")  # fmt: skip
        items = node.items if isinstance(node, Items) else (node,)
        if isinstance(node, Map) and node.entries:
            first = node.entries[0].key
            self.faults.add(first.at, describe(node), "a list of quantities",
                            f'Put a dash before each: "- {first.value}: …".',
                            line=after_dash(first, self.faults))  # fmt: skip
            return ()
        return tuple(dict.fromkeys(name for item in items for name in self._item(item)))

    def answer(self, node: Node) -> Name | None:
        """The one quantity that answers a question: ``{charge: C2}``, "charge: C2", equivalent."""
        before = len(self.faults)
        names = list(self._item(node))
        if len(names) > 1:
            self.faults.add(node.at, f"{len(names)} quantities as the answer", "one quantity",
                            "Name one element, such as {charge: C2}.")  # fmt: skip
            return None
        return names[0] if names and len(self.faults) == before else None

    def _item(self, item: Node) -> Iterator[Name]:
        if isinstance(item, Unusable):
            return
        if isinstance(item, Text) and ": " in item.value:
            yield from self._item(_split(item))
        elif isinstance(item, Text) and item.value.strip():
            hint = missing_space(item)
            if hint:
                self.faults.add(item.at, quoted(item.value), _EXAMPLE, hint)
            else:
                yield from self._names(item, Text(ALL, item.at), alone=True)
        elif isinstance(item, Map) and len(item.entries) == 1:
            entry = item.entries[0]
            of = entry.value
            wanted = of.items if isinstance(of, Items) else (of,)
            if not wanted:
                self.faults.add(of.at, "an empty list", "elements, all or total",
                                "Name the elements, or delete the item.")  # fmt: skip
            for one in wanted:
                yield from self._names(entry.key, one)
        elif isinstance(item, Map) and item.entries:
            keys = all_of([quoted(entry.key.value) for entry in item.entries[:5]])
            self.faults.add(item.entries[1].key.at, f"{keys} in one item",
                            "one quantity in each item",
                            "Start a new line with a dash for each quantity.")  # fmt: skip
        else:
            self.faults.add(item.at, describe(item), _EXAMPLE, "Write it here, or delete the line.")

    def _names(self, quantity: Text, of: Node, *, alone: bool = False) -> Iterator[Name]:
        """The names that one quantity of one thing stands for."""
        if isinstance(of, Unusable) or not self._has_quantity(quantity, alone=alone):
            return
        law = self.circuit.law
        if quantity.value == EQUIVALENT or (law and quantity.value == law.value):
            if self._is_whole(quantity, of, alone=alone) and law:
                yield Name(law.value, TOTAL)
            return
        if not isinstance(of, Text) or not of.value.strip():
            self.faults.add(of.at, describe(of), "an element, all or total",
                            f"Write {quantity.value}: all, or name the elements.")  # fmt: skip
        elif of.value == ALL:
            yield from (Name(quantity.value, name) for name in self.circuit.names)
        elif of.value == TOTAL:
            if not self._given_already(quantity, of):
                yield Name(quantity.value, TOTAL)
        elif of.value in self.circuit.names:
            yield Name(quantity.value, of.value)
        elif self.circuit.names_known:
            self._refuse_name(of, quantity)

    def _known(self) -> tuple[str, ...]:
        """The quantities that can be asked for, the equivalent first."""
        law = self.circuit.law
        return (EQUIVALENT, *(law.quantities[1:] if law else _ASKED))

    def _has_quantity(self, quantity: Text, *, alone: bool) -> bool:
        law, word = self.circuit.law, quantity.value
        known = self._known()
        if word not in known and not (law and word == law.value):
            self._refuse_quantity(quantity, known, alone=alone)
            return False
        if self.circuit.source_name is None and law and word not in (EQUIVALENT, law.value):
            self.faults.add(quantity.at, f"{quoted(word)} in a circuit without a source",
                            "equivalent",
                            "Add source: to the circuit, or ask only for the "
                            "equivalent.")  # fmt: skip
            return False
        return True

    def _refuse_quantity(self, quantity: Text, known: tuple[str, ...], *, alone: bool) -> None:
        law, word = self.circuit.law, quantity.value
        if law is None:
            expected, advice = one_of(known), meant(word, known, "Check its spelling.")
        else:
            expected = f"a quantity of {law.element}s: {one_of(known)}"
            counterpart = _counterpart(word, law)
            advice = (
                Correction(
                    f"{law.element.capitalize()}s have no {word}; did you mean {counterpart}?",
                    word,
                    counterpart,
                )
                if counterpart
                else meant(word, known, "Check its spelling.")
            )
        if alone and word in self.circuit.names:
            advice = Correction(f"Say what of {word}, such as {known[1]}: {word}.", word,
                                f"{{{known[1]}: {word}}}")  # fmt: skip
        self.faults.add(quantity.at, quoted(word), expected, advice)

    def _is_whole(self, quantity: Text, of: Node, *, alone: bool) -> bool:
        """Whether a capacitance or resistance is asked of the whole circuit, which is not given."""
        word = quantity.value
        if not alone and not (isinstance(of, Text) and of.value == TOTAL):
            self.faults.add(of.at, f"{word} of {describe(of)}", "equivalent alone",
                            "The values of the elements are given already; the equivalent is "
                            "that of the whole circuit.")  # fmt: skip
            return False
        if self.circuit.names_known and len(self.circuit.names) == 1:
            self.faults.add(quantity.at, f"{quoted(word)} of a single element",
                            "a quantity that is not given",
                            "Ask for another quantity, or add elements.")  # fmt: skip
            return False
        return True

    def _given_already(self, quantity: Text, of: Text) -> bool:
        network = self.circuit.network
        source = network.source if network else None
        if source is None or source.quantity != quantity.value:
            return False
        self.faults.add(of.at, f"{quoted(f'{quantity.value}: {TOTAL}')}, which the source "
                        f"{source.name} gives already", "a quantity that is not given",
                        "Delete it, or name elements.")  # fmt: skip
        return True

    def _refuse_name(self, of: Text, quantity: Text) -> None:
        names = self.circuit.names
        few = names if len(names) <= 8 else (*names[:7], "another element")
        advice = meant(of.value, (*names, ALL, TOTAL), "Check its spelling.")
        if of.value == self.circuit.source_name:
            advice = Correction(f"For the source, write {quantity.value}: {TOTAL}.", of.value,
                                TOTAL)  # fmt: skip
        elif "," in of.value or " " in of.value.strip():
            advice = several(of.value, (*names, ALL, TOTAL), "elements")
        elif nearest(of.value, (*names, ALL, TOTAL)) is None:
            advice = "Name an element of this circuit."
        self.faults.add(of.at, f"{quoted(of.value)}, which is no element of the circuit",
                        one_of([*few, ALL, TOTAL]), advice)  # fmt: skip


def _split(text: Text) -> Map:
    """A text such as "charge: C1" as the mapping that it was meant to be."""
    quantity, _, of = text.value.partition(": ")
    entry = Entry(Text(quantity.strip(), text.at), Text(of.strip(), text.at))
    return Map((entry,), text.at)


def _counterpart(word: str, law: Law) -> str | None:
    """What plays the same part in circuits of ``law`` as ``word`` in others."""
    for other in LAWS.values():
        if word in other.quantities and word not in law.quantities:
            at = other.quantities.index(word)
            return EQUIVALENT if at == 0 else law.quantities[at]
    return None
