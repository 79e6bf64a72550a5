"""Rank resistors by the current that they carry once nothing changes any more."""

from __future__ import annotations

from itertools import combinations

from builder.circuit.between import NotSeriesParallel, find_tree
from builder.circuit.law import RESISTORS
from builder.circuit.network import Network
from builder.circuit.tree import Tree
from builder.lesson.generated.grounds import Compared, compared, told
from builder.lesson.generated.ranking import LEAST, MOST, in_order, order_of, places
from builder.lesson.generated.switched.picking import in_the_end
from builder.lesson.generated.switched.rest import AtRest, at_rest
from builder.lesson.generated.view import View
from builder.lesson.prose import Prose, say
from builder.lesson.questions.forms import Ranked, RankingQuestion, RankingReason
from builder.lesson.transient.display import TransientDisplay
from builder.problem.transient.moments import END, at
from builder.quantity.names import Name

Pair = tuple[int, int]


def ranking_of_charging(display: TransientDisplay) -> RankingQuestion | None:
    """The ranking of all resistors, or None where some of them need arithmetic."""
    rest, members = at_rest(display), display.resistors
    if not LEAST <= len(members) <= MOST or all(one in rest.idle for one in members):
        return None
    reasons = _reasons(rest, members)
    if reasons is None:
        return None
    values = {Name("current", one): rest.current(one) for one in members}
    if any(values[Name("current", one)] == 0 for one in members if one not in rest.idle):
        return None
    place = places(members, values, "current")
    items = tuple(Ranked(say("{one}", one=display.element(one)), its)
                  for one, its in zip(members, place, strict=True))  # fmt: skip
    ask = say("Rank {named} by the current through each {then}, the largest first. Equal ones "
              "share a place.", named=display.elements(members),
              then=in_the_end(display))  # fmt: skip
    names = tuple(at("current", one, END) for one in members)
    return RankingQuestion(ask, items, reasons, in_order(names, place), None)


def _reasons(rest: AtRest, members: tuple[str, ...]) -> tuple[RankingReason, ...] | None:
    """Why each two compare as they do."""
    idle: list[Pair] = []
    alike: dict[tuple[object, ...], tuple[View, list[Compared], list[Pair]]] = {}
    for one, other in combinations(members, 2):
        pair = (members.index(one), members.index(other))
        if one in rest.idle or other in rest.idle:
            idle.append(pair)
            continue
        view = _view(rest, one)
        if view is None or other not in view.members:
            return None
        ground = compared(view, "current", one, other)
        values = {Name("current", name): rest.current(name) for name in (one, other)}
        if ground is None or order_of(values, "current", one, other) is None:
            return None
        kept = alike.setdefault((ground.ground, ground.where), (view, [], []))
        kept[1].append(ground)
        kept[2].append(pair)
    found = [RankingReason(told(grounds, "current", view), tuple(pairs))
             for view, grounds, pairs in alike.values()]  # fmt: skip
    if idle:
        found.append(RankingReason(_nothing(rest), tuple(idle)))
    return tuple(found)


def _nothing(rest: AtRest) -> Prose:
    return say("No current flows through {named} then: every loop through {it} has a gap in it, "
               "at a capacitor or at an open switch.", named=rest.display.elements(rest.idle, "or"),
               it="it" if len(rest.idle) == 1 else "them")  # fmt: skip


def _view(rest: AtRest, resistor: str) -> View | None:
    """The network in which a resistor carries something, as a nest."""
    block = rest.block_of(resistor)
    tree = None if block is None else _tree(block)
    if block is None or tree is None:
        return None
    slug = rest.display.solution.problem.slug
    return View(slug, rest.display, RESISTORS, block, tree)


def _tree(block: Network) -> Tree | None:
    if len(block.sources) != 1:
        return None
    between = {one.name: one.between for one in block.elements}
    try:
        return find_tree(between, block.sources[0].between)
    except NotSeriesParallel:
        return None
