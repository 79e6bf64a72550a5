"""The quantities that ``plates:`` states, gathered as they are read."""

from __future__ import annotations

from dataclasses import dataclass, field

from builder.problem.faults.gathering import Faults
from builder.problem.relations.model import Plates, Stated
from builder.problem.relations.quantities import read_stated
from builder.problem.typed import as_text, describe
from builder.problem.yaml_text.located import Entry
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name

EXAMPLES = {"area": "80 cm^2", "length": "2 mm", "capacitance": "20 pF", "voltage": "12 V",
             "charge": "6 nC", "ratio": "2.5", "field": "3 MV/m"}  # fmt: skip


@dataclass
class ReadPlates:
    """What ``plates:`` states, and the relations that follow.

    Attributes:
        stated: the quantities, by name.
        equations: each relation as text, with its reason.
        plates: how they are built; None if a fault keeps it from being known.
    """

    stated: dict[str, Stated] = field(default_factory=dict)
    equations: list[tuple[str, str]] = field(default_factory=list)
    plates: Plates | None = None


@dataclass
class PlateValues:
    """Reads one given quantity after the other.

    Attributes:
        faults: of the file.
        read: what was found so far.
    """

    faults: Faults
    read: ReadPlates = field(default_factory=ReadPlates)

    def value(self, entry: Entry, name: str, kind: str, means: str) -> Stated | None:
        """A given quantity, which must be of that kind."""
        expected = f"{KINDS[kind].a_noun} such as {EXAMPLES[kind]}"
        text = as_text(entry.value, expected, self.faults)
        measure = read_stated(text, self.faults, expected) if text else None
        if text is None or measure is None:
            return None
        if measure.kind != kind:
            self.faults.add(text.at, f"{describe(text)}, {KINDS[measure.kind].a_noun}", expected,
                            "Change the unit.")  # fmt: skip
            return None
        if measure.value <= 0:
            self.faults.add(text.at, describe(text),
                            f"{KINDS[kind].a_noun} above zero, such as {EXAMPLES[kind]}",
                            "Change the value.")  # fmt: skip
            return None
        stated = Stated(Name(kind, name), measure.value, measure.shown, means, at=entry.key.at)
        self.read.stated[name] = stated
        return stated
