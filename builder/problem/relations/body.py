"""Quantities and relations as the body of a problem."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from builder.problem.body import Body
from builder.problem.faults.gathering import Faults, meant, one_of, quoted
from builder.problem.relations.equations import Equations
from builder.problem.relations.model import Plates, Relation, RelationsProblem, Stated
from builder.problem.relations.plates import PlatesReader
from builder.problem.relations.quantities import CONSTANT_QUANTITIES, Quantities
from builder.problem.shape import ProblemShape, keys_of
from builder.problem.typed import describe, needed
from builder.problem.yaml_text.located import Entry, Items, Map, Node, Text, Unusable
from builder.quantity.formula import names_in
from builder.quantity.names import Name

_KEYS = keys_of(ProblemShape)
_ASKED = "the name of an unknown"


def read_relations(root: Map, faults: Faults) -> Body:
    """Read a problem of quantities and relations.

    Args:
        root: all of its file.
        faults: takes whatever is wrong with it.
    """
    plates = root.get("plates")
    if plates is not None:
        return _read_plates(root, plates, faults)
    quantities = Quantities(faults)
    stated = needed(root, "quantities", "quantities: with names and values below it", _KEYS, faults)
    if stated is not None:
        quantities.read(stated.value)
    relations: tuple[Relation, ...] = ()
    entry = needed(root, "relations", "relations: with a list of equations", _KEYS, faults)
    if entry is not None and quantities.complete and quantities.by_name:
        relations = Equations(quantities.by_name, faults).read(entry.value)
    by_name = with_constants(quantities.by_name, relations)
    return RelationsBody(by_name, relations, quantities.complete, faults)


def _read_plates(root: Map, entry: Entry, faults: Faults) -> Body:
    """A problem of two plates; its relations are those that hold between plates."""
    for other in ("quantities", "relations", "circuit"):
        beside = root.get(other)
        if beside is not None:
            faults.add(beside.key.at, f"{other} beside plates", "only one of the two",
                       "Make two problems of them.")  # fmt: skip
    read = PlatesReader(faults).plates(entry.value)
    if read.plates is None:
        return RelationsBody({}, (), False, faults)
    writer = Equations(read.stated, faults)
    relations = tuple(writer.relation(text, because) for text, because in read.equations)
    by_name = with_constants(read.stated, relations)
    return RelationsBody(by_name, relations, True, faults, read.plates)


def with_constants(
    by_name: Mapping[str, Stated], relations: tuple[Relation, ...]
) -> dict[str, Stated]:
    """The quantities of a problem, and the constants that its relations use."""
    used = {name for r in relations for side in (r.left, r.right) for name in names_in(side)}
    constants = {of: one for of, one in CONSTANT_QUANTITIES.items() if one.name in used}
    return {**by_name, **constants}


@dataclass(frozen=True)
class RelationsBody(Body):
    """Quantities and relations, as far as they could be read.

    Attributes:
        stated: the quantities by name, constants last.
        relations: in the author's order.
        complete: whether every quantity is known.
        faults: of the file.
        plates: the plates that they are about, if they are.
    """

    stated: Mapping[str, Stated]
    relations: tuple[Relation, ...]
    complete: bool
    faults: Faults
    plates: Plates | None = None

    @property
    def mentions(self) -> tuple[str, ...] | None:
        """The names of all quantities."""
        return tuple(self.stated) if self.complete and self.stated else None

    @property
    def step_ids(self) -> tuple[str, ...]:
        """The ids of all steps: one for each unknown."""
        if not self.complete:
            return ()
        return tuple(f"find-{of}" for of, one in self.stated.items() if not one.known)

    def find(self, entry: Entry) -> tuple[Name, ...]:
        """The names under ``find:``."""
        node = entry.value
        items = node.items if isinstance(node, Items) else (node,)
        if not items:
            self.faults.add(node.at, "an empty list", "at least one name",
                            "Say what is asked for, such as [C, Q].")  # fmt: skip
        asked = [name for item in items for name in self._asked(item)]
        return tuple(dict.fromkeys(asked))

    def answer(self, node: Node) -> Name | None:
        """The quantity that answers a question."""
        names = self._asked(node)
        return names[0] if names else None

    def _asked(self, item: Node) -> tuple[Name, ...]:
        if isinstance(item, Unusable):
            return ()
        if not isinstance(item, Text) or not item.value.strip():
            self.faults.add(item.at, describe(item), f"{_ASKED}, such as C",
                            "Write only the name, or several as [C, Q].")  # fmt: skip
            return ()
        unknown = tuple(of for of, one in self.stated.items() if not one.known)
        if item.value == "all":
            return tuple(self.stated[of].name for of in unknown)
        if item.value in unknown:
            return (self.stated[item.value].name,)
        if self.complete:
            self._refuse(item, unknown)
        return ()

    def _refuse(self, item: Text, unknown: tuple[str, ...]) -> None:
        if item.value in self.stated:
            self.faults.add(item.at, f"{quoted(item.value)}, which is given already", _ASKED,
                            "Delete it here, or give its kind instead of a value.")  # fmt: skip
            return
        few = unknown if len(unknown) <= 8 else (*unknown[:7], "another unknown")
        self.faults.add(item.at, f"{quoted(item.value)}, which is no quantity of the problem",
                        one_of(few) if few else f"{_ASKED}, of which there is none",
                        meant(item.value, unknown, "Add it to quantities, or correct the "
                              "name."))  # fmt: skip

    def problem(self, common: Mapping[str, Any]) -> RelationsProblem | None:
        """The problem, if everything could be read."""
        if not self.complete or not self.relations:
            return None
        return RelationsProblem(
            quantities=tuple(self.stated.values()),
            relations=self.relations,
            plates=self.plates,
            **common,
        )
