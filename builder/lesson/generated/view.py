"""A circuit of one kind of element as generated questions look at it, whatever its problem's kind.

What is asked of a circuit is chosen by its structure and by its problem's name, never by its
values: the same page with other numbers then asks the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from builder.circuit.between import NotSeriesParallel, find_tree
from builder.circuit.law import PARALLEL, Law
from builder.circuit.network import Network
from builder.circuit.tree import Group, Tree, leaves
from builder.lesson.display import Display
from builder.lesson.lesson import Lesson
from builder.lesson.nest.display import NestDisplay
from builder.lesson.network.display import NetworkDisplay
from builder.lesson.prose import SymbolOf
from builder.lesson.relations.unknown import UnknownDisplay
from builder.lesson.vocabulary import Vocabulary, vocabulary
from builder.quantity.names import Name


@dataclass(frozen=True)
class View:
    """A circuit of capacitors alone or of resistors alone.

    Attributes:
        slug: of its problem.
        display: how its quantities are written.
        law: of its elements.
        network: what is connected, with every value known.
        tree: the same as a nest, or None if it is none or has several sources.
        named: whether its figure names the junctions.
        hidden: elements that are part of a source, and are not asked about.
        unknown: elements whose values are still to be found.
    """

    slug: str
    display: Display
    law: Law
    network: Network
    tree: Tree | None
    named: bool = False
    hidden: frozenset[str] = frozenset()
    unknown: frozenset[str] = frozenset()

    @property
    def voc(self) -> Vocabulary:
        """The words for its kind of element."""
        return vocabulary(self.law)

    @cached_property
    def members(self) -> tuple[str, ...]:
        """The elements that may be asked about, in the author's order."""
        return tuple(e.name for e in self.network.elements if e.name not in self.hidden)

    def meeting(self, one: str, other: str) -> Meeting:
        """Where two different elements meet, in a nest."""
        assert self.tree is not None
        found = self._meetings.get((one, other))
        if found is None:
            found = self._meetings[one, other] = meeting(self.tree, one, other)
        return found

    @cached_property
    def _meetings(self) -> dict[tuple[str, str], Meeting]:
        """What was found already: each change and each comparison asks for it again."""
        return {}

    def element(self, id: str) -> SymbolOf:
        """An element's name."""
        return self.display.element(id)

    def flow(self, id: str) -> Name:
        """Its current or its charge."""
        return Name(self.law.flow, id)

    def drop(self, id: str) -> Name:
        """Its voltage."""
        return Name(self.law.drop, id)

    @property
    def resistive(self) -> bool:
        """Whether a larger value lets less flow."""
        return self.law.adds_in != PARALLEL


def view_of(lesson: Lesson) -> View | None:
    """The circuit of a lesson on a nest or on a network; None for other kinds."""
    display, slug = lesson.display, lesson.solution.problem.slug
    if isinstance(display, UnknownDisplay):
        nest = display.nest.solution.problem
        unknown = frozenset(display.solution.problem.unknown)
        return View(slug, display, nest.law, nest.network, nest.tree, unknown=unknown)
    if isinstance(display, NestDisplay):
        problem = display.solution.problem
        return View(slug, display, problem.law, problem.network, problem.tree)
    if isinstance(display, NetworkDisplay):
        inner = frozenset(display.solution.problem.inner.values())
        network = display.network
        return View(slug, display, display.law, network, _tree_of(network), True, inner)
    return None


def _tree_of(network: Network) -> Tree | None:
    """A network with one source as a nest, if it is one."""
    if len(network.sources) != 1:
        return None
    between = {element.name: element.between for element in network.elements}
    try:
        return find_tree(between, network.sources[0].between)
    except NotSeriesParallel:
        return None


@dataclass(frozen=True)
class Meeting:
    """Where two elements of a nest meet.

    Attributes:
        group: the innermost group that holds both.
        parts: the members of it in which the first and the second lie.
        root: whether the group is the whole circuit.
    """

    group: Group
    parts: tuple[Tree, Tree]
    root: bool


def meeting(tree: Tree, one: str, other: str) -> Meeting:
    """Where two different elements of a nest meet."""
    here = tree
    while isinstance(here, Group):
        first, second = (
            next(part for part in here.parts if id in leaves(part)) for id in (one, other)
        )
        if first is not second:
            return Meeting(here, (first, second), here is tree)
        here = first
    raise KeyError(other)
