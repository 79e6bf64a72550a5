"""The moves through a nest of series and parallel groups."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

from builder.circuit.tree import Group, Tree, collapse, leaves
from builder.quantity.names import Name
from builder.solution.program import Step


class StepKind(StrEnum):
    """The moves of a solution."""

    MERGE = "merge"
    """A group becomes its equivalent."""
    DRIVE = "drive"
    """The source meets the single element that is left."""
    OPEN = "open"
    """An equivalent is opened again and its members get what they share."""
    WORK = "work"
    """Energy or power of single elements."""
    TOTAL = "total"
    """A quantity of the whole circuit."""


@dataclass(frozen=True)
class NestStep(Step):
    """One move through a nest.

    Attributes:
        circuit: the circuit after the move.
        group: the group that is merged or opened, if any.
        marked: the elements of ``circuit`` that the move is about.
    """

    circuit: Tree
    group: Group | None = None
    marked: tuple[str, ...] = ()


def keep_only(steps: Iterable[NestStep], needed: set[Name], whole: Tree) -> tuple[NestStep, ...]:
    """``steps`` without what is not needed, with the circuit as it then is after each.

    Args:
        steps: merges first, then the walk back.
        needed: the quantities to keep.
        whole: the circuit before the first step.
    """
    kept: list[NestStep] = []
    merged: frozenset[str] = frozenset()
    for step in steps:
        lines = tuple(line for line in step.lines if line.name in needed)
        if not lines:
            continue
        if step.group is not None and step.kind is StepKind.MERGE:
            merged = merged | {step.group.id}
        elif step.group is not None and step.kind is StepKind.OPEN:
            merged = merged - {step.group.id}
        circuit = collapse(whole, merged)
        seen = tuple(id for id in step.marked if id in leaves(circuit))
        kept.append(replace(step, lines=lines, circuit=circuit, marked=seen))
    return tuple(kept)
