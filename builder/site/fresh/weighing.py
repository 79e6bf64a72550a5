"""How much a page may carry for its sets: many students have a poor network."""

from __future__ import annotations

import json
import zlib
from dataclasses import replace

from builder.site.fresh.columns import Columns
from builder.site.fresh.merging import Piece
from builder.site.fresh.sets import Sets

MOST_BYTES = 36_000
"""What the columns of a page may weigh, compressed as a server sends them."""


def light_enough(sets: Sets) -> Sets:
    """The first sets of a page, as many as are not too heavy together."""
    while len(sets.lessons) > 1 and (weight := weight_of(sets)) > MOST_BYTES:
        fewer = len(sets.lessons) * MOST_BYTES // weight
        sets = first_of(sets, max(1, min(fewer, len(sets.lessons) - 1)))
    return sets


def first_of(sets: Sets, number: int) -> Sets:
    """The first sets of a page."""
    return replace(
        sets,
        lessons=sets.lessons[:number],
        changes=sets.changes[:number],
        listers=sets.listers[:number],
    )


def weight_of(sets: Sets) -> int:
    """What the columns of all sets weigh, compressed, in bytes."""
    columns, count = Columns(), len(sets.lessons)
    for merged in map(sets.merged, sets.first.parts):
        pieces = [one for order in merged.order.values() for one in order if isinstance(one, Piece)]
        for targets in (merged.targets, *(piece.targets(count) for piece in pieces)):
            for own in targets.values():
                for texts in own.values():
                    columns.recipe(texts)
    return len(zlib.compress(json.dumps(columns.written(), ensure_ascii=False).encode(), 9))
