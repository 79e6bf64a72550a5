"""Junctions that symmetry holds at the same potential.

Junctions are parted by what they meet until nothing parts them any more: first the terminals
from the rest, then again and again junctions that meet other elements or that lead to other
kinds of junctions. What is left together sees the same surroundings, so the equations of the
network have a solution with one potential for each set, and they have only one solution. (The
coarsest equitable partition of the weighted graph; junctions that an automorphism exchanges are
never parted.) The same for the network beside a copy of it with the terminals swapped: where a
junction falls together with a copy of itself, its potential is what it lacks to the other
terminal's, and so it lies halfway.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from builder.solution.network.reductions.moves import Cut, Join
from builder.solution.network.reductions.state import State

Colours = dict[tuple[int, str], int]


def joins(state: State) -> Iterator[Join]:
    """The joins that symmetry allows: with what lies halfway, cut or not, and without."""
    colours = refined(state, copies=2)
    inner = [
        junction
        for junction in state.points
        if (0, junction) in colours and junction not in state.terminals
    ]
    alike: dict[int, list[str]] = {}
    for junction in inner:
        alike.setdefault(colours[0, junction], []).append(junction)
    half = tuple(point for point in inner if colours[0, point] == colours[1, point])
    sets = [tuple(together) for together in alike.values()]
    rest = [together for together in sets if together[0] not in half]
    if len(half) > 1:
        yield _join([*rest, half], state, "half", half[0])
    across = _across(state, colours)
    if across and len(half) + len(across) > 1:
        point = half[0] if half else state.new_points()[0]
        cuts = tuple(
            Cut(id, (state.fresh + 2 * number, state.fresh + 2 * number + 1))
            for number, id in enumerate(across)
        )
        yield replace(_join([*rest, half], state, "half", point), cuts=cuts)
    if any(len(together) > 1 for together in sets):
        yield _join(sets, state, "same-distance" if _by_distance(sets, state) else "alike")


def mirror(state: State) -> dict[str, str] | None:
    """The mirror image of each junction with the terminals swapped.

    None if there is no such symmetry, or if it leaves open what is whose image.
    """
    colours = refined(state, copies=2)
    originals = {colour: place for (copy, place), colour in colours.items() if copy == 0}
    images = {colour: place for (copy, place), colour in colours.items() if copy == 1}
    if originals.keys() != images.keys() or 2 * len(originals) != len(colours):
        return None
    return {place: images[colour] for colour, place in originals.items()}


def _across(state: State, colours: Colours) -> list[int]:
    """The pieces that cross the mirror, but for one straight between the terminals.

    Their ends are as far from halfway on one side as on the other, so their middle lies there.
    """
    return [
        id
        for id, ((first, second), _) in state.pieces.items()
        if colours[0, first] == colours[1, second]
        and colours[0, first] != colours[1, first]
        and {first, second} != set(state.terminals)
    ]


def _join(sets: Sequence[tuple[str, ...]], state: State, symmetry: str, half: str = "") -> Join:
    order = {junction: place for place, junction in enumerate(state.points)}
    several = sorted((s for s in sets if len(s) > 1), key=lambda together: order[together[0]])
    kept = {junction: together[0] for together in several for junction in together}
    gone = tuple(
        id
        for id, piece in state.pieces.items()
        if piece.ends[0] in kept and kept[piece.ends[0]] == kept.get(piece.ends[1])
    )
    return Join(tuple(several), gone, symmetry, half)


def refined(
    state: State, copies: int, marks: Colours | None = None, *, swapped: bool = True
) -> Colours:
    """The set of each junction of each copy, as a number.

    Args:
        state: the network.
        copies: 1, or 2 to compare it with itself.
        marks: numbers below zero for junctions that are to be told from all others.
        swapped: whether the second copy has its terminals swapped.
    """
    plus, minus = state.terminals
    around = state.around
    kinds: dict[object, int] = {}
    weights = {id: kinds.setdefault(piece.weight, len(kinds)) for id, piece in state.pieces.items()}
    colours: Colours = {}
    for copy in range(copies):
        first, second = (minus, plus) if copy == 1 and swapped else (plus, minus)
        for junction in around:
            colours[copy, junction] = 1 if junction == first else 2 if junction == second else 0
    colours |= marks or {}
    parted = len(set(colours.values()))
    while True:
        seen = {
            (copy, junction): (
                colour,
                tuple(
                    sorted(
                        (weights[id], colours[copy, state.pieces[id].other(junction)])
                        for id in around[junction]
                    )
                ),
            )
            for (copy, junction), colour in colours.items()
        }
        numbers = {view: number for number, view in enumerate(sorted(set(seen.values())))}
        colours = {place: numbers[view] for place, view in seen.items()}
        if len(numbers) == parted:
            return colours
        parted = len(numbers)


def _by_distance(sets: list[tuple[str, ...]], state: State) -> bool:
    """Whether all pieces are equal and distances from the terminals alone tell the sets apart."""
    if len({piece.weight for piece in state.pieces.values()}) > 1:
        return False
    from_plus, from_minus = (_distances(state, terminal) for terminal in state.terminals)
    places: dict[tuple[int, int], set[int]] = {}
    for number, together in enumerate(sets):
        for junction in together:
            place = (from_plus[junction], from_minus[junction])
            places.setdefault(place, set()).add(number)
    return len(places) == len(sets) and all(len(numbers) == 1 for numbers in places.values())


def _distances(state: State, start: str) -> Mapping[str, int]:
    around = state.around
    distances = {start: 0}
    waiting = [start]
    for here in waiting:
        for id in around[here]:
            there = state.pieces[id].other(here)
            if there not in distances:
                distances[there] = distances[here] + 1
                waiting.append(there)
    return distances
