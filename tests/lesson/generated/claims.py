"""What a change does to a circuit by numpy, and whether the reason of a what-if claims it."""

from __future__ import annotations

import re

from builder.circuit.law import SERIES
from builder.circuit.tree import Leaf, Tree
from builder.lesson.generated.view import View
from builder.lesson.generated.what_if.asking import truth
from builder.lesson.generated.what_if.changes import How
from builder.lesson.generated.what_if.spots import Spot, Why
from builder.quantity.names import TOTAL
from tests.lesson.generated.by_numpy import Branch, branches_of, sign, solved


def nothing_flows(spot: Spot, view: View) -> bool:
    """Whether what is changed carries nothing, so that nothing can come of it."""
    found = solved(branches_of(view.network, view.law))
    assert found is not None
    most = max(abs(flow) for flow, _ in found.values())
    return abs(found[spot.change.of][0]) < 1e-9 * most


def _altered(spot: Spot, view: View) -> dict[str, Branch]:
    """The changed circuit, built here."""
    branches = branches_of(view.network, view.law)
    old = branches[spot.change.of]
    assert old.weight is not None
    resistive = view.law.letter == "R"
    times = {How.DOUBLED: 0.5 if resistive else 2.0, How.HALVED: 2.0 if resistive else 0.5,
             How.BESIDE: 2.0, How.BEHIND: 0.5}  # fmt: skip
    if spot.change.how is How.TAKEN_OUT:
        del branches[spot.change.of]
    elif spot.change.how is How.WIRE:
        branches[spot.change.of] = Branch(old.ends, None, 0.0)
    else:
        branches[spot.change.of] = Branch(old.ends, old.weight * times[spot.change.how])
    return branches


def by_numpy(spot: Spot, view: View) -> int | None:
    """The verdict in floating point; None where nothing is left to compare.

    What is too small a change for floating point is left to exact arithmetic.
    """
    if spot.seen.of == TOTAL:
        return None
    before, after = solved(branches_of(view.network, view.law)), solved(_altered(spot, view))
    if before is None or after is None or spot.seen.of not in after:
        return None
    at = 1 if spot.seen.quantity == "voltage" else 0
    sizes = [abs(found[spot.seen.of][at]) for found in (before, after)]
    most = max(abs(found[at]) for found in before.values())
    if min(sizes) < 1e-9 * most:
        return None
    if spot.grows and abs(sizes[1] - sizes[0]) < 1e-8 * max(sizes):
        return truth(spot.change, spot.seen, view.network, view.law)
    return sign(sizes[1], sizes[0])


def _equivalent(tree: Tree, weights: dict[str, float]) -> float:
    """What flows through a nest at one volt: weights add side by side, reciprocals in a chain."""
    if isinstance(tree, Leaf):
        return weights[tree.id]
    parts = [_equivalent(part, weights) for part in tree.parts]
    if tree.connection != SERIES:
        return sum(parts)
    return 0.0 if 0.0 in parts else 1 / sum(1 / part for part in parts)


def claims_hold(text: str, spot: Spot, view: View) -> None:
    """What a reason says about the group's value, its voltage and what flows through it."""
    assert view.tree is not None
    before, after = branches_of(view.network, view.law), _altered(spot, view)
    weights = [{name: its.weight if its.weight is not None else float("inf")
                for name, its in found.items()} for found in (before, after)]  # fmt: skip
    weights[1].setdefault(spot.change.of, 0.0)
    group = view.tree if spot.group is None or "whole circuit" in text else spot.group
    eases = sign(_equivalent(group, weights[1]), _equivalent(group, weights[0]))
    value = re.search(r"(?:circuit|in it) has (more|less) (resistance|capacitance)", text)
    if value:
        more = -eases if value[2] == "resistance" else eases
        assert more == (1 if value[1] == "more" else -1), text
    flows, drops = zip(*(_through(group, found) for found in (before, after)), strict=True)
    claims = [(r"a (larger|smaller) voltage lies across it", drops, "larger"),
              (r"(more|less) current flows through it", flows, "more"),
              (r"it takes up (more|less) charge", flows, "more")]  # fmt: skip
    for pattern, sizes, grown in claims:
        said = re.search(pattern, text)
        if said:
            assert sign(sizes[1], sizes[0]) == (1 if said[1] == grown else -1), text
    ends = re.search(r"(larger|smaller|more|less)(?: \w+)?\.$", text)
    if ends and spot.why in (Why.BRANCH, Why.CHAIN, Why.SOURCE):
        assert spot.grows == (1 if ends[1] in ("larger", "more") else -1), text


def _through(group: Tree, branches: dict[str, Branch]) -> tuple[float, float]:
    """The flow through a group and the drop across it, adding up its elements."""
    found = solved(branches)
    assert found is not None

    def of(part: Tree) -> tuple[float, float] | None:
        if isinstance(part, Leaf):
            its = found.get(part.id)
            return None if its is None else (abs(its[0]), abs(its[1]))
        parts = [one for one in map(of, part.parts) if one is not None]
        if part.connection == SERIES:
            whole = len(parts) == len(part.parts)
            return (parts[0][0], sum(drop for _, drop in parts)) if whole else None
        return (sum(flow for flow, _ in parts), parts[0][1]) if parts else None

    through = of(group)
    assert through is not None
    return through
