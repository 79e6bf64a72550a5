"""A problem's page that can be given other numbers in the browser."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from markupsafe import Markup

from builder.site.fresh.columns import Columns, Texts
from builder.site.fresh.marking import found_again
from builder.site.fresh.merging import Merged, Piece, Targets, Where
from builder.site.fresh.offering import offered
from builder.site.fresh.pens import Marker, rooms_for
from builder.site.fresh.sets import COMPARED, Sets, part_of
from builder.site.fresh.tokens import Tokens, marked, tokens_of, without
from builder.site.page import FRESH, Part, ProblemPage
from builder.solution import Solution

VARIES, TAKES = "data-v", "data-x"
"""Mark elements of which something varies, and elements that take pieces in some sets."""


@dataclass(frozen=True)
class FreshPage:
    """The page of a problem with its sets.

    Attributes:
        page: as it is written.
        sets: what it can be given.
    """

    page: ProblemPage
    sets: Sets

    @classmethod
    def of(cls, page: ProblemPage, solutions: Iterable[Solution] | None = None) -> FreshPage:
        """A page with the sets that fit it.

        Args:
            page: as it is written.
            solutions: the same problem with other values; by default those found for it.
        """
        return cls(page, offered(page, solutions))

    def part(self, part: Part) -> Markup:
        """One part as HTML, or nothing if the lesson has nothing for it."""
        if not self.sets.lessons or part not in COMPARED:
            return self.page.part(part)
        return self._parts[part.id]

    @cached_property
    def _parts(self) -> Mapping[str, Markup]:
        """Every part with its marks, the bar with the table of all."""
        rooms = rooms_for((self.sets.first.lister, *self.sets.listers))
        whole = replace(self.page, pen=Marker(rooms))
        table = _Table(Columns(), [], [])
        filled = {part.id: self._filled(part.id, whole, table) for part in COMPARED}
        filled[FRESH] += table.written(self.page.prefix, len(self.sets.lessons))
        return filled

    def _filled(self, id: str, whole: ProblemPage, table: _Table) -> Markup:
        drawn = tokens_of(str(part_of(whole, id)))
        first = self.sets.first
        places = found_again(first.parts[id], drawn)
        part = _MarkedPart(self.sets.merged(id), places, len(self.sets.changes))
        table.slots.extend(part.slots(table.columns))
        table.pieces.extend(part.pieces())
        return Markup(part.with_marks(drawn))


@dataclass(frozen=True)
class _Table:
    """What a page carries for its sets.

    Attributes:
        columns: of all that varies.
        slots: for each element marked as varying, in order, what it becomes.
        pieces: for each element marked as taking pieces, in order: which, and where.
    """

    columns: Columns
    slots: list[str]
    pieces: list[list[tuple[int, str]]]

    def written(self, problem: str, sets: int) -> Markup:
        """The table as the browser reads it."""
        table = {
            "problem": problem,
            "sets": sets,
            **self.columns.written(),
            "slots": " ".join(self.slots),
            "pieces": self.pieces,
        }
        written = json.dumps(table, ensure_ascii=False, separators=(",", ":"))
        for sign in "<>&":
            # No text may end the script element, whatever it says.
            written = written.replace(sign, f"\\u{ord(sign):04x}")
        return Markup(f'<script type="application/json" data-fresh-table>{written}</script>')


class _MarkedPart:
    """A part of the finished page with its marks."""

    def __init__(self, merged: Merged, places: Mapping[int, tuple[int, ...]], sets: int) -> None:
        self._merged, self._places, self._sets = merged, places, sets
        self._targets = merged.targets
        self._varying = sorted(at for own in self._targets for at in places.get(own, ()))
        self._taking = sorted(places[own][0] for own in merged.order)

    def slots(self, columns: Columns) -> Iterator[str]:
        """What each marked element becomes, those of pieces among them, in the page's order."""
        placed: list[tuple[tuple[int, ...], str]] = []
        for own, targets in self._targets.items():
            slot = _slot(targets, columns)
            placed += [((at, 0), slot) for at in self._places.get(own, ())]
        for _, anchor, place, piece in self._pieces():
            inner = piece.targets(self._sets)
            placed += [((anchor, 1, place, at), _slot(inner[at], columns)) for at in inner]
        return (slot for _, slot in sorted(placed))

    def pieces(self) -> Iterator[list[tuple[int, str]]]:
        """The pieces of each element that takes some, with their places among its children."""
        by_parent: dict[int, list[tuple[int, str]]] = {}
        for parent, _, place, piece in self._pieces():
            inner = piece.targets(self._sets)
            by_parent.setdefault(parent, []).append((place, _with_marks(piece.first, inner)))
        return (by_parent[parent] for parent in self._taking)

    def _pieces(self) -> Iterator[tuple[int, int, int, Piece]]:
        """Each piece: its parent, the tag that it comes after, and its place in its parent."""
        for own, order in self._merged.order.items():
            (parent,) = self._places[own]
            anchor = parent
            for place, child in enumerate(order):
                if isinstance(child, Piece):
                    yield parent, anchor, place, child
                else:
                    (anchor,) = self._places[self._merged.nodes[child].end]

    def with_marks(self, drawn: Tokens) -> str:
        """The part as the page has it."""
        written = [without(t, "data-m") if " data-m=" in t else t for t in drawn]
        for mark, places in ((VARIES, self._varying), (TAKES, self._taking)):
            for at in places:
                written[at] = marked(written[at], mark)
        return "".join(written)


def _with_marks(tokens: Sequence[str], targets: Targets) -> str:
    return "".join(marked(t, VARIES) if at in targets else t for at, t in enumerate(tokens))


def _slot(targets: Mapping[Where, Texts], columns: Columns) -> str:
    """What an element becomes: for each target its recipe, after the attribute or gap it is for."""
    return ";".join(
        columns.recipe(texts) if where == 0 else f"{where}={columns.recipe(texts)}"
        for where, texts in targets.items()
    )
