"""The lines that give what flows in a network of resistors at one instant.

A nest of series and parallel groups is solved as nests are, any other network as networks are;
the names of its quantities then say at which moment they hold.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any, TypeVar

from builder.circuit.between import NotSeriesParallel, find_tree
from builder.circuit.law import RESISTORS
from builder.circuit.naming import name_groups
from builder.circuit.network import Element, Network
from builder.problem.branches import oriented
from builder.problem.model import NestProblem, NetworkProblem
from builder.problem.transient.moments import at, in_part
from builder.quantity.formula import Formula, Negative, Product, Quotient, Ref
from builder.quantity.names import TOTAL, Name
from builder.solution.nest.stepwise import all_steps, naming_of
from builder.solution.network.solve import solve_network
from builder.solution.program import Line, Statement, needed_for

Part = TypeVar("Part")


def nest_of(network: Network) -> NestProblem | None:
    """A network of resistors as a nest, or None if it is none or has several sources."""
    if len(network.sources) > 1:
        return None
    between = {element.name: element.between for element in network.elements}
    try:
        tree = find_tree(between, network.terminals)
    except NotSeriesParallel:
        return None
    ends = oriented(tree, between, network.terminals[0])
    elements = tuple(replace(e, between=ends[e.name]) for e in network.elements)
    return NestProblem(
        slug="instant", path="", title="", level="core", objectives=(), scenario="", find=(),
        law=RESISTORS, network=replace(network, elements=elements),
        tree=name_groups(tree, RESISTORS.letter),
    )  # fmt: skip


def flow_lines(
    nest: NestProblem,
    when: str,
    wanted: Collection[tuple[str, str]],
    kept: Collection[str],
    part: int = 1,
) -> list[Line]:
    """The lines that give what is wanted of a nest's elements at a moment.

    Args:
        nest: with its source.
        when: the moment that the names carry.
        wanted: quantity and element of each; ``total`` stands for what the source delivers.
        kept: the sources whose voltages or currents carry no moment.
        part: which of several parts of the circuit it is; equivalents of later ones are told
            apart by it.

    Returns:
        Definitions in order. Flows and drops count from the end nearer to the source's +.
    """
    naming = naming_of(nest)
    asked = [naming.resolve(Name(quantity, of)) for quantity, of in wanted]
    steps = all_steps(replace(nest, find=tuple(asked)))
    needed = needed_for(asked, steps)
    source = nest.network.source
    assert source is not None
    fixed = set(known_names(nest.network))
    if source.name in kept:
        fixed.add(Name(source.quantity, source.name))

    renamed = _at_moment(nest.network, fixed, when, part)

    lines = [line for step in steps for line in step.lines if line.name in needed]
    return [with_names(line, renamed) for line in lines]


def merge_lines(nest: NestProblem, when: str) -> list[Line]:
    """The lines that merge a nest into one equivalent, ``total`` at that moment."""
    fixed = known_names(nest.network)

    def renamed(name: Name) -> Name:
        return name if name in fixed else at(name.quantity, name.of, when)

    lines = [line for step in all_steps(nest) for line in step.lines]
    merged = [line for line in lines if line.name.quantity == RESISTORS.value]
    found = [with_names(line, renamed) for line in merged]
    root = Name(RESISTORS.value, nest.tree.id)
    if root in fixed:
        found.append(Line(at(RESISTORS.value, TOTAL, when), Ref(root)))
    return found


def _at_moment(
    network: Network, fixed: Collection[Name], when: str, part: int
) -> Callable[[Name], Name]:
    """What gives quantities the names that they have at a moment."""
    own = {element.name for element in network.elements} | {s.name for s in network.sources}

    def renamed(name: Name) -> Name:
        if name in fixed:
            return name
        apart = part > 1 and name.of not in own
        return at(name.quantity, in_part(name.of, part) if apart else name.of, when)

    return renamed


def with_names(part: Part, rename: Callable[[Name], Name]) -> Part:
    """A line or a formula with other names in the same places."""
    if isinstance(part, Name):
        return rename(part)  # type: ignore[return-value]
    if isinstance(part, tuple):
        return tuple(with_names(inner, rename) for inner in part)  # type: ignore[return-value]
    if not is_dataclass(part) or isinstance(part, type):
        return part
    changed: dict[str, Any] = {
        field.name: with_names(getattr(part, field.name), rename) for field in fields(part)
    }
    return replace(part, **changed)


def turned(formula: Formula, *, against: bool) -> Formula:
    """A formula, with its sign turned where it counts the other way."""
    match formula:
        case _ if not against:
            return formula
        case Negative(term):
            return term
        case Quotient(Negative(over), under):
            return Quotient(over, under)
        case Product((first, Negative(last))):
            return Product((first, last))
        case _:
            return Negative(formula)


def _flipped(part: Any, against: Collection[Name]) -> Any:
    """A formula with the sign turned of each quantity that counts from the other end."""
    if isinstance(part, Ref):
        return Negative(part) if part.name in against else part
    if isinstance(part, tuple) and not isinstance(part, Name):
        return tuple(_flipped(inner, against) for inner in part)
    if not is_dataclass(part) or isinstance(part, type):
        return part
    turned_parts = {f.name: _flipped(getattr(part, f.name), against) for f in fields(part)}
    return replace(part, **turned_parts)


def counted_from(lines: list[Line], against: Collection[Name]) -> list[Line]:
    """Lines in which some quantities count from the other end.

    Args:
        lines: definitions and uses of them.
        against: the quantities whose sign is turned.
    """
    return [
        Line(line.name, turned(_flipped(line.formula, against), against=line.name in against))
        for line in lines
    ]


def stated_from(statements: list[Statement], against: Collection[Name]) -> list[Statement]:
    """Equations in which some quantities count from the other end."""
    return [
        replace(
            statement,
            left=_flipped(statement.left, against),
            right=_flipped(statement.right, against),
        )
        for statement in statements
    ]


def known_names(network: Network) -> Mapping[Name, Element]:
    """The resistances of a network, by their names."""
    return {Name(RESISTORS.value, element.name): element for element in network.elements}


def network_lines(
    network: Network,
    when: str,
    wanted: Collection[tuple[str, str]],
    kept: Collection[str],
    part: int = 1,
) -> list[Line]:
    """The lines that give what is wanted of a network that is no nest; as ``flow_lines``."""
    solution = solve_network(_as_problem(network))
    asked = [Name(quantity, of) for quantity, of in wanted]
    needed = needed_for(asked, solution.every_step)
    fixed = set(known_names(network))
    fixed |= {Name(s.quantity, s.name) for s in network.sources if s.name in kept}

    renamed = _at_moment(network, fixed, when, part)

    lines = [line for step in solution.every_step for line in step.lines if line.name in needed]
    return [with_names(line, renamed) for line in lines]


def network_statements(
    network: Network,
    when: str,
    wanted: Collection[tuple[str, str]],
    kept: Collection[str],
    part: int = 1,
) -> list[Statement]:
    """The equations that ``network_lines`` solves, as they are set up."""
    solution = solve_network(_as_problem(network))
    needed = needed_for([Name(quantity, of) for quantity, of in wanted], solution.every_step)
    fixed = set(known_names(network))
    fixed |= {Name(s.quantity, s.name) for s in network.sources if s.name in kept}
    renamed = _at_moment(network, fixed, when, part)
    return [
        with_names(statement, renamed)
        for step in solution.every_step
        if any(line.name in needed for line in step.lines)
        for statement in step.statements
    ]


def network_merge_lines(network: Network, when: str) -> list[Line]:
    """The lines that reduce a network that is no nest to its equivalent; as ``merge_lines``."""
    solution = solve_network(_as_problem(network))
    whole = solution.resolve(Name(RESISTORS.value, TOTAL))
    needed = needed_for((whole,), solution.every_step)
    fixed = known_names(network)

    def renamed(name: Name) -> Name:
        return name if name in fixed else at(name.quantity, name.of, when)

    lines = [line for step in solution.every_step for line in step.lines if line.name in needed]
    found = [with_names(line, renamed) for line in lines]
    total = at(RESISTORS.value, TOTAL, when)
    if renamed(whole) != total:
        found.append(Line(total, Ref(renamed(whole))))
    return found


def _as_problem(network: Network) -> NetworkProblem:
    find = () if network.sources else (Name(RESISTORS.value, TOTAL),)
    return NetworkProblem(
        slug="instant", path="", title="", level="core", objectives=(), scenario="", find=find,
        law=RESISTORS, network=network,
    )  # fmt: skip
