"""Whether junctions can really be exchanged so that a network stays as it is.

Refinement finds all junctions that cannot be told apart by what they meet. In nearly every
network these can be exchanged with one another, and only then may a sentence say so.
"""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise

from builder.solution.network.reductions.moves import Join
from builder.solution.network.reductions.state import State
from builder.solution.network.reductions.symmetry import Colours, refined

MOST_TRIES = 200


def is_exchange(join: Join, state: State) -> bool:
    """Whether exchanges that leave the network as it is show all that a join claims.

    For junctions halfway these also swap the terminals and leave the junction where it is; of any
    other set there is one for each two neighbours in the list.

    Args:
        join: made for symmetry.
        state: before it.
    """
    for together in join.sets:
        if join.half in together:
            if not all(_maps(state, one, one, swapped=True) for one in together):
                return False
        elif not all(_maps(state, *pair) for pair in pairwise(together)):
            return False
    return True


def _maps(state: State, first: str, second: str, *, swapped: bool = False) -> bool:
    """Whether an automorphism that keeps or swaps the terminals takes ``first`` to ``second``."""
    tries = [MOST_TRIES]
    return _search(state, {(0, first): -1, (1, second): -1}, swapped, tries)


def _search(state: State, marks: Colours, swapped: bool, tries: list[int]) -> bool:
    """Look for a mapping of the network on its copy, junction by junction."""
    tries[0] -= 1
    if tries[0] < 0:
        return False
    classes: dict[int, tuple[list[str], list[str]]] = defaultdict(lambda: ([], []))
    for (copy, junction), colour in refined(state, 2, marks, swapped=swapped).items():
        classes[colour][copy].append(junction)
    if any(len(originals) != len(images) for originals, images in classes.values()):
        return False
    several = [pair for pair in classes.values() if len(pair[0]) > 1]
    if not several:
        return _is_automorphism(state, {pair[0][0]: pair[1][0] for pair in classes.values()})
    originals, images = min(several, key=lambda pair: len(pair[0]))
    mark = -1 - len(marks) // 2
    return any(
        _search(state, marks | {(0, originals[0]): mark, (1, image): mark}, swapped, tries)
        for image in images
    )


def _is_automorphism(state: State, image: dict[str, str]) -> bool:
    pieces = sorted((sorted(piece.ends), str(piece.weight)) for piece in state.pieces.values())
    mapped = sorted(
        (sorted(image[end] for end in piece.ends), str(piece.weight))
        for piece in state.pieces.values()
    )
    return pieces == mapped
