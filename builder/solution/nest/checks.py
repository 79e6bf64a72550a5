"""Statements that must hold of the results, built from the network and the tree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import StrEnum

from builder.circuit.law import SERIES
from builder.circuit.tree import Leaf, Tree, groups, leaves
from builder.problem.model import NestProblem
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Ref, Sum
from builder.quantity.names import Name
from builder.quantity.symbolic import sign_of
from builder.solution.check import Check
from builder.solution.nest.stepwise import Naming, naming_of


class CheckKind(StrEnum):
    """What a check is about."""

    EQUIVALENT = "equivalent"
    """The flow by the equivalent against the sum over the elements at the + terminal."""
    JUNCTION = "junction"
    """Flows into a junction against flows out of it."""
    LOOP = "loop"
    """The source's voltage against the drops along a path through the circuit."""
    WORK = "work"
    """The energies or powers of all elements against that of the whole circuit."""
    BOUND = "bound"
    """An equivalent against its largest or smallest member."""


def checks_of(problem: NestProblem, values: Mapping[Name, Exact]) -> tuple[Check, ...]:
    """All checks of a series-parallel problem.

    Args:
        problem: whose results are checked.
        values: its results; they only choose which member bounds an equivalent.
    """
    naming = naming_of(problem)
    checks = [*_bounds(problem, naming, values)]
    if problem.network.source is not None:
        checks += [
            *_equivalent(problem, naming),
            *_junctions(problem, naming),
            *_loops(problem, naming),
            *_work(problem, naming),
        ]
    return tuple(checks)


def _added(names: list[Name]) -> Formula:
    refs = tuple(Ref(name) for name in names)
    return refs[0] if len(refs) == 1 else Sum(refs)


def _bounds(problem: NestProblem, naming: Naming, values: Mapping[Name, Exact]) -> Iterator[Check]:
    for group in groups(problem.tree):
        grows = group.connection == naming.law.adds_in
        members = [naming.value(part.id) for part in group.parts]
        extreme = outermost(members, values, largest=grows)
        if extreme is None:
            continue
        about = (group.id, *(part.id for part in group.parts))
        relation = ">" if grows else "<"
        yield Check(CheckKind.BOUND, about, Ref(naming.value(group.id)), relation, Ref(extreme))


def outermost(names: list[Name], values: Mapping[Name, Exact], *, largest: bool) -> Name | None:
    """The name of the largest or the smallest value; None where symbols leave that open."""
    extreme = names[0]
    for name in names[1:]:
        sign = sign_of(values[name] - values[extreme])
        if sign is None:
            return None
        if sign == (1 if largest else -1):
            extreme = name
    return extreme


def _equivalent(problem: NestProblem, naming: Naming) -> Iterator[Check]:
    if isinstance(problem.tree, Leaf):
        return
    root, plus = naming.root, problem.network.terminals[0]
    value, drop = Ref(naming.value(root)), Ref(naming.drop(root))
    first = [e.name for e in problem.network.elements if plus in e.between]
    total = naming.law.flow_from(value, drop)
    flows = _added([naming.flow(name) for name in first])
    yield Check(CheckKind.EQUIVALENT, tuple(first), total, "=", flows)


def _junctions(problem: NestProblem, naming: Naming) -> Iterator[Check]:
    for junction in problem.network.junctions:
        if junction in problem.network.terminals:
            continue
        into = [e.name for e in problem.network.elements if e.between[1] == junction]
        out = [e.name for e in problem.network.elements if e.between[0] == junction]
        left = _added([naming.flow(name) for name in into])
        right = _added([naming.flow(name) for name in out])
        yield Check(CheckKind.JUNCTION, (junction, *into, *out), left, "=", right)


def _loops(problem: NestProblem, naming: Naming) -> Iterator[Check]:
    source = Ref(naming.drop(naming.root))
    if isinstance(problem.tree, Leaf):
        return
    for path in _paths(problem.tree):
        drops = _added([naming.drop(name) for name in path])
        yield Check(CheckKind.LOOP, path, source, "=", drops)


def _paths(tree: Tree) -> list[tuple[str, ...]]:
    """Paths from + to − that together use every element: one for each independent loop."""
    if isinstance(tree, Leaf):
        return [(tree.id,)]
    parts = [_paths(part) for part in tree.parts]
    if tree.connection != SERIES:
        return [path for paths in parts for path in paths]
    main = [paths[0] for paths in parts]
    found = [tuple(name for path in main for name in path)]
    for position, paths in enumerate(parts):
        for other in paths[1:]:
            detour = [*main[:position], other, *main[position + 1 :]]
            found.append(tuple(name for path in detour for name in path))
    return found


def _work(problem: NestProblem, naming: Naming) -> Iterator[Check]:
    root = naming.root
    names = leaves(problem.tree)
    if len(names) == 1:
        return
    flow, drop = Ref(naming.flow(root)), Ref(naming.drop(root))
    whole = naming.law.work_from_flow_and_drop(flow, drop)
    parts = _added([naming.work(name) for name in names])
    yield Check(CheckKind.WORK, names, parts, "=", whole)
