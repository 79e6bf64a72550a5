"""The shortest route through a network that a teacher would take, as steps."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from builder.circuit.law import SERIES, Law
from builder.circuit.network import Network
from builder.quantity.names import TOTAL
from builder.solution.nest.stepwise import Naming
from builder.solution.network.reductions import spread
from builder.solution.network.reductions.back import backward_steps, drive_step
from builder.solution.network.reductions.exchange import exchanges
from builder.solution.network.reductions.field import Field, in_one_field
from builder.solution.network.reductions.forward import forward_steps
from builder.solution.network.reductions.moves import (
    METHOD_MERGE,
    METHOD_SYMMETRY,
    METHODS,
    Exchange,
)
from builder.solution.network.reductions.search import Path, shortest
from builder.solution.network.reductions.state import Piece, State
from builder.solution.network.reductions.story import story_of
from builder.solution.network.step import NetworkStep

MOST = 13
"""More than three triangles and stars, or two with symmetry, is more than equations ask for."""

MANY = 120
"""In networks of more elements only merging is tried, unless another method is asked for."""


@dataclass(frozen=True)
class Route:
    """A network reduced to one element, and every move walked back.

    Attributes:
        steps: the moves to the equivalent; with a source also what it drives, and the walk back
            to the drop and the flow of every element. The equivalent is ``total``.
        naming: of the quantities; its ``resolve`` takes those of the whole network.
        moves: how many steps lead to the equivalent.
        cost: of these moves, as a reader feels it: 1 for a merge or a balanced bridge, 2 for a
            symmetry, 3 with elements cut in halves, 4 for a triangle and a star, 8 for two
            even flows.
        effort: the same without the merges.
        methods: what is used, of ``moves.METHODS``.
    """

    steps: tuple[NetworkStep, ...]
    naming: Naming
    moves: int
    cost: int
    effort: int
    methods: frozenset[str]

    @property
    def leans_on_values(self) -> bool:
        """Whether the route holds only as long as certain values are equal or in proportion.

        If it does, other numbers fit it only if they are these ones times one factor.
        """
        return not self.methods.isdisjoint(METHODS[1:3])


def route(
    network: Network, law: Law, allowed: Collection[str] = METHODS, most: int | None = MOST
) -> Route | None:
    """The shortest route from a network to one element, and back.

    Args:
        network: connected, with one source at its terminals or none, its values positive:
            rationals, algebraic numbers or rational functions of symbols.
        law: of its elements.
        allowed: the methods that may be used, of ``moves.METHODS``; merging always may.
        most: the greatest effort of all moves but merges (see ``Route``); None for any.

    Returns:
        The route, or None if reductions alone do not finish, at least not by a way that a short
        look finds.

    Raises:
        TypeError: if a value is of no field that is reduced in.
    """
    return _route(network, law, allowed, None, most)


def route_by(network: Network, law: Law, method: str) -> Route | None:
    """The shortest route that uses one method, and others besides merging only if it must.

    Args:
        network: as for ``route``.
        law: of its elements.
        method: of ``moves.METHODS``.
    """
    if method == METHOD_MERGE:
        return _route(network, law, (), None, None)
    alone = _route(network, law, (method,), method, None)
    return alone or _route(network, law, METHODS, method, None)


def _route(
    network: Network, law: Law, allowed: Collection[str], required: str | None, most: int | None
) -> Route | None:
    state, field = _state_of(network, law)
    if len(state.pieces) > MANY and required is None:
        allowed = ()
    even = _evenly(network, law, allowed, required)
    if even is not None and most is not None and even.effort > most:
        even = None
    below = None if even is None else even.cost + 1
    path = shortest(state, allowed, required, most, below)
    return even if path is None else _along(path, network, law, field)


def _state_of(network: Network, law: Law) -> tuple[State, Field]:
    """A network as it is before any move, and the field that its weights are of."""
    weights = tuple(law.weight(element.value) for element in network.elements)
    field, elements = in_one_field(weights)
    pieces = {
        id: Piece(element.between, weight)
        for id, (element, weight) in enumerate(zip(network.elements, elements, strict=True))
    }
    reciprocal = law.adds_in == SERIES
    return State(pieces, network.terminals, len(pieces), network.junctions, reciprocal), field


def first_exchange(network: Network, law: Law) -> Exchange | None:
    """The triangle or star with the plainest values, once everything is merged that can be.

    Args:
        network: as for ``route``.
        law: of its elements.

    Returns:
        None if there is none.
    """
    merged = Path((), (_state_of(network, law)[0],)).merged()
    return None if merged.end.is_one else next(exchanges(merged.end), None)


def _along(path: Path, network: Network, law: Law, field: Field) -> Route:
    story = story_of(path, network, law, field)
    drive = drive_step(story)
    steps = (*forward_steps(story), *(() if drive is None else (drive,)))
    if network.source is not None:
        steps = (*steps, *backward_steps(story))
    methods = frozenset(move.method for move in path.moves)
    return Route(steps, story.naming, len(path.moves), path.cost, path.effort, methods)


def _evenly(
    network: Network, law: Law, allowed: Collection[str], required: str | None
) -> Route | None:
    """The route by two even flows, where the network is regular enough and symmetry allowed."""
    if METHOD_SYMMETRY not in allowed or required not in (None, METHOD_SYMMETRY):
        return None
    even = spread.spread_over(network)
    if even is None:
        return None
    steps = spread.spread_steps(network, law, even)
    methods = frozenset((METHOD_SYMMETRY,))
    return Route(steps, Naming(law, TOTAL, network.source), 1, spread.COST, spread.COST, methods)
