"""The walk back from the element that is left to every element of the problem."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from builder.circuit.law import SERIES
from builder.quantity.formula import Formula, Negative, Ref, Sum
from builder.quantity.names import TOTAL, Name
from builder.solution.network.reductions.forward import halves_of, merged_of, stars_of
from builder.solution.network.reductions.moves import (
    Cut,
    Exchange,
    Group,
    Join,
    Merge,
    Move,
    Trade,
)
from builder.solution.network.reductions.state import State
from builder.solution.network.reductions.story import Story, signed
from builder.solution.network.step import NetworkMove, NetworkStep
from builder.solution.program import Line


def drive_step(story: Story) -> NetworkStep | None:
    """The source meets what is left; without a source only a lone element gives its value."""
    law, root, naming = story.law, story.root, story.naming
    whole = naming.value(TOTAL)
    lines = [] if story.names[root] == TOTAL else [Line(whole, Ref(story.value(root)))]
    network = story.network_of(story.path.end)
    source = story.network.source
    if source is None:
        kind, id = NetworkMove.TOTAL, f"{law.value}-total"
        return NetworkStep(id, kind, tuple(lines), network, marked=_mark(story)) if lines else None
    value, flow, drop = story.value(root), story.flow(root), story.drop(root)
    given = Name(source.quantity, source.name)
    along = story.ends(root, story.path.end) == story.network.terminals
    if source.quantity == law.drop:
        lines += [] if drop == given else [Line(drop, signed(given, along=along))]
        lines.append(Line(flow, law.flow_from(Ref(value), Ref(drop))))
    else:
        lines += [] if flow == given else [Line(flow, signed(given, along=along))]
        lines.append(Line(drop, law.drop_from(Ref(value), Ref(flow))))
    for of_whole, of_root in ((naming.flow(TOTAL), flow), (naming.drop(TOTAL), drop)):
        if of_whole not in (given, of_root):
            lines.append(Line(of_whole, signed(of_root, along=along)))
    return NetworkStep(law.flow, NetworkMove.DRIVE, tuple(lines), network, marked=_mark(story))


def _mark(story: Story) -> tuple[str, ...]:
    return (story.names[story.root],)


def backward_steps(story: Story) -> Iterator[NetworkStep]:
    """One step for each move that hid elements, the last move first."""
    joins = sum(isinstance(move, Join) for move in story.path.moves)
    waiting: NetworkStep | None = None
    for move, before in reversed(list(zip(story.path.moves, story.path.states, strict=False))):
        about = _about(move, story, before)
        number, joins = joins, joins - isinstance(move, Join)
        if about is None:
            waiting = waiting and _taken_apart(waiting, move, story, before)
            continue
        if waiting:
            yield waiting
        found = tuple(dict.fromkeys(line.name.of for line in about["lines"]))
        called = about.pop("called", number)
        waiting = NetworkStep(
            f"open-{called}", NetworkMove.OPEN, network=story.network_of(before),
            marked=found, members=found, **about,
        )  # fmt: skip
    if waiting:
        yield waiting


def _taken_apart(step: NetworkStep, move: Move, story: Story, before: State) -> NetworkStep:
    """A step that also undoes a move by which nothing is to be found."""
    joined = {sets[0]: sets for sets in move.sets} if isinstance(move, Join) else {}
    network = story.network_of(before)
    return replace(step, network=network, joined={**step.joined, **joined})


def _about(move: Move, story: Story, before: State) -> dict[str, Any] | None:
    """The fields of the step that undoes a move; None if nothing is to be found."""
    match move:
        case Merge(groups):
            return {
                "called": story.names[groups[0].id],
                "undone": NetworkMove.MERGE,
                "lines": tuple(line for g in groups for line in _shared(g, story, before)),
                "merged": tuple(merged_of(group, story) for group in groups),
                "telling": {"connection": groups[0].connection},
            }
        case Exchange(trades):
            to_star = trades[0].to_star
            undo = _sides if to_star else _legs
            return {
                "called": story.names[trades[0].made[0]],
                "undone": NetworkMove.STAR if to_star else NetworkMove.TRIANGLE,
                "lines": tuple(line for t in trades for line in undo(t, story, before)),
                **stars_of(move, story),
            }
        case Join(cuts=cuts) if cuts:
            return {
                "undone": NetworkMove.JOIN,
                "lines": tuple(line for cut in cuts for line in _whole(cut, story)),
                "halved": tuple(halves_of(cut, story) for cut in cuts),
                "joined": {together[0]: together for together in move.sets},
                "telling": {"symmetry": move.symmetry, "half": move.half},
            }
    return None


def _shared(group: Group, story: Story, before: State) -> Iterator[Line]:
    """What the members of a group share, then what follows for each."""
    told, law = story.told(group), story.law
    if told.connection == SERIES:
        way = (told.ends[0], *told.inner, told.ends[1])
        for member, start in zip(told.members, way, strict=False):
            along = story.ends(member, before)[0] == start
            yield Line(story.flow(member), signed(story.flow(group.id), along=along))
        for member in told.members:
            flow = Ref(story.flow(member))
            yield Line(story.drop(member), law.drop_from(Ref(story.value(member)), flow))
        return
    for member in told.members:
        along = story.ends(member, before) == told.ends
        yield Line(story.drop(member), signed(story.drop(group.id), along=along))
    for member in told.members:
        drop = Ref(story.drop(member))
        yield Line(story.flow(member), law.flow_from(Ref(story.value(member)), drop))


def _sides(trade: Trade, story: Story, before: State) -> Iterator[Line]:
    """Each side of a triangle has the drop along two legs of the star that stood for it."""
    leg_at = dict(zip(trade.corners, trade.legs, strict=True))
    for side in trade.sides:
        start, end = story.ends(side, before)
        there = _towards_point(story.drop(leg_at[start]), leg_at[start], story)
        back = _towards_point(story.drop(leg_at[end]), leg_at[end], story, turned=True)
        yield Line(story.drop(side), Sum((there, back)))
    for side in trade.sides:
        drop = Ref(story.drop(side))
        yield Line(story.flow(side), story.law.flow_from(Ref(story.value(side)), drop))


def _towards_point(name: Name, leg: int, story: Story, *, turned: bool = False) -> Formula:
    """A drop or flow of a leg from its corner to the point, or with ``turned`` back from there.

    A leg is made with its corner first.
    """
    return signed(name, along=(leg in story.turned) == turned)


def _legs(trade: Trade, story: Story, before: State) -> Iterator[Line]:
    """A leg of a star carries what the two sides carried away from its corner."""
    ends_of = dict(trade.pieces_made)
    for leg, corner in zip(trade.legs, trade.corners, strict=True):
        leaves = story.ends(leg, before)[0] == corner
        terms: list[Formula] = []
        for side in trade.sides:
            ends = ends_of[side][::-1] if side in story.turned else ends_of[side]
            if corner in ends:
                terms.append(signed(story.flow(side), along=(ends[0] == corner) == leaves))
        yield Line(story.flow(leg), Sum(tuple(sorted(terms, key=_is_negative))))
    for leg in trade.legs:
        flow = Ref(story.flow(leg))
        yield Line(story.drop(leg), story.law.drop_from(Ref(story.value(leg)), flow))


def _is_negative(term: Formula) -> bool:
    return isinstance(term, Negative)


def _whole(cut: Cut, story: Story) -> Iterator[Line]:
    """An element carries what either of its halves carries."""
    half = cut.halves[0]
    along = (half in story.turned) == (cut.id in story.turned)
    flow = story.flow(cut.id)
    yield Line(flow, signed(story.flow(half), along=along))
    yield Line(story.drop(cut.id), story.law.drop_from(Ref(story.value(cut.id)), Ref(flow)))
