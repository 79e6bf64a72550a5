"""The potential of every junction that a path has seen, with 1 V across the terminals.

They are found on the way back, each from the move that took the junction out. They tell which
way a new piece is best counted, so that what flows through it comes out positive.
"""

from __future__ import annotations

from collections.abc import Iterator

from builder.circuit.law import SERIES
from builder.solution.network.reductions.field import Field, Weight
from builder.solution.network.reductions.moves import Drop, Exchange, Group, Join, Merge, Trade
from builder.solution.network.reductions.search import Path
from builder.solution.network.reductions.state import State

Potentials = dict[str, Weight]


def potentials_along(path: Path, field: Field) -> Potentials:
    """Volts at each junction that any network of the path has, + at 1 V and − at 0 V.

    Args:
        path: that ends with one piece.
        field: of its weights.
    """
    plus, minus = path.end.terminals
    volts: Potentials = {plus: field.domain.one, minus: field.domain.zero}
    for move, before in reversed(list(zip(path.moves, path.states, strict=False))):
        match move:
            case Merge(groups):
                for group in groups:
                    volts.update(_along_chain(group, before, volts))
            case Join(sets):
                if move.cuts:
                    volts.setdefault(move.half, field.domain.one / field.domain(2))
                volts.update({name: volts[kept] for kept, *others in sets for name in others})
            case Exchange(trades):
                volts.update(
                    {trade.point: _at_point(trade, before, volts) for trade in trades
                     if not trade.to_star}
                )  # fmt: skip
            case Drop(gone):
                _spread(gone, before, volts)
    return volts


def _along_chain(group: Group, before: State, volts: Potentials) -> Iterator[tuple[str, Weight]]:
    if group.connection != SERIES:
        return
    weights = [before.pieces[member].weight for member in group.members]
    here, there = volts[group.ends[0]], volts[group.ends[1]]
    flow = (here - there) / sum((weight**-1 for weight in weights[1:]), weights[0] ** -1)
    for junction, weight in zip(group.inner, weights, strict=False):
        here = here - flow / weight
        yield junction, here


def _at_point(trade: Trade, before: State, volts: Potentials) -> Weight:
    weights = [before.pieces[leg].weight for leg in trade.legs]
    first, *others = [
        weight * volts[corner] for weight, corner in zip(weights, trade.corners, strict=True)
    ]
    return sum(others, first) / sum(weights[1:], weights[0])


def _spread(gone: tuple[int, ...], before: State, volts: Potentials) -> None:
    """What hangs loose is at the potential of the junction that it hangs on."""
    around = before.around
    waiting = list(volts)
    loose = set(gone)
    for here in waiting:
        for id in around.get(here, ()):
            there = before.pieces[id].other(here)
            if id in loose and there not in volts:
                volts[there] = volts[here]
                waiting.append(there)
