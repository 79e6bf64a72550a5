"""A path with everything that is needed to write it down: names, directions, networks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from sympy import Rational

from builder.circuit.law import Law
from builder.circuit.network import Element, Network
from builder.quantity.exact import Exact
from builder.quantity.formula import Formula, Negative, Ref
from builder.quantity.names import TOTAL, Name
from builder.quantity.show import Shown, show
from builder.solution.nest.stepwise import Naming
from builder.solution.network.reductions.field import Field
from builder.solution.network.reductions.moves import Exchange, Group, Join, Merge, Move
from builder.solution.network.reductions.names import names_along
from builder.solution.network.reductions.potentials import Potentials, potentials_along
from builder.solution.network.reductions.search import Path
from builder.solution.network.reductions.state import State


@dataclass(frozen=True)
class Story:
    """How a path is told.

    Attributes:
        network: of the problem.
        law: of its elements.
        path: from it to one piece.
        field: of the path's weights.
        names: of all pieces, by id.
        turned: the pieces that are counted from their second end to their first, so that what
            flows through them is positive. Elements of the problem never are.
        volts: the potential of each junction with 1 V across the terminals.
        order: where each piece stands among the others.
        elements: every piece as an element; where it lies depends on the state.
    """

    network: Network
    law: Law
    path: Path
    field: Field
    names: Mapping[int, str]
    turned: frozenset[int]
    volts: Potentials
    order: Mapping[int, tuple[int, int]]
    elements: Mapping[int, Element]

    @property
    def naming(self) -> Naming:
        """How the quantities are named."""
        return Naming(self.law, TOTAL, self.network.source)

    @property
    def root(self) -> int:
        """The id of the piece that is left."""
        (root,) = self.path.end.pieces
        return root

    def value(self, id: int) -> Name:
        """The name of a piece's capacitance or resistance."""
        return self.naming.value(self.names[id])

    def flow(self, id: int) -> Name:
        """The name of a piece's charge or current."""
        return self.naming.flow(self.names[id])

    def drop(self, id: int) -> Name:
        """The name of a piece's voltage."""
        return self.naming.drop(self.names[id])

    def ends(self, id: int, state: State) -> tuple[str, str]:
        """The junctions of a piece, in the direction in which it is counted."""
        ends = state.pieces[id].ends
        return ends[::-1] if id in self.turned else ends

    def told(self, group: Group) -> Group:
        """A group in the direction in which its equivalent is counted."""
        return group.turned if group.id in self.turned else group

    def network_of(self, state: State) -> Network:
        """The network of a state, its pieces in the order of the elements that they stand for."""
        elements = tuple(
            self._element(id, state) for id in sorted(state.pieces, key=self.order.__getitem__)
        )
        return replace(self.network, elements=elements)

    def _element(self, id: int, state: State) -> Element:
        return replace(self.elements[id], between=self.ends(id, state))


def signed(name: Name, *, along: bool) -> Formula:
    """A quantity, with its sign turned unless both directions agree."""
    return Ref(name) if along else Negative(Ref(name))


def shown_value(value: Exact, law: Law) -> Shown:
    """How the value of a new element is written where nothing marks it as a result."""
    if isinstance(value, Rational):
        return show(value, law.value)
    return Shown(str(value), "", exact=True)


def story_of(path: Path, network: Network, law: Law, field: Field) -> Story:
    """How ``path`` through ``network`` is told."""
    volts = potentials_along(path, field)
    names = names_along(path, [element.name for element in network.elements], law.letter)
    first_new = len(network.elements)
    turned = frozenset(
        id
        for state in path.states
        for id, piece in state.pieces.items()
        if id >= first_new and field.seems_lower(volts[piece.ends[0]], volts[piece.ends[1]])
    )
    order = _order_of(path, first_new)
    elements = dict(enumerate(network.elements))
    for state in path.states:
        for id, piece in state.pieces.items():
            if id not in elements:
                value = law.weight(field.exact(piece.weight))
                elements[id] = Element(names[id], value, shown_value(value, law), piece.ends)
    return Story(network, law, path, field, names, turned, volts, order, elements)


def _order_of(path: Path, originals: int) -> dict[int, tuple[int, int]]:
    """A new piece stands where the first of those stood that it takes the place of."""
    order = {id: (id, 0) for id in range(originals)}
    for move in path.moves:
        for gone, made in _replaced(move):
            first, _ = min(order[id] for id in gone)
            order.update({id: (first, number) for number, id in enumerate(made)})
    return order


def _replaced(move: Move) -> Iterator[tuple[tuple[int, ...], tuple[int, ...]]]:
    match move:
        case Merge(groups):
            yield from ((group.members, (group.id,)) for group in groups)
        case Exchange(trades):
            yield from ((trade.gone, trade.made) for trade in trades)
        case Join(cuts=cuts):
            yield from (((cut.id,), cut.halves) for cut in cuts)
