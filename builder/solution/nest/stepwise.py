"""The steps of a series-parallel circuit as a teacher takes them.

Merge innermost groups first until one equivalent is left, find its flow, then walk back
to each element; only as far as what is asked needs.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from builder.circuit.law import SERIES, Law
from builder.circuit.network import Source
from builder.circuit.tree import Group, Leaf, Tree, collapse, groups, leaves
from builder.problem.model import NestProblem
from builder.quantity.formula import Formula, Ref, Sum
from builder.quantity.names import TOTAL, Name
from builder.solution.nest.step import NestStep, StepKind, keep_only
from builder.solution.program import Line, needed_for


@dataclass(frozen=True)
class Naming:
    """How the quantities of a circuit are named.

    Attributes:
        law: of the elements.
        root: the id of the whole circuit's equivalent, or of its only element.
        source: what drives it, if anything.
    """

    law: Law
    root: str
    source: Source | None

    def value(self, id: str) -> Name:
        """The capacitance or resistance of an element or equivalent."""
        return Name(self.law.value, id)

    def flow(self, id: str) -> Name:
        """Its charge or current; for the whole circuit, the source's own where that is given."""
        given = self.source is not None and self.source.quantity == self.law.flow
        if id == self.root == TOTAL and given and self.source:
            return Name(self.law.flow, self.source.name)
        return Name(self.law.flow, id)

    def drop(self, id: str) -> Name:
        """Its voltage; for the whole circuit, the source's own where that is given."""
        given = self.source is not None and self.source.quantity == self.law.drop
        if id == self.root == TOTAL and given and self.source:
            return Name(self.law.drop, self.source.name)
        return Name(self.law.drop, id)

    def work(self, id: str) -> Name:
        """Its energy or power."""
        return Name(self.law.work, id)

    def resolve(self, asked: Name) -> Name:
        """The name under which a quantity that an author asks for is computed."""
        if asked.of != TOTAL:
            return asked
        of_root = {self.law.value: self.value, self.law.flow: self.flow, self.law.drop: self.drop}
        return of_root.get(asked.quantity, self.work)(self.root)


def naming_of(problem: NestProblem) -> Naming:
    """The naming of a problem's quantities."""
    return Naming(problem.law, problem.tree.id, problem.network.source)


def all_steps(problem: NestProblem) -> tuple[NestStep, ...]:
    """Every step that the circuit allows, whatever is asked."""
    naming = naming_of(problem)
    asked = {naming.resolve(name) for name in problem.find}
    steps = [*_merges(problem.tree, naming)]
    if naming.source is not None:
        steps += [_drive(problem.tree, naming), *_openings(problem.tree, naming)]
        core = needed_for({name for name in asked if name.quantity != naming.law.work}, steps)
        steps = _with_short_total(steps, problem, core)
        core = needed_for({name for name in asked if name.quantity != naming.law.work}, steps)
        steps += _works(problem, naming, asked, core)
    return tuple(steps)


def asked_steps(problem: NestProblem, steps: tuple[NestStep, ...]) -> tuple[NestStep, ...]:
    """Of all steps, those and no more lines of them than what is asked needs."""
    naming = naming_of(problem)
    needed = needed_for((naming.resolve(name) for name in problem.find), steps)
    return keep_only(steps, needed, problem.tree)


def _merges(tree: Tree, naming: Naming) -> Iterator[NestStep]:
    merged: frozenset[str] = frozenset()
    for group in groups(tree):
        merged = merged | {group.id}
        members = tuple(Ref(naming.value(part.id)) for part in group.parts)
        yield NestStep(
            id=f"merge-{group.id}",
            kind=StepKind.MERGE,
            lines=(Line(naming.value(group.id), naming.law.merged(group.connection, members)),),
            circuit=collapse(tree, merged),
            group=group,
            marked=(group.id,),
        )


def _drive(tree: Tree, naming: Naming) -> NestStep:
    """The flow of the single element that is left, or its drop where the flow is given."""
    law, root = naming.law, naming.root
    value, flow, drop = naming.value(root), naming.flow(root), naming.drop(root)
    assert naming.source is not None
    given = Name(naming.source.quantity, naming.source.name)
    lines: list[Line] = []
    if given.quantity == law.drop:
        lines += [] if drop == given else [Line(drop, Ref(given))]
        lines.append(Line(flow, law.flow_from(Ref(value), Ref(drop))))
    else:
        lines += [] if flow == given else [Line(flow, Ref(given))]
        lines.append(Line(drop, law.drop_from(Ref(value), Ref(flow))))
    return NestStep(law.flow, StepKind.DRIVE, tuple(lines), Leaf(root), marked=(root,))


def _openings(tree: Tree, naming: Naming) -> Iterator[NestStep]:
    outer_first = [group for group in _outer_first(tree) if isinstance(group, Group)]
    merged = frozenset(group.id for group in outer_first)
    for group in outer_first:
        merged = merged - {group.id}
        yield NestStep(
            id=f"open-{group.id}",
            kind=StepKind.OPEN,
            lines=tuple(_shared(group, naming)),
            circuit=collapse(tree, merged),
            group=group,
            marked=tuple(part.id for part in group.parts),
        )


def _outer_first(tree: Tree) -> Iterator[Tree]:
    yield tree
    if isinstance(tree, Group):
        for part in tree.parts:
            yield from _outer_first(part)


def _shared(group: Group, naming: Naming) -> Iterator[Line]:
    """What the members of a group share, then what follows for each."""
    law = naming.law
    if group.connection == SERIES:
        for part in group.parts:
            yield Line(naming.flow(part.id), Ref(naming.flow(group.id)))
        for part in group.parts:
            flow = Ref(naming.flow(part.id))
            yield Line(naming.drop(part.id), law.drop_from(Ref(naming.value(part.id)), flow))
        return
    for part in group.parts:
        yield Line(naming.drop(part.id), Ref(naming.drop(group.id)))
    for part in group.parts:
        drop = Ref(naming.drop(part.id))
        yield Line(naming.flow(part.id), law.flow_from(Ref(naming.value(part.id)), drop))


def _with_short_total(
    steps: list[NestStep], problem: NestProblem, core: set[Name]
) -> list[NestStep]:
    """Add up the branches' flows where all are found anyway and no equivalent is asked."""
    naming = naming_of(problem)
    tree, total = problem.tree, naming.flow(naming.root)
    if not isinstance(tree, Group) or tree.connection == SERIES or total not in core:
        return steps
    asked = {naming.resolve(name) for name in problem.find}
    without_total = needed_for(asked - {total}, steps)
    branches = tuple(naming.flow(part.id) for part in tree.parts)
    if naming.value(naming.root) in without_total or not without_total.issuperset(branches):
        return steps
    line = Line(total, Sum(tuple(Ref(name) for name in branches)))
    rest = [step for step in steps if step.kind is not StepKind.DRIVE]
    return [*rest, NestStep(f"{naming.law.flow}-total", StepKind.TOTAL, (line,), tree)]


def _works(
    problem: NestProblem, naming: Naming, asked: set[Name], core: set[Name]
) -> list[NestStep]:
    """Energy or power of each element and of the whole."""
    elements = leaves(problem.tree)
    shares_flow = {
        part.id: group.connection == SERIES
        for group in groups(problem.tree)
        for part in group.parts
    }
    lines = tuple(
        Line(naming.work(id), _work(id, naming, core, shares_flow.get(id))) for id in elements
    )
    steps = [NestStep(naming.law.work, StepKind.WORK, lines, problem.tree)]
    if naming.root == TOTAL:
        if asked.issuperset(naming.work(id) for id in elements):
            total: Formula = Sum(tuple(Ref(naming.work(id)) for id in elements))
        else:
            total = _work(TOTAL, naming, core)
        line = Line(naming.work(TOTAL), total)
        steps.append(NestStep(f"{naming.law.work}-total", StepKind.TOTAL, (line,), problem.tree))
    return steps


def _work(id: str, naming: Naming, core: set[Name], shares_flow: bool | None = None) -> Formula:
    """Energy or power by the formula that uses what is known already.

    Args:
        id: of an element, or ``total``.
        naming: of the circuit.
        core: what is found in any case.
        shares_flow: whether the element's own group shares its flow, so that the flow is known
            before the drop; None for what the source drives itself.
    """
    law = naming.law
    value, flow, drop = naming.value(id), naming.flow(id), naming.drop(id)
    assert naming.source is not None
    known = core | {Name(naming.source.quantity, naming.source.name)}
    if flow in known and drop in known:
        return law.work_from_flow_and_drop(Ref(flow), Ref(drop))
    if shares_flow is None:
        shares_flow = naming.source.quantity == law.flow
    if flow in known or (drop not in known and shares_flow):
        return law.work_from_flow(Ref(value), Ref(flow))
    return law.work_from_drop(Ref(value), Ref(drop))
