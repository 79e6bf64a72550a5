"""Names of the pieces that a path makes: R23 for R2 with R3, else R_a, R_b, …."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import count

from builder.circuit.naming import joined_index
from builder.quantity.names import TOTAL, element_index
from builder.solution.network.reductions.moves import Cut, Exchange, Group, Join, Merge
from builder.solution.network.reductions.search import Path


class _Names:
    """Names by id, given as pieces come along."""

    def __init__(self, elements: Sequence[str], letter: str) -> None:
        self.letter = letter
        self.of: dict[int, str] = dict(enumerate(elements))
        self._members: dict[int, tuple[str, ...]] = {id: (name,) for id, name in self.of.items()}
        self._taken = {*elements, TOTAL}
        self._taken_indexes = {element_index(name, letter) for name in elements}
        self._letters = (chr(ord("a") + n % 26) * (1 + n // 26) for n in count())

    def add_lettered(self, id: int) -> None:
        """Name a piece by the next letter."""
        index = next(index for index in self._letters if index not in self._taken_indexes)
        self._keep(id, f"{self.letter}_{index}", index)

    def add_group(self, group: Group) -> None:
        """Name an equivalent by its members' indexes where that can be read."""
        members = tuple(name for id in group.members for name in self._members[id])
        index = joined_index(members, self.letter)
        if not index or index in self._taken_indexes:
            self.add_lettered(group.id)
        else:
            self._keep(group.id, f"{self.letter}{index}", index)
        self._members[group.id] = members

    def add_cut(self, cut: Cut) -> None:
        """Name the halves of R7 R7a and R7b."""
        whole = element_index(self.of[cut.id], self.letter)
        for half, side in zip(cut.halves, "ab", strict=True):
            name = f"{self.of[cut.id]}{side}"
            if whole.isdigit() and name not in self._taken:
                self._keep(half, name, f"{whole}{side}")
            else:
                self.add_lettered(half)

    def _keep(self, id: int, name: str, index: str) -> None:
        self.of[id] = name
        self._members[id] = (name,)
        self._taken.add(name)
        self._taken_indexes.add(index)


def names_along(path: Path, elements: Sequence[str], letter: str) -> dict[int, str]:
    """The name of every piece of a path, by its id; what is left at the end is ``total``.

    Args:
        path: that ends with one piece.
        elements: the names of the problem's elements.
        letter: C or R.
    """
    names = _Names(elements, letter)
    (root,) = path.end.pieces
    for move in path.moves:
        match move:
            case Merge(groups):
                for group in groups:
                    if group.id == root:
                        names.of[root] = TOTAL
                    else:
                        names.add_group(group)
            case Exchange(trades):
                for trade in trades:
                    for id in trade.made:
                        names.add_lettered(id)
            case Join(cuts=cuts):
                for cut in cuts:
                    names.add_cut(cut)
    return names.of
