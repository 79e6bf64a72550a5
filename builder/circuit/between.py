"""From a tree to the network it describes, and back from a bare network to its tree."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count

from builder.circuit.law import PARALLEL
from builder.circuit.tree import Group, Leaf, Tree, in_parallel, in_series, leaves

PLUS = "+"
MINUS = "−"


def lay_between(tree: Tree, plus: str = PLUS, minus: str = MINUS) -> dict[str, tuple[str, str]]:
    """The two junctions of every element of ``tree``, the end nearer to ``plus`` first.

    Junctions inside series groups are named ``a``, ``b``, … from + to −.
    """
    ends: dict[str, tuple[str, str]] = {}
    _lay(tree, plus, minus, _junction_names(), ends)
    return ends


def _lay(
    tree: Tree, plus: str, minus: str, fresh: Iterator[str], ends: dict[str, tuple[str, str]]
) -> None:
    if isinstance(tree, Leaf):
        ends[tree.id] = (plus, minus)
        return
    if tree.connection == PARALLEL:
        for part in tree.parts:
            _lay(part, plus, minus, fresh, ends)
        return
    start = plus
    for part in tree.parts[:-1]:
        end = next(fresh)
        _lay(part, start, end, fresh, ends)
        start = end
    _lay(tree.parts[-1], start, minus, fresh, ends)


def _junction_names() -> Iterator[str]:
    for n in count():
        yield chr(ord("a") + n % 26) + ("" if n < 26 else str(n // 26))


@dataclass
class _Branch:
    tree: Tree
    ends: tuple[str, str]

    def from_(self, start: str) -> Tree:
        return self.tree if self.ends[0] == start else _reversed(self.tree)


def _reversed(tree: Tree) -> Tree:
    if isinstance(tree, Leaf):
        return tree
    parts = tuple(_reversed(part) for part in tree.parts)
    return type(tree)(
        tree.id, tree.connection, parts if tree.connection == PARALLEL else parts[::-1]
    )


class NotSeriesParallel(Exception):
    """Raised when a network is no nest of series and parallel groups.

    Attributes:
        stuck: the elements that share no merge, each with its junctions.
    """

    def __init__(self, stuck: tuple[tuple[str, tuple[str, str]], ...]) -> None:
        super().__init__(stuck)
        self.stuck = stuck

    def __str__(self) -> str:
        names = ", ".join(name for name, _ in self.stuck)
        return f"no two of {names} are in series or in parallel"


def find_tree(between: dict[str, tuple[str, str]], terminals: tuple[str, str]) -> Tree:
    """The tree of a bare network, seen from its terminals.

    Args:
        between: the two junctions of each element, in the author's order.
        terminals: the + and the − point.

    Returns:
        A tree with the elements' names as leaves and with unnamed groups.

    Raises:
        NotSeriesParallel: if reduction gets stuck, or if elements hang loose.
    """
    order = {name: position for position, name in enumerate(between)}
    branches = [_Branch(Leaf(name), ends) for name, ends in between.items()]
    while len(branches) > 1:
        if not (_merge_parallel(branches, order) or _merge_series(branches, terminals)):
            break
    if len(branches) != 1 or set(branches[0].ends) != set(terminals):
        raise NotSeriesParallel(
            tuple((name, between[name]) for b in branches for name in leaves(b.tree))
        )
    return branches[0].from_(terminals[0])


def _merge_parallel(branches: list[_Branch], order: dict[str, int]) -> bool:
    by_ends: dict[frozenset[str], list[_Branch]] = {}
    for branch in branches:
        by_ends.setdefault(frozenset(branch.ends), []).append(branch)
    for same in by_ends.values():
        if len(same) > 1:
            first = same[0]
            start = first.ends[0]
            beside = [part for b in same for part in _beside(b.from_(start))]
            beside.sort(key=lambda part: min(order[leaf] for leaf in leaves(part)))
            merged = in_parallel("", *beside)
            gone = {id(branch) for branch in same}
            branches[:] = [b for b in branches if id(b) not in gone]
            branches.append(_Branch(merged, first.ends))
            return True
    return False


def _beside(tree: Tree) -> tuple[Tree, ...]:
    parallel = isinstance(tree, Group) and tree.connection == PARALLEL
    return tree.parts if isinstance(tree, Group) and parallel else (tree,)


def _merge_series(branches: list[_Branch], terminals: tuple[str, str]) -> bool:
    at: dict[str, list[_Branch]] = {}
    for branch in branches:
        for end in branch.ends:
            at.setdefault(end, []).append(branch)
    for junction, here in at.items():
        if junction in terminals or len(here) != 2 or here[0] is here[1]:
            continue
        first, second = here
        start = first.ends[0] if first.ends[1] == junction else first.ends[1]
        stop = second.ends[0] if second.ends[1] == junction else second.ends[1]
        merged = in_series("", first.from_(start), second.from_(junction))
        branches[:] = [b for b in branches if b is not first and b is not second]
        branches.append(_Branch(merged, (start, stop)))
        return True
    return False
