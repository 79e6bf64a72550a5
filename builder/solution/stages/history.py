"""When each quantity changed last, so that what stays the same keeps its name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from builder.circuit.switching import LOST, moment, split_moment
from builder.quantity.names import TOTAL, Name

ALL_STAGES = "all"


@dataclass(frozen=True)
class History:
    """What changes in which stage.

    Attributes:
        changed: for the start and after each stage, the stage in which each capacitor got the
            charge that it then has.
        active: the stages in which charges move, in order; the start is none of them.
        delivering: of each battery, the stages in which it moves charge.
    """

    changed: tuple[Mapping[str, int], ...]
    active: tuple[int, ...]
    delivering: Mapping[str, tuple[int, ...]]

    @property
    def last(self) -> int:
        """The number of the last stage."""
        return len(self.changed) - 1

    def resolve(self, name: Name) -> Name:
        """The name under which a quantity is kept: the end is meant where no moment is named."""
        base, when = split_moment(name.of)
        if base in self.changed[0] and name.quantity != "capacitance":
            return Name(name.quantity, moment(base, self.changed[self._stage(when)][base]))
        if base == TOTAL and name.quantity == "energy":
            return Name(name.quantity, moment(TOTAL, self.settled_by(self._stage(when))))
        if base == LOST and not when:
            return self._of_all(name, self.active)
        if base in self.delivering and name.quantity in ("charge", "energy") and not when:
            return self._of_all(name, self.delivering[base])
        return name

    def settled_by(self, stage: int) -> int:
        """The last stage up to that one in which charges moved; 0 for the start."""
        return max((active for active in self.active if active <= stage), default=0)

    def before(self, stage: int) -> int:
        """The last stage before that one in which charges moved; 0 for the start."""
        return self.settled_by(stage - 1)

    def _stage(self, when: str) -> int:
        return int(when) if when else self.last

    def _of_all(self, name: Name, stages: tuple[int, ...]) -> Name:
        if len(stages) == 1:
            return Name(name.quantity, moment(name.of, stages[0]))
        return Name(name.quantity, f"{name.of}@{ALL_STAGES}")
