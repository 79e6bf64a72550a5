"""A solution as a straight-line program: each line defines a quantity by earlier ones."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from builder.circuit.tree import Group, Tree, collapse, leaves
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Ref, evaluate, names_in
from builder.quantity.names import Name


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
class Line:
    """One definition.

    Attributes:
        name: the quantity that gets its value here.
        formula: of quantities known before. A bare ``Ref`` carries a value over.
    """

    name: Name
    formula: Formula

    @property
    def carries(self) -> bool:
        """Whether the value is taken over unchanged from another quantity."""
        return isinstance(self.formula, Ref)


@dataclass(frozen=True)
class Step:
    """One move of a solution.

    Attributes:
        id: what an author calls it to give it other words: ``merge-C23``.
        kind: the move.
        lines: what it finds, in order.
        circuit: the circuit after the move.
        group: the group that is merged or opened, if any.
        marked: the elements of ``circuit`` that the move is about.
    """

    id: str
    kind: StepKind
    lines: tuple[Line, ...]
    circuit: Tree
    group: Group | None = None
    marked: tuple[str, ...] = ()

    @property
    def found(self) -> tuple[Name, ...]:
        """The quantities that the step finds."""
        return tuple(line.name for line in self.lines)


def run(steps: Iterable[Step], givens: Mapping[Name, Exact]) -> dict[Name, Exact]:
    """All values, exactly: the givens and what each line defines."""
    values = dict(givens)
    for step in steps:
        for line in step.lines:
            values[line.name] = evaluate(line.formula, values)
    return values


def needed_for(asked: Iterable[Name], steps: Iterable[Step]) -> set[Name]:
    """The quantities without which ``asked`` cannot be computed, ``asked`` included."""
    definitions = {line.name: line.formula for step in steps for line in step.lines}
    needed: set[Name] = set()
    waiting = list(asked)
    while waiting:
        name = waiting.pop()
        if name in needed:
            continue
        needed.add(name)
        if name in definitions:
            waiting.extend(names_in(definitions[name]))
    return needed


def keep_only(steps: Iterable[Step], needed: set[Name], whole: Tree) -> tuple[Step, ...]:
    """``steps`` without what is not needed, with the circuit as it then is after each.

    Args:
        steps: merges first, then the walk back.
        needed: the quantities to keep.
        whole: the circuit before the first step.
    """
    kept: list[Step] = []
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
