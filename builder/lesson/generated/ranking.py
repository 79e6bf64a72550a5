"""Rank some elements of a circuit by a quantity, before anything has been worked out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations, pairwise

from builder.lesson.by_name import turn
from builder.lesson.generated.grounds import BY_VALUE, NESTED, TIES, Compared, compared, told
from builder.lesson.generated.view import View
from builder.lesson.prose import Prose, SymbolOf, say
from builder.lesson.questions.forms import Ranked, RankingQuestion, RankingReason
from builder.quantity.exact import Exact
from builder.quantity.kinds import KINDS
from builder.quantity.names import Name
from builder.quantity.symbolic import sign_of
from builder.solution.network.second import by_analysis

LEAST, MOST = 3, 5


@dataclass(frozen=True)
class Choice:
    """Elements that can be ranked without arithmetic.

    Attributes:
        quantity: by which.
        members: in the author's order.
        pairs: what decides between each two of them.
    """

    quantity: str
    members: tuple[str, ...]
    pairs: tuple[Compared, ...]

    @property
    def tier(self) -> int:
        """0 where a tie meets a difference, 1 where parts are told from wholes, else 2."""
        grounds = {pair.ground for pair in self.pairs}
        ties, nested = bool(grounds & TIES), bool(grounds & NESTED)
        return 0 if ties and len(grounds) > 1 else 1 if nested else 2


def ranking_of(view: View) -> RankingQuestion | None:
    """The ranking of a circuit's elements by their charge, current, voltage, energy or power."""
    if view.tree is None or not view.network.sources:
        return None
    choices = [choice for quantity in view.law.quantities[1:]
               for choice in _choices(view, quantity)]  # fmt: skip
    if not choices:
        return None
    best = min(choice.tier for choice in choices)
    choice = turn(view.slug, "ranking", [one for one in choices if one.tier == best])
    return _question(choice, view)


def _choices(view: View, quantity: str) -> Iterable[Choice]:
    """The largest sets of elements of which each two can be compared."""
    import networkx

    values, order = by_analysis(view.network, view.law), view.members
    pairs: dict[frozenset[str], Compared] = {}
    for one, other in combinations(order, 2):
        ground = compared(view, quantity, one, other)
        if ground is None or (ground.ground in BY_VALUE and view.unknown & {one, other}):
            continue
        if order_of(values, quantity, one, other) is not None:
            pairs[frozenset((one, other))] = ground
    graph = networkx.Graph(tuple(sorted(pair)) for pair in pairs)
    found = {tuple(sorted(clique, key=order.index)[:MOST])
             for clique in networkx.find_cliques(graph) if len(clique) >= LEAST}  # fmt: skip
    for members in sorted(found, key=lambda names: [order.index(name) for name in names]):
        both = tuple(pairs[frozenset(pair)] for pair in combinations(members, 2))
        yield Choice(quantity, members, both)


def order_of(values: Mapping[Name, Exact], quantity: str, one: str, other: str) -> int | None:
    """1, 0 or −1 as the first has more, as much or less, whatever the directions.

    Returns:
        None where that depends on what letters stand for.
    """
    first, second = (values[Name(quantity, name)] for name in (one, other))
    signs = [sign_of(first), sign_of(second)]
    if None in signs:
        return None
    sizes = [-value if sign == -1 else value
             for value, sign in zip((first, second), signs, strict=True)]  # fmt: skip
    return sign_of(sizes[0] - sizes[1])


def places(members: tuple[str, ...], values: Mapping[Name, Exact], quantity: str) -> list[int]:
    """The place of each, counted from 1; equal ones share one, and none is left out."""
    beaten = {name: sum(order_of(values, quantity, other, name) == 1 for other in members)
              for name in members}  # fmt: skip
    steps = sorted(set(beaten.values()))
    return [steps.index(beaten[name]) + 1 for name in members]


def _question(choice: Choice, view: View) -> RankingQuestion:
    members, quantity = choice.members, choice.quantity
    place = places(members, by_analysis(view.network, view.law), quantity)
    items = tuple(Ranked(say("{one}", one=view.element(name)), at)
                  for name, at in zip(members, place, strict=True))  # fmt: skip
    alike: dict[tuple[object, ...], list[Compared]] = {}
    for pair in choice.pairs:
        alike.setdefault((pair.ground, pair.where), []).append(pair)
    reasons = tuple(
        RankingReason(
            told(pairs, quantity, view),
            tuple((members.index(pair.first), members.index(pair.second)) for pair in pairs),
        )
        for pairs in alike.values()
    )
    names = tuple(Name(quantity, name) for name in members)
    ask = say("Rank {named} by the {noun} {word}, the largest first. Equal ones "
              "share a place.",
              named=view.display.elements(members), noun=KINDS[quantity].noun,
              word=_WORDS[quantity])  # fmt: skip
    return RankingQuestion(ask, items, reasons, in_order(names, place), None)


_WORDS = {
    "charge": "on each", "current": "through each", "voltage": "across each",
    "energy": "stored in each", "power": "in each",
}  # fmt: skip


def in_order(names: tuple[Name, ...], place: list[int]) -> Prose:
    """``Q₁ > Q₂ = Q₃``: quantities by their places."""
    ranked = sorted(zip(place, range(len(names)), names, strict=True))
    told: Prose = (SymbolOf(ranked[0][2]),)
    for (before, _, _), (here, _, name) in pairwise(ranked):
        told = (*told, " = " if before == here else " > ", SymbolOf(name))
    return told
