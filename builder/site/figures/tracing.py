"""Which wires a step speaks of, and how they are traced in its figures.

A student who sees which points are one point sees the groups. So the junctions that a step is
about are drawn over in a colour and a pattern, with a legend below.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from html import escape

from builder.circuit.between import PLUS, lay_between
from builder.circuit.law import PARALLEL
from builder.circuit.tree import Group, Leaf, Tree, leaves
from builder.lesson.nest.display import NestDisplay
from builder.lesson.prose import Prose, say
from builder.solution.nest.step import NestStep, StepKind

LOOKS = ("a", "b")
"""The ways of tracing: ``a`` a broad band, ``b`` broad dashes. There are two, and each stands for
one junction of a figure, so that a colour never means two points."""


@dataclass(frozen=True)
class Traces:
    """What is traced in the figures of a step.

    Attributes:
        before: the look of each traced junction in the circuit before the move, named as
            ``lay_between`` names it for that circuit; empty if that circuit is not shown.
        after: the same for the circuit after the move.
        legend: what each look stands for.
    """

    before: Mapping[str, str]
    after: Mapping[str, str]
    legend: tuple[tuple[str, Prose], ...]


NOTHING = Traces({}, {}, ())


def traces(step: NestStep, display: NestDisplay) -> Traces:
    """What a step's figures trace."""
    if step.kind is StepKind.DRIVE:
        return _of_source(step, display)
    if step.kind is StepKind.TOTAL and step.found[0].quantity == display.solution.problem.law.flow:
        return Traces({}, {PLUS: "a"}, (("a", say("where all branches come together")),))
    group = step.group
    if group is None:
        return NOTHING
    shown = circuit_before(step) if step.kind is StepKind.MERGE else step.circuit
    junctions = (
        _ends(group, shown) if group.connection == PARALLEL else _between_members(group, shown)
    )
    if len(junctions) > len(LOOKS):
        return NOTHING
    looks = dict(zip(junctions, LOOKS, strict=False))
    legend = tuple(zip(LOOKS, _legend(step, group, display), strict=False))
    if step.kind is not StepKind.MERGE:
        return Traces({}, looks, legend)
    after: dict[str, str] = {}
    if group.connection == PARALLEL:
        after = dict(zip(_ends(group, step.circuit), LOOKS, strict=True))
    return Traces(looks, after, legend)


def circuit_before(step: NestStep) -> Tree:
    """The circuit before a merge: after it, with the group's members in its place."""
    assert step.group is not None
    members = tuple(Leaf(part.id) for part in step.group.parts)
    return _put_back(step.circuit, replace(step.group, parts=members))


def _put_back(tree: Tree, group: Group) -> Tree:
    if tree.id == group.id:
        return group
    if not isinstance(tree, Group):
        return tree
    return replace(tree, parts=tuple(_put_back(part, group) for part in tree.parts))


def _ends(group: Group, circuit: Tree) -> tuple[str, ...]:
    """The two junctions of a group, or of the equivalent that stands for it."""
    between = lay_between(circuit)
    inside = _inside(group, between)
    return (between[inside[0]][0], between[inside[-1]][1])


def _between_members(group: Group, circuit: Tree) -> tuple[str, ...]:
    """The junctions where the members of a chain meet."""
    between = lay_between(circuit)
    return tuple(between[_inside(part, between)[-1]][1] for part in group.parts[:-1])


def _inside(tree: Tree, between: Mapping[str, tuple[str, str]]) -> tuple[str, ...]:
    """What stands in a circuit for ``tree``, from its + end to its − end."""
    if tree.id in between:
        return (tree.id,)
    assert isinstance(tree, Group)
    return tuple(leaf for part in tree.parts for leaf in _inside(part, between))


def _of_source(step: NestStep, display: NestDisplay) -> Traces:
    """The wires by which what is left hangs straight across the source."""
    problem = display.solution.problem
    source = problem.network.source
    if source is None or source.quantity != problem.law.drop:
        return NOTHING
    (only,) = leaves(step.circuit)
    plus, minus = lay_between(step.circuit)[only]
    one = display.element(only)
    legend = (
        ("a", say("from + to {one}: one junction", one=one)),
        ("b", say("from {one} to −: the other", one=one)),
    )
    return Traces({}, {plus: "a", minus: "b"}, legend)


def _legend(step: NestStep, group: Group, display: NestDisplay) -> tuple[Prose, ...]:
    named = display.elements(tuple(part.id for part in group.parts))
    if group.connection == PARALLEL:
        return (
            say("one junction that {named} share", named=named),
            ("the other",),
        )
    first, second, *more = group.parts
    pairs = [(first, second), *((second, third) for third in more)]
    return tuple(
        say("the wire between {one} and {other}: nothing else joins it",
            one=display.element(one.id), other=display.element(other.id))
        for one, other in pairs
    )  # fmt: skip


# Blue and bluish green of the Okabe–Ito set: both keep 3 to 1 on light and on dark paper.
_STYLES = {
    "a": 'stroke="#0072b2" stroke-width="7" stroke-linecap="round"',
    "b": 'stroke="#009e73" stroke-width="7" stroke-dasharray="9 6"',
}
_WIRE = re.compile(r'<path class="sw-wire" data-junction="([^"]*)"[^>]* d="([^"]*)"/>')


def traced(svg: str, looks: Mapping[str, str]) -> str:
    """A figure with some of its junctions drawn over.

    Args:
        svg: as ``builder.figure.draw`` gives it.
        looks: the look of each junction to trace.
    """
    by_name = {escape(junction): look for junction, look in looks.items()}

    def under(wire: re.Match[str]) -> str:
        junction, shape = wire.groups()
        if junction not in by_name:
            return wire.group()
        look = by_name[junction]
        return (
            f'<path class="sw-trace sw-trace-{look}" data-trace="{look}" '
            f'data-traces="{junction}" {_STYLES[look]} d="{shape}"/>{wire.group()}'
        )

    return _WIRE.sub(under, svg) if by_name else svg
