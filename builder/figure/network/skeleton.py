"""A network without the junctions that two branches only pass through.

Branches that follow each other through such junctions form a chain. What is left, chains between
points, decides the shape of a figure, so the shape stays while elements in series are merged.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from typing import NamedTuple

import networkx

from builder.figure.network.request import (
    CURRENT_SOURCE,
    VOLTAGE_SOURCE,
    Branch,
    NetworkDrawing,
)

PORT = "port"
STUB_PLUS, STUB_MINUS = "stub-plus", "stub-minus"


class Link(NamedTuple):
    """A branch as a chain passes it.

    Attributes:
        branch: the branch.
        forward: whether it is passed from its first junction to its second.
    """

    branch: Branch
    forward: bool

    @property
    def ends(self) -> tuple[str, str]:
        """Where it is entered and where it is left."""
        first, last = self.branch.between
        return (first, last) if self.forward else (last, first)


class Chain(NamedTuple):
    """Branches one after the other; without links, a plain wire.

    Attributes:
        start: the point where it starts.
        end: the point where it ends.
        links: its branches from start to end.
    """

    start: str
    end: str
    links: tuple[Link, ...]

    def reversed(self) -> Chain:
        """The same chain from its other end."""
        links = tuple(Link(link.branch, not link.forward) for link in reversed(self.links))
        return Chain(self.end, self.start, links)


@dataclass(frozen=True)
class Skeleton:
    """One connected part of a network.

    Attributes:
        points: the points where chains meet or end, in the order in which they are first met.
        chains: the chains; a point may be joined to itself only where it is the only one.
        lead: the position of the chain that stands at the left, or None.
        junction_of: the junction that a point belongs to, for points that are no junction.
    """

    points: tuple[str, ...]
    chains: tuple[Chain, ...]
    lead: int | None
    junction_of: dict[str, str]

    @property
    def is_ring(self) -> bool:
        """Whether it is a single loop."""
        return len(self.chains) == 1 and self.chains[0].start == self.chains[0].end


def lead_branch(branches: tuple[Branch, ...]) -> Branch | None:
    """What stands at the left: the open terminals, else the first source."""
    for kind in (PORT, VOLTAGE_SOURCE, CURRENT_SOURCE):
        for branch in branches:
            if branch.kind == kind:
                return branch
    return None


def connected_parts(branches: tuple[Branch, ...]) -> list[tuple[Branch, ...]]:
    """The branches of each connected part, in the order of their first branches."""
    part_of: dict[str, int] = {}
    for number, branch in enumerate(branches):
        joined = {part_of[j] for j in branch.between if j in part_of} or {number}
        first = min(joined)
        part_of.update(dict.fromkeys(branch.between, first))
        for junction, part in part_of.items():
            if part in joined:
                part_of[junction] = first
    parts: dict[int, list[Branch]] = {}
    for branch in branches:
        parts.setdefault(part_of[branch.between[0]], []).append(branch)
    return [tuple(part) for part in parts.values()]


def with_terminals(drawing: NetworkDrawing, as_port: bool) -> tuple[Branch, ...]:
    """The branches with the open terminals as one open branch, or as a stub each."""
    if drawing.terminals is None:
        return drawing.branches
    plus, minus = drawing.terminals
    if as_port:
        port = Branch(PORT, PORT, (plus, minus), None)
        return (port, *drawing.branches)
    stubs = (
        Branch(STUB_PLUS, STUB_PLUS, (plus, STUB_PLUS), None),
        Branch(STUB_MINUS, STUB_MINUS, (minus, STUB_MINUS), None),
    )
    return (*drawing.branches, *stubs)


def skeleton(branches: tuple[Branch, ...], kept: frozenset[str] = frozenset()) -> Skeleton:
    """The skeleton of connected branches.

    Args:
        branches: one connected part of a network.
        kept: junctions to keep as points though only two branches meet there.
    """
    meeting: dict[str, list[Link]] = defaultdict(list)
    for branch in branches:
        meeting[branch.between[0]].append(Link(branch, True))
        meeting[branch.between[1]].append(Link(branch, False))
    points = [j for j, links in meeting.items() if len(links) != 2 or j in kept]
    lead = lead_branch(branches)
    if not points:
        return _ring(lead or branches[0], meeting)
    chains: list[Chain] = []
    passed: set[str] = set()
    for branch in branches:
        if branch.id not in passed:
            chains.append(_chain_through(branch, meeting, set(points)))
            passed |= {link.branch.id for link in chains[-1].links}
    junction_of: dict[str, str] = {}
    chains = [part for chain in chains for part in _without_loop(chain, junction_of)]
    ordered = dict.fromkeys(p for chain in chains for p in (chain.start, chain.end))
    at = _lead(chains, lead)
    return Skeleton(tuple(ordered), tuple(chains), at, junction_of)


def _lead(chains: list[Chain], lead: Branch | None) -> int | None:
    """The chain of the lead, else the first chain that lies in a loop; None if there is none."""
    graph = networkx.MultiGraph()
    graph.add_edges_from((c.start, c.end, number) for number, c in enumerate(chains))
    simple = networkx.Graph(graph)
    dead_ends = {frozenset(ends) for ends in networkx.bridges(simple)}
    looped = [
        number
        for number, c in enumerate(chains)
        if frozenset((c.start, c.end)) not in dead_ends or graph.number_of_edges(c.start, c.end) > 1
    ]
    for number in looped:
        for link in chains[number].links:
            if link.branch is lead:
                if not link.forward:
                    chains[number] = chains[number].reversed()
                return number
    return looped[0] if looped else None


def _chain_through(branch: Branch, meeting: dict[str, list[Link]], points: set[str]) -> Chain:
    """The chain that a branch belongs to, in the branch's direction."""
    ahead = _follow(Link(branch, True), meeting, points)
    behind = _follow(Link(branch, False), meeting, points)
    before = [Link(link.branch, not link.forward) for link in behind[:0:-1]]
    links = (*before, *ahead)
    return Chain(links[0].ends[0], links[-1].ends[1], links)


def _follow(link: Link, meeting: dict[str, list[Link]], points: set[str]) -> list[Link]:
    passed = [link]
    while (junction := passed[-1].ends[1]) not in points:
        here, there = meeting[junction]
        last = passed[-1]
        came = here.branch is last.branch and here.forward != last.forward
        onward = there if came else here
        if onward.branch is link.branch:
            break
        passed.append(onward)
    return passed


def _ring(lead: Branch, meeting: dict[str, list[Link]]) -> Skeleton:
    """A single loop as a chain from the lead's first junction back to it, the lead last."""
    start = lead.between[0]
    chain = Chain(start, start, tuple(_follow(Link(lead, True), meeting, set()))).reversed()
    return Skeleton((start,), (chain,), 0, {})


def _without_loop(chain: Chain, junction_of: dict[str, str]) -> list[Chain]:
    """The chain, in two parts if it comes back to the point where it started."""
    if chain.start != chain.end:
        return [chain]
    middle = max(1, len(chain.links) // 2)
    point = chain.links[middle - 1].ends[1]
    if len(chain.links) == 1:
        point = f"{chain.start} again {len(junction_of)}"
        junction_of[point] = chain.start
    return [
        Chain(chain.start, point, chain.links[:middle]),
        Chain(point, chain.end, chain.links[middle:]),
    ]
